"""The wall seen from the front, as SVG drawings to scale, one for each sheet."""

from __future__ import annotations

from collections.abc import Iterator

from cleatwright.base.stages.stage import Stage
from cleatwright.papers.elevation.balloons import draw_balloons
from cleatwright.papers.elevation.column import draw_column, draw_foot, legend_sheets
from cleatwright.papers.elevation.dimensions import draw_dimensions
from cleatwright.papers.elevation.free_seats import draw_seats
from cleatwright.papers.elevation.hidden import hidden_lines
from cleatwright.papers.elevation.layout import AUTO, Layout, lay_out
from cleatwright.papers.elevation.legend import BLUE, CAUTION, INK, PALE, legend_of
from cleatwright.papers.elevation.tiles import tile_count, tile_sheets
from cleatwright.papers.elevation.view import ElevationView, HolderView, Polygon, Rect
from cleatwright.papers.kit.drafting import JOINT
from cleatwright.papers.kit.drawn import Pages, drawn_pages
from cleatwright.papers.kit.svg import Face, Pen, Point, Sheet

BIRCH = "#DCC59C"
STAYS = "#EFEAE0"
RAIL_EDGE = "#7A5F2E"
HOLDER_FILL = "#D5DDE2"
TOOL_FILL = "#FFFFFF"
EASY_FILL = "#E6F2E4"
FAR_FILL = "#F0EFEC"
HATCH_STEP = 1.8
STAYS_STEP = 3.2
GROUND_STEP = 4.0
# of the cross of a screw into the wall itself
SCREW_HALF = 1.1
HOLDER = Pen(INK, 0.25, HOLDER_FILL)
TOOL = Pen(PALE, 0.18, TOOL_FILL)
HIDDEN = Pen(PALE, 0.13, dash=(0.9, 0.6))


def elevation_pages(
    view: ElevationView, *, sheet: str = AUTO, scale: int | None = None
) -> tuple[bytes, ...]:
    """Return the sheets of the drawing as SVG files; the same view always gives the same bytes.

    The wall comes first, on several sheets where one has no room for it; its view box is in
    real millimetres. Sheets with the legend follow when it does not fit beside the wall.

    Args:
        view: What is drawn.
        sheet: Name of the sheet, or "auto" for the smallest of the A series that reads well.
        scale: The k of 1:k, >= 1; the largest usual scale that fits on the sheet when None.

    Raises:
        MeasureError: The scale is less than 1.
        UnknownNameError: There is no such sheet.
        DesignError: The scale leaves the numbers of the holders no room.
    """
    lay = lay_out(view, legend_of(view), sheet=sheet, scale=scale)
    tiles = tile_count(lay)
    drawing = _drawing(view, lay, legend_page=tiles + 1)
    first = tile_sheets(drawing, view, lay) if lay.tiled else (drawing.to_bytes(),)
    return (*first, *legend_sheets(view, lay, before=tiles))


def elevation_count(view: ElevationView, *, sheet: str = AUTO) -> int:
    """Return on how many sheets ``elevation_pages`` draws; nothing is drawn for it."""
    lay = lay_out(view, legend_of(view), sheet=sheet, scale=None)
    return tile_count(lay) + len(lay.later)


ELEVATION: Stage[tuple[ElevationView, str], Pages] = drawn_pages(
    "elevation", lambda given: elevation_pages(given[0], sheet=given[1])
)
"""From the view of a wall, and the name of the paper, to its sheets."""


def _drawing(view: ElevationView, lay: Layout, *, legend_page: int) -> Sheet:
    k = float(lay.scale)
    sheet = Sheet(width=lay.width * k, height=lay.height * k, scale=k, title=view.title)
    sheet.layer("paper")
    sheet.box((0.0, 0.0), (lay.width * k, lay.height * k), Pen(fill="#FFFFFF"))
    _reach(sheet, view, lay)
    _wall(sheet, view, lay)
    _rails(sheet, view, lay)
    _obstacles(sheet, view, lay)
    draw_seats(sheet, view, lay)
    _holders(sheet, view, lay)
    _hidden_rails(sheet, view, lay)
    _screws(sheet, view, lay)
    draw_dimensions(sheet, view, lay)
    draw_balloons(sheet, view, lay)
    if lay.foot:
        draw_foot(sheet, view, lay, legend_page=legend_page)
    else:
        draw_column(sheet, view, lay)
    return sheet


