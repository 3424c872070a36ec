"""Another arrangement of a wall from the command line: found, shown beside, drawn, taken."""

from __future__ import annotations

from dataclasses import asdict, dataclass, replace
from pathlib import Path

from cleatwright.base.errors import ChangedMeanwhileError, unknown_name
from cleatwright.base.place import InFile
from cleatwright.base.stages.run import Run
from cleatwright.jobs.arranging_again import Asked, FoundArrangement, arrange_again
from cleatwright.jobs.comparing_lines import (
    ComparingLine,
    MovedLine,
    comparing_lines,
    moved_lines,
)
from cleatwright.jobs.drawn_beside import draw_beside, require_new
from cleatwright.jobs.placing import identity_of, standing
from cleatwright.jobs.two_arrangements import Side, TwoArrangements, compare
from cleatwright.pack.drawing import elevation_view
from cleatwright.papers.elevation.view import ElevationView
from cleatwright.papers.side_by_side.view import BesideView, SideBySideView
from cleatwright.project.revision import said_of
from cleatwright.wall.weights import PREFERENCES
from cleatwright.workshop.document.store import (
    changing,
    document_path,
    parse,
    read_text,
    save,
)

COLUMNS = ("", "now", "the other", "difference")
MANY_POINTS = 1e9


@dataclass(frozen=True)
class Rearranged:
    """Two arrangements of one wall.

    Args:
        found: What was found.
        two: Both.
        files: What was drawn of them.
        taken: Whether the other one was written into the document.
    """

    found: FoundArrangement
    two: TwoArrangements
    files: tuple[Path, ...] = ()
    taken: bool = False

    @property
    def title(self) -> str:
        """Return the name of the wall, and what was looked for."""
        return title_of(self.two, self.found)

    @property
    def lines(self) -> tuple[ComparingLine, ...]:
        """Return the lines of the table."""
        return comparing_lines(self.two, self.two.now.at.workshop.units)

    @property
    def cells(self) -> list[tuple[str, ...]]:
        """Return the cells of the table, under ``COLUMNS``."""
        return [(one.what, one.now, one.other, one.more) for one in self.lines]

    @property
    def notes(self) -> tuple[str, ...]:
        """Return what hangs elsewhere and what costs most, in sentences."""
        return notes_of(self.two, self.found)

    def as_dict(self) -> dict[str, object]:
        """Return the answer for programs."""
        found = self.found
        return {
            "asked": asdict(found.asked),
            "found_at": found.found_at,
            "tried": found.tried,
            "lower_bound": found.bound if found.bound < MANY_POINTS else None,
            **self.two.as_dict(),
            "files": [str(path) for path in self.files],
            "taken": self.taken,
        }


def asked_for(wanted: str, *, panel: str, tries: int, free: bool, hung_moves: bool) -> Asked:
    """Return what is looked for.

    Raises:
        UnknownNameError: There is no such preference.
    """
    for name in PREFERENCES:
        if name == wanted:
            return Asked(panel, name, tries, given_stays=not free, hung_moves=hung_moves)
    raise unknown_name("preference", wanted, PREFERENCES)


def rearrange(
    place: Path, asked: Asked, *, out: Path | None = None, take: bool = False, run: Run
) -> Rearranged:
    """Look for another arrangement of one wall, and show it beside the one that there is.

    Args:
        place: The workshop folder, or its document.
        asked: What is looked for.
        out: Where both are drawn, a PDF or SVG file that is not there yet; nowhere when None.
        take: Whether its places are written into the document.
        run: The run that keeps what was computed before.

    Raises:
        CleatwrightError: Whatever stands in the way.
        ChangedMeanwhileError: The document was changed while it was searched; nothing is written.
        OutputError: The file is there already, or it cannot be written.
    """
    if out is not None:
        require_new(out)
    text, path = read_text(place), document_path(place)
    now = standing(text, path, run)
    with said_of(now.revision):
        found = arrange_again(now, asked, run=run)
        two = compare(now, asked.panel, found.places, run=run, layout=asked.layout)
    made = Rearranged(found, two)
    if out is not None:
        made = replace(made, files=draw_beside((side_by_side_view(made, run),), out, run))
    if take:
        with changing(place):
            if read_text(place) != text:
                raise ChangedMeanwhileError(
                    "The document was changed while another arrangement was looked for",
                    place=InFile(str(path)),
                    todo="Look for one again; nothing was changed",
                )
            save(place, parse(now.changed(two.changes), file=str(path)))
        made = replace(made, taken=True)
    return made


