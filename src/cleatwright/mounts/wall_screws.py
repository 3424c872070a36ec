"""Screwed straight to the wall: two strips with countersunk holes, above and below the front.

┌───────────────┐
│ ◎     ◎     ◎ │ upper strip: one more hole for every SPAN of width
├───────────────┤
│     front     │
├───────────────┤
│ ◎     ◎     ◎ │ lower strip
└───────────────┘
"""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.mounts.mount import NO_PARAMS, Mount, MountSettings, NoParams, promised, whole
from cleatwright.parts.holder import Front, Hanging, Hardware, HolderPart, MarkPlace, front_mark
from cleatwright.parts.layout import screw_columns
from cleatwright.parts.mark_room import band_height_mm, has_room
from cleatwright.parts.screw_hole import screw_hole
from cleatwright.shapes.solid import Difference, Solid, block
from cleatwright.standards.wood_screws import countersink_mm

SCREW_MM = 4.0
SPAN_MM = 110.0
RIM_MM = 3.0
SCREW_RULE = Source("wood screws of 4 mm in two rows, at most 110 mm apart", "", Evidence.CHOICE)


def attach(
    family: str, front: Front, settings: MountSettings, _params: NoParams = NO_PARAMS
) -> HolderPart:
    """Return the part: front, a plate with an upper and a lower strip, and screw holes."""
    head = countersink_mm(SCREW_MM)
    strip = head + 2 * RIM_MM
    # parts of the front that overhang a strip would stand in the way of the screwdriver
    top = max(front.plate_high_mm, front.high_mm) + strip
    foot = min(front.plate_low_mm, front.low_mm)
    band = (
        0.0
        if has_room(front.mark_place.width_mm, front.mark_place.height_mm)
        else band_height_mm(front.width_mm)
    )
    low = foot - band - strip
    columns = screw_columns(front.width_mm, strip_mm=strip, span_mm=SPAN_MM)
    holes: tuple[Solid, ...] = tuple(
        screw_hole(SCREW_MM, plate_mm=settings.plate_mm).moved(x, 0.0, z)
        for z in (top - strip / 2, low + strip / 2)
        for x in columns
    )
    plate = block(0.0, 0.0, low, front.width_mm, settings.plate_mm, top)
    return HolderPart(
        family=family,
        leading=front.leading,
        solid=whole(front, Difference(plate, holes)),
        seats=front.seats,
        genus=front.genus + len(holes),
        bounds_mm=(
            (0.0, 0.0, low),
            (front.width_mm, max(front.reach_mm, settings.plate_mm), top),
        ),
        min_wall_mm=min(front.min_wall_mm, RIM_MM),
        mark_places=(front.mark_place, *_band_place(front, foot, band, settings)),
        hanging=Hanging(
            mount=MOUNT.name,
            on_rail=False,
            contact_z_mm=top,
            depth_below_mm=top - low,
            bevel_deg=0.0,
            stand_off_mm=0.0,
        ),
        hardware=(
            *front.hardware,
            Hardware(
                name=f"countersunk wood screw {SCREW_MM:g} mm",
                count=len(holes),
                note=f"into studs or sound masonry plugs, at least {6 * SCREW_MM:g} mm deep",
                source=SCREW_RULE,
            ),
        ),
        print_pose=promised(front, MOUNT.poses),
    )


def _band_place(
    front: Front, foot: float, band: float, settings: MountSettings
) -> tuple[MarkPlace, ...]:
    if not band:
        return ()
    return (front_mark(0.0, front.width_mm, z0=foot - band, z1=foot, y_mm=settings.plate_mm),)


MOUNT = Mount(
    name="wall-screws",
    title="Screwed straight to the wall",
    attach=attach,
    on_rail=False,
    # the holes are narrow enough to be bridged in every pose
    poses=("upright", "upside-down", "on-its-back", "on-its-side"),
)