def _at(lay: Layout, x: float, z: float) -> Point:
    """Return the place on the sheet of a point of the wall, both in real millimetres."""
    return lay.left * lay.scale + x, lay.bottom * lay.scale - z


def _rect(lay: Layout, rect: Rect) -> tuple[Point, Point]:
    x0, x1, z0, z1 = rect
    return _at(lay, x0, z1), (x1 - x0, z1 - z0)


def _reach(sheet: Sheet, view: ElevationView, lay: Layout) -> None:
    """Tint what is reached with ease, and what is not reached at all."""
    if view.reach is None:
        return
    sheet.layer("reach")
    band, gap = view.reach, view.floor_gap_mm
    for name, low, high, fill in (
        ("easy", band.low_mm, band.high_mm, EASY_FILL),
        ("too-low", 0.0, band.lowest_mm, FAR_FILL),
        ("too-high", band.highest_mm, gap + view.height_mm, FAR_FILL),
    ):
        z0, z1 = max(low - gap, 0.0), min(high - gap, view.height_mm)
        if z0 < z1:
            corner, size = _rect(lay, (0.0, view.width_mm, z0, z1))
            sheet.box(corner, size, Pen(fill=fill), name=name)


def _wall(sheet: Sheet, view: ElevationView, lay: Layout) -> None:
    k = float(lay.scale)
    sheet.layer("wall")
    for z in view.joints_mm:
        sheet.line(_at(lay, 0.0, z), _at(lay, view.width_mm, z), Pen(JOINT, 0.13))
    chain = Pen(PALE, 0.15, dash=(4.0, 1.0, 0.6, 1.0))
    for x in sorted(view.studs_mm):
        sheet.line(_at(lay, x, 0.0), _at(lay, x, view.height_mm), chain)
    corner, size = _rect(lay, (0.0, view.width_mm, 0.0, view.height_mm))
    sheet.box(corner, size, Pen(INK, 0.5), name="wall-outline")
    x, y = _at(lay, 0.0, 0.0)
    sheet.circle((x, y), 1.1 * k, Pen(BLUE, 0.25, "#FFFFFF"))
    sheet.lines(
        [((x - 1.8 * k, y), (x + 1.8 * k, y)), ((x, y - 1.8 * k), (x, y + 1.8 * k))],
        Pen(BLUE, 0.18),
    )
    sheet.layer("floor")
    left, floor = _at(lay, 0.0, -view.floor_gap_mm)
    right = left + view.width_mm
    sheet.line((left - 4 * k, floor), (right + 4 * k, floor), Pen(INK, 0.5))
    count = int((view.width_mm + 6 * k) / (GROUND_STEP * k))
    ground = [left - 2 * k + n * GROUND_STEP * k for n in range(count + 1)]
    sheet.lines([((g, floor), (g - 1.5 * k, floor + 1.5 * k)) for g in ground], Pen(INK, 0.15))
    words = "Floor"
    if view.floor_gap_mm:
        words = f"Floor, {view.length(view.floor_gap_mm)} below the lower edge of the wall"
    sheet.text((left, floor + 4.6 * k), words, Face(2.5, INK), name="floor-label")


def _rails(sheet: Sheet, view: ElevationView, lay: Layout) -> None:
    sheet.layer("rails")
    for rail in view.rails:
        corner, size = _rect(lay, rail.strip)
        if rail.stays:
            sheet.box(corner, size, Pen(INK, 0.2, STAYS), name="rail-stays")
            lines = list(_hatch(corner, size, STAYS_STEP * lay.scale))
            sheet.lines(lines, Pen(RAIL_EDGE, 0.13))
        else:
            sheet.box(corner, size, Pen(INK, 0.2, BIRCH), name="rail")


