"""A front on a plate that screws hold to its rail, where no bolts do."""

from __future__ import annotations

from dataclasses import replace

from cleatwright.features.moved_front import set_forward, widened
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import rail_back as back
from cleatwright.mounts.printed.rail_layout import RailLayout, on_hangers
from cleatwright.mounts.printed.rail_screws import as_parts, rail_screw, screw_rows
from cleatwright.parts.holder import Front

FORWARDS_MM = (0.0, 2.0, 4.0, 6.0, 8.0)
BESIDE_MM = 2.0


def screwed_on(front: Front, settings: MountSettings) -> RailLayout | None:
    """Return a front with screws into the rail in place of bolts, or None where none will do.

    It is set forward, or its plate is wider, where nothing else leaves room for their pads.
    """
    for forward in FORWARDS_MM:
        how = replace(settings, plate_mm=settings.plate_mm + forward)
        plate = max(how.plate_mm, back.LEAST_PLATE_MM)
        screw = rail_screw(settings.rail_thickness_mm, plate_mm=plate)
        if screw is None:
            return None
        for beside in (0.0, 2 * screw.half_mm + BESIDE_MM):
            width = max(front.width_mm + beside, back.LEAST_WIDTH_MM)
            wide = widened(front, width, share=0.0 if beside else 0.5)
            laid = on_hangers(set_forward(wide, forward), how)
            hangers = back.hangers_for(laid.front.width_mm)
            for pads in screw_rows(laid.front, laid.section, how, screw):
                screws = as_parts(pads, laid.section, hangers.ends_mm)
                if laid.loads.screws_bear(screws):
                    return replace(laid, hangers=hangers, thick_mm=plate, pads=pads)
    return None
