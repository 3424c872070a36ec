"""Screws through a holder into its rail, where no bolt has room or none is enough.

section                 from the front

 rail │▓│ plate          ┌─────────┐
      │▓└─┐ low          │  front  │
  ════│═══▷ pad          └──┬───┬──┘
      │▓──┘                 │ ◎ │      a driver reaches it past the front
      │                     └───┘

A pad reaches as far down the rail as a lever asks. It is so thick that the tip of the screw ends at
the back of the rail: six diameters deep, which is the least that counts. The screw lies below the
bevel's fall, and four diameters from both edges.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from cleatwright.base import said
from cleatwright.base.source import Evidence, Source
from cleatwright.features.screw_hole import screw_hole
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed.bolt_places import Boxes, nearest, taken_boxes, ways_boxes
from cleatwright.mounts.printed.rail_back import hollow_modulus_mm3
from cleatwright.mounts.printed.rail_loads import UPRIGHT_MM
from cleatwright.parts.holder import Front, Hardware
from cleatwright.parts.rail_screws import RailScrews
from cleatwright.parts.screw_strength import ScrewStrength
from cleatwright.shapes.facts import Bounds
from cleatwright.shapes.solid import Solid, block
from cleatwright.standards.fasteners.nds_screws import LEAST_PENETRATION
from cleatwright.standards.fasteners.wood_screws import (
    SCREW_LENGTHS_MM,
    countersink_mm,
)
from cleatwright.standards.table import Listed
from cleatwright.statics.captured import Section
from cleatwright.statics.screw_group import SCREW_RULE
from cleatwright.statics.wall_screw import WallScrew

DIAMETERS_MM = (4.0, 3.5, 3.0)
EDGE_DIAMETERS = 4.0
EDGES = Source("EN 1995-1-1, Table 8.2, loaded edge", "at most 4 d + 2 d", Evidence.MEMORY)
VALUES = (Listed("Mounts", "screws in a rail: edge / diameter", EDGE_DIAMETERS, EDGES),)
RIM_MM = 3.0
LEAST_PAD_MM = 5.0
# a bit and its holder
DRIVER_MM = 11.0
STEP_MM = 4.0
# of the lengths of pads that are tried
TAIL_MM = 8.0
MOST = 5
FAR_MM = 300.0
PLATE_BEHIND_MM = 0.1


@dataclass(frozen=True)
class RailScrew:
    """A wood screw that just goes through a rail.

    Args:
        diameter_mm: Its diameter.
        length_mm: Its length.
        pad_mm: What it holds, under its head.
    """

    diameter_mm: float
    length_mm: float
    pad_mm: float

    @property
    def half_mm(self) -> float:
        """Return half of the width of its pad."""
        return countersink_mm(self.diameter_mm) / 2 + RIM_MM

    @property
    def strength(self) -> ScrewStrength:
        """Return what it may carry."""
        held = WallScrew(self.diameter_mm, self.length_mm, self.pad_mm, 0.0)
        return ScrewStrength(held.thread_out_n, held.along_n)

    def bought(self, count: int) -> Hardware:
        """Return the line of the hardware list."""
        return Hardware(
            name=f"countersunk wood screw {said.metric(self.diameter_mm, self.length_mm)}",
            count=count,
            note="through a holder into its rail, in a pilot hole, until the head is flush",
            source=SCREW_RULE,
        )


@dataclass(frozen=True)
class ScrewPad:
    """Where a screw goes through a holder.

    Args:
        x_mm: Along the holder.
        z_mm: Its height.
        screw: The screw.
        low_mm: Its lower end, on which it bears where the top swings out.
    """

    x_mm: float
    z_mm: float
    screw: RailScrew
    low_mm: float

    @property
    def box(self) -> Bounds:
        """Return the box of its pad."""
        half = self.screw.half_mm
        return (
            (self.x_mm - half, 0.0, self.low_mm),
            (self.x_mm + half, self.screw.pad_mm, self.z_mm + half),
        )

    @property
    def driver(self) -> Bounds:
        """Return the way of a driver to it, from far before the holder."""
        half = DRIVER_MM / 2
        return (
            (self.x_mm - half, self.screw.pad_mm, self.z_mm - half),
            (self.x_mm + half, FAR_MM, self.z_mm + half),
        )

    def solid(self, plate_low_mm: float) -> Solid:
        """Return the pad, with the column up to a plate above it."""
        (x0, y0, z0), (x1, y1, z1) = self.box
        return block(x0, y0, z0, x1, y1, max(z1, plate_low_mm + RIM_MM))

    @property
    def hole(self) -> Solid:
        """Return the hole, countersunk, with the way of the driver cut free before it."""
        hole = screw_hole(self.screw.diameter_mm, plate_mm=self.screw.pad_mm)
        return hole.moved(self.x_mm, 0.0, self.z_mm)


def rail_screw(rail_mm: float, *, plate_mm: float) -> RailScrew | None:
    """Return the thickest screw that may go through a plate into a rail; None for a thin rail.

    Args:
        rail_mm: Thickness of the rail.
        plate_mm: The least that the screw holds.

    >>> rail_screw(18.0, plate_mm=5.0)
    RailScrew(diameter_mm=3.0, length_mm=25.0, pad_mm=7.0)
    """
    for diameter in DIAMETERS_MM:
        if LEAST_PENETRATION * diameter > rail_mm:
            continue
        for length in SCREW_LENGTHS_MM:
            if length - rail_mm >= max(LEAST_PAD_MM, plate_mm):
                return RailScrew(diameter, length, length - rail_mm)
    return None


def screw_rows(
    front: Front, section: Section, settings: MountSettings, screw: RailScrew
) -> Iterator[tuple[ScrewPad, ...]]:
    """Yield rows of pads with room: one screw, then more; the higher ones and short ones first.

    Pads reach down the rail as far as a lever asks, since what bears below them is their own end.
    """
    edge = EDGE_DIAMETERS * screw.diameter_mm
    high = settings.rail_thickness_mm * section.slope + edge
    low = settings.rail_height_mm - edge
    room = _Room(
        Boxes.around((*ways_boxes(front), *taken_boxes(front))),
        Boxes.around(taken_boxes(front, tools=False)),
    )
    steps = int((low - high) / STEP_MM) + 1 if low >= high else 0
    heights = [section.contact_z_mm - high - k * STEP_MM for k in range(steps)]
    tried = [
        (z, low, room.blocked(z, screw, low_mm=low, plate_low_mm=front.plate_low_mm))
        for z in heights
        for low in _lows(z, screw, section.foot_z_mm)
    ]
    for count in range(1, MOST + 1):
        full = float("inf")
        for z, low, blocked in tried:
            if z == full:
                continue
            row = _row(front.width_mm, screw.half_mm, blocked, count)
            if len(row) < count:
                # a pad that reaches further down has less room still
                full = z
                continue
            yield tuple(ScrewPad(x, z, screw, low) for x in row)


def _lows(z_mm: float, screw: RailScrew, foot_z_mm: float) -> Iterator[float]:
    """Yield how low a pad may reach, from its rim below the head to the rail's lower edge."""
    low = z_mm - screw.half_mm
    while low > foot_z_mm:
        yield low
        low -= TAIL_MM
    yield foot_z_mm