def _hidden_rails(sheet: Sheet, view: ElevationView, lay: Layout) -> None:
    """Dash the edges of the rails over the holders that hide them, and cross their screws."""
    sheet.layer("hidden-rails")
    # the two screws of a stud lie one above the other: at a small scale their crosses shrink
    r = min([0.8 * lay.scale, *(0.14 * rail.height_mm for rail in view.rails)])
    for rail in view.rails:
        corner, size = _rect(lay, rail.strip)
        sheet.box(corner, size, Pen(RAIL_EDGE, 0.18, dash=(1.2, 0.8)))
        for point in rail.screws:
            a, b = _at(lay, point.x_mm, point.z_mm)
            sheet.lines([((a - r, b), (a + r, b)), ((a, b - r), (a, b + r))], Pen(INK, 0.25))


def _screws(sheet: Sheet, view: ElevationView, lay: Layout) -> None:
    """Cross the screws into the wall itself over all that hides them, red beside the studs."""
    sheet.layer("wall-screws")
    for holder in view.holders:
        points = holder.screw_points_mm
        # crosses of rows that lie near each other stay apart
        near = [abs(a - b) for _, a, _ in points for _, b, _ in points if a != b]
        r = min([SCREW_HALF * lay.scale, *(0.4 * one for one in near)])
        for x, z, beside in points:
            a, b = _at(lay, x, z)
            cross = [((a - r, b), (a + r, b)), ((a, b - r), (a, b + r))]
            sheet.circle((a, b), r, Pen(fill="#FFFFFF"))
            sheet.lines(cross, Pen(CAUTION if beside else INK, 0.3))


def _obstacles(sheet: Sheet, view: ElevationView, lay: Layout) -> None:
    sheet.layer("obstacles")
    for obstacle in view.obstacles:
        corner, size = _rect(lay, obstacle.box_mm)
        sheet.box(corner, size, Pen(INK, 0.3, "#FFFFFF"), name="obstacle")
        sheet.lines(list(_hatch(corner, size, HATCH_STEP * lay.scale)), Pen(INK, 0.13))


def _hatch(corner: Point, size: Point, step: float) -> Iterator[tuple[Point, Point]]:
    """Yield lines at 45 degrees within a box."""
    (x, y), (width, height) = corner, size
    count = int((width + height) / step)
    for n in range(1, count + 1):
        c = n * step
        start = (x + min(c, width), y + max(c - width, 0.0))
        end = (x + max(c - height, 0.0), y + min(c, height))
        if start != end:
            yield start, end


def _holders(sheet: Sheet, view: ElevationView, lay: Layout) -> None:
    holders = sorted(view.holders, key=lambda h: h.number)
    sheet.layer("lift")
    for holder in holders:
        if holder.lift:
            corner, size = _rect(lay, holder.lift)
            sheet.box(corner, size, Pen(BLUE, 0.13, "none", (1.2, 0.8), 0.45))
    # from the back to the front: plates, tools, and what hides tools
    sheet.layer("holders")
    for holder in holders:
        for polygon in holder.holder:
            _silhouette(sheet, lay, polygon, HOLDER)
    sheet.layer("tools")
    for holder in holders:
        for polygon in holder.tools:
            _silhouette(sheet, lay, polygon, TOOL)
    _fronts(sheet, holders, lay)


def _fronts(sheet: Sheet, holders: list[HolderView], lay: Layout) -> None:
    """Draw the parts of holders that lie before their tools, and the hidden edges of the tools."""
    sheet.layer("holder-fronts")
    for holder in holders:
        rings = [[_at(lay, x, z) for x, z in loop] for loop in holder.front]
        if rings:
            sheet.rings(rings, HOLDER)
    sheet.layer("hidden-tools")
    for holder in holders:
        for line in hidden_lines(holder.tools, holder.front):
            sheet.polyline([_at(lay, x, z) for x, z in line], HIDDEN)


def _silhouette(sheet: Sheet, lay: Layout, polygon: Polygon, pen: Pen) -> None:
    sheet.polyline([_at(lay, x, z) for x, z in polygon], pen, closed=True)
