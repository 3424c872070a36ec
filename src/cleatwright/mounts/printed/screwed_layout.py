"""A front on a plate that screws hold to its rail, where no bolts do."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

from cleatwright.features.moved_front import set_forward, widened
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import rail_back as back
from cleatwright.mounts.printed.rail_layout import RailLayout, on_hangers
from cleatwright.mounts.printed.rail_screws import RailScrew, as_parts, rail_screw, screw_rows
from cleatwright.parts.holder import Front

FORWARDS_MM = (0.0, 2.0, 4.0, 6.0, 8.0, 10.0, 12.0)
BESIDE_MM = 2.0
# pads that hold more under the head are thicker, with longer screws
THICKER_MM = (0.0, 5.0, 10.0, 15.0)


def screwed_on(front: Front, settings: MountSettings) -> RailLayout | None:
    """Return a front with screws into the rail in place of bolts, or None where none will do.

    It is set forward, or its plate is wider, where nothing else leaves room for their pads.
    """
    for forward in FORWARDS_MM:
        how = replace(settings, plate_mm=settings.plate_mm + forward)
        plate = max(how.plate_mm, back.LEAST_PLATE_MM)
        found = (
            rail_screw(settings.rail_thickness_mm, plate_mm=plate + more) for more in THICKER_MM
        )
        screws = [one for one in found if one is not None]
        for beside, screw in product((False, True), screws):
            laid = _with_pads(front, how, screw, forward_mm=forward, beside=beside)
            if laid is not None:
                return laid
    return None


def _with_pads(
    front: Front, how: MountSettings, screw: RailScrew, *, forward_mm: float, beside: bool
) -> RailLayout | None:
    """Return a front with the first row of pads that bears it, or None."""
    more = 2 * screw.half_mm + BESIDE_MM if beside else 0.0
    width = max(front.width_mm + more, back.LEAST_WIDTH_MM)
    wide = widened(front, width, share=0.0 if beside else 0.5)
    laid = on_hangers(set_forward(wide, forward_mm), how)
    hangers = back.hangers_for(laid.front.width_mm)
    plate = max(how.plate_mm, back.LEAST_PLATE_MM)
    low = min(laid.front.plate_low_mm, laid.contact_mm - back.UNDER_MM)
    box = ((0.0, 0.0, low), (laid.front.width_mm, plate, laid.top_mm))
    for pads in screw_rows(laid.front, laid.section, how, screw):
        if laid.loads.screws_bear(as_parts(pads, laid.section, hangers.ends_mm, plate=box)):
            return replace(laid, hangers=hangers, thick_mm=plate, pads=pads)
    return None
