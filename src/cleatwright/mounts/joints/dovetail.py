"""Dovetail slide: a tongue on the holder that drops into a groove of a carrier.

seen from above                      section through the tongue

   ══════ carrier ══════             carrier     holder
   ══╲  ┌────────┐  ╱═══             │   ·─ end pin over the tongue
   ═══╲ │ tongue │ ╱════             │  ┌──┤│
      └──┐     ┌──┘                  │ o│  ││   o: pins of filament take up the play
   ══════ holder ═══════             │  │  ││
                                     │  ╲ ││   45 degrees: the weight draws it home
   groove: 14-degree bit             │   ╲─┤│

The groove is as wide at its bottom as the router bit, so that it can be cut in wood as well.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from pydantic import Field

from cleatwright.base import said
from cleatwright.base.errors import DesignError
from cleatwright.base.source import Evidence, Source
from cleatwright.features.filament_pin import HOLE_MM, pins
from cleatwright.features.flat_back import flat_back
from cleatwright.features.mark_room import plate_place
from cleatwright.mounts.carrier import CarrierParams, cut, placed, screwed_through, shell
from cleatwright.mounts.joints.joint import CarrierFront, Joint, JointParams
from cleatwright.mounts.mount import MountSettings, promised, whole
from cleatwright.parts.holder import Front, HolderPart, JointInterface
from cleatwright.shapes.outline import Outline, circle, polygon
from cleatwright.shapes.solid import Difference, Solid, across, prism
from cleatwright.standards.table import Listed

ANGLE_DEG = 14.0
BIT = Source("dovetail bit of 14 degrees", "common practice, no source", Evidence.PRACTICE)
LEAN = math.tan(math.radians(ANGLE_DEG))
# above the tongue: room for the end pin
END_MM = 6.0
PIN_ROOM_MM = 2.0
PIN_DEEP_MM = 6.0
STOP_MM = 6.0
LEAST_PLATE_MM = 30.0
# one tongue lets a wider holder turn about it
ONE_TONGUE_MM = 80.0
PAST_MM = 1.0
LEAST_NECK_MM = 4.0
VALUES = (Listed("Mounts", "dovetail bit deg", ANGLE_DEG, BIT),)


class DovetailParams(JointParams):
    """What can be chosen about a dovetail slide."""

    bit_mm: float = Field(
        default=12.7, ge=9.5, le=25.4, description="widest place of the bit; smaller ones shear"
    )
    depth_mm: float = Field(
        default=8.0, ge=5.0, le=12.0, description="shallow ones tip, deep ones need a thick carrier"
    )
    tongue_mm: float = Field(
        default=50.0, ge=20.0, le=120.0, description="length; long ones guide, but rub"
    )
    play_mm: float = Field(
        default=0.3, ge=0.1, le=0.8, description="slides in plastic; pins take it up"
    )


def plug(family: str, front: Front, settings: MountSettings, p: DovetailParams) -> HolderPart:
    """Return the holder with its tongues, which slides into a carrier from above."""
    _require_neck(p)
    back = flat_back(front, plate_mm=settings.plate_mm, least_mm=LEAST_PLATE_MM)
    low, high = back.low_mm, back.top_mm - END_MM
    interfaces = tuple(
        JointInterface(x, max(low, high - p.tongue_mm), high) for x in _places(front.width_mm, p)
    )
    return HolderPart(
        family=family,
        leading=front.leading,
        solid=whole(front, back.plate, *(_tongue(one, p) for one in interfaces)),
        seats=front.seats,
        genus=front.genus,
        bounds_mm=back.bounds(front, behind_mm=p.depth_mm),
        min_wall_mm=min(front.min_wall_mm, (_mouth_mm(p) - p.play_mm - HOLE_MM) / 2),
        mark_places=(front.mark_place, *plate_place(front, low, plate_mm=settings.plate_mm)),
        hanging=back.hanging(JOINT.name),
        hardware=(
            *front.hardware,
            pins(
                2 * len(interfaces),
                long_mm=_pin_mm(p),
                note="press into the holes of the tongue if the holder rattles; shave to length",
            ),
        ),
        free_poses=promised(front, JOINT.poses),
        interfaces=interfaces,
    )


def carrier(
    parts: Sequence[HolderPart], settings: MountSettings, p: DovetailParams, chosen: CarrierParams
) -> CarrierFront:
    """Return a carrier with a groove for each tongue, its top level with the holders' tops."""
    thick = settings.plate_mm + p.depth_mm
    placing = placed(parts, chosen, thick_mm=thick, least_mm=p.bit_mm + 2 * STOP_MM)
    places = [
        (dx + one.x_mm, dz + one.low_mm)
        for part, (dx, _, dz) in zip(parts, placing.offsets_mm, strict=True)
        for one in part.interfaces
    ]
    low = min(z for _, z in places) - STOP_MM
    cuts = [_groove(x, z, p, thick_mm=thick) for x, z in places]
    tunnels = 0
    if chosen.pin_count:
        pin = prism(circle(PIN_ROOM_MM), placing.width_mm + 2 * PAST_MM).turned("y", 90.0)
        cuts.append(pin.moved(-PAST_MM, thick - p.depth_mm / 2, -END_MM / 2))
        tunnels = len(places) + 1
    board = shell(placing, low_mm=low, high_mm=0.0, thick_mm=thick)
    front = cut(board, cuts, tunnels=tunnels)
    front = replace(front, min_wall_mm=(END_MM - PIN_ROOM_MM) / 2)
    return CarrierFront(screwed_through(front, chosen, settings), placing.offsets_mm)


