"""Where things go on the sheet of an elevation, and at which scale it fits.

┌──────────────────────────────────────────┐   all in paper millimetres;
│ margin ┌ heights ┐┌ wall ──────┐┌ column ┐│   the column holds the legend,
│        │ 1450 R1 ─││            ││ legend ││   the rails, the cautions and
│        └─────────┘└────────────┘│cautions││   the title block; more columns
│             rail lengths, floor └ title ─┘│   are added when it is full
└──────────────────────────────────────────┘
"""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.errors import MeasureError
from cleatwright.reports.elevation_view import ElevationView, RailView
from cleatwright.reports.svg import text_width

A3_MM = (420.0, 297.0)
# reductions of ISO 5455:1979, from memory
SCALES = (1, 2, 5, 10, 20, 50, 100)
MARGIN = 10.0
TOP = 6.0
COLUMN = 94.0
COLUMN_GAP = 7.0
DIMENSION_SIZE = 2.5
HEIGHT_STEP = 3.6
LEVEL = 5.6
FLOOR_ROOM = 7.0
OVERALL_ROOM = 9.0
OVERALL_LEFT = 7.0
# square millimetres of wall on paper for each balloon of 6 mm, so that it finds a free spot
BALLOON_ROOM = 230.0


@dataclass(frozen=True)
class RailLine:
    """The dimension line of one rail: its level below the wall, and its texts."""

    rail: RailView
    level: int
    start: str
    end: str
    label: str
    inside: bool


@dataclass(frozen=True)
class Layout:
    """Measures of the sheet in paper millimetres; ``scale`` is the k of 1:k."""

    scale: int
    width: float
    height: float
    left: float
    bottom: float
    first_column: float
    columns: int
    rail_lines: tuple[RailLine, ...]
    lines_below_floor: bool

    @property
    def levels(self) -> int:
        """Return the number of levels of rail dimensions."""
        return 1 + max((line.level for line in self.rail_lines), default=-1)


def height_labels(view: ElevationView) -> tuple[tuple[float, str], ...]:
    """Return for each height of rails, from the top, the words at the left of the wall."""
    heights = sorted({rail.z_top_mm for rail in view.rails}, reverse=True)
    return tuple(
        (z, f"{' '.join(r.name for r in view.rails if r.z_top_mm == z)}: {view.length(z)}")
        for z in heights
    )


def rail_lines(view: ElevationView, scale: int) -> tuple[RailLine, ...]:
    """Return the dimension lines of the rails on as few levels as keep their texts apart."""
    ends: list[float] = []
    lines: list[RailLine] = []
    for rail in sorted(view.rails, key=lambda r: (-r.z_top_mm, r.x0_mm, r.name)):
        start, end = view.length(rail.x0_mm), view.length(rail.x1_mm)
        label = f"{rail.name}: {view.length(rail.x1_mm - rail.x0_mm)}"
        span = (rail.x1_mm - rail.x0_mm) / scale
        inside = text_width(label, DIMENSION_SIZE) + 2.0 <= span
        x0 = rail.x0_mm / scale - text_width(start, DIMENSION_SIZE) - 3.0
        x1 = rail.x1_mm / scale + text_width(end, DIMENSION_SIZE) + 3.0
        if not inside:
            x1 += text_width(label, DIMENSION_SIZE) + 3.0
        level = next((k for k, taken in enumerate(ends) if taken <= x0), len(ends))
        if level == len(ends):
            ends.append(x1)
        ends[level] = x1
        lines.append(RailLine(rail, level, start, end, label, inside))
    return tuple(lines)


def lay_out(view: ElevationView, *, blocks: tuple[float, ...], scale: int | None) -> Layout:
    """Return the layout at the given scale, or at the largest usual scale that fits on A3.

    When nothing fits on A3, or the balloons would crowd the wall there, the sheet is larger.

    Args:
        view: What is drawn.
        blocks: Heights of the blocks in the column, in paper millimetres, title block last.
        scale: The k of 1:k, or None.

    Raises:
        MeasureError: The scale is less than 1.
    """
    if scale is not None:
        if scale < 1:
            raise MeasureError(f"the scale 1:{scale}", where="elevation", allowed="1:1 and smaller")
        return _at(view, blocks, scale)
    room = BALLOON_ROOM * len(view.holders)
    wall = view.width_mm * view.height_mm
    legible = [k for k in SCALES if wall / k**2 >= room] or [SCALES[0]]
    layouts = [_at(view, blocks, k) for k in legible]
    return next((lay for lay in layouts if (lay.width, lay.height) == A3_MM), layouts[-1])


def _at(view: ElevationView, blocks: tuple[float, ...], scale: int) -> Layout:
    rails = rail_lines(view, scale)
    levels = 1 + max((line.level for line in rails), default=-1)
    dimensions = levels * LEVEL + OVERALL_ROOM
    gap = view.floor_gap_mm / scale
    below_floor = dimensions + 2.0 > gap
    under = gap + FLOOR_ROOM + (dimensions if below_floor else 0.0)
    drawing = TOP + view.height_mm / scale + under
    height = max(A3_MM[1], drawing + 2 * MARGIN)
    columns = len(flow(blocks, height - 2 * MARGIN))
    labels = [text_width(words, DIMENSION_SIZE) for _, words in height_labels(view)]
    starts = [
        text_width(line.start, DIMENSION_SIZE) - line.rail.x0_mm / scale + 2.0 for line in rails
    ]
    left = max([8.0, *(width + 8.0 for width in labels), *starts]) + OVERALL_LEFT
    right = 4.0
    for line in rails:
        beyond = (line.rail.x1_mm - view.width_mm) / scale
        beyond += text_width(line.end, DIMENSION_SIZE) + 3.0
        if not line.inside:
            beyond += text_width(line.label, DIMENSION_SIZE) + 3.0
        right = max(right, beyond)
    first_column = MARGIN + left + view.width_mm / scale + right + COLUMN_GAP
    width = first_column + columns * (COLUMN + COLUMN_GAP) - COLUMN_GAP + MARGIN
    # A3 has room to spare: the column stands at its right edge
    spare = max(A3_MM[0] - width, 0.0)
    return Layout(
        scale=scale,
        width=width + spare,
        height=height,
        left=MARGIN + left + spare / 2,
        bottom=MARGIN + TOP + view.height_mm / scale,
        first_column=first_column + spare,
        columns=columns,
        rail_lines=rails,
        lines_below_floor=below_floor,
    )


def flow(heights: tuple[float, ...], room: float) -> tuple[tuple[int, ...], ...]:
    """Return which lines stand in which column of height ``room``; one at least stands in each."""
    columns: list[list[int]] = [[]]
    filled = 0.0
    for k, height in enumerate(heights):
        if filled + height > room and columns[-1]:
            columns.append([])
            filled = 0.0
        columns[-1].append(k)
        filled += height
    return tuple(tuple(column) for column in columns)
