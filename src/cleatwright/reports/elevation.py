"""The wall seen from the front, as an SVG drawing to scale."""

from __future__ import annotations

from collections.abc import Iterator

from cleatwright.reports.elevation_column import (
    BLUE,
    INK,
    PALE,
    block_heights,
    draw_column,
)
from cleatwright.reports.elevation_dimensions import draw_dimensions
from cleatwright.reports.elevation_layout import Layout, lay_out
from cleatwright.reports.elevation_view import ElevationView, HolderView, Polygon, Rect, letter
from cleatwright.reports.svg import Face, Pen, Point, Sheet, text_width

BIRCH = "#DCC59C"
RAIL_EDGE = "#7A5F2E"
HOLDER_FILL = "#D5DDE2"
TOOL_FILL = "#FFFFFF"
BALLOON = 2.9
BALLOON_SIZE = 2.6
HATCH_STEP = 1.8
GROUND_STEP = 4.0


def elevation_svg(view: ElevationView, *, scale: int | None = None) -> bytes:
    """Return the drawing; the same view always gives the same bytes.

    The view box is in real millimetres; the paper is A3 where the drawing fits.

    Args:
        view: What is drawn.
        scale: The k of 1:k, >= 1; the largest usual scale that fits on A3 when None.

    Raises:
        MeasureError: The scale is less than 1.
    """
    lay = lay_out(view, blocks=block_heights(view), scale=scale)
    k = float(lay.scale)
    sheet = Sheet(width=lay.width * k, height=lay.height * k, scale=k, title=view.title)
    sheet.layer("paper")
    sheet.box((0.0, 0.0), (lay.width * k, lay.height * k), Pen(fill="#FFFFFF"))
    _wall(sheet, view, lay)
    _rails(sheet, view, lay)
    _obstacles(sheet, view, lay)
    _holders(sheet, view, lay)
    _hidden_rails(sheet, view, lay)
    draw_dimensions(sheet, view, lay)
    _balloons(sheet, view, lay)
    draw_column(sheet, view, lay)
    return sheet.to_bytes()


def _at(lay: Layout, x: float, z: float) -> Point:
    """Return the place on the sheet of a point of the wall, both in real millimetres."""
    return lay.left * lay.scale + x, lay.bottom * lay.scale - z


def _rect(lay: Layout, rect: Rect) -> tuple[Point, Point]:
    x0, x1, z0, z1 = rect
    return _at(lay, x0, z1), (x1 - x0, z1 - z0)


def _wall(sheet: Sheet, view: ElevationView, lay: Layout) -> None:
    k = float(lay.scale)
    sheet.layer("wall")
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
        low = rail.z_top_mm - rail.height_mm
        corner, size = _rect(lay, (rail.x0_mm, rail.x1_mm, low, rail.z_top_mm))
        sheet.box(corner, size, Pen(INK, 0.2, BIRCH), name="rail")


def _hidden_rails(sheet: Sheet, view: ElevationView, lay: Layout) -> None:
    """Dash the edges of the rails over the holders that hide them, and cross their screws."""
    sheet.layer("hidden-rails")
    r = 0.8 * lay.scale
    for rail in view.rails:
        low = rail.z_top_mm - rail.height_mm
        corner, size = _rect(lay, (rail.x0_mm, rail.x1_mm, low, rail.z_top_mm))
        sheet.box(corner, size, Pen(RAIL_EDGE, 0.18, dash=(1.2, 0.8)))
        for x in rail.screws_mm:
            a, b = _at(lay, x, rail.z_top_mm - rail.height_mm / 2)
            sheet.lines([((a - r, b), (a + r, b)), ((a, b - r), (a, b + r))], Pen(INK, 0.25))


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
    sheet.layer("tools")
    for holder in holders:
        for polygon in holder.tools:
            _silhouette(sheet, lay, polygon, Pen(PALE, 0.18, TOOL_FILL, opacity=0.9))
    sheet.layer("holders")
    for holder in holders:
        for polygon in holder.holder:
            _silhouette(sheet, lay, polygon, Pen(INK, 0.25, HOLDER_FILL, opacity=0.92))