def _mouth_mm(p: DovetailParams) -> float:
    """Return the width of the groove at the face of the carrier."""
    return p.bit_mm - 2 * p.depth_mm * LEAN


def _pin_mm(p: DovetailParams) -> float:
    """Return a pin that reaches the bottom of the groove while the tongue leans on its flanks."""
    return PIN_DEEP_MM + p.play_mm + p.play_mm / (2 * LEAN)


def _require_neck(p: DovetailParams) -> None:
    neck = _mouth_mm(p) - p.play_mm
    if neck < LEAST_NECK_MM:
        raise DesignError(
            f"a tongue whose neck is {said.mm(neck, '.1f')} shears off",
            allowed=f"at least {said.least(LEAST_NECK_MM)}",
            todo="Choose a wider bit or a smaller depth",
        )


def _places(width_mm: float, p: DovetailParams) -> tuple[float, ...]:
    if width_mm <= ONE_TONGUE_MM:
        return (width_mm / 2,)
    return (p.bit_mm, width_mm - p.bit_mm)


def _tongue(at: JointInterface, p: DovetailParams) -> Solid:
    """Return a tongue at y < 0, with holes for the pins that take up its play."""
    neck = (_mouth_mm(p) - p.play_mm) / 2
    deep = p.depth_mm - p.play_mm
    wide = neck + deep * LEAN
    plan = polygon(
        [(-wide, -deep), (wide, -deep), (neck, 0.0), (neck, PAST_MM), (-neck, PAST_MM), (-neck, 0)]
    )
    length = at.high_mm - at.low_mm
    below = polygon([(0.0, 0.0), (-deep - 1, deep + 1), (-deep - 1, -1.0), (0.0, -1.0)])
    hole = prism(circle(HOLE_MM), PIN_DEEP_MM + PAST_MM).turned("x", -90.0)
    heights = (deep + 4.0, length - 5.0)
    pins = tuple(hole.moved(0.0, -deep - PAST_MM, z) for z in heights)
    return Difference(prism(plan, length), (across(below, -wide - 1, wide + 1), *pins)).moved(
        at.x_mm, 0.0, at.low_mm
    )


def _groove(x: float, low_z: float, p: DovetailParams, *, thick_mm: float) -> Solid:
    """Return what the bit takes: open at the top and the face, with a ramp at its lower end."""
    mouth, wide, deep = _mouth_mm(p) / 2, p.bit_mm / 2, p.depth_mm
    out = PAST_MM
    plan: Outline = polygon(
        [
            (-wide, -deep),
            (wide, -deep),
            (mouth, 0.0),
            (mouth, out),
            (-mouth, out),
            (-mouth, 0.0),
        ]
    )
    ramp = polygon([(out, -out), (-deep - 1, deep + 1), (-deep - 1, -out - 1), (out, -out - 1)])
    length = out + PAST_MM - low_z
    cut = Difference(
        prism(plan, length).moved(0.0, 0.0, -out), (across(ramp, -wide - 1, wide + 1),)
    )
    return cut.moved(x, thick_mm, low_z)


JOINT = Joint(
    name="dovetail",
    title="A dovetail tongue that drops into a groove of a carrier",
    params=DovetailParams,
    plug=plug,
    # the tongue stands upright, and its lower end leans 45 degrees
    poses=("upright", "upside-down"),
    carrier=carrier,
)
