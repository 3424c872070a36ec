"""The dimensions of the section of a rail, its load and the way of the tool."""

from __future__ import annotations

from itertools import pairwise

from cleatwright.papers.kit.drafting import BLUE, CAUTION, PALE, arrow, dimension
from cleatwright.papers.kit.svg import Face, Pen, Point, Sheet, wrap
from cleatwright.papers.rail_section.frame import EDGE, Frame
from cleatwright.papers.rail_section.view import RailSectionView

TEXT = 2.5
LEADING = 3.5
THIN = Pen(BLUE, 0.15)
LEVEL = 5.5
LABEL_ROOM = 30.0
LOAD = Pen(CAUTION, 0.5)
WAY = Pen("#1D6B3A", 0.4)
ARROW, PRESS = 12.0, 9.0


def draw_marks(sheet: Sheet, view: RailSectionView, frame: Frame) -> None:
    """Draw everything that is measured, the load, and the way out."""
    sheet.layer("dimensions")
    _heights(sheet, view, frame)
    _level(sheet, view, frame)
    _bevel(sheet, view, frame)
    _lift(sheet, view, frame)
    _depths(sheet, view, frame)
    sheet.layer("load")
    _load(sheet, view, frame)
    sheet.layer("way-out")
    _way(sheet, frame)
    sheet.layer("labels")
    _labels(sheet, view, frame)


def _face(colour: str = BLUE) -> Face:
    return Face(TEXT, colour, halo=True)


def _heights(sheet: Sheet, view: RailSectionView, frame: Frame) -> None:
    """Measure the rail's height and the depth of bearing, left of the wall."""
    k = sheet.scale
    left = frame.at(frame.y0_mm, 0.0)[0]
    rows = [(view.profile.height_mm, ""), (view.load.depth_mm, "h ")]
    for n, (down, name) in enumerate(rows, start=1):
        x = left - n * LEVEL * k
        top, foot = frame.at(0.0, 0.0)[1], frame.at(0.0, -down)[1]
        sheet.line((x - 1.0 * k, foot), frame.at(-view.profile.thickness_mm * (2 - n), -down), THIN)
        dimension(
            sheet, (x, top), (x, foot), words=f"{name}{view.length(down)}", face=_face(), pen=THIN
        )


def _level(sheet: Sheet, view: RailSectionView, frame: Frame) -> None:
    """Say how high the top edge is, at the left."""
    k = sheet.scale
    x, y = frame.at(frame.y0_mm, 0.0)
    end = x - (2 * LEVEL + 24.0) * k
    sheet.line((end, y), frame.at(0.0, 0.0), THIN)
    mark = [(end + 2.0 * k, y), (end + 0.8 * k, y - 1.8 * k), (end + 3.2 * k, y - 1.8 * k)]
    sheet.polyline(mark, Pen(BLUE, 0.2), closed=True)
    wall = view.wall
    words = [
        "top edge",
        f"{view.length(wall.top_mm + wall.floor_gap_mm)} above the floor,",
        f"{view.length(wall.top_mm)} above the wall's lower edge",
    ]
    lines = [line for text in words for line in wrap(text, size=TEXT, width=LABEL_ROOM)]
    for n, line in enumerate(reversed(lines)):
        sheet.text((end, y - (2.8 + n * LEADING) * k), line, _face(), name="level")


def _bevel(sheet: Sheet, view: RailSectionView, frame: Frame) -> None:
    k = sheet.scale
    thick, slant = view.profile.thickness_mm, view.profile.slant_mm
    on = frame.at(-0.75 * thick, -0.75 * slant)
    away = frame.at(-thick - view.wall.lining_mm, 0.0)
    end = (away[0] - 1.0 * k, away[1] - 3.0 * k)
    sheet.line(end, on, THIN)
    sheet.circle(on, 0.4 * k, Pen(fill=BLUE))
    face = Face(TEXT, BLUE, anchor="end", halo=True)
    sheet.text((end[0] - 0.6 * k, end[1]), f"bevel {view.profile.bevel_deg:g}°", face)


def _lift(sheet: Sheet, view: RailSectionView, frame: Frame) -> None:
    """Dash where the top of the holder is when it comes off the rail."""
    k, hung, thick = sheet.scale, view.hung, view.profile.thickness_mm
    low, high = hung.top_mm, hung.top_mm + hung.lift_mm
    ends = [frame.at(-thick, high), frame.at(hung.reach_mm, high)]
    sheet.line(ends[0], ends[1], Pen(PALE, 0.25, dash=(1.6, 1.0)))
    x = frame.at(-thick, 0.0)[0] + 2.0 * k
    arrow(sheet, (x, frame.at(0.0, low)[1]), (x, frame.at(0.0, high)[1]), Pen(BLUE, 0.25))


