"""Plates that lie flat on what they hang on."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from cleatwright.features.mark_room import band_height_mm, has_room
from cleatwright.parts.holder import Front, Hanging, MarkPlace, front_mark
from cleatwright.shapes.solid import Solid, block


@dataclass(frozen=True)
class FlatBack:
    """A plate behind a front, with room for its mark.

    Args:
        width_mm: Width of the plate.
        plate_mm: Thickness of the plate.
        low_mm: Its lower edge.
        top_mm: Its upper edge.
        mark_places: Where the mark may go, the front's own place first.
    """

    width_mm: float
    plate_mm: float
    low_mm: float
    top_mm: float
    mark_places: tuple[MarkPlace, ...]

    @property
    def plate(self) -> Solid:
        """Return the plain plate."""
        return block(0.0, 0.0, self.low_mm, self.width_mm, self.plate_mm, self.top_mm)

    def bounds(self, front: Front, *, behind_mm: float = 0.0) -> tuple[Point3, Point3]:
        """Return the box around a front and this plate, with what reaches behind it."""
        return (
            (0.0, -behind_mm, min(self.low_mm, front.low_mm)),
            (
                self.width_mm,
                max(front.reach_mm, self.plate_mm),
                max(self.top_mm, front.high_mm),
            ),
        )

    def hanging(self, mount: str) -> Hanging:
        """Return how the plate hangs: flat, by what goes through or behind it."""
        return Hanging(
            mount=mount,
            on_rail=False,
            contact_z_mm=self.top_mm,
            depth_below_mm=self.top_mm - self.low_mm,
            bevel_deg=0.0,
            stand_off_mm=0.0,
        )


Point3 = tuple[float, float, float]


def flat_back(
    front: Front, *, plate_mm: float, strip_mm: float = 0.0, least_mm: float = 0.0
) -> FlatBack:
    """Return the plate for a front.

    Args:
        front: The front.
        plate_mm: Thickness of the plate.
        strip_mm: A strip to leave free above and below everything, for screws.
        least_mm: The least height of the plate.
    """
    roomy = has_room(front.mark_place.width_mm, front.mark_place.height_mm)
    free = strip_mm > 0.0 or not roomy
    foot = min(front.plate_low_mm, front.low_mm) if free else front.plate_low_mm
    band = 0.0 if roomy else band_height_mm(front.width_mm)
    # parts of the front that overhang a strip would stand in the way of the screwdriver
    top = max(front.plate_high_mm, front.high_mm) if strip_mm > 0.0 else front.plate_high_mm
    top += strip_mm
    low = min(foot - band - strip_mm, top - least_mm)
    places = (front_mark(0.0, front.width_mm, z0=foot - band, z1=foot, y_mm=plate_mm),)
    return FlatBack(
        width_mm=front.width_mm,
        plate_mm=plate_mm,
        low_mm=low,
        top_mm=top,
        mark_places=(front.mark_place, *(places if band else ())),
    )


def pitch_columns(
    width_mm: float, *, pitch_mm: float, edge_mm: float, span_mm: float
) -> tuple[float, ...]:
    """Return columns a whole number of pitches apart, about the middle of a plate.

    Args:
        width_mm: Width of the plate.
        pitch_mm: Distance of the holes or slots of a board.
        edge_mm: The least from a column to the edge.
        span_mm: About the most between two columns.

    >>> pitch_columns(60.0, pitch_mm=25.4, edge_mm=5.0, span_mm=110.0)
    (17.3, 42.7)
    """
    whole = int((width_mm - 2 * edge_mm) / pitch_mm + 1e-9)
    if whole < 1:
        return (width_mm / 2,)
    count = min(whole, max(1, math.ceil(whole * pitch_mm / span_mm))) + 1
    steps = [round(k * whole / (count - 1)) for k in range(count)]
    start = (width_mm - whole * pitch_mm) / 2
    return tuple(round(start + step * pitch_mm, 9) for step in steps)


@dataclass(frozen=True)
class HookRoom:
    """How far a hook reaches above and below its own height, rims included."""

    above_mm: float
    below_mm: float


def hook_rows(
    front: Front, back: FlatBack, room: HookRoom, *, pitch_mm: float
) -> tuple[FlatBack, float, float]:
    """Return a plate with room for two rows of hooks, and the heights of both rows.

    The rows are a whole number of pitches apart, near both ends of the plate. Where a front
    is cut through together with its plate, they lie above and below all of it.
    """
    if front.cuts:
        top = back.top_mm + room.above_mm + room.below_mm
        upper = top - room.above_mm
        ceiling = min(front.plate_low_mm, back.low_mm) - room.above_mm
        whole = math.ceil((upper - ceiling) / pitch_mm - 1e-9)
    else:
        top = back.top_mm
        upper = top - room.above_mm
        whole = max(1, int((upper - back.low_mm - room.below_mm) / pitch_mm + 1e-9))
    lower = upper - whole * pitch_mm
    low = min(back.low_mm, lower - room.below_mm)
    return replace(back, top_mm=top, low_mm=low), upper, lower
