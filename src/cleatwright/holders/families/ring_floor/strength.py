"""How strong a floor and a ring must be: webs, the opening between them, and the ring's walls."""

from __future__ import annotations

import math
from collections.abc import Sequence

from cleatwright.features.footed import BRIDGE_MM
from cleatwright.features.webs import WebDepth, web_depth
from cleatwright.holders.families.ring_floor.ring_floors import RingShape, web_end_mm
from cleatwright.parts.grips import RoundBody
from cleatwright.parts.holder import Seat
from cleatwright.statics.arm_strength import ACROSS_HAND_MPA
from cleatwright.statics.hand import KNOCK_N
from cleatwright.statics.needed_section import SPARE, Borne, bar_depth_mm, web_modulus_mm3
from cleatwright.statics.portal import foot_share
from cleatwright.statics.seat_load import seat_load

BEARING_MM = 7.0
LEAST_OPENING_MM = 6.0
STEP_MM = 1.0


def wall_mm(least_mm: float, inner_mm: Sequence[float], ring_mm: float) -> float:
    """Return how thick the walls of rings must be, whose front is knocked along the wall.

    Two legs, tied by the front, bear half of it each: M = F / 2 l s, with s of a portal frame.

    Args:
        least_mm: Least thickness.
        inner_mm: Width inside of each ring.
        ring_mm: Height of the rings.

    >>> wall_mm(3.0, [66.0], 12.0), round(wall_mm(3.0, [140.0], 12.0), 2)
    (3.0, 3.56)
    """
    found = [least_mm]
    for inner in inner_mm:
        # from where the eight sides behind end to where the slopes in front would meet
        long = inner / 2 * (math.sqrt(2.0) + math.tan(math.pi / 8))
        moment = KNOCK_N / 2 * long * foot_share(long_mm=long, apart_mm=inner)
        found.append(bar_depth_mm(SPARE * moment / ACROSS_HAND_MPA, width_mm=ring_mm))
    return max(found)


def strong_floor(
    seat: Seat, half_mm: float, axis_mm: float, *, x_mm: float, shape: RingShape
) -> tuple[float, WebDepth]:
    """Return half the width of the opening in a floor, or zero, and webs that bear its body.

    Args:
        seat: The body.
        half_mm: Half the width of the floor.
        axis_mm: Where its middle lies, along y.
        x_mm: The same along x.
        shape: Its thicknesses.
    """
    wall, plate, floor = shape.wall_mm, shape.plate_mm, shape.floor_mm
    reach, end = axis_mm + half_mm, web_end_mm(half_mm, axis_mm)
    tools = (Borne(seat_load(seat, plate_mm=plate, reach_mm=reach), seat.com_mm[0] - x_mm),)

    def depth(cut_mm: float, wide_mm: float) -> float:
        """Return how deep one of two pieces at both sides must be."""
        aside = half_mm - wide_mm / 2
        needed = web_modulus_mm3(tools, (-aside, aside), cut_mm=cut_mm, reach_mm=reach)
        return bar_depth_mm(needed, width_mm=wide_mm)

    opening = seat.tool.needed_grip(RoundBody).diameter_mm / 2 - BEARING_MM
    # beyond its webs the floor alone bears what rests there
    while opening >= LEAST_OPENING_MM and depth(end, _strip_mm(half_mm, opening)) > floor:
        opening -= STEP_MM
    webs = web_depth(
        depth(plate, wall),
        depth(end, wall),
        floor_mm=floor,
        least=shape.least_webs(half_mm, axis_mm),
    )
    return (opening if opening >= LEAST_OPENING_MM else 0.0), webs


def _strip_mm(half_mm: float, opening_mm: float) -> float:
    """Return how wide a floor is beside its opening where its webs end."""
    roof = half_mm * math.tan(math.pi / 8) - min(BRIDGE_MM / 2, opening_mm)
    return half_mm - opening_mm + max(0.0, roof)
