"""Aluminium T-slot profile: screws into nuts in one or two level slots.

┌───────────────┐
│ ◎     ◎     ◎ │ upper slot, above the front
├───────────────┤
│     front     │
├───────────────┤
│ ◎     ◎     ◎ │ lower slot, a whole number of pitches below
└───────────────┘
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import partial

from pydantic import Field

from cleatwright.base import said
from cleatwright.base.source import Evidence, Source
from cleatwright.features.flat_back import flat_back
from cleatwright.features.layout import screw_columns
from cleatwright.mounts.grooves.cleat_back import CleatBack
from cleatwright.mounts.grooves.holding import held
from cleatwright.mounts.grooves.screwed import slot_ways
from cleatwright.mounts.mount import (
    InGrooves,
    Mount,
    MountParams,
    MountSettings,
    promised,
    whole,
)
from cleatwright.parts.holder import Front, Hardware, HolderPart
from cleatwright.shapes.outline import circle
from cleatwright.shapes.solid import Difference, prism
from cleatwright.standards.fasteners.iso_273 import clearance_hole_mm
from cleatwright.standards.table import Listed

SERIES = Source(
    "T-slot profiles: no published standard; slots of 5, 6, 8 and 10 mm", "", Evidence.PRACTICE
)
EDGES = Source(
    "EN 1993-1-8:2005",
    "table 3.3: from a hole to an edge at least 1.2 diameters, and here a rim around the washer",
    Evidence.MEMORY,
)
# from the slot's mouth: the screw of its nuts, the washer's diameter (ISO 7089), and how far from
# every edge the screw stands
SCREWS = (
    (5.9, "M4", 9.0, 7.0),
    (7.5, "M5", 10.0, 7.5),
    (9.5, "M6", 12.0, 8.5),
    (99.0, "M8", 16.0, 10.8),
)
SPAN_MM = 150.0
PAST_MM = 1.0

VALUES = (
    *(
        Listed("Mounts", f"T-slot up to {mouth:g} mm: washer of {screw} mm", washer, SERIES)
        for mouth, screw, washer, _ in SCREWS
    ),
    *(
        Listed("Mounts", f"T-slot up to {mouth:g} mm: from {screw} to an edge mm", edge, EDGES)
        for mouth, screw, _, edge in SCREWS
    ),
)


class TSlotParams(MountParams):
    """What the profile is like."""

    slot_mm: float = Field(default=8.0, ge=5.0, le=12.0, description="mouth of the slot, by series")
    pitch_mm: float = Field(
        default=40.0, ge=15.0, le=400.0, description="between two slots, or two profiles"
    )


def attach(family: str, front: Front, settings: MountSettings, p: TSlotParams) -> HolderPart:
    """Return the part: front and a plate with screw holes in two rows."""
    thread, washer, edge = _screw(p)
    strip = 2 * edge
    back = flat_back(front, plate_mm=settings.plate_mm, strip_mm=strip)
    upper = back.top_mm - strip / 2
    rows = math.ceil((upper - back.low_mm - strip / 2) / p.pitch_mm - 1e-9)
    lower = upper - rows * p.pitch_mm
    back = replace(back, low_mm=lower - strip / 2)
    columns = screw_columns(front.width_mm, strip_mm=strip, span_mm=SPAN_MM)
    bore = prism(circle(clearance_hole_mm(thread, "medium")), back.plate_mm + 2 * PAST_MM)
    holes = tuple(
        bore.turned("x", -90.0).moved(x, -PAST_MM, z) for z in (upper, lower) for x in columns
    )
    count = len(holes)
    return HolderPart(
        family=family,
        leading=front.leading,
        solid=whole(front, Difference(back.plate, holes)),
        seats=front.seats,
        genus=front.genus + count,
        bounds_mm=back.bounds(front),
        min_wall_mm=min(front.min_wall_mm, edge - washer / 2),
        mark_places=back.mark_places,
        hanging=back.hanging(MOUNT.name),
        hardware=(
            *front.hardware,
            *_bought(p, count, back.plate_mm),
        ),
        free_poses=promised(front, MOUNT.poses),
    )


def _screw(p: TSlotParams) -> tuple[str, float, float]:
    """Return the screw of a slot, the diameter of its washer, and how far it is off an edge."""
    return next((t, w, e) for most, t, w, e in SCREWS if p.slot_mm <= most)


def _bought(p: TSlotParams, count: int, plate_mm: float) -> tuple[Hardware, ...]:
    thread, _, _ = _screw(p)
    return (
        Hardware(
            name=f"T-slot nut {thread} for a slot of {said.mm(p.slot_mm)}",
            count=count,
            note="from the maker of the profile",
            source=SERIES,
        ),
        Hardware(
            name=f"machine screw {thread} with washer",
            count=count,
            note=f"plate of {said.mm(plate_mm)} + washer + the depth of the nut",
            source=SERIES,
        ),
    )


def _in_grooves(part: HolderPart, settings: MountSettings, p: TSlotParams) -> HolderPart:
    thread, washer, _ = _screw(p)
    ways = slot_ways(
        CleatBack(part),
        thread=thread,
        washer_mm=washer,
        pitch_mm=p.pitch_mm,
        bought=partial(_bought, p),
    )
    return held(part, MOUNT.name, settings, ways)


PUT_IN = (
    "To hang a holder, put the nuts into the slots of the profile, screw it on through its holes "
    "and tighten every screw. To take it off, empty it first."
)

PLATES_IN = (
    "A holder on screw plates: slide the plates into the grooves of its back from the sides "
    "until they stop, and press a pin of filament into the hole above each. A corner that is cut "
    "off points outwards. A single plate locks below: before it, put the bolt into its guide and "
    "draw it to the front; then push it tight. Put the nuts into the slots of the profile, screw "
    "the plates on above the holder through all their holes and tighten every screw. To take it "
    "off, empty it first."
)

MOUNT = Mount(
    name="t-slot",
    title="Screwed to level slots of an aluminium profile",
    attach=attach,
    put_in=PUT_IN,
    on_rail=False,
    params=TSlotParams,
    openings="slot",
    pitch=lambda p: (0.0, p.pitch_mm),
    in_grooves=InGrooves(_in_grooves, PLATES_IN),
    poses=("upright", "upside-down", "on-its-back", "on-its-side"),
)
