"""Brackets in the (y, z) plane with a seat on top, and the seats of bars and discs."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cleatwright.features.clearance import CLEAR_MM
from cleatwright.parts.grips import LyingBar
from cleatwright.parts.tool import FittedTool, Size
from cleatwright.shapes.extent import joint_extent
from cleatwright.shapes.facts import Bounds
from cleatwright.shapes.outline import Outline, Point, polygon

# flat enough for a low lip, steep enough to centre: a push of 0.58 of the weight drives it out
FLANK_DEG = 30.0
TAN = math.tan(math.radians(FLANK_DEG))
COS = math.cos(math.radians(FLANK_DEG))
# how high the flanks touch a circle, over its radius
TOUCH = 1.0 - COS
TIP_MM = 4.0
# a seat that begins this far off the plate gets a back of its own
LEAST_BACK_MM = 4.0
LEAD_MM = 1.0


@dataclass(frozen=True)
class Trough:
    """The surface of a seat from the plate out to its lip; what lies in it rests near z = 0.

    Args:
        points: The surface as (y, z), from the plate's front to the top of the lip.
        axis_mm: Where the middle of the tool lies along y.
        rest_mm: Height at which the underside of the tool rests (<= 0).
    """

    points: tuple[Point, ...]
    axis_mm: float
    rest_mm: float

    @property
    def end_mm(self) -> float:
        """Return the y of the top of the lip."""
        return self.points[-1][0]

    @property
    def lip_mm(self) -> float:
        """Return the height of the lip."""
        return self.points[-1][1]

    @property
    def root_mm(self) -> float:
        """Return the height of the surface at the plate."""
        return self.points[0][1]

    @property
    def lowest_mm(self) -> float:
        """Return the lowest z of the surface."""
        return min(z for _, z in self.points)


def flat_trough(
    made_mm: float, *, axis_mm: float, plate_mm: float, lip_mm: float, sloped: bool
) -> Trough:
    """Return the seat of a box-shaped thing: a floor at z = 0, a lip and, off the plate, a back.

    Args:
        made_mm: Room for the depth of the tool.
        axis_mm: Where its middle lies.
        plate_mm: Thickness of the plate.
        lip_mm: Height of the lip.
        sloped: True for a lip and a back at 45 degrees, false for upright ones with a bevelled
            top.
    """
    front, back = axis_mm + made_mm / 2, axis_mm - made_mm / 2
    upper: tuple[Point, ...] = (
        ((front + lip_mm, lip_mm),)
        if sloped
        else ((front, lip_mm - LEAD_MM), (front + LEAD_MM, lip_mm))
    )
    behind: tuple[Point, ...] = ((plate_mm, 0.0),)
    if back - plate_mm >= LEAST_BACK_MM:
        rise = min(lip_mm, back - plate_mm - LEAD_MM) if sloped else LEAD_MM
        low = 0.0 if sloped else lip_mm - LEAD_MM
        high = low + rise
        edge = () if sloped else ((back, 0.0),)
        behind = ((plate_mm, high), (back - rise, high), (back, low), *edge)
    return Trough((*behind, (front, 0.0), *upper), axis_mm, 0.0)


def vee_trough(
    made_mm: float, *, held_mm: float, axis_mm: float, plate_mm: float, lip_mm: float
) -> Trough:
    """Return the seat of a round thing: two flanks that touch a circle whose lowest z is 0.

    Args:
        made_mm: Diameter of the circle.
        held_mm: Diameter of what lies in the trough, which rests a little lower when smaller.
        axis_mm: Where its middle lies.
        plate_mm: Thickness of the plate.
        lip_mm: How far the lip rises above the place where it touches the circle.
    """
    deep = made_mm / 2 * (1.0 / COS - 1.0)
    lip = TOUCH * made_mm / 2 + lip_mm
    points = (
        (plate_mm, (axis_mm - plate_mm) * TAN - deep),
        (axis_mm, -deep),
        (axis_mm + (lip + deep) / TAN, lip),
    )
    return Trough(points, axis_mm, (held_mm - made_mm) / 2 * (1.0 / COS - 1.0))


def bracket(trough: Trough, *, plate_mm: float, floor_mm: float) -> Outline:
    """Return a bracket with a trough on top, its underside at 45 degrees down to the plate.

    ``floor_mm`` is the upright thickness below the lowest place of the trough, at its tip.
    """
    end, toe = trough.end_mm + TIP_MM, trough.lowest_mm - floor_mm
    heel = toe - (end - plate_mm)
    return polygon(
        [
            (0.0, heel),
            (plate_mm, heel),
            (end, toe),
            (end, trough.lip_mm),
            *reversed(trough.points),
            (0.0, trough.root_mm),
        ]
    )


def shell(trough: Trough, *, thick_mm: float) -> Outline:
    """Return a trough folded from a sheet; ``thick_mm`` is measured upright.

    A sheet at 30 degrees is 0.87 of that thick, a lip at 45 degrees 0.71.
    """
    over = ((0.0, trough.root_mm), *trough.points)
    under = tuple((y, z - thick_mm) for y, z in over)
    return polygon([*under, *reversed(over)])


def bar_trough(
    tool: FittedTool,
    grip: LyingBar,
    *,
    plate_mm: float,
    lip_mm: float,
    sloped: bool,
    least_axis_mm: float = 0.0,
) -> tuple[Trough, Size]:
    """Return the seat of a lying bar by its section, and the size that was made for it.

    Its middle lies at least ``least_axis_mm`` from the wall.
    """
    size = tool.size("trough", grip.depth_mm)
    behind = max(-posed_extent(tool, grip)[0][1], least_axis_mm - plate_mm)
    if grip.round_section:
        axis = plate_mm + CLEAR_MM + max(behind, size.made_mm / 2)
        held = grip.depth_mm
        vee = vee_trough(size.made_mm, held_mm=held, axis_mm=axis, plate_mm=plate_mm, lip_mm=lip_mm)
        return vee, size
    axis = plate_mm + max(size.made_mm / 2, behind + tool.fit.play_mm / 2)
    flat = flat_trough(size.made_mm, axis_mm=axis, plate_mm=plate_mm, lip_mm=lip_mm, sloped=sloped)
    return flat, size


def posed_extent(tool: FittedTool, grip: LyingBar) -> Bounds:
    """Return the box around a tool in the frame of its grip."""
    return joint_extent(tuple(piece.placed(grip.pose) for piece in tool.body.envelope))


def aside_mm(com_mm: float, *, free_mm: float) -> float:
    """Return how far a bar is moved along x, so that its centre of mass comes to the middle.

    Args:
        com_mm: Where the centre of mass lies.
        free_mm: How far the bar can be moved each way before its seat runs out of it (>= 0).

    >>> aside_mm(30.0, free_mm=20.0), aside_mm(-5.0, free_mm=20.0)
    (-20.0, 5.0)
    """
    return min(max(-com_mm, -free_mm), free_mm)
