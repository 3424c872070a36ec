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

A rail that is too high for one sheet lies on several rows of them, which share OVERLAP_MM too.
"""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.lengths import MM_PER_INCH, LengthUnit
from cleatwright.papers.drilling.view import Drilled, called
from cleatwright.papers.kit.paper import PRINT_MARGIN_MM, Paper, landscape
from cleatwright.papers.kit.tiling import Window, windows

OVERLAP_MM = 10.0
# paper beyond each end of a rail, so that its end is seen
LEAD_MM = 10.0
ABOVE_MM, BELOW_MM = 9.0, 9.0
SQUARE_MM = 100.0
SQUARE_IN = 4.0
# of a rail that lies on rows of sheets
LEAST_STRIP_MM = 40.0

# where a sheet lies along the rail, and which row of sheets it is in
Spot = tuple[Window, Window]


@dataclass(frozen=True)
class TemplatePlan:
    """The sheets of one rail.

    Args:
        paper: The sheet as it lies.
        total: Number of sheets from end to end.
        kept: Those that hold a screw, and one that lies alone between two of them, from left to
            right; the first of a rail without screws.
        bands: The rows of sheets, by their distance below the top edge of the rail, from above.
        below_mm: The room for square and words below what is shown of the rail.
    """

    paper: Paper
    total: int
    kept: tuple[Window, ...]
    bands: tuple[Window, ...]
    below_mm: float

    @property
    def spots(self) -> tuple[Spot, ...]:
        """Return every sheet that is printed: row by row from above, each from left to right."""
        return tuple((window, band) for band in self.bands for window in self.kept)

    def heading(self, title: str, rail: Drilled, spot: Spot) -> str:
        """Return what a sheet is called."""
        window, band = spot
        rows = len(self.bands)
        row = f", row {band.number} of {rows} from above" if rows > 1 else ""
        return f"{title}: {called(rail)}, sheet {window.number} of {self.total}{row}"

    @property
    def left_out(self) -> tuple[int, ...]:
        """Return the numbers of the sheets that are not printed."""
        kept = {window.number for window in self.kept}
        return tuple(n for n in range(1, self.total + 1) if n not in kept)


def square_mm(unit: LengthUnit) -> float:
    """Return the side of the square by which a print is checked: 100 mm or 4 in."""
    return SQUARE_MM if unit == "mm" else SQUARE_IN * MM_PER_INCH


def plan_sheets(
    rail: Drilled, *, sheet: str, unit: LengthUnit, words_mm: float = 0.0
) -> TemplatePlan:
    """Return the sheets of a rail; each screw is well inside one that is kept.

    Args:
        rail: The rail.
        sheet: Name of the paper; it lies across where the rail's height allows, else upright.
        unit: LengthUnit of the square.
        words_mm: How high the words below the rail are.

    Raises:
        UnknownNameError: There is no such sheet.
    """
    paper = _lying(rail, landscape(sheet), max(square_mm(unit), words_mm))
    length = rail.length_mm
    room = paper.width_mm - 2 * PRINT_MARGIN_MM
    every = windows(-LEAD_MM, length + LEAD_MM, room=room, overlap=OVERLAP_MM)
    places = [x - rail.x0_mm for x in rail.to_drill_mm] or [0.0]
    # the sheet in which a place is farthest from both edges of the paper
    wanted = {max(every, key=lambda w: min(u - w.start, w.end - u)).number for u in places}
    # one sheet holds its two neighbours at the right distance; more of them hold nothing
    wanted |= {n for n in range(2, len(every)) if {n - 1, n + 1} <= wanted}
    high = max(_room_mm(paper) - max(square_mm(unit), words_mm), LEAST_STRIP_MM)
    bands = windows(0.0, rail.height_mm, room=high, overlap=OVERLAP_MM)
    shown = max(min(band.end, rail.height_mm) - band.start for band in bands)
    kept = tuple(w for w in every if w.number in wanted)
    return TemplatePlan(paper, len(every), kept, bands, _room_mm(paper) - shown)


def _lying(rail: Drilled, paper: Paper, below_mm: float) -> Paper:
    """Return how the paper lies: across, where rail and words go below each other."""
    return paper if rail.height_mm <= _room_mm(paper) - below_mm else paper.turned


def _room_mm(paper: Paper) -> float:
    """Return the height for the rail and what is below it."""
    return paper.height_mm - 2 * PRINT_MARGIN_MM - ABOVE_MM - BELOW_MM
