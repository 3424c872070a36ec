"""Where the section of a rail stands on its sheet, its scale, and where a long tool breaks off."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.papers.kit.drafting import clipped
from cleatwright.papers.kit.paper import SCALES, Paper
from cleatwright.papers.kit.svg import Point
from cleatwright.papers.rail_section.view import Loop, RailSectionView

MARGIN = 8.0
LEFT, RIGHT, ABOVE, BELOW = 36.0, 33.0, 4.0, 28.0
EDGE, INSIDE = 4.0, 5.0
STUD = 16.0
# a tool too long for the sheet is broken off sooner than drawn smaller than this
BREAK_FROM = 2


@dataclass(frozen=True)
class Frame:
    """Where the drawing stands.

    Args:
        scale: The k of 1:k.
        paper: The sheet.
        datum: Place of the rail's top edge, in real mm from the upper left corner.
        y0_mm: Left end of what is drawn.
        y1_mm: Right end.
        z0_mm: Lower end.
        z1_mm: Upper end.
        tools: The outlines of the tool, broken off where they leave the drawing.
        path: The way of the tool.
        below_mm: How much of the tool is left out at the lower end.
        above_mm: How much of it is left out at the upper end.
    """

    scale: int
    paper: Paper
    datum: Point
    y0_mm: float
    y1_mm: float
    z0_mm: float
    z1_mm: float
    tools: tuple[Loop, ...]
    path: Loop
    below_mm: float
    above_mm: float

    def at(self, y_mm: float, z_mm: float) -> Point:
        """Return the place on the sheet of a point of the section."""
        return self.datum[0] + y_mm, self.datum[1] - z_mm

    def loop(self, loop: Loop) -> list[Point]:
        """Return a closed line on the sheet."""
        return [self.at(y, z) for y, z in loop]


def frame_of(view: RailSectionView, paper: Paper, *, panel: float) -> Frame:
    """Return the largest usual scale at which rail and holder fit, in the middle of their room.

    Args:
        view: What is drawn.
        paper: The sheet, upright.
        panel: Height of the words at its foot, in paper millimetres.
    """
    room_x = paper.width_mm - 2 * MARGIN - LEFT - RIGHT
    room_z = paper.height_mm - 2 * MARGIN - ABOVE - BELOW - panel - 2 * EDGE
    whole, least = _heights(view, whole=True), _heights(view, whole=False)
    k = _scale(view, room=(room_x, room_z), whole=whole, least=least)
    y0, y1 = _depths(view, k)
    low, high = _window(whole, least, room=room_z * k)
    spare_x, spare_z = room_x - (y1 - y0) / k, room_z - (high - low) / k
    tools = tuple(part for loop in view.hung.tools for part in clipped(loop, low=low, high=high))
    return Frame(
        scale=k,
        paper=paper,
        datum=(
            (MARGIN + LEFT + spare_x / 2) * k - y0,
            (MARGIN + ABOVE + EDGE + spare_z / 2) * k + high,
        ),
        y0_mm=y0,
        y1_mm=y1,
        z0_mm=low - EDGE * k,
        z1_mm=high + EDGE * k,
        tools=tools,
        path=_path(view, low=low + INSIDE * k, high=high - INSIDE * k),
        below_mm=max(0.0, low - min(z for loop in view.hung.tools for _, z in loop)),
        above_mm=max(0.0, max(z for loop in view.hung.tools for _, z in loop) - high),
    )


def _scale(
    view: RailSectionView,
    *,
    room: tuple[float, float],
    whole: tuple[float, float],
    least: tuple[float, float],
) -> int:
    """Return the k of the largest usual scale at which all fits that must; the last if none."""
    for k in SCALES:
        y0, y1 = _depths(view, k)
        low, high = whole if k < BREAK_FROM else least
        if (y1 - y0) / k <= room[0] and (high - low) / k <= room[1]:
            return k
    return SCALES[-1]


def _depths(view: RailSectionView, scale: int) -> tuple[float, float]:
    """Return how far left and right the drawing goes."""
    behind = view.profile.thickness_mm + view.wall.lining_mm
    right = max(
        view.load.distance_mm,
        *(y for y, _ in view.hung.path),
        *(y for loop in view.hung.outlines for y, _ in loop),
    )
    return -(behind + max(view.stud_shown_mm, STUD * scale)), right


def _heights(view: RailSectionView, *, whole: bool) -> tuple[float, float]:
    """Return how far down and up rail and holder go, with the tool and its way when ``whole``."""
    hung = view.hung
    heights = [
        -view.profile.height_mm,
        -view.load.depth_mm,
        hung.top_mm + hung.lift_mm,
        *(z for body in hung.beyond for loop in body for _, z in loop),
    ]
    if whole:
        heights += [z for loop in hung.tools for _, z in loop]
        heights += [z for _, z in hung.path]
    return min(heights), max(heights)


def _window(
    whole: tuple[float, float], least: tuple[float, float], *, room: float
) -> tuple[float, float]:
    """Return what is drawn of the whole height: all of it, or the least and what room is left."""
    if whole[1] - whole[0] <= room:
        return whole
    spare = max(0.0, room - (least[1] - least[0]))
    down, up = least[0] - whole[0], whole[1] - least[1]
    below = min(down, max(spare / 2, spare - up))
    return least[0] - below, least[1] + min(up, spare - below)


def _path(view: RailSectionView, *, low: float, high: float) -> Loop:
    """Return the way of the tool, moved up or down along a tool that is broken off."""
    heights = [z for _, z in view.hung.path]
    tool = [z for loop in view.hung.tools for _, z in loop]
    up = max(0.0, low - min(heights)) if min(tool) < low else 0.0
    down = max(0.0, max(heights) - high) if max(tool) > high else 0.0
    return tuple((y, z + up - down) for y, z in view.hung.path)
