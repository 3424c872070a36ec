"""A carrier: the piece between holders and a mount, of any width that the bed allows."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from pydantic import Field

from cleatwright.base import said
from cleatwright.base.errors import DesignError
from cleatwright.base.source import Evidence, Source
from cleatwright.features.layout import screw_columns
from cleatwright.features.mark_room import mark_below
from cleatwright.features.screw_hole import screw_hole
from cleatwright.features.side_by_side import carried, side_by_side
from cleatwright.mounts.mount import MountSettings
from cleatwright.parts.holder import Front, Hardware, HolderPart, LockScrews
from cleatwright.parts.params import PartParams
from cleatwright.shapes.rigid import Vector
from cleatwright.shapes.solid import Difference, Solid, block
from cleatwright.standards.fasteners.nds_screws import CHECKED, LEAST_PENETRATION
from cleatwright.standards.fasteners.wood_screws import (
    SCREW_LENGTHS_MM,
    countersink_mm,
    screw_length_mm,
)
from cleatwright.standards.table import Listed
from cleatwright.statics.wall_screw import WallScrew

SCREW_MM = 4.0
RIM_MM = 3.0
# how much of the screw must be in the stud
GRIP_MM = LEAST_PENETRATION * SCREW_MM
SCREWS = Source(
    "NDS 2018",
    "12.1.5.6: at least six diameters in the stud, the tip included",
    Evidence.SECONDARY,
    CHECKED,
)
LEAST_WIDTH_MM = 40.0
VALUES = (Listed("Mounts", "carrier screws: depth in the stud mm", GRIP_MM, SCREWS),)


class CarrierParams(PartParams):
    """What can be chosen about a carrier; 0 leaves a width to the holders."""

    width_mm: float = Field(default=0.0, ge=0.0, le=600.0, description="0: as its holders need")
    gap_mm: float = Field(
        default=4.0, ge=1.0, le=100.0, description="between neighbours, their tools included"
    )
    pin_count: float = Field(
        default=1.0, ge=0.0, le=1.0, description="1: a pin keeps the holders from being lifted off"
    )
    screw_count: float = Field(
        default=0.0, ge=0.0, le=12.0, description="screws straight through it into the wall"
    )


@dataclass(frozen=True)
class Placing:
    """Holders placed on a carrier.

    Args:
        parts: The holders, by growing x.
        offsets_mm: Where the frame of each lies in that of the carrier.
        width_mm: Width of the carrier.
    """

    parts: tuple[HolderPart, ...]
    offsets_mm: tuple[Vector, ...]
    width_mm: float


def placed(
    parts: Sequence[HolderPart], chosen: CarrierParams, *, thick_mm: float, least_mm: float
) -> Placing:
    """Return the holders side by side, their tops level with z = 0, in the middle of the carrier.

    Raises:
        DesignError: The wished width does not take them.
    """
    starts = side_by_side(parts, gap_mm=chosen.gap_mm)
    needed = max(start + one.bounds_mm[1][0] for start, one in zip(starts, parts, strict=True))
    width = max(needed, LEAST_WIDTH_MM, least_mm, chosen.width_mm)
    if 0.0 < chosen.width_mm < needed - 1e-9:
        raise DesignError(
            f"a carrier {said.mm(chosen.width_mm)} wide does not take its holders",
            allowed=f"at least {said.least(math.ceil(needed))}, or 0 for as much as they need",
            todo="Widen it, or hang fewer holders on it",
        )
    rest = (width - needed) / 2
    return Placing(
        tuple(parts),
        tuple(
            (start + rest, thick_mm, -one.hanging.contact_z_mm)
            for start, one in zip(starts, parts, strict=True)
        ),
        width,
    )


def shell(placing: Placing, *, low_mm: float, high_mm: float, thick_mm: float) -> Front:
    """Return the plain board of a carrier as a front, with the seats of its holders."""
    width = placing.width_mm
    place, low = mark_below(width, low_mm=low_mm, plate_mm=thick_mm)
    return Front(
        solid=block(0.0, 0.0, low, width, thick_mm, high_mm),
        width_mm=width,
        plate_low_mm=low,
        plate_high_mm=high_mm,
        reach_mm=thick_mm,
        low_mm=low,
        high_mm=high_mm,
        seats=tuple(
            carried(seat, offset)
            for one, offset in zip(placing.parts, placing.offsets_mm, strict=True)
            for seat in one.seats
        ),
        genus=0,
        min_wall_mm=RIM_MM,
        mark_place=place,
        leading=f"{len(placing.parts)}x{width:.0f}",
        print_pose="on-its-back",
        anchored=True,
    )


def cut(front: Front, cuts: Sequence[Solid], *, tunnels: int = 0) -> Front:
    """Return a carrier with pieces cut out of its board."""
    return replace(front, solid=Difference(front.solid, tuple(cuts)), genus=front.genus + tunnels)


def screwed_through(front: Front, chosen: CarrierParams, settings: MountSettings) -> Front:
    """Return a carrier with the wished screws through a strip below it, into the wall.

    Raises:
        DesignError: They have no room, or none is long enough.
    """
    count = round(chosen.screw_count)
    if not count:
        return front
    strip = countersink_mm(SCREW_MM) + 2 * RIM_MM
    room = front.width_mm - strip
    if count > 1 and room / (count - 1) < strip:
        raise DesignError(
            f"{count} screws have no room in a carrier {said.mm(front.width_mm, '.0f')} wide",
            allowed=f"up to {1 + int(room / strip)}",
            todo="Ask for a lower screw_count, or for a wider carrier",
        )
    low = front.plate_low_mm - strip
    columns = (
        (front.width_mm / 2,)
        if count == 1
        else screw_columns(front.width_mm, strip_mm=strip, span_mm=room / (count - 1))
    )
    behind = settings.rail_thickness_mm
    hole = screw_hole(SCREW_MM, plate_mm=settings.plate_mm, behind_mm=behind + 1.0)
    screw, along_n = locking(side_mm=settings.plate_mm, behind_mm=behind, settings=settings)
    return replace(
        front,
        plate_low_mm=low,
        lock=LockScrews(columns, along_n, low + strip / 2),
        genus=front.genus + count,
        cuts=(*front.cuts, *(hole.moved(x, 0.0, low + strip / 2) for x in columns)),
        hardware=(
            *front.hardware,
            lock_screws(screw, count, "through the carrier"),
        ),
    )


def locking(
    *, side_mm: float, behind_mm: float, settings: MountSettings
) -> tuple[WallScrew, float]:
    """Return the screw that locks a carrier, and what one may carry along the wall, in N.

    Args:
        side_mm: Thickness of what the head draws on.
        behind_mm: What lies behind that before the wall's face; it bears nothing.
        settings: The settings, for the lining.

    Raises:
        DesignError: No screw on sale is long enough.
    """
    between = behind_mm + settings.lining_mm
    least, longest = side_mm + between + GRIP_MM, SCREW_LENGTHS_MM[-1]
    if least > longest:
        raise DesignError(
            f"a screw through {said.mm(side_mm + behind_mm)} of carrier and "
            f"{said.mm(settings.lining_mm)} of lining must be {said.mm(least)} long",
            allowed=f"up to {said.most(longest)}",
            todo="Leave screw_count out, or take the lining away where the carrier hangs",
        )
    screw = WallScrew(SCREW_MM, screw_length_mm(least), side_mm, between)
    return screw, screw.along_n


def lock_screws(screw: WallScrew, count: int, where: str) -> Hardware:
    """Return the line of the hardware list for the screws that lock a carrier."""
    return Hardware(
        name=f"countersunk wood screw {said.metric(SCREW_MM, screw.length_mm)}",
        count=count,
        note=f"{where} and the lining, so that it cannot ride up",
        source=SCREWS,
        stud_mm=GRIP_MM,
    )
