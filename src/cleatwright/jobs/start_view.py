"""The wall and the person of a workshop that is being set out, as far as they are known."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.errors import DesignError, MeasureError
from cleatwright.base.units import length_mm
from cleatwright.jobs.starting import Key, Started, start_steps
from cleatwright.standards.people.body_segments import segment_mm
from cleatwright.wall.reach import PersonReach, ReachBand, band_of, person
from cleatwright.workshop.document.typed import written


@dataclass(frozen=True)
class StartView:
    """What can be drawn: sizes that are not known, or cannot be, are None.

    Args:
        width_mm: Of the wall.
        height_mm: Of the wall.
        floor_gap_mm: Its lower edge above the floor.
        figure: The person; the usual one where the stature is not known.
        knee_mm: The height of the person's knee.
        band: Where that person reaches.
    """

    width_mm: float | None
    height_mm: float | None
    floor_gap_mm: float | None
    figure: PersonReach
    knee_mm: float
    band: ReachBand


def start_view(started: Started) -> StartView:
    """Return what can be drawn of what was typed so far."""
    stature = _length(started, ("person", "stature"))
    figure = person() if stature is None else person(stature)
    return StartView(
        width_mm=_length(started, ("wall", "width")),
        height_mm=_length(started, ("wall", "height")),
        floor_gap_mm=_length(started, ("wall", "floor_gap")),
        figure=figure,
        knee_mm=segment_mm("knee height", stature_mm=figure.stature_mm),
        band=band_of(figure),
    )


def _length(started: Started, path: Key) -> float | None:
    field = next(
        one.field for fields in start_steps().values() for one in fields if one.path == path
    )
    try:
        value = written(field, started.typed.get(path, ""))
        if not isinstance(value, (int, float, str)):
            return None
        read = length_mm(value, unit=started.unit)
    except (MeasureError, DesignError):
        return None
    return read if (field.low or 0.0) <= read <= (field.high or read) else None