def _row(
    width_mm: float, half_mm: float, blocked: Sequence[tuple[float, float]], count: int
) -> list[float]:
    """Return the x of as many pads as have room, evenly apart as far as that lets them.

    Args:
        width_mm: Width of the plate.
        half_mm: Half of the width of a pad.
        blocked: From where to where their middles have no room, without the ends.
        count: How many are wanted.
    """
    row: list[float] = []
    for k in range(count):
        taken = (*blocked, *((x - 2 * half_mm, x + 2 * half_mm) for x in row))
        wanted = nearest(width_mm * (k + 0.5) / count, half_mm, width_mm)
        free = (x for x in wanted if not any(low < x < high for low, high in taken))
        found = next(free, None)
        if found is not None:
            row.append(found)
    return row


@dataclass(frozen=True)
class _Room:
    """What pads and drivers keep off.

    Args:
        taken: What stands where a pad could be: tools, their ways, and the pieces of the front.
        before: What a driver cannot pass: the pieces of the front; tools are not there yet.
    """

    taken: Boxes
    before: Boxes

    def blocked(
        self, z_mm: float, screw: RailScrew, *, low_mm: float, plate_low_mm: float
    ) -> tuple[tuple[float, float], ...]:
        """Return from where to where a pad, its column or a driver would meet something."""
        pad = ScrewPad(0.0, z_mm, screw, low_mm)
        (x0, y0, z0), (x1, y1, _) = pad.box
        # the plate itself stands behind the column
        column: Bounds = ((x0, y0 + PLATE_BEHIND_MM, z0), (x1, y1, max(z0, plate_low_mm)))
        return (
            *self.taken.beside(pad.box),
            *self.taken.beside(column),
            *self.before.beside(pad.driver),
        )


def as_parts(
    pads: tuple[ScrewPad, ...], section: Section, hooks_mm: tuple[float, float], *, plate: Bounds
) -> RailScrews:
    """Return a row of pads as the statics know it, and the plate that bears as well.

    Args:
        pads: The pads, at one height.
        section: The section of the holder on its rail.
        hooks_mm: The outermost ends of its hooks.
        plate: The box of its plate.
    """
    first, count = pads[0], len(pads)
    (left, _, plate_low), (right, thick, _) = plate
    screw = first.screw
    # a rim on each side of the countersink, solid but for a line
    net = 2 * RIM_MM * screw.pad_mm**2 / 6.0
    if plate_low <= first.low_mm:
        beside = (right - left) / count - countersink_mm(screw.diameter_mm)
        net = max(net, hollow_modulus_mm3(beside, thick))
    foot_z = max(min(first.low_mm, plate_low), section.foot_z_mm)
    # a pad passes on to its part of the plate what bends it
    plate_mm3 = hollow_modulus_mm3((right - left) / count, thick)
    return RailScrews(
        columns_mm=tuple(sorted(pad.x_mm for pad in pads)),
        below_mm=section.contact_z_mm - first.z_mm,
        hooks_mm=hooks_mm,
        strength=screw.strength,
        diameter_mm=screw.diameter_mm,
        length_mm=screw.length_mm,
        pad_mm=screw.pad_mm,
        foot_mm=section.contact_z_mm - foot_z,
        plate_mm=section.contact_z_mm - plate_low,
        net_mm3=net,
        column_mm3=min(plate_mm3, hollow_modulus_mm3(2 * screw.half_mm, screw.pad_mm)),
        across=right - left > UPRIGHT_MM,
    )
