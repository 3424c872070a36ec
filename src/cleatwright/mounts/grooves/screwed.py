"""Plates that are screwed on above a holder, where a driver reaches them from the front.

 ┌───┐      ┌───┐
 │ ◎ │      │ ◎ │   upper row
 │ ◎ │      │ ◎ │   lower row, above all of the holder
┌┴───┴──────┴───┴┐
│ ═╪═        ═╪═ │  tongues in their grooves
│     front      │
└────────────────┘
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import product

from cleatwright.base import said
from cleatwright.mounts.fittings.groove_plate import SCREW_PLATE
from cleatwright.mounts.grooves.cleat_back import CleatBack
from cleatwright.mounts.grooves.holding import Way
from cleatwright.mounts.grooves.plates import (
    RIM_MM,
    THICKS_MM,
    WIDER_MM,
    LaidPlates,
    PlateRows,
    over_columns_mm,
    screw_places,
    spans,
)
from cleatwright.mounts.mount import MountSettings
from cleatwright.parts.holder import Hardware, ScrewRows
from cleatwright.parts.screw_strength import ScrewStrength
from cleatwright.standards.fasteners.iso_273 import clearance_hole_mm
from cleatwright.standards.fasteners.nds_screws import LEAST_PENETRATION
from cleatwright.standards.fasteners.wood_screws import (
    SCREW_LENGTHS_MM,
    countersink_mm,
    screw_length_mm,
)
from cleatwright.statics.screw_group import SCREW_RULE
from cleatwright.statics.wall_screw import WallScrew

WOOD_MM = (4.0, 5.0, 6.0)
APARTS_MM = (20.0, 35.0, 60.0)
# one row on a profile whose slots lie further apart than this (a choice)
MOST_APART_MM = 65.0
FAR_MM = 1000.0
BoughtFor = Callable[[int, float], tuple[Hardware, ...]]


def wall_ways(back: CleatBack, settings: MountSettings) -> Iterator[Way]:
    """Yield plates with countersunk wood screws, the shortest first.

    Args:
        back: The back that they hold.
        settings: How thick the lining of the wall is.
    """
    for apart in APARTS_MM:
        for screw in WOOD_MM:
            half = countersink_mm(screw) / 2 + RIM_MM
            for wider, thick in product(WIDER_MM, THICKS_MM):
                columns = screw_places(back, half_mm=half + wider)
                low = over_columns_mm(back, columns, half_mm=half) + half
                rows = PlateRows(thick, (low + apart, low), low + apart + half, FAR_MM)
                laid = LaidPlates(back, spans(back, columns, half_mm=half + wider), rows)
                way = _wall_way(laid, screw, settings.lining_mm)
                if way is not None:
                    yield way


def _wall_way(laid: LaidPlates, screw_mm: float, lining_mm: float) -> Way | None:
    """Return plates with wood screws; None where none on sale is long enough."""
    thick = laid.rows.thick_mm
    least = thick + lining_mm + LEAST_PENETRATION * screw_mm
    if least > SCREW_LENGTHS_MM[-1]:
        return None
    one = WallScrew(screw_mm, screw_length_mm(least), thick, lining_mm)
    strength = ScrewStrength(one.thread_out_n, one.along_n)
    upper, lower = laid.rows.rows_mm
    columns = tuple(span.column_mm for span in laid.spans)
    count = len(columns) * 2
    return Way(
        laid,
        laid.hold(hole_mm=countersink_mm(screw_mm), screw=strength),
        laid.fittings(SCREW_PLATE.name, {"screw_mm": screw_mm}),
        (
            Hardware(
                name=f"countersunk wood screw {said.metric(screw_mm, one.length_mm)}",
                count=count,
                note="through the plates of a holder and the lining of the wall",
                source=SCREW_RULE,
                stud_mm=LEAST_PENETRATION * screw_mm,
            ),
        ),
        ScrewRows(
            columns_mm=columns,
            apart_mm=upper - lower,
            low_z_mm=lower,
            length_mm=one.length_mm,
            strength=strength,
        ),
    )


def slot_ways(
    back: CleatBack, *, thread: str, washer_mm: float, pitch_mm: float, bought: BoughtFor
) -> Iterator[Way]:
    """Yield plates with holes for machine screws in the slots of a profile.

    Args:
        back: The back that they hold.
        thread: The screw, such as "M5".
        washer_mm: Diameter of its washer.
        pitch_mm: From slot to slot.
        bought: Tells what has to be bought for so many screws through a thickness.
    """
    half, count = washer_mm / 2 + RIM_MM, len(back.lefts_mm)
    apart = -(-2 * half // pitch_mm) * pitch_mm
    # a single plate with one screw would turn about it
    if apart > MOST_APART_MM and count == 1:
        return
    bore = clearance_hole_mm(thread, "medium")
    for wider, thick in product(WIDER_MM, THICKS_MM):
        columns = screw_places(back, half_mm=half + wider)
        low = over_columns_mm(back, columns, half_mm=half) + half
        heights = (low + apart, low) if apart <= MOST_APART_MM else (low,)
        rows = PlateRows(thick, heights, heights[0] + half, FAR_MM)
        laid = LaidPlates(back, spans(back, columns, half_mm=half + wider), rows)
        yield Way(
            laid,
            laid.hold(hole_mm=bore),
            laid.fittings(SCREW_PLATE.name, {"bore_mm": bore}),
            bought(count * len(heights), thick),
        )
