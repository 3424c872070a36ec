"""What is to be known of the seats of a panel that are kept free, in words."""

from __future__ import annotations

from collections.abc import Iterator

from cleatwright.base import said
from cleatwright.siting.panel_job import PanelJob
from cleatwright.wall.moving.moves import surface
from cleatwright.workshop.document.surfaces import Panel


def seat_notes(job: PanelJob) -> Iterator[str]:
    """Yield how many of the seats of a panel that are asked for are kept free, and where or why."""
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
    kept = "; ".join(told) or job.seats_short
    more = f": {kept}" if kept else ""
    yield f"{len(found)} of {asked} reserved seats found room on {where}{more}."
    if 0 < len(found) < asked and job.seats_short:
        yield f"No more seats are kept free on {where}: {job.seats_short}."


def seats_foreseen(panel: Panel, on_papers: int | None) -> str:
    """Return what is known of the seats that a panel is to keep free before it is arranged.

    Args:
        panel: The panel, with at least one of them.
        on_papers: How many the papers of its last arrangement keep free; None where there is none.
    """
    where, asked = surface(panel.name), panel.reserved_seats
    seats = "1 seat is" if asked == 1 else f"{asked} seats are"
    if on_papers is None:
        return (
            f"{seats} to be kept free on {where} where there is room (reserved_seats); "
            "arranging says how many find it."
        )
    more = "" if on_papers >= asked else "; arranging says why no more are"
    return (
        f"{seats} to be kept free on {where} (reserved_seats), and {on_papers} "
        f"{'is' if on_papers == 1 else 'are'} by the papers that were made last{more}."
    )
