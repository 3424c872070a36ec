"""The studs of a panel, as places for the screws of its rails."""

from __future__ import annotations

from cleatwright.wall.studs import StudPlace
from cleatwright.workshop.document.surfaces import Panel, touching


def studs_of(panel: Panel) -> tuple[StudPlace, ...]:
    """Return the studs of a panel from left to right; those nailed together are one."""
    places: list[StudPlace] = []
    before = None
    for stud in sorted(panel.studs, key=lambda one: one.x_mm):
        half = stud.width_mm / 2
        faces = (stud.x_mm - half, stud.x_mm + half)
        if before and (before.doubled or stud.doubled) and touching(before, stud):
            places[-1] = StudPlace((*places[-1].uprights, faces))
        else:
            places.append(StudPlace((faces,)))
        before = stud
    return tuple(places)