def _silhouette(sheet: Sheet, lay: Layout, polygon: Polygon, pen: Pen) -> None:
    sheet.polyline([_at(lay, x, z) for x, z in polygon], pen, closed=True)


def _balloons(sheet: Sheet, view: ElevationView, lay: Layout) -> None:
    """Write letters on obstacles and numbers on holders, each on a free spot."""
    k = float(lay.scale)
    sheet.layer("balloons")
    white = Pen(INK, 0.25, "#FFFFFF")
    taken: list[Point] = []
    screws = [
        _at(lay, x, rail.z_top_mm - rail.height_mm / 2)
        for rail in view.rails
        for x in rail.screws_mm
    ]
    for n, obstacle in enumerate(view.obstacles):
        x0, x1, z0, z1 = obstacle.box_mm
        x, y = _at(lay, (x0 + x1) / 2, (z0 + z1) / 2)
        words = letter(n)
        half = max(text_width(words, BALLOON_SIZE) / 2 + 0.8, 2.2) * k
        sheet.box((x - half, y - 2.2 * k), (2 * half, 4.4 * k), white)
        face = Face(BALLOON_SIZE, INK, anchor="middle")
        sheet.text((x, y + 0.36 * BALLOON_SIZE * k), words, face, name="obstacle-letter")
        taken.append((x, y))
    for holder in sorted(view.holders, key=lambda h: h.number):
        own, spots = _spots(holder, view, lay)
        reach = 2.15 * BALLOON * k
        clear = 1.4 * BALLOON * k
        free = (p for p in spots if all(_apart(p, other) >= reach for other in taken))
        x, y = next((p for p in free if all(_apart(p, s) >= clear for s in screws)), own)
        taken.append((x, y))
        if _apart((x, y), own) > BALLOON * k:
            sheet.line(own, (x, y), Pen(INK, 0.18))
            sheet.circle(own, 0.5 * k, Pen(fill=INK))
        sheet.circle((x, y), BALLOON * k, white)
        face = Face(BALLOON_SIZE, INK, bold=True, anchor="middle")
        at = (x, y + 0.36 * BALLOON_SIZE * k)
        sheet.text(at, str(holder.number), face, name="balloon")


def _apart(a: Point, b: Point) -> float:
    return max(abs(a[0] - b[0]), abs(a[1] - b[1]))


def _spots(holder: HolderView, view: ElevationView, lay: Layout) -> tuple[Point, list[Point]]:
    """Return the middle of the holder, and places for its balloon from the best to the worst."""
    points = [point for polygon in (*holder.holder, *holder.tools) for point in polygon]
    plate = [point for polygon in holder.holder for point in polygon] or points
    if not plate:
        x0, x1, z0, z1 = holder.lift or (0.0, 0.0, 0.0, 0.0)
        plate = points = [(x0, z0), (x1, z1)]
    xs, zs = [x for x, _ in plate], [z for _, z in plate]
    x, z = (min(xs) + max(xs)) / 2, (min(zs) + max(zs)) / 2
    step = 0.75 * BALLOON * lay.scale
    low = min(z for _, z in points)
    down = [(x, z - n * step) for n in range(1, int((z - low) / step) + 1)]
    ring = [
        (x + a * n * step, z + b * n * step)
        for n in range(1, 40)
        for a, b in ((0, 1), (0, -1), (1, 0), (-1, 0), (1, 1), (-1, 1), (1, -1), (-1, -1))
    ]
    room = 1.2 * BALLOON * lay.scale
    inside = [
        (a, b)
        for a, b in ((x, z), *down, *ring)
        if room <= a <= view.width_mm - room and room <= b <= view.height_mm - room
    ]
    return _at(lay, x, z), [_at(lay, a, b) for a, b in inside]