def title_of(two: TwoArrangements, found: FoundArrangement) -> str:
    """Return the name of the wall, and what was looked for."""
    wanted = PREFERENCES[found.asked.wanted].name
    return f"{two.now.panel.title}: another arrangement, {wanted[0].lower()}{wanted[1:]}"


def notes_of(two: TwoArrangements, found: FoundArrangement) -> tuple[str, ...]:
    """Return what hangs elsewhere and what costs most, in sentences; "" is a gap."""
    bound = f"No such arrangement can be under {found.bound:.0f} points."
    return (
        f"Found by try {found.found_at} of {found.tried}."
        + (f" {bound}" if found.bound < MANY_POINTS else ""),
        "",
        *_elsewhere(two, found),
        *(f"To make anew: {name}." for name in two.renewed),
        "",
        *_dear("now", two.now),
        "",
        *_dear("in the other", two.other),
    )


def _elsewhere(two: TwoArrangements, found: FoundArrangement) -> tuple[str, ...]:
    """Return what hangs elsewhere; that nothing does, and what lets it, where all stays."""
    moved = moved_lines(two)
    if moved:
        return ("Hangs elsewhere:", *(_moved(one) for one in moved))
    items = two.now.panel.problem.items
    stays = sum(item.hangs_at is not None for item in items)
    if not stays or found.asked.hung_moves:
        return ("Everything hangs where it is now: no try found anything better.",)
    hang = f"{stays} of {len(items)} hang already, and what hangs stays"
    return (f"Nothing hangs elsewhere: {hang}. To let it move, say --hung-moves.",)


def _moved(one: MovedLine) -> str:
    return f"{one.numbers}  {one.name}: {one.way}{', it hangs already' if one.hangs else ''}"


def _dear(where: str, side: Side) -> tuple[str, ...]:
    return (
        f"What costs most {where}:",
        *(
            f"{one.name}, {one.points:.0f} points. {one.reasons[0] if one.reasons else ''}".strip()
            for one in side.dearest
        ),
        *(f"Does not hold: {line}" for line in side.failing),
        *(f"Warning: {line}" for line in side.panel.words.all(side.found.warnings)),
    )


def side_by_side_view(made: Rearranged, run: Run) -> SideBySideView:
    """Return what the sheet of two arrangements shows."""
    two = made.two
    keys = {one.key for one in two.moved}
    moved = frozenset(
        holder.number
        for unit in two.now.panel.units
        if unit.planned.key in keys
        for holder in unit.planned.holders
    )
    other = _of_now(two, elevation_view(two.other.panel, run))
    return SideBySideView(
        title=made.title,
        walls=(
            BesideView("Now", elevation_view(two.now.panel, run), moved),
            BesideView("The other", other, moved),
        ),
        heading=COLUMNS,
        rows=tuple(made.cells),
        notes=made.notes,
    )


def _of_now(two: TwoArrangements, view: ElevationView) -> ElevationView:
    """Return the other wall with the numbers of now."""
    now = {identity_of(unit): unit for unit in two.now.panel.units}
    called: dict[int, int] = {}
    for unit in two.other.panel.units:
        before = now.get(identity_of(unit))
        if before is not None:
            pairs = zip(unit.planned.holders, before.planned.holders, strict=True)
            called |= {b.number: a.number for b, a in pairs}
    holders = tuple(replace(one, number=called.get(one.number, one.number)) for one in view.holders)
    return replace(view, holders=holders)
