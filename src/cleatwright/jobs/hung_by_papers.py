"""Saying one by one what hangs, as the papers of the last making have it.

The plan may move what does not hang yet as soon as something does; whoever is at the wall goes on
hanging by the papers in the hand. So each thing is kept in the ledger as it is on them.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime
from pathlib import Path

from cleatwright.base.errors import DesignError, OutputError, unknown_name
from cleatwright.base.lengths import Wording
from cleatwright.base.place import InFile
from cleatwright.jobs.hung import HungNow, taken_from
from cleatwright.jobs.since_made import last_report
from cleatwright.pack.hung_papers import REPORT
from cleatwright.papers.report_model import CarrierRow, HolderRow, RailRow, Report
from cleatwright.project.intact import require_intact
from cleatwright.project.places import output_folder
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.store import document_path, load
from cleatwright.workshop.ledger.database import open_ledger
from cleatwright.workshop.ledger.hung_entry import HungEntry
from cleatwright.workshop.ledger.hung_rail import HungRail
from cleatwright.workshop.ledger.hung_wall import WhatHangs
from cleatwright.workshop.ledger.reading import read_kept
from cleatwright.workshop.ledger.ready_parts import ReadyParts

SAME_MM = 0.05


@dataclass(frozen=True)
class PaperPart:
    """One part on the papers.

    Args:
        label: The number of its holder in all drawings; "C" before the first one of a carrier, and
            a point and a number behind it for its hangers and bolts.
        name: Its name for people.
        mark: Its mark.
        printed: False for a carrier of wood.
    """

    label: str
    name: str
    mark: str
    printed: bool = True


@dataclass(frozen=True)
class OnPaper:
    """What hangs as one piece by the papers.

    Args:
        numbers: The numbers of its holders in all drawings.
        entry: It as the ledger keeps it.
        rail: The name of its rail, or "" for what is fixed to the wall or board itself.
        failing: The names of its checks that do not hold.
        parts: Its parts: the holder, or the carrier and its holders.
    """

    numbers: tuple[int, ...]
    entry: HungEntry
    rail: str
    failing: tuple[str, ...]
    parts: tuple[PaperPart, ...]

    def entry_in(self, now: WhatHangs) -> HungEntry | None:
        """Return its entry in the ledger where it hangs just so, or None."""
        for one in now.holders:
            if (
                one.identity == self.entry.identity
                and (one.mark, one.panel) == (self.entry.mark, self.entry.panel)
                and one.fitted_as(self.entry)
                and abs(one.x_mm - self.entry.x_mm) <= SAME_MM
                and abs(one.z_mm - self.entry.z_mm) <= SAME_MM
            ):
                return one
        return None


def on_papers(report: Report, *, since: str) -> tuple[OnPaper, ...]:
    """Return what hangs as one piece by a report, in the order of the numbers.

    Args:
        report: The report.
        since: The ISO date for the entries of the ledger.
    """
    of_carriers: dict[int, list[HolderRow]] = {at: [] for at in range(len(report.carriers))}
    found: list[OnPaper] = []
    named = {one.mark: one.name for one in report.fittings}
    for holder in report.holders:
        if holder.carrier is None:
            found.append(_piece(holder, [holder], since, named))
            continue
        near = [at for at, one in enumerate(report.carriers) if one.mark == holder.carrier]
        middle = _middle_mm(holder)
        # carriers lie beside or above each other, and a holder lies on its own
        own = min(
            near,
            key=lambda at: (
                abs(_middle_mm(report.carriers[at]) - middle) + _apart(report.carriers[at], holder)
            ),
        )
        of_carriers[own].append(holder)
    found += [
        _piece(report.carriers[at], holders, since, named) for at, holders in of_carriers.items()
    ]
    return tuple(sorted(found, key=lambda one: one.numbers))


def _middle_mm(part: HolderRow | CarrierRow) -> float:
    return part.place.x_mm + part.size_mm[0] / 2


def _apart(carrier: CarrierRow, holder: HolderRow) -> float:
    other = 1e6 if carrier.place.panel != holder.place.panel else 0.0
    return other + abs(carrier.place.z_mm - holder.place.z_mm)


def _piece(
    outer: HolderRow | CarrierRow,
    holders: list[HolderRow],
    since: str,
    fittings: Mapping[str, str],
) -> OnPaper:
    checks = {id(one): one for part in (outer, *holders) for one in part.checks}.values()
    return OnPaper(
        numbers=tuple(sorted(one.number for one in holders)),
        entry=HungEntry(
            panel=outer.place.panel,
            name=outer.name,
            x_mm=outer.place.x_mm,
            z_mm=outer.place.z_mm,
            mark=outer.mark,
            tools=tuple(sorted({seat.tool for one in holders for seat in one.seats})),
            since=since,
            fittings=HungEntry.sorted_marks(outer.fittings),
        ),
        rail=outer.place.rail or "",
        failing=tuple(dict.fromkeys(one.name for one in checks if not one.holds)),
        parts=tuple(_parts(outer, sorted(holders, key=lambda one: one.number), fittings)),
    )


def _parts(
    outer: HolderRow | CarrierRow, holders: list[HolderRow], fittings: Mapping[str, str]
) -> Iterator[PaperPart]:
    label = str(holders[0].number)
    if isinstance(outer, CarrierRow):
        label = f"C{label}"
        yield PaperPart(label, outer.name, outer.mark, printed=outer.made_of != "wood")
    for one in holders:
        yield PaperPart(str(one.number), one.name, one.mark)
    for at, mark in enumerate(outer.fittings, 1):
        yield PaperPart(f"{label}.{at}", f"{fittings.get(mark, 'fitting')} of {outer.name}", mark)


@dataclass(frozen=True)
class HungByPapers:
    """What hangs once some more does by the papers.

    Args:
        hung: What hangs then.
        ready: What lies ready then.
        failing: Sentences of what does not hold of it.
    """

    hung: WhatHangs
    ready: ReadyParts
    failing: tuple[str, ...]

    def require_holding(self, document: Path, *, anyway: bool) -> None:
        """Refuse what does not hold unless it was said to hang anyway.

        Raises:
            DesignError: Something does not hold.
        """
        if self.failing and not anyway:
            raise DesignError(
                "what does not hold is not kept as what hangs: " + " ".join(self.failing),
                place=InFile(str(document)),
                todo="Change what does not hold and make the workshop again; or, if it hangs so "
                "and you have seen to it, say so with --anyway",
            )


def hung_by_papers(
    report: Report,
    workshop: Workshop,
    numbers: Collection[int],
    *,
    known: WhatHangs,
    ready: ReadyParts,
    since: str,
) -> HungByPapers:
    """Return what hangs once some holders hang as they are on the papers.

    Args:
        report: The papers.
        workshop: The document.
        numbers: Their numbers in all drawings; with one of a carrier goes all of it.
        known: What hangs before.
        ready: What lies ready before.
        since: The ISO date since which they hang.

    Raises:
        UnknownNameError: There is no holder of such a number on the papers.
    """
    every = on_papers(report, since=since)
    there = {number for one in every for number in one.numbers}
    for number in sorted(set(numbers) - there):
        raise unknown_name("holder on the papers", str(number), sorted(map(str, there)))
    chosen = [one for one in every if set(one.numbers) & set(numbers)]
    rails = tuple(_rails(report, chosen, workshop, since))
    hung = _with(known, chosen, rails)
    marks = {one.entry.identity: [part.mark for part in one.parts] for one in chosen}
    failing = (
        *(
            f'"{one.entry.name}" ({one.entry.mark}): {", ".join(one.failing)} does not hold.'
            for one in chosen
            if one.failing
        ),
        *_failing_panels(report, chosen),
    )
    return HungByPapers(hung, taken_from(ready, known, hung, marks, since=since).ready, failing)


def record_some(
    place: Path,
    numbers: Collection[int],
    *,
    out: Path | None = None,
    on: date | None = None,
    anyway: bool = False,
) -> HungNow:
    """Keep in the ledger that some holders hang as they were last made, and return what hangs.

    The rails that bear them hang with them. What hung before stays, but for what holds the same
    tools, and rails of the same name.

    Args:
        place: The workshop folder, or its document.
        numbers: Their numbers in all drawings; with one of a carrier goes all of it.
        out: Where the files were made; the folder ``out`` in the workshop when None.
        on: The day; today when None.
        anyway: Keep it though something does not hold.

    Raises:
        OutputError: Nothing was made there, some files there are old and some are new, or files
            are missing or were replaced since.
        UnknownNameError: There is no holder of such a number on the papers.
        DesignError: A check of them does not hold, and ``anyway`` is not said.
        LedgerError: The ledger cannot be used, or not all of it can hang together.
        DocumentError: There is no document that can be read.
    """
    document = document_path(place)
    workshop = load(place)
    papers = output_folder(out, workshop=document.parent)
    report, _ = last_report(papers)
    if report is None:
        raise OutputError(
            "there is no report of a workshop that was made",
            place=InFile(str(papers / REPORT)),
            todo="Make the workshop, hang by its drawing, and then say so",
        )
    require_intact(papers)
    kept = read_kept(document.parent)
    found = hung_by_papers(
        report,
        workshop,
        numbers,
        known=kept.hung,
        ready=kept.ready,
        since=(on or datetime.now(UTC).date()).isoformat(),
    )
    found.require_holding(document, anyway=anyway)
    with open_ledger(document.parent) as ledger:
        ledger.replace_hung(found.hung, made=ledger.last_made(), ready=found.ready)
        return HungNow(ledger.hung(), Wording(workshop.units), found.failing)


def _rails(
    report: Report, chosen: Collection[OnPaper], workshop: Workshop, since: str
) -> Iterator[HungRail]:
    """Yield the rails that bear what was chosen, as the ledger keeps them."""
    known = {panel.name: panel.places_known for panel in workshop.surfaces()}
    wanted = {(one.entry.panel, one.rail) for one in chosen if one.rail}
    for row in report.rails:
        if (row.panel, row.name) in wanted:
            yield _rail(row, since=since, screwed=known.get(row.panel, False))


def _rail(row: RailRow, *, since: str, screwed: bool) -> HungRail:
    return HungRail(
        panel=row.panel,
        name=row.name,
        z_top_mm=row.z_top_mm,
        x0_mm=row.x0_mm,
        x1_mm=row.x1_mm,
        height_mm=row.height_mm,
        thickness_mm=row.thickness_mm,
        bevel_deg=row.bevel_deg,
        studs_mm=row.studs_mm if screwed else None,
        since=since,
    )


def _failing_panels(report: Report, chosen: Collection[OnPaper]) -> Iterator[str]:
    """Yield a sentence for what does not hold on the panels of what was chosen.

    Rails on which nothing of it hangs are left out.
    """
    panels = {one.entry.panel for one in chosen}
    rails = {one.rail for one in chosen}
    others = tuple(f"rail {rail.name} " for rail in report.rails if rail.name not in rails)
    for panel in report.panels:
        if panel.name in panels:
            yield from (
                f"This check does not hold: {one.name}{f' ({one.note})' if one.note else ''}."
                for one in panel.checks
                if not one.holds and not any(other in one.name for other in others)
            )


def _with(known: WhatHangs, chosen: Collection[OnPaper], rails: Collection[HungRail]) -> WhatHangs:
    """Return what hangs with what was chosen; an entry that only differs in its date stays."""
    tools = {tool for one in chosen for tool in one.entry.tools}
    holders = {one.identity: one for one in known.holders}
    kept = [one for one in known.holders if not tools & set(one.tools)]
    kept += [one.entry.known_from(holders.get(one.entry.identity)) for one in chosen]
    named = {one.name: one for one in known.rails}
    for rail in rails:
        old = named.get(rail.name)
        same = old is not None and replace(old, since=rail.since) == rail
        named[rail.name] = old if old is not None and same else rail
    return WhatHangs(tuple(kept), tuple(named.values())).ordered
