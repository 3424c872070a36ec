"""Screwed straight to the wall: two strips with countersunk holes, above and below the front.

┌───────────────┐
│ ◎     ◎     ◎ │ upper strip: one hole in the middle, or one more for every SPAN of width
├───────────────┤
│     front     │
├───────────────┤
│ ◎     ◎     ◎ │ lower strip
└───────────────┘

Screws and their holes grow with the load: 4 mm, then 5 and 6 mm, then more of them. Each is the
shortest on sale that goes through plate and lining and six diameters into the stud.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from cleatwright.base import said
from cleatwright.base.errors import DesignError
from cleatwright.features.flat_back import FlatBack, flat_back
from cleatwright.features.layout import screw_columns
from cleatwright.features.screw_hole import screw_hole
from cleatwright.mounts.grooves.cleat_back import CleatBack
from cleatwright.mounts.grooves.holding import held
from cleatwright.mounts.grooves.screwed import wall_ways
from cleatwright.mounts.mount import (
    NO_PARAMS,
    InGrooves,
    Mount,
    MountSettings,
    NoParams,
    promised,
    whole,
)
from cleatwright.parts.holder import Front, Hanging, Hardware, HolderPart, ScrewRows
from cleatwright.parts.screw_strength import ScrewStrength
from cleatwright.shapes.solid import Difference, Solid
from cleatwright.standards.fasteners.nds_screws import LEAST_PENETRATION
from cleatwright.standards.fasteners.wood_screws import (
    SCREW_LENGTHS_MM,
    countersink_mm,
    screw_length_mm,
)
from cleatwright.statics.screw_group import SCREW_RULE, screw_load
from cleatwright.statics.wall_screw import WallScrew

SPAN_MM = 110.0
RIM_MM = 3.0
DIAMETERS_MM = (4.0, 5.0, 6.0)


@dataclass(frozen=True)
class Screwing:
    """Which screws hold a plate, and where.

    Args:
        back: The plate.
        diameter_mm: Diameter of the screws.
        columns_mm: Where they stand along the plate.
        rows: The same as the statics see it.
    """

    back: FlatBack
    diameter_mm: float
    columns_mm: tuple[float, ...]
    rows: ScrewRows

    @property
    def hanging(self) -> Hanging:
        """Return how the plate hangs by these screws."""
        return replace(self.back.hanging(MOUNT.name), screws=self.rows)

    def bought(self, count: int, through: str) -> Hardware:
        """Return the line of the hardware list."""
        screw = self.diameter_mm
        return Hardware(
            name=f"countersunk wood screw {said.metric(screw, self.rows.length_mm)}",
            count=count,
            note=f"{through} and the lining of the wall",
            source=SCREW_RULE,
            stud_mm=LEAST_PENETRATION * screw,
        )


def attach(
    family: str, front: Front, settings: MountSettings, _params: NoParams = NO_PARAMS
) -> HolderPart:
    """Return the part: front, a plate with an upper and a lower strip, and screw holes.

    Raises:
        DesignError: The load is more than all the screws that have room can carry.
    """
    screwing = screwed(front, settings)
    back, screw = screwing.back, screwing.diameter_mm
    hole = screw_hole(screw, plate_mm=settings.plate_mm)
    half = _strip_mm(screw) / 2
    holes: tuple[Solid, ...] = tuple(
        hole.moved(x, 0.0, z)
        for z in (back.top_mm - half, back.low_mm + half)
        for x in screwing.columns_mm
    )
    return HolderPart(
        family=family,
        leading=front.leading,
        solid=whole(front, Difference(back.plate, holes)),
        seats=front.seats,
        genus=front.genus + len(holes),
        bounds_mm=back.bounds(front),
        min_wall_mm=min(front.min_wall_mm, RIM_MM),
        mark_places=back.mark_places,
        hanging=screwing.hanging,
        hardware=(*front.hardware, screwing.bought(len(holes), "through a holder")),
        free_poses=promised(front, MOUNT.poses),
    )


def screwed(front: Front, settings: MountSettings) -> Screwing:
    """Return the thinnest and fewest screws that carry a front with all its tools.

    Raises:
        DesignError: The load is more than all the screws that have room can carry.
    """
    own = settings.own_in(front.width_mm)
    # one column in the middle meets one stud, two of them never do
    narrow = front.width_mm <= SPAN_MM
    for span in (*((math.inf,) if narrow else ()), SPAN_MM, SPAN_MM / 2, 0.0):
        for diameter in DIAMETERS_MM:
            least = settings.plate_mm + settings.lining_mm + LEAST_PENETRATION * diameter
            if least > SCREW_LENGTHS_MM[-1]:
                continue
            strip = _strip_mm(diameter)
            back = flat_back(front, plate_mm=settings.plate_mm, strip_mm=strip)
            columns = (
                (front.width_mm / 2,)
                if span == math.inf
                else screw_columns(front.width_mm, strip_mm=strip, span_mm=max(span, 1.25 * strip))
            )
            one = WallScrew(diameter, screw_length_mm(least), settings.plate_mm, settings.lining_mm)
            rows = ScrewRows(
                columns_mm=columns,
                apart_mm=back.top_mm - back.low_mm - strip,
                low_z_mm=back.low_mm + strip / 2,
                length_mm=one.length_mm,
                strength=ScrewStrength(one.thread_out_n, one.along_n),
            )
            load = screw_load(front.seats, own, rows, hand=settings.hand)
            if rows.strength.share(load) <= 1.0:
                return Screwing(back, diameter, columns, rows)
    raise DesignError(
        f"a load of {said.mass(sum(s.tool.mass_kg for s in front.seats), '.1f')} is more than "
        f"screws through a plate {said.mm(front.width_mm, '.0f')} wide and "
        f"{said.mm(settings.lining_mm)} of lining can carry",
        todo="Hold fewer tools in one holder, hang it on a rail, or take the lining away there",
    )


def _strip_mm(screw_mm: float) -> float:
    return countersink_mm(screw_mm) + 2 * RIM_MM


def _in_grooves(part: HolderPart, settings: MountSettings, _params: NoParams) -> HolderPart:
    return held(part, MOUNT.name, settings, wall_ways(CleatBack(part), settings))


PUT_IN = (
    "To hang a holder, screw it on through all its holes, with a pilot hole for each screw. To "
    "take it off, empty it first."
)

PLATES_IN = (
    "A holder on screw plates: slide the plates into the grooves of its back from the sides "
    "until they stop, and press a pin of filament into the hole above each. A corner that is cut "
    "off points outwards. A single plate locks below: before it, put the bolt into its guide and "
    "draw it to the front; then push it tight. Screw the plates on above the holder through all "
    "their holes, with a pilot hole for each screw. To take it off, empty it first."
)

MOUNT = Mount(
    name="wall-screws",
    title="Screwed straight to the wall",
    attach=attach,
    put_in=PUT_IN,
    on_rail=False,
    screwed=True,
    in_grooves=InGrooves(_in_grooves, PLATES_IN),
    # the holes are narrow enough to be bridged in every pose
    poses=("upright", "upside-down", "on-its-back", "on-its-side"),
)
