"""Bolted: machine screws through the holder into nuts that are captive behind a carrier.

section through   one bolt

   carrier    holder
   ┌──────────┬────┐
   ├───┐  ····│····├┐
   │nut│      │    ││ head, washer
   ├───┘  ····│····├┘
   └──────────┴────┘
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from pydantic import Field

from cleatwright.base import said
from cleatwright.base.errors import DesignError
from cleatwright.base.source import Evidence, Source
from cleatwright.features.flat_back import flat_back
from cleatwright.features.layout import screw_columns
from cleatwright.mounts.carrier import CarrierParams, placed, screwed_through, shell
from cleatwright.mounts.joints.joint import CarrierFront, Joint, JointParams
from cleatwright.mounts.mount import MountSettings, promised, whole
from cleatwright.parts.holder import Front, Hardware, HolderPart, JointInterface
from cleatwright.shapes.outline import circle, hexagon
from cleatwright.shapes.solid import Difference, Solid, prism
from cleatwright.standards.fasteners.iso_273 import clearance_hole_mm
from cleatwright.standards.fasteners.iso_4032 import largest_nut_mm
from cleatwright.standards.table import Listed

THREAD = "M4"
# lengths on sale, from memory
LENGTHS_MM = (10.0, 12.0, 16.0, 20.0, 25.0, 30.0, 35.0, 40.0)
LEAST_THICK_MM = 8.0
HEAD_MM = 9.0
RIM_MM = 3.0
SPAN_MM = 110.0
# room for the hook or foot of a mount above and below the nuts
CLEAR_MM = 16.0
PAST_MM = 1.0
BOLTS = Source("M4 screws in two rows, at most 110 mm apart", "", Evidence.CHOICE)
VALUES = (Listed("Mounts", "bolts: most apart mm", SPAN_MM, BOLTS),)


class BoltedParams(JointParams):
    """What can be chosen about bolts."""

    nut_play_mm: float = Field(
        default=0.3, ge=0.1, le=0.8, description="less presses the nut in, more lets it turn"
    )


def plug(family: str, front: Front, settings: MountSettings, _p: BoltedParams) -> HolderPart:
    """Return the holder: a plate with a row of holes above and below its front."""
    strip = HEAD_MM + 2 * RIM_MM
    back = flat_back(front, plate_mm=settings.plate_mm, strip_mm=strip)
    interfaces = tuple(
        JointInterface(x, z, z)
        for z in (back.top_mm - strip / 2, back.low_mm + strip / 2)
        for x in screw_columns(front.width_mm, strip_mm=strip, span_mm=SPAN_MM)
    )
    holes = tuple(_hole(-PAST_MM, settings.plate_mm + PAST_MM, at=one) for one in interfaces)
    return HolderPart(
        family=family,
        leading=front.leading,
        solid=whole(front, Difference(back.plate, holes)),
        seats=front.seats,
        genus=front.genus + len(holes),
        bounds_mm=back.bounds(front),
        min_wall_mm=min(front.min_wall_mm, RIM_MM),
        mark_places=back.mark_places,
        hanging=back.hanging(JOINT.name),
        # the bolts are listed with the carrier, whose thickness decides their length
        hardware=front.hardware,
        free_poses=promised(front, JOINT.poses),
        interfaces=interfaces,
    )


def carrier(
    parts: Sequence[HolderPart], settings: MountSettings, p: BoltedParams, chosen: CarrierParams
) -> CarrierFront:
    """Return a carrier with a hole and a nut pocket for each bolt."""
    length = screw_length_mm(settings.plate_mm + LEAST_THICK_MM, settings.plate_mm)
    thick = length - settings.plate_mm
    flats, height = largest_nut_mm(THREAD)
    placing = placed(parts, chosen, thick_mm=thick, least_mm=0.0)
    bolts = [
        JointInterface(dx + one.x_mm, dz + one.low_mm, dz + one.high_mm)
        for part, (dx, _, dz) in zip(parts, placing.offsets_mm, strict=True)
        for one in part.interfaces
    ]
    low = min(one.low_mm for one in bolts) - flats - CLEAR_MM
    high = max(one.high_mm for one in bolts) + flats + CLEAR_MM
    deep = height + p.nut_play_mm
    pocket = prism(hexagon(flats + p.nut_play_mm), deep + PAST_MM).turned("x", -90.0)
    board = shell(placing, low_mm=low, high_mm=high, thick_mm=thick)
    # the plate of the mount lies behind the board, so that both are cut together
    drilled = replace(
        board,
        genus=len(bolts),
        hardware=(
            bought(f"machine screw {THREAD} x {length:g}", len(bolts), "with a pan head"),
            bought(f"hexagon nut {THREAD}", len(bolts), "pressed in behind the carrier"),
            bought(f"washer for {THREAD}", len(bolts), "under each head"),
        ),
        cuts=tuple(
            solid
            for one in bolts
            for solid in (
                _hole(-PAST_MM, thick + PAST_MM, at=one),
                pocket.moved(one.x_mm, -PAST_MM, one.low_mm),
            )
        ),
    )
    return CarrierFront(screwed_through(drilled, chosen, settings), placing.offsets_mm)


def screw_length_mm(least_mm: float, plate_mm: float) -> float:
    """Return the shortest machine screw on sale that is at least so long.

    Args:
        least_mm: Length that is needed.
        plate_mm: The plate of the holder, for the message.

    Raises:
        DesignError: No screw is so long.
    """
    found = next((length for length in LENGTHS_MM if length >= least_mm), None)
    if found is None:
        raise DesignError(
            f"no {THREAD} screw goes through a plate {said.mm(plate_mm)} thick",
            allowed=f"up to {said.most(LENGTHS_MM[-1] - (least_mm - plate_mm))}",
            todo="Choose a thinner plate, or another joint",
        )
    return found


def _hole(y0: float, y1: float, *, at: JointInterface) -> Solid:
    bore = prism(circle(clearance_hole_mm(THREAD, "medium")), y1 - y0).turned("x", -90.0)
    return bore.moved(at.x_mm, y0, at.low_mm)


def bought(name: str, count: int, note: str) -> Hardware:
    """Return a line of the list of what the bolts need."""
    return Hardware(name=name, count=count, note=note, source=BOLTS)


JOINT = Joint(
    name="bolted",
    title="Machine screws into nuts that are captive behind a carrier",
    params=BoltedParams,
    plug=plug,
    poses=("upright", "upside-down", "on-its-back", "on-its-side"),
    carrier=carrier,
)
