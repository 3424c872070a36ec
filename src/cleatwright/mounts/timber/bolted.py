"""Machine screws through a board of wood: washer and nut lie in a counterbore behind it."""

from __future__ import annotations

from collections.abc import Sequence

from cleatwright.base import said
from cleatwright.base.errors import DesignError
from cleatwright.base.source import Evidence, Source
from cleatwright.mounts.carrier import CarrierParams
from cleatwright.mounts.joints.bolted import RIM_MM, THREAD, BoltedParams, bought, screw_length_mm
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.timber.front import WEB_MM, WoodenFront, roomy, wooden_front
from cleatwright.parts.holder import HolderPart
from cleatwright.parts.joinery import Bore, Joinery
from cleatwright.standards.fasteners.iso_273 import clearance_hole_mm
from cleatwright.standards.fasteners.iso_4032 import largest_nut_mm
from cleatwright.standards.fasteners.iso_7089 import WASHERS
from cleatwright.standards.table import Listed

COUNTERBORE_MM = 15.0
COUNTERBORE = Source(
    "a 15 mm drill bit with a flat end takes an M4 nut, its washer of 9 mm and a socket wrench",
    "common practice, no source",
    Evidence.PRACTICE,
)
VALUES = (Listed("Mounts", "counterbore for an M4 nut mm", COUNTERBORE_MM, COUNTERBORE),)


def front(
    parts: Sequence[HolderPart], settings: MountSettings, _p: BoltedParams, chosen: CarrierParams
) -> WoodenFront:
    """Return a board with a hole for each bolt and a counterbore for its nut behind it.

    Raises:
        DesignError: The board is too thin, or there is too little wood beside a hole.
    """
    thick = settings.rail_thickness_mm
    length, deep = bolting(settings)
    placing = roomy(parts, chosen, thick_mm=thick, wide_mm=COUNTERBORE_MM)
    bores = tuple(
        Bore(
            x_mm=dx + one.x_mm,
            z_mm=dz + one.low_mm,
            diameter_mm=clearance_hole_mm(THREAD, "medium"),
            what=f"bolt {THREAD}",
            counterbore_mm=COUNTERBORE_MM,
            counterbore_depth_mm=deep,
        )
        for part, (dx, _, dz) in zip(placing.parts, placing.offsets_mm, strict=True)
        for one in part.interfaces
    )
    rim = COUNTERBORE_MM / 2 + RIM_MM
    board = Joinery(
        width_mm=placing.width_mm,
        low_mm=min(one.z_mm for one in bores) - rim,
        high_mm=max(one.z_mm for one in bores) + rim,
        thickness_mm=thick,
        bores=tuple(sorted(bores, key=lambda one: (one.x_mm, one.z_mm))),
    )
    return wooden_front(
        placing,
        board,
        min_wall_mm=RIM_MM,
        hardware=(
            bought(f"machine screw {THREAD} x {length:g}", len(bores), "with a pan head"),
            bought(f"hexagon nut {THREAD}", len(bores), "in the counterbores behind the carrier"),
            bought(f"washer for {THREAD}", 2 * len(bores), "under each head and each nut"),
        ),
    )


def bolting(settings: MountSettings) -> tuple[float, float]:
    """Return the length of the bolt and the depth of its counterbore.

    The bolt passes a washer, the plate, the wood, a washer and the whole nut, and does not stand
    out behind the board.

    Raises:
        DesignError: The board is too thin, or no bolt is so long.

    >>> length, deep = bolting(MountSettings(plate_mm=5.0, rail_thickness_mm=18.0))
    >>> length, round(deep, 3)
    (20.0, 8.0)
    """
    plate, thick = settings.plate_mm, settings.rail_thickness_mm
    nut = largest_nut_mm(THREAD)[1] + 2 * WASHERS.value(THREAD, "thickness_max_mm")
    length = screw_length_mm(plate + WEB_MM + nut, plate)
    if length > plate + thick:
        raise DesignError(
            f"bolts {said.mm(length)} long stand out behind a board {said.mm(thick)} thick",
            allowed=f"a board at least {said.least(length - plate)} thick behind a plate of "
            f"{said.mm(plate)}",
            todo="Choose a thicker board for the rails, or the dovetail",
        )
    return length, plate + thick + nut - length
