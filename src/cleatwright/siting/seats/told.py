"""What is to be known of the seats of a panel that are kept free, in words."""

from __future__ import annotations

from collections.abc import Iterator

from cleatwright.base import said
from cleatwright.siting.panel_job import PanelJob
from cleatwright.wall.moving.moves import surface


def seat_notes(job: PanelJob) -> Iterator[str]:
    """Yield how many of the seats of a panel that are asked for are kept free, and where."""
    asked, found = len(job.problem.seats), job.arrangement.seats
    if not asked:
        return
    where = surface(job.panel.name)
    on = {seat.item.key: rail.name for rail in job.arrangement.rails for seat in job.seats_on(rail)}
    told = [
        f"{seat.item.key} on {on[seat.item.key]} at x {said.at(seat.place.x_mm)}, for a plate of "
        f"{said.most(seat.item.width_mm)}"
        for seat in found
    ]
    kept = f": {'; '.join(told)}" if told else ""
    yield f"{len(found)} of {asked} reserved seats found room on {where}{kept}."
