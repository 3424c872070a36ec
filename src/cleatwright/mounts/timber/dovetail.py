"""Dovetail grooves in a board of wood, which take the same printed tongues.

The bit leaves a round lower end. The two lower corners of the tongue's neck, at the face, come
to rest on it: with r half the mouth and p the play of the tongue, so that its neck is r - p/2 wide
to each side, they meet the round end where it is sqrt(r^2 - (r - p/2)^2) below the bit's
centre. Deeper in, the 45-degree end of the tongue leaves the round end clear. The flank there
leans away from the face, so that the weight draws the holder home.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from cleatwright.base import said
from cleatwright.base.errors import DesignError
from cleatwright.mounts.carrier import CarrierParams
from cleatwright.mounts.joints.dovetail import ANGLE_DEG, DovetailParams
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.timber.front import SIDE_MM, WEB_MM, WoodenFront, roomy, wooden_front
from cleatwright.parts.holder import HolderPart
from cleatwright.parts.joinery import Groove, Joinery


def front(
    parts: Sequence[HolderPart], settings: MountSettings, p: DovetailParams, chosen: CarrierParams
) -> WoodenFront:
    """Return a board with a groove for each tongue, its top level with the holders' tops.

    Raises:
        DesignError: The board is too thin, or there is too little wood beside a groove.
    """
    thick = settings.rail_thickness_mm
    if thick - p.depth_mm < WEB_MM:
        raise DesignError(
            f"a groove {said.mm(p.depth_mm)} deep leaves {said.mm(thick - p.depth_mm)} of a board "
            f"{said.mm(thick)} thick",
            allowed=f"at least {said.least(WEB_MM)} behind the groove",
            todo="Choose a thicker board for the rails or a smaller depth of the dovetail",
        )
    if chosen.pin_count:
        raise DesignError(
            "an end pin needs a long bore through the edge of a wooden carrier, which wanders off",
            allowed="pin_count = 0 for a carrier of wood",
            todo="Leave pin_count out; the holders stay by their weight",
        )
    placing = roomy(parts, chosen, thick_mm=thick, wide_mm=p.bit_mm)
    grooves = tuple(
        groove_for(dx + one.x_mm, dz + one.low_mm, p)
        for part, (dx, _, dz) in zip(placing.parts, placing.offsets_mm, strict=True)
        for one in part.interfaces
    )
    board = Joinery(
        width_mm=placing.width_mm,
        low_mm=min(one.low_mm for one in grooves) - SIDE_MM,
        high_mm=0.0,
        thickness_mm=thick,
        grooves=tuple(sorted(grooves, key=lambda one: one.x_mm)),
    )
    return wooden_front(placing, board, min_wall_mm=min(WEB_MM, thick - p.depth_mm))


def groove_for(x_mm: float, low_mm: float, p: DovetailParams) -> Groove:
    """Return the groove in which a tongue rests whose lower end is at ``low_mm``.

    >>> groove = groove_for(20.0, -56.0, DovetailParams())
    >>> round(groove.mouth_mm, 2), round(groove.stop_mm + 56.0, 2)
    (8.71, 1.13)
    """
    groove = Groove(x_mm, low_mm, p.bit_mm, p.depth_mm, ANGLE_DEG)
    r = groove.mouth_mm / 2
    neck = r - p.play_mm / 2
    return replace(groove, stop_mm=low_mm + math.sqrt(r * r - neck * neck))
