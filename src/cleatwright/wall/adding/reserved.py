"""Seats that are kept free for holders to come: which of them may stay, and where more are."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from cleatwright.wall.arrange import Progress, arrange
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.explaining.insertion import Standing, free_places, heights
from cleatwright.wall.model import Arrangement, Item, Place, ReservedSeat
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rails import weak
from cleatwright.wall.rows.choosing import on_rows
from cleatwright.wall.rows.laying import without_empty
from cleatwright.wall.score import hung, seat_cost, seats_cost
from cleatwright.wall.tolerances import TOLERANCE_MM

# so many places of a seat are looked at to the last point, those of easiest reach first
MOST_LOOKED_AT = 40


def with_room_for_seats(
    problem: WallProblem,
    found: Arrangement,
    *,
    seed: int,
    rounds: int,
    progress: Progress | None = None,
) -> Arrangement:
    """Return an arrangement with room for the seats that are to be kept free.

    It sets out from the one that was found, on its rows where it has rows. What hangs makes room
    as far as a seat is worth that, and no rail is put up for a seat alone.

    Args:
        problem: The wall, what hangs, none of it already, and the seats.
        found: Where everything hangs without them.
        seed: Start of the random numbers.
        rounds: Rounds of improvement, >= 0.
        progress: Called in each round with rounds done and all rounds; it may raise to stop.
    """
    on = on_rows(problem, found)
    if not found.in_rows:
        on = on.ruled(replace(on.rule, rows=False))
    at = {place.key: (place.x_mm, place.z_mm) for place in found.places}
    items = (item if item.fixed else replace(item, hangs_at=at[item.key]) for item in on.items)
    # it costs nothing to leave the place from which it sets out
    setting_out = on.having(items).weighed(replace(on.weights, moved=0.0))
    tried = arrange(setting_out, seed=seed, rounds=rounds, progress=progress)
    if tried.left_over:
        return found
    if found.in_rows:
        tried = without_empty(on, tried)
    before, after = (one.scores.total + seats_cost(problem, one.seats) for one in (found, tried))
    return tried if after < before and not conflicts(on, tried) else found


def with_seats(
    problem: WallProblem, arrangement: Arrangement, seats: Sequence[ReservedSeat]
) -> Arrangement | None:
    """Return an arrangement with seats that are kept free; None when these cannot all be.

    Args:
        problem: The wall and what hangs, with the rows of the arrangement.
        arrangement: Where everything hangs.
        seats: The seats; those that the arrangement has go.
    """
    found = hung(problem, arrangement.places, seats)
    was_weak = len(weak(problem.space, arrangement.rails))
    if len(found.seats) < len(seats) or len(weak(problem.space, found.rails)) > was_weak:
        return None
    return None if conflicts(problem, found) else found


def more_seats(
    problem: WallProblem, arrangement: Arrangement, item: Item, *, in_rows: bool
) -> Iterator[Arrangement]:
    """Yield an arrangement with one seat more, on a rail that is there; the easiest reach first.

    A rail that is cut to what hangs on it may become as much longer as a seat is worth.

    Args:
        problem: The wall and what hangs, with the rows of the arrangement.
        arrangement: Where everything hangs, and the seats that are kept free already.
        item: The further seat.
        in_rows: Whether new rails are whole rows, which are as long as they are.
    """
    seats = arrangement.seats
    all_items = problem.hanging(seats)
    standing = Standing(all_items, (*arrangement.places, *(one.place for one in seats)))
    edge_mm, gap_mm = problem.rule.edge_above_mm, problem.space.floor_gap_mm
    tops = {rail.z_top_mm - edge_mm for rail in arrangement.rails if rail.stays or rail.carries}
    in_use = [
        z for z in heights(standing, item) if any(abs(z - one) <= TOLERANCE_MM for one in tops)
    ]
    ends = [
        x - side
        for rail in arrangement.rails
        for x, side in ((rail.x0_mm, 0.0), (rail.x1_mm, item.width_mm))
    ]
    free = free_places(standing, item, z_mm=in_use, more_x_mm=ends)
    if in_rows:
        free = tuple(one for one in free if _on_rail(arrangement, one, item, edge_mm))

    def merit(place: Place) -> tuple[float, float, float, float]:
        beyond = _beyond_rails(arrangement, place, item, edge_mm)
        cost = seat_cost(place.z_mm + gap_mm, problem=problem)
        return beyond, cost, place.z_mm, place.x_mm

    for place in sorted(free, key=merit)[:MOST_LOOKED_AT]:
        found = with_seats(problem, arrangement, (*seats, ReservedSeat(item, place)))
        dearer = 0.0 if found is None else found.scores.total - arrangement.scores.total
        if found is not None and dearer < problem.weights.seat:
            yield found


def _on_rail(arrangement: Arrangement, place: Place, item: Item, edge_mm: float) -> bool:
    return _beyond_rails(arrangement, place, item, edge_mm) <= TOLERANCE_MM


def _beyond_rails(arrangement: Arrangement, place: Place, item: Item, edge_mm: float) -> float:
    """Return by how much a rail at a height is too short for a plate there."""
    x0, x1 = place.x_mm, place.x_mm + item.width_mm
    return min(
        max(rail.x0_mm - x0, 0.0) + max(x1 - rail.x1_mm, 0.0)
        for rail in arrangement.rails
        if abs(rail.z_top_mm - edge_mm - place.z_mm) <= TOLERANCE_MM
    )
