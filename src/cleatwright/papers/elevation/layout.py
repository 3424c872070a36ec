"""Where things go on the sheets of an elevation, on which sheet and at which scale.

┌──────────────────────────────────────────┐   all in paper millimetres; the legend
│ margin ┌ heights ┐┌ wall ──────┐┌ column ┐│   stands in columns beside the wall where
│        │ 1450 R1 ─││            ││ legend ││   there is room for all of it; otherwise
│        └─────────┘└────────────┘│cautions││   the title lies in a strip at the foot
│             rail lengths, floor └ title ─┘│   and the legend fills further sheets
└──────────────────────────────────────────┘
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import zip_longest

from cleatwright.base.errors import MeasureError
from cleatwright.papers.elevation.view import ElevationView
from cleatwright.papers.kit.paper import SCALES, Paper, landscape, series
from cleatwright.papers.kit.svg import text_width
from cleatwright.papers.kit.tiling import windows
from cleatwright.wall.rail import Rail

AUTO = "auto"
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
# from the wall to the words at its right, with some white behind them
REACH_ROOM, REACH_STEP = 6.0, 6.4
# right of them a bar for each of several people, with the name beside it
PERSON_STEP = 6.4
# at the head of a sheet of legend, and of a tile
HEADING = 9.0
OVERLAP = 10.0
# square millimetres of wall on paper for each holder: with less it is a crowd, and with the
# least its balloon of 6 mm finds no free spot
READABLE_ROOM = 700.0
LEAST_ROOM = 230.0
# smaller scales are taken only where no sheet has room for these
READABLE_SCALE, LEAST_SCALE = 20, 50

Columns = tuple[tuple[int, ...], ...]


@dataclass(frozen=True)
class RailLine:
    """The dimension line of one rail: its level below the wall, and its texts."""

    rail: Rail
    level: int
    start: str
    end: str
    label: str
    inside: bool


@dataclass(frozen=True)
class Layout:
    """Measures of the sheets in paper millimetres; ``scale`` is the k of 1:k.

    Args:
        paper: The sheet on which all is printed.
        scale: The k of 1:k.
        width: Width of the drawing's own sheet: that of the paper, or of all tiles together.
        height: Its height.
        left: Where the wall begins.
        bottom: Where its lower edge lies, from above.
        columns: Which blocks of the legend stand in which column beside the wall.
        first_column: Where the first of these columns begins.
        later: The same for each further sheet.
        foot: Height of the strip at the foot that holds the title; 0 when a column holds it.
        tiled: True when the drawing is cut into several sheets.
        rail_lines: The dimension lines of the rails.
        lines_below_floor: True when they lie below the floor.
    """

    paper: Paper
    scale: int
    width: float
    height: float
    left: float
    bottom: float
    columns: Columns
    first_column: float
    later: tuple[Columns, ...]
    foot: float
    tiled: bool
    rail_lines: tuple[RailLine, ...]
    lines_below_floor: bool

    @property
    def levels(self) -> int:
        """Return the number of levels of rail dimensions."""
        return 1 + max((line.level for line in self.rail_lines), default=-1)


@dataclass(frozen=True)
class Legend:
    """Heights of what is written: each block of the legend, the title in a column and as a strip.

    ``foot`` takes the width of the strip and returns its height. ``again`` are the heights of what
    stands once more above a block that begins a column.
    """

    blocks: tuple[float, ...]
    title: float
    foot: Callable[[float], float]
    again: tuple[float, ...] = ()


@dataclass(frozen=True)
class _Extent:
    """What the drawing itself needs: room round the wall, and the lines below it."""

    scale: int
    left: float
    right: float
    under: float
    width: float
    height: float
    rails: tuple[RailLine, ...]
    below_floor: bool

    @property
    def whole_width(self) -> float:
        return self.left + self.width + self.right

    @property
    def whole_height(self) -> float:
        return TOP + self.height + self.under


def height_labels(view: ElevationView) -> tuple[tuple[float, str], ...]:
    """Return for each height of rails, from the top, the words at the left of the wall."""
    heights = sorted({rail.z_top_mm for rail in view.rails}, reverse=True)
    return tuple(
        (z, f"{', '.join(_name(r) for r in view.rails if r.z_top_mm == z)}: {view.length(z)}")
        for z in heights
    )


def _name(rail: Rail) -> str:
    return f"{rail.name} (stays)" if rail.stays else rail.name


def reach_labels(view: ElevationView) -> tuple[tuple[float, str, str], ...]:
    """Return for each edge of reach on the wall, from the top, its z, a word and its height.

    The heights in words are those above the floor.
    """
    if view.reach is None:
        return ()
    band, gap = view.reach, view.floor_gap_mm
    edges = (
        (band.highest_mm, "reach"),
        (band.high_mm, "easy"),
        (band.low_mm, "easy"),
        (band.lowest_mm, "reach"),
    )
    return tuple(
        (z - gap, word, view.length(z)) for z, word in edges if 0.0 < z - gap < view.height_mm
    )


def reach_room(view: ElevationView) -> float:
    """Return how far the words of reach come out at the right of the wall, in paper mm."""
    words = [text for _, *both in reach_labels(view) for text in both]
    return max([4.0, *(text_width(text, DIMENSION_SIZE) + REACH_ROOM for text in words)])


def rail_lines(view: ElevationView, scale: int) -> tuple[RailLine, ...]:
    """Return the dimension lines of the rails on as few levels as keep their texts apart."""
    ends: list[float] = []
    lines: list[RailLine] = []
    for rail in sorted(view.rails, key=lambda r: r.order):
        start, end = view.length(rail.x0_mm), view.length(rail.x1_mm)
        label = f"{rail.name}: {view.length(rail.length_mm)}"
        span = (rail.length_mm) / scale
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


def lay_out(view: ElevationView, legend: Legend, *, sheet: str, scale: int | None) -> Layout:
    """Return the layout on a sheet, at the largest usual scale at which the drawing fits on it.

    Args:
        view: What is drawn.
        legend: How high the written parts are.
        sheet: Name of the sheet, or "auto" for the smallest of its series that reads well.
        scale: The k of 1:k; chosen when None.

    Raises:
        MeasureError: The scale is less than 1.
        UnknownNameError: There is no such sheet.
    """
    if scale is not None and scale < 1:
        raise MeasureError(f"the scale 1:{scale}", where="elevation", allowed="1:1 and smaller")
    papers = [landscape(name) for name in (series(view.unit) if sheet == AUTO else (sheet,))]
    if scale is not None:
        wishes = [(papers, (scale,))]
    elif sheet == AUTO:
        readable = tuple(k for k in _legible(view, READABLE_ROOM) if k <= READABLE_SCALE)
        wishes = [(papers, readable), (papers, _legible(view, LEAST_ROOM))]
    else:
        wishes = [(papers, tuple(k for k in _legible(view, LEAST_ROOM) if k <= LEAST_SCALE))]
    for choice, scales in wishes:
        for paper in choice:
            for k in scales:
                found = _fitted(_extent(view, k), legend, paper)
                if found is not None:
                    return found
    usable = tuple(k for k in _legible(view, LEAST_ROOM) if k <= LEAST_SCALE)
    return _tiled(_extent(view, scale or max(usable, default=SCALES[0])), legend, papers[-1])


def _legible(view: ElevationView, room: float) -> tuple[int, ...]:
    wall = view.width_mm * view.height_mm
    found = tuple(k for k in SCALES if wall / k**2 >= room * len(view.holders))
    return found or SCALES[:1]


def _extent(view: ElevationView, scale: int) -> _Extent:
    rails = rail_lines(view, scale)
    levels = 1 + max((line.level for line in rails), default=-1)
    dimensions = levels * LEVEL + OVERALL_ROOM
    gap = view.floor_gap_mm / scale
    below_floor = dimensions + 2.0 > gap
    labels = [text_width(words, DIMENSION_SIZE) for _, words in height_labels(view)]
    starts = [
        text_width(line.start, DIMENSION_SIZE) - line.rail.x0_mm / scale + 2.0 for line in rails
    ]
    rights = [reach_room(view) + PERSON_STEP * len(view.people)]
    for line in rails:
        beyond = (line.rail.x1_mm - view.width_mm) / scale
        beyond += text_width(line.end, DIMENSION_SIZE) + 3.0
        if not line.inside:
            beyond += text_width(line.label, DIMENSION_SIZE) + 3.0
        rights.append(beyond)
    return _Extent(
        scale=scale,
        left=max([8.0, *(width + 8.0 for width in labels), *starts]) + OVERALL_LEFT,
        right=max(rights),
        under=gap + FLOOR_ROOM + (dimensions if below_floor else 0.0),
        width=view.width_mm / scale,
        height=view.height_mm / scale,
        rails=rails,
        below_floor=below_floor,
    )


def _fitted(extent: _Extent, legend: Legend, paper: Paper) -> Layout | None:
    """Return the layout on this sheet, whichever way it lies, or None."""
    for lying in (paper, paper.turned):
        for found in (_beside(extent, legend, lying), _above(extent, legend, lying)):
            if found is not None:
                return found
    return None


def _beside(extent: _Extent, legend: Legend, paper: Paper) -> Layout | None:
    """Return the layout with the whole legend beside the wall, or None."""
    room = paper.width_mm - 2 * MARGIN - extent.whole_width
    high = paper.height_mm - 2 * MARGIN
    columns = flow((*legend.blocks, legend.title), high, again=legend.again)
    needed = len(columns) * (COLUMN + COLUMN_GAP)
    if needed > room or extent.whole_height > high or _too_high(legend, high):
        return None
    first = paper.width_mm - MARGIN - needed + COLUMN_GAP
    return _layout(
        extent,
        paper,
        left=MARGIN + extent.left + (room - needed) / 2,
        columns=columns,
        first_column=first,
    )


def _above(extent: _Extent, legend: Legend, paper: Paper) -> Layout | None:
    """Return the layout with the title at the foot and the legend on further sheets, or None."""
    wide, high = paper.width_mm - 2 * MARGIN, paper.height_mm - 2 * MARGIN
    foot = legend.foot(wide)
    if extent.whole_width > wide or extent.whole_height + foot > high:
        return None
    left = MARGIN + extent.left + (wide - extent.whole_width) / 2
    return _layout(extent, paper, left=left, foot=foot, later=_later(legend, paper))


def _tiled(extent: _Extent, legend: Legend, paper: Paper) -> Layout:
    """Return the layout of a drawing cut into sheets, lying so that there are fewer of them."""
    wide = max(extent.whole_width, COLUMN)
    foot = legend.foot(wide)
    high = extent.whole_height + foot

    def sheets(lying: Paper) -> int:
        across, down = tile_room(lying)
        return len(windows(0.0, wide, room=across, overlap=OVERLAP)) * len(
            windows(0.0, high, room=down, overlap=OVERLAP)
        )

    paper = min((paper, paper.turned), key=sheets)
    return _layout(
        extent,
        paper,
        left=MARGIN + extent.left,
        foot=foot,
        later=_later(legend, paper),
        tiles=(wide + 2 * MARGIN, high + 2 * MARGIN),
    )


def tile_room(paper: Paper) -> tuple[float, float]:
    """Return width and height of the drawing that one tile shows."""
    return paper.width_mm - 2 * MARGIN, paper.height_mm - 2 * MARGIN - HEADING


def _layout(
    extent: _Extent,
    paper: Paper,
    *,
    left: float,
    columns: Columns = (),
    first_column: float = 0.0,
    later: tuple[Columns, ...] = (),
    foot: float = 0.0,
    tiles: tuple[float, float] | None = None,
) -> Layout:
    width, height = tiles or (paper.width_mm, paper.height_mm)
    return Layout(
        paper=paper,
        scale=extent.scale,
        width=width,
        height=height,
        left=left,
        bottom=MARGIN + TOP + extent.height,
        columns=columns,
        first_column=first_column,
        later=later,
        foot=foot,
        tiled=tiles is not None,
        rail_lines=extent.rails,
        lines_below_floor=extent.below_floor,
    )


def _later(legend: Legend, paper: Paper) -> tuple[Columns, ...]:
    """Return the columns of the further sheets."""
    across = int((paper.width_mm - 2 * MARGIN + COLUMN_GAP) / (COLUMN + COLUMN_GAP))
    columns = flow(legend.blocks, paper.height_mm - 2 * MARGIN - HEADING, again=legend.again)
    return tuple(columns[n : n + across] for n in range(0, len(columns), across))


def _too_high(legend: Legend, room: float) -> bool:
    blocks = zip_longest(legend.blocks, legend.again, fillvalue=0.0)
    return max((*(block + again for block, again in blocks), legend.title)) > room


def flow(heights: tuple[float, ...], room: float, *, again: tuple[float, ...] = ()) -> Columns:
    """Return which lines stand in which column of height ``room``; one at least stands in each.

    Args:
        heights: The heights of the lines.
        room: The height of a column.
        again: What stands above each of the first lines where it begins a column, >= 0.
    """
    columns: list[list[int]] = [[]]
    filled = 0.0
    for k, height in enumerate(heights):
        if filled + height > room and columns[-1]:
            columns.append([])
            filled = again[k] if k < len(again) else 0.0
        columns[-1].append(k)
        filled += height
    return tuple(tuple(column) for column in columns)
