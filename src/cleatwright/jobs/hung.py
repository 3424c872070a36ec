"""What hangs: kept in the ledger when the owner says so, and shown or forgotten again."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass, field, replace
from datetime import UTC, date, datetime
from pathlib import Path

from cleatwright.base import said
from cleatwright.base.errors import DesignError, DocumentError, InputError, unknown_name
from cleatwright.base.keys import content_key
from cleatwright.base.lengths import IN_MM, Wording
from cleatwright.base.place import InFile
from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import Unit, part_names
from cleatwright.pack.hung_papers import papers_of, papers_of_job
from cleatwright.project.computing import compute
from cleatwright.project.intact import require_intact
from cleatwright.project.places import output_folder
from cleatwright.project.unfinished import require_finished
from cleatwright.siting.hung.matching import wanted_of
from cleatwright.siting.hung.rails import carries, to_ledger
from cleatwright.siting.panel_job import PanelJob
from cleatwright.wall.model import Place
from cleatwright.wall.moving.moves import surface
from cleatwright.workshop.document.store import FILE_NAME, document_path, load
from cleatwright.workshop.ledger.database import open_ledger
from cleatwright.workshop.ledger.hung_entry import HungEntry
from cleatwright.workshop.ledger.hung_rail import HungRail
from cleatwright.workshop.ledger.hung_wall import WhatHangs
from cleatwright.workshop.ledger.made_wall import MadeWall
from cleatwright.workshop.ledger.reading import FILE_NAME as LEDGER_NAME
from cleatwright.workshop.ledger.reading import has_ledger, read_hung
from cleatwright.workshop.ledger.ready_parts import ReadyParts


@dataclass(frozen=True)
class Unsaid:
    """What hangs and of which nobody had said that it is printed.

    Args:
        name: What it belongs to.
        fittings: Whether it is no more than the new plates, hooks, hangers or bolts of that.
    """

    name: str
    fittings: bool = False

    def words(self, quote: str = "") -> str:
        """Return it in words, the name between quotes."""
        what = "the new plates, hooks, hangers or bolts of " if self.fittings else ""
        return f"{what}{quote}{self.name}{quote}"


@dataclass(frozen=True)
class HungNow:
    """What hangs now by the ledger.

    ``failing`` are the sentences of what does not hold and was kept all the same, and ``unsaid``
    what was kept now though nobody had said that all its parts are printed.
    """

    hung: WhatHangs
    words: Wording = field(default=IN_MM, compare=False)
    failing: tuple[str, ...] = ()
    unsaid: tuple[Unsaid, ...] = field(default=(), compare=False)

    def notes(self, parts: str) -> tuple[str, ...]:
        """Return what to look at once more, in sentences.

        Args:
            parts: The command parts for this workshop, as it is typed.
        """
        if not self.unsaid:
            return ()
        names = ", ".join(one.words('"') for one in self.unsaid)
        one = len(self.unsaid) == 1 and not self.unsaid[0].fittings
        was, hang = ("was", "it hangs") if one else ("were", "they hang")
        told = f"{names} {was} not said to be printed before, and the ledger has it now that {hang}"
        return (f"{told}. What does not hang yet, take back by its number: {parts} planned NUMBER",)

    @property
    def summary(self) -> tuple[str, ...]:
        """Return what hangs, in sentences: holders, then rails."""
        if not self.hung:
            return ("The ledger knows of nothing that hangs.",)
        sentences = (
            *(
                f'"{one.name}" ({one.mark}) hangs on {surface(one.panel)} at x '
                f"{said.at(one.x_mm)}, z {said.at(one.z_mm)} since {one.since}."
                for one in self.hung.holders
            ),
            *(
                f"Rail {one.name} hangs on {surface(one.panel)} from x "
                f"{said.first(one.x0_mm, tenth=True)} to {said.at(one.x1_mm)}, its top edge at z "
                f"{said.at(one.z_top_mm)}, since {one.since}."
                for one in self.hung.rails
            ),
        )
        return self.words.all(sentences)

    def as_dict(self) -> dict[str, object]:
        """Return the result for programs."""
        return {
            "hung": [asdict(one) for one in self.hung.holders],
            "rails": [asdict(one) for one in self.hung.rails],
            **({"failing": list(self.failing)} if self.failing else {}),
            **({"not_said_printed": [one.words() for one in self.unsaid]} if self.unsaid else {}),
        }


def hung_entries(
    units: Sequence[Unit],
    places: Mapping[str, Place],
    *,
    since: str,
    known: Iterable[HungEntry] = (),
) -> tuple[HungEntry, ...]:
    """Return what the ledger keeps of units that hang, sorted.

    Args:
        units: What hangs.
        places: Where each unit hangs, by its key; others may be there too.
        since: ISO date since which it hangs.
        known: Entries from before; one that is the same but for its date stays as it is.
    """
    before = {one.identity: one for one in known}
    found: list[HungEntry] = []
    for unit, thing in zip(units, wanted_of(units), strict=True):
        at = places[unit.planned.key]
        one = HungEntry(
            panel=thing.panel,
            name=thing.name,
            x_mm=at.x_mm,
            z_mm=at.z_mm,
            mark=thing.mark,
            tools=thing.tools,
            since=since,
            fittings=HungEntry.sorted_marks(made.mark for made in unit.fittings),
        )
        found.append(one.known_from(before.get(one.identity)))
    return tuple(sorted(found, key=lambda one: one.order))


def hung_rail_entries(
    panels: Iterable[PanelJob], *, since: str, known: Iterable[HungRail] = ()
) -> tuple[HungRail, ...]:
    """Return what the ledger keeps of the rails of panels, sorted.

    Args:
        panels: The arranged panels.
        since: ISO date since which they hang.
        known: Rails from before; one that is the same but for its date stays as it is.
    """
    before = {one.name: one for one in known}
    found: list[HungRail] = []
    for panel in panels:
        for rail in panel.arrangement.rails:
            one = to_ledger(rail, since=since, screwed=panel.panel.places_known)
            old = before.get(one.name)
            found.append(old if old and replace(old, since=since) == one else one)
    return tuple(sorted(found, key=lambda one: one.order))


@dataclass(frozen=True)
class Taken:
    """What lies ready once some of it hangs, and what hangs though not all of it lay ready.

    Args:
        ready: What lies ready still.
        unsaid: What hangs now and of which nobody had said that it is printed.
    """

    ready: ReadyParts
    unsaid: tuple[Unsaid, ...] = ()


def taken_from(
    ready: ReadyParts,
    before: WhatHangs,
    after: WhatHangs,
    marks: Mapping[str, Sequence[str]],
    *,
    since: str,
) -> Taken:
    """Return what lies ready once some of it hangs, with the fittings that came off for others.

    Args:
        ready: What lay ready.
        before: What hung then.
        after: What hangs now.
        marks: The marks of the parts of what hangs now and did not hang before, by its identity.
        since: ISO date since which it hangs.
    """
    old = {one.identity: one for one in before.holders}
    unsaid: dict[Unsaid, None] = {}
    # what one holder no longer needs may go to another
    for entry in after.holders:
        for mark in _came_off(entry, old.get(entry.identity)):
            ready = ready.with_one_more(mark, "printed", since=since)
    for entry in after.holders:
        was = old.get(entry.identity)
        known = was is not None and was.mark == entry.mark
        new, called = marks.get(entry.identity, ()), Unsaid(entry.name)
        if was is not None and known:
            other = () if entry.fitted_as(was) else Counter(entry.fittings) - Counter(was.fittings)
            new = (*was.broken, *Counter(other).elements())
            called = Unsaid(entry.name, fittings=not was.broken)
        for mark in () if entry.broken else new:
            left = ready.with_one_less(mark, "printed")
            left = left if left != ready else ready.with_one_less(mark, "spare")
            if left == ready:
                unsaid[called] = None
            ready = left
    return Taken(ready, tuple(unsaid))


def _came_off(entry: HungEntry, was: HungEntry | None) -> Iterator[str]:
    """Yield the marks of the whole fittings that a part had and has no more."""
    if was is not None and was.mark == entry.mark and not entry.fitted_as(was):
        gone = Counter(was.fittings) - Counter(entry.fittings) - Counter(was.broken)
        yield from gone.elements()


def hung_now(place: Path) -> HungNow:
    """Return what hangs by the ledger of a workshop, and write nothing.

    Raises:
        DocumentError: There is no workshop.
        LedgerError: The ledger cannot be read.
    """
    return HungNow(read_hung(_folder(place)), _words(place))


def record_hung(
    place: Path,
    *,
    out: Path | None = None,
    on: date | None = None,
    anyway: bool = False,
    run: Run | None = None,
) -> HungNow:
    """Keep in the ledger that everything hangs as it was last made, and return it.

    Args:
        place: The workshop folder, or its document.
        out: Where the files were made; the folder ``out`` in the workshop when None.
        on: The day; today when None.
        anyway: Keep it though something does not hold.
        run: The run that keeps what was computed before; one of its own when None.

    Raises:
        OutputError: Nothing was made there, some files there are old and some are new, or
            files are missing or were replaced since.
        InputError: The workshop was changed since it was made.
        DesignError: Something of it does not hold, and ``anyway`` is not said.
        CleatwrightError: Whatever stands in the way of the whole job.
    """
    folder = _folder(place)
    papers = output_folder(out, workshop=folder)
    made = papers_of(papers)
    require_finished(papers)
    require_intact(papers)
    job = compute(place, run=run)
    if made != papers_of_job(job):
        raise InputError(
            "what would be made now is not what was made",
            place=InFile(str(document_path(place))),
            todo="Make the workshop again, hang everything by the new drawing, and then say so",
        )
    if job.failing and not anyway:
        raise DesignError(
            "what was made does not hold, so it is not kept as what hangs: "
            + "; ".join(job.failing),
            place=InFile(str(document_path(place))),
            todo="Change what does not hold and make the workshop again; or, if it hangs so and "
            "you have seen to it, say hung --anyway",
        )
    since = (on or datetime.now(UTC).date()).isoformat()
    places = {key: spot.place for key, spot in job.spots.items()}
    with open_ledger(folder) as ledger:
        known = ledger.hung()
        hung = WhatHangs(
            hung_entries(job.units, places, since=since, known=job.hung.holders),
            hung_rail_entries(job.panels, since=since, known=known.rails),
        )
        marks = {
            content_key(wanted.tools): [
                made.mark
                for key, (_, made) in part_names((unit,)).items()
                # what hung before on another carrier was printed long ago
                if made.printed and key not in job.in_use
            ]
            for unit, wanted in zip(job.units, wanted_of(job.units), strict=True)
        }
        taken = taken_from(ledger.ready(), job.hung, hung, marks, since=since)
        ledger.replace_hung(hung, made=job.made, ready=taken.ready)
        return HungNow(ledger.hung(), job.words, job.failing, taken.unsaid)


def forget_hung(place: Path) -> HungNow:
    """Forget what hangs, as when the wall was cleared, and return what was forgotten.

    Raises:
        DocumentError: There is no workshop.
        LedgerError: The ledger cannot be used.
    """
    folder = _folder(place)
    if not has_ledger(folder):
        return HungNow(WhatHangs(), _words(place))
    with open_ledger(folder) as ledger:
        forgotten = ledger.hung()
        ledger.replace_hung(WhatHangs(), wall=MadeWall())
    return HungNow(forgotten, _words(place))


def forget_rails(place: Path, names: Iterable[str]) -> HungNow:
    """Forget rails that were taken down, and return what was forgotten.

    Args:
        place: The workshop folder, or its document.
        names: Names of rails on which nothing hangs by the ledger.

    Raises:
        DocumentError: There is no workshop.
        UnknownNameError: The ledger knows of no such rail.
        InputError: Something hangs on one of them.
        LedgerError: The ledger cannot be used.
    """
    folder = _folder(place)
    wanted = frozenset(names)
    hung = read_hung(folder)
    for name in sorted(wanted - {rail.name for rail in hung.rails}):
        known = [rail.name for rail in hung.rails]
        raise unknown_name("rail in the ledger", name, known or ["none"])
    gone = tuple(rail for rail in hung.rails if rail.name in wanted)
    for rail in gone:
        on_it = [one.name for one in hung.holders if carries(rail, one)]
        if on_it:
            raise InputError(
                f'"{on_it[0]}" hangs on rail {rail.name} by the ledger',
                place=InFile(str(folder / LEDGER_NAME)),
                allowed="a rail on which nothing hangs",
                todo="Arrange the workshop without it, make it, and say hung when it hangs so",
            )
    with open_ledger(folder) as ledger:
        stays = tuple(rail for rail in ledger.hung().rails if rail not in gone)
        ledger.replace_hung(WhatHangs(ledger.hung().holders, stays))
    return HungNow(WhatHangs((), gone), _words(place))


def _words(place: Path) -> Wording:
    """Return the wording of a workshop; mm while its document is being changed and cannot be read.

    What hangs is known by the ledger alone, and each length carries its unit.
    """
    try:
        return Wording(load(place).units)
    except InputError:
        return IN_MM


def _folder(place: Path) -> Path:
    document = document_path(place)
    if not document.is_file():
        raise DocumentError(
            "there is no workshop here",
            place=InFile(str(document)),
            todo=f"Name a folder with a {FILE_NAME}",
        )
    return document.parent