def _depths(sheet: Sheet, view: RailSectionView, frame: Frame) -> None:
    """Measure outwards, below the drawing: rail, holder, tool, and last the lever of the load."""
    k, thick, hung = sheet.scale, view.profile.thickness_mm, view.hung
    base = frame.at(0.0, frame.z0_mm)[1]
    wall_x, face_x = frame.at(-thick, 0.0)[0], frame.at(0.0, 0.0)[0]
    rows = (
        (0.0, -view.profile.height_mm, f"rail {view.length(thick)}, flat on the wall"),
        (hung.reach_mm, None, f"holder {view.length(hung.reach_mm + thick)} from the wall"),
        (hung.tool_reach_mm, None, f"tool {view.length(hung.tool_reach_mm + thick)} from the wall"),
    )
    beside = Face(TEXT, BLUE, anchor="end", halo=True)
    for n, (y_mm, z_mm, words) in enumerate(rows, start=1):
        x, level = frame.at(y_mm, 0.0)[0], base + n * LEVEL * k
        tip = z_mm if z_mm is not None else _lowest_at(view, y_mm)
        tip = min(max(tip, frame.z0_mm), frame.z1_mm)
        sheet.line((x, frame.at(0.0, tip)[1]), (x, level + 1.0 * k), THIN)
        dimension(sheet, (wall_x, level), (x, level), words="", face=_face(), pen=THIN)
        sheet.text((wall_x - 1.6 * k, level + 0.36 * TEXT * k), words, beside, name="depth")
    low = base + (len(rows) + 1) * LEVEL * k
    sheet.line((wall_x, base), (wall_x, low - LEVEL * k + 1.0 * k), THIN)
    sheet.line((face_x, base), (face_x, low + 1.0 * k), THIN)
    x = frame.at(view.load.distance_mm, 0.0)[0]
    words = f"e {view.length(view.load.distance_mm)}"
    dimension(sheet, (face_x, low), (x, low), words=words, face=_face(), pen=THIN)


def _lowest_at(view: RailSectionView, y_mm: float) -> float:
    """Return the lowest corner of holder and tool that reaches so far out."""
    return min(z for loop in view.hung.outlines for y, z in loop if y >= y_mm)


def _load(sheet: Sheet, view: RailSectionView, frame: Frame) -> None:
    """Draw the line of the weight with its arrow, and what presses back at the foot."""
    k = sheet.scale
    x, top = frame.at(view.load.distance_mm, frame.z1_mm)
    low = frame.at(0.0, frame.z0_mm)[1] + (4 * LEVEL + 1.0) * k
    sheet.line((x, top + ARROW * k), (x, low), Pen(CAUTION, 0.18, dash=(4.0, 0.8, 0.6, 0.8)))
    arrow(sheet, (x, top), (x, top + ARROW * k), LOAD)
    bearing = _bearing(view, frame)
    arrow(sheet, (bearing[0] + PRESS * k, bearing[1]), bearing, LOAD)


def _bearing(view: RailSectionView, frame: Frame) -> Point:
    """Return where the holder bears: on the wall or on the rail's face."""
    y = -view.profile.thickness_mm if view.load.foot_on_wall else 0.0
    return frame.at(y, -view.load.depth_mm)


def _way(sheet: Sheet, frame: Frame) -> None:
    """Draw the way of the tool, move by move."""
    path = [frame.at(y, z) for y, z in frame.path]
    sheet.circle(path[0], 0.8 * sheet.scale, Pen(WAY.stroke, 0.3, "#FFFFFF"))
    for start, end in pairwise(path):
        arrow(sheet, start, end, WAY)


def _labels(sheet: Sheet, view: RailSectionView, frame: Frame) -> None:
    """Write what load and way are, at the right edge, each at the height of what it names."""
    k, load = sheet.scale, view.load
    x = frame.at(frame.y1_mm, 0.0)[0] + 3.0 * k
    line_x, top = frame.at(load.distance_mm, frame.z1_mm)
    bearing, end = _bearing(view, frame), frame.at(*frame.path[-1])
    way = "way out: " + ", then ".join(_move(view, move) for move in view.hung.way_out)
    hung = view.hung
    lifted = frame.at(hung.reach_mm, hung.top_mm + hung.lift_mm)
    wanted = [
        (lifted, f"lift {view.length(hung.lift_mm)} to unhook", BLUE),
        ((line_x, top + 3.0 * k), f"W = {load.weight_n:.1f} N", CAUTION),
        (end, way, WAY.stroke),
        ((bearing[0] + PRESS * k, bearing[1]), f"bearing: {load.press_n:.1f} N", CAUTION),
    ]
    for left_out, z in ((frame.above_mm, frame.z1_mm), (frame.below_mm, frame.z0_mm)):
        if left_out >= 0.05:
            words = f"broken off: the tool goes on for {view.length(left_out)}"
            wanted.append((_broken(sheet, frame, z), words, PALE))
    free = top
    for target, words, colour in sorted(wanted, key=lambda one: one[0][1]):
        first = max(target[1], free)
        sheet.line((x - 0.8 * k, first - 0.9 * k), target, Pen(colour, 0.13))
        for n, line in enumerate(wrap(words, size=TEXT, width=LABEL_ROOM)):
            y = first + n * LEADING * k
            sheet.text((x, y), line, _face(colour), name="label")
            free = y + (LEADING + 1.2) * k


def _broken(sheet: Sheet, frame: Frame, z_mm: float) -> Point:
    """Draw a zigzag over the end of a tool that is broken off, and return its right end."""
    k = sheet.scale
    inner = z_mm + EDGE * k if z_mm < 0.0 else z_mm - EDGE * k
    ends = [y for loop in frame.tools for y, z in loop if abs(z - inner) < 1e-6]
    (x0, y), (x1, _) = frame.at(min(ends), inner), frame.at(max(ends), inner)
    x0, x1 = x0 - 1.0 * k, x1 + 1.0 * k
    zigzag = [(x0 + (x1 - x0) * n / 8, y + (0.9 * k if n % 2 else -0.9 * k)) for n in range(9)]
    sheet.polyline(zigzag, Pen("#FFFFFF", 2.4))
    sheet.polyline(zigzag, Pen(PALE, 0.25))
    return zigzag[-1]


def _move(view: RailSectionView, move: tuple[float, float, float]) -> str:
    x, y, z = move
    parts = [
        f"{word} {view.length(abs(value))}"
        for value, word in (
            (z, "up" if z > 0.0 else "down"),
            (y, "to the front" if y > 0.0 else "to the wall"),
            (x, "to the left" if x > 0.0 else "to the right"),
        )
        if abs(value) >= 0.05
    ]
    return " and ".join(parts)
