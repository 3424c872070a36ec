"""A front on a plate with hangers, before anything keeps it down on its rail."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.mounts.fittings import hanger
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import rail_back as back
from cleatwright.mounts.printed.bolt_places import board_mm, meet, ways_boxes
from cleatwright.mounts.printed.rail_back import Guide, Hangers, hangers_for
from cleatwright.mounts.printed.rail_loads import RailDemand
from cleatwright.mounts.printed.rail_screws import ScrewPad
from cleatwright.parts.holder import Front
from cleatwright.shapes.extent import extent
from cleatwright.shapes.facts import Bounds
from cleatwright.statics.captured import BLUNT_MM, Section

# at the groove of hangers, where they are short or loads are heavy
THICK_MM = 8.0
MOST_THICK_MM = 12.0


@dataclass(frozen=True)
class RailLayout:
    """A front on its plate, with its hangers, and bolts or screws.

    Args:
        front: The front, set forward and widened as it must be.
        top_mm: Height of the plate's top.
        section: Its section on the rail.
        loads: What it must bear.
        enough_mm: How wide the plate must be for hangers that bear it; 0 where it is.
        hangers: The hangers.
        plate_mm: Thickness of the plate.
        thick_mm: Thickness at the groove.
        guides: The guides of its bolts.
        pads: Where screws go through it into the rail.
    """

    front: Front
    top_mm: float
    section: Section
    loads: RailDemand
    enough_mm: float
    hangers: Hangers
    plate_mm: float
    thick_mm: float
    guides: tuple[Guide, ...] = ()
    pads: tuple[ScrewPad, ...] = ()

    @property
    def bolts_mm(self) -> tuple[float, ...]:
        """Return where its bolts stand."""
        return tuple(one.x_mm for one in self.guides)

    @property
    def holds(self) -> bool:
        """Tell whether plate and hangers bear it with the bolts where they stand."""
        return self.loads.thick_mm(self.hangers, self.bolts_mm) <= max(
            self.thick_mm, board_mm(self.front)
        )

    @property
    def back_mm3(self) -> float:
        """Return about how much plastic its plate takes."""
        band = back.TOP_MM + back.UNDER_MM
        high = max(band, self.top_mm - self.front.plate_low_mm)
        return self.front.width_mm * (self.thick_mm * band + self.plate_mm * (high - band))

    @property
    def contact_mm(self) -> float:
        """Return the height of the bevel's edge."""
        return self.section.contact_z_mm


def on_hangers(
    front: Front, settings: MountSettings, bolts_mm: tuple[float, ...] = ()
) -> RailLayout:
    """Return a front with hangers that bear it, or the longest that have room.

    Args:
        front: What hangs.
        settings: What it shall stand.
        bolts_mm: Where its bolts will stand, as far as that is known.
    """
    reach = hanger.reach_mm(settings.rail_thickness_mm)
    top = top_height_mm(front)
    section = Section(
        top - back.TOP_MM,
        settings.rail_height_mm - BLUNT_MM,
        settings.bevel_deg,
        reach - hanger.LAND_MM,
    )
    loads = RailDemand(front, section, settings)
    plate = max(settings.plate_mm, back.LEAST_PLATE_MM)
    most = max(plate, board_mm(front)) if front.anchored else MOST_THICK_MM
    room = most if front.anchored else room_mm(front, plate, top)
    # longer hangers before a front that is set forward, and before a plate that is very thick
    for thick in (room, min(most, THICK_MM), most):
        hangers = hangers_for(
            front.width_mm, enough=lambda one, t=thick: loads.thick_mm(one, bolts_mm) <= t
        )
        if loads.thick_mm(hangers, bolts_mm) <= thick:
            break
    return RailLayout(
        front=front,
        top_mm=top,
        section=section,
        loads=loads,
        enough_mm=0.0
        if loads.thick_mm(hangers, bolts_mm) <= most
        else back.width_for_mm(lambda one: loads.thick_mm(one, bolts_mm) <= most),
        hangers=hangers,
        plate_mm=settings.plate_mm,
        # the board of a carrier is cut where its holders meet it, and stays as it is
        thick_mm=plate if front.anchored else max(plate, loads.thick_mm(hangers, bolts_mm)),
    )


def room_mm(front: Front, plate_mm: float, top_mm: float) -> float:
    """Return how thick the plate may be at its groove before tools and their ways."""
    low = top_mm - back.TOP_MM - back.UNDER_MM
    band: Bounds = ((0.0, plate_mm, low), (front.width_mm, MOST_THICK_MM, top_mm))
    near = [box[0][1] for box in ways_boxes(front) if meet(band, box)]
    return max(plate_mm, min([MOST_THICK_MM, *near]))


def top_height_mm(front: Front) -> float:
    """Return how high the plate is: its grooves lie above all that is cut through it."""
    top = front.plate_high_mm
    band = ((0.0, 0.0, top - back.TOP_MM - back.UNDER_MM), (front.width_mm, 1.0, top))
    cut = [extent(one) for one in front.cuts]
    met = [box[1][2] for box in cut if meet(band, box)]
    if not met:
        return top
    return max([top, *(box[1][2] for box in cut)]) + back.TOP_MM + back.UNDER_MM
