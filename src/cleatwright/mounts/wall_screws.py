"""Screwed straight to the wall: two strips with countersunk holes, above and below the front.

┌───────────────┐
│ ◎     ◎     ◎ │ upper strip: one more hole for every SPAN of width
├───────────────┤
│     front     │
├───────────────┤
│ ◎     ◎     ◎ │ lower strip
└───────────────┘

Screws and their holes grow with the load: 4 mm, then 5 and 6 mm, then more of them.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from cleatwright.base.errors import DesignError
from cleatwright.base.source import Evidence, Source
from cleatwright.mounts.mount import NO_PARAMS, Mount, MountSettings, NoParams, promised, whole
from cleatwright.parts.flat_back import FlatBack, flat_back
from cleatwright.parts.holder import Front, Hardware, HolderPart
from cleatwright.parts.layout import screw_columns
from cleatwright.parts.screw_hole import screw_hole
from cleatwright.parts.tool import GRAVITY_M_S2
from cleatwright.shapes.solid import Difference, Solid
from cleatwright.standards.wood_screws import countersink_mm

SPAN_MM = 110.0
RIM_MM = 3.0
# diameter and what one screw may carry along and out of the wall, together
SCREWS = ((4.0, 100.0), (5.0, 150.0), (6.0, 200.0))
SCREW_RULE = Source(
    "wood screws in two rows, at most 110 mm apart",
    "100, 150, 200 N a screw of 4, 5, 6 mm: under half of NDS 12.2-2 for six diameters in softwood",
    Evidence.CHOICE,
)


@dataclass(frozen=True)
class Screwing:
    """Which screws hold a plate, and where.

    Args:
        back: The plate.
        diameter_mm: Diameter of the screws.
        columns_mm: Where they stand along the plate.
        demand_n: What the most loaded one carries.
    """

    back: FlatBack
    diameter_mm: float
    columns_mm: tuple[float, ...]
    demand_n: float


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
        hanging=back.hanging(MOUNT.name),
        hardware=(
            *front.hardware,
            Hardware(
                name=f"countersunk wood screw {screw:g} mm",
                count=len(holes),
                note=f"into studs or sound masonry plugs, at least {6 * screw:g} mm deep",
                source=SCREW_RULE,
            ),
        ),
        print_pose=promised(front, MOUNT.poses),
    )


def screwed(front: Front, settings: MountSettings) -> Screwing:
    """Return the thinnest and fewest screws that carry a front with all its tools.

    Raises:
        DesignError: The load is more than all the screws that have room can carry.
    """
    for span in (SPAN_MM, SPAN_MM / 2, 0.0):
        for diameter, allowed in SCREWS:
            strip = _strip_mm(diameter)
            back = flat_back(front, plate_mm=settings.plate_mm, strip_mm=strip)
            columns = screw_columns(front.width_mm, strip_mm=strip, span_mm=max(span, 1.25 * strip))
            demand = _demand_n(front, back, strip, len(columns))
            if demand <= allowed:
                return Screwing(back, diameter, columns, demand)
    raise DesignError(
        f"a load of {sum(s.tool.mass_kg for s in front.seats):.1f} kg is more than screws through "
        f"a plate {front.width_mm:.0f} mm wide can carry",
        todo="Hold fewer tools in one holder, or hang it on a rail",
    )


def _strip_mm(screw_mm: float) -> float:
    return countersink_mm(screw_mm) + 2 * RIM_MM


def _demand_n(front: Front, back: FlatBack, strip_mm: float, columns: int) -> float:
    """Return what an upper screw carries: its share of the weight, and the pull of the moment."""
    weights = [seat.tool.mass_kg * GRAVITY_M_S2 for seat in front.seats]
    moment = sum(w * seat.com_mm[1] for w, seat in zip(weights, front.seats, strict=True))
    apart = back.top_mm - back.low_mm - strip_mm
    along = sum(weights) / (2 * columns)
    out = moment / apart / columns
    return math.hypot(along, out)


MOUNT = Mount(
    name="wall-screws",
    title="Screwed straight to the wall",
    attach=attach,
    on_rail=False,
    screwed=True,
    # the holes are narrow enough to be bridged in every pose
    poses=("upright", "upside-down", "on-its-back", "on-its-side"),
)
