"""On which sheets a rail at full size lies, and which of them are worth printing.

┌───────────────────────────────────────┐
│ marks        level line        marks  │   all sheets have the same window of the rail;
├══════════ top edge of the rail ═══════┤   neighbours share OVERLAP_MM; u runs along the
│    ⊕ screw                 ⊕          │   rail from its left end
├───────────────────────────────────────┤
│ ┌────────┐  rail, sheet, distances,   │   the square shows whether the printer kept
│ │ square │  what to drill, cautions   │   the size in both directions
│ └────────┘                            │
└───────────────────────────────────────┘
"""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.errors import DesignError
from cleatwright.reports.elevation_view import MM_PER_INCH, RailView, Unit
from cleatwright.reports.paper import PRINT_MARGIN_MM, Paper, landscape
from cleatwright.reports.tiling import Window, windows

OVERLAP_MM = 10.0
# paper beyond each end of a rail, so that its end is seen
LEAD_MM = 10.0
ABOVE_MM, BELOW_MM = 9.0, 9.0
SQUARE_MM = 100.0
SQUARE_IN = 4.0


@dataclass(frozen=True)
class TemplatePlan:
    """The sheets of one rail.

    Args:
        paper: The sheet as it lies.
        total: Number of sheets from end to end.
        kept: Those that hold a screw or an end of the rail, from left to right.
    """

    paper: Paper
    total: int
    kept: tuple[Window, ...]

    @property
    def left_out(self) -> tuple[int, ...]:
        """Return the numbers of the sheets that are not printed."""
        kept = {window.number for window in self.kept}
        return tuple(n for n in range(1, self.total + 1) if n not in kept)


def square_mm(unit: Unit) -> float:
    """Return the side of the square by which a print is checked: 100 mm or 4 in."""
    return SQUARE_MM if unit == "mm" else SQUARE_IN * MM_PER_INCH


def plan_sheets(rail: RailView, *, sheet: str, unit: Unit) -> TemplatePlan:
    """Return the sheets of a rail; each screw and each end is well inside one that is kept.

    Args:
        rail: The rail.
        sheet: Name of the paper; it lies across where the rail's height allows.
        unit: Unit of the square.

    Raises:
        UnknownNameError: There is no such sheet.
        DesignError: The rail is too high for it.
    """
    paper = _lying(rail, landscape(sheet), square_mm(unit))
    length = rail.x1_mm - rail.x0_mm
    room = paper.width_mm - 2 * PRINT_MARGIN_MM
    every = windows(-LEAD_MM, length + LEAD_MM, room=room, overlap=OVERLAP_MM)
    places = (0.0, *(x - rail.x0_mm for x in rail.screws_mm), length)
    # the sheet in which a place is farthest from both edges of the paper
    wanted = {max(every, key=lambda w: min(u - w.start, w.end - u)).number for u in places}
    return TemplatePlan(paper, len(every), tuple(w for w in every if w.number in wanted))


def _lying(rail: RailView, paper: Paper, square: float) -> Paper:
    needed = rail.height_mm + ABOVE_MM + BELOW_MM + square + 2 * PRINT_MARGIN_MM
    for lying in (paper, paper.turned):
        if needed <= lying.height_mm:
            return lying
    raise DesignError(
        f"a drilling template of rail {rail.name}, {rail.height_mm:g} mm high, on {paper.name}",
        where="drilling template",
        allowed=f"rails up to {paper.width_mm - needed + rail.height_mm:g} mm high",
        todo="Write a smaller height under [rail]",
    )
