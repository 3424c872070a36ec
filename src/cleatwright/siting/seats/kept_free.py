"""Seats kept free on an arranged panel: those that stand in no way, and on rails that bear them.

First those of the papers that were made last stay, then those for which the search left room;
what is still missing is looked for on the rails that are there.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import count, islice

from cleatwright.base import said
from cleatwright.base.stages.run import Run
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.loading import LoadsOf, failing_rails, screws_known
from cleatwright.siting.rails.spacing import with_enough_screws
from cleatwright.siting.seats.usual import seat_key, usual_depth_mm
from cleatwright.siting.settling import missing_mm, ways_out_of
from cleatwright.wall.adding.reserved import more_seats, with_seats
from cleatwright.wall.conflicts import whole
from cleatwright.wall.model import Arrangement, ReservedSeat
from cleatwright.wall.way_out import Hindrance, Surroundings

Numbered = Callable[[Arrangement], Arrangement]

# so many places of a further seat are proven at the most
MOST_PROVEN = 4
# half the width of what is in the way where a seat is no wider than the room for a hand
LEAST_MM = 1.0


@dataclass(frozen=True)
class _Panel:
    """A panel without seats, and what a seat on it is held to.

    Args:
        job: The panel; its problem says how many seats are asked for.
        around: What is on it beside holders and rails.
        numbered: What numbers the rails of an arrangement.
        depth_mm: How far a usual holder stands out.
        loads: What keeps the loads of its rails.
    """

    job: PanelJob
    around: Surroundings
    numbered: Numbered
    depth_mm: float
    loads: LoadsOf

    def on(self, arrangement: Arrangement, run: Run) -> PanelJob:
        """Return the panel with the seats of an arrangement, everything on it proven again."""
        found = replace(
            self.numbered(arrangement),
            in_rows=self.job.arrangement.in_rows,
            left_over=self.job.arrangement.left_over,
        )
        around = replace(
            self.around,
            obstacles=(*self.around.obstacles, *map(self._box, found.seats)),
        )
        ways = ways_out_of(self.job.units, found, around, run)
        return with_enough_screws(replace(self.job, arrangement=found, ways=ways), self.loads)

    def _box(self, seat: ReservedSeat) -> Hindrance:
        """Return what a usual holder with its tools may fill: half a hand's room is beside it."""
        x0, x1, z0, z1 = whole(seat.item, seat.place)
        middle, half = (x0 + x1) / 2, (x1 - x0 - self.around.hand_room_mm) / 2
        wide = 2 * max(half, LEAST_MM)
        return Hindrance(seat.item.key, middle - wide / 2, z0, wide, z1 - z0, self.depth_mm)

    def refused(self, tried: PanelJob) -> frozenset[str]:
        """Return the keys of seats that stand in a way, and of one on a rail that does not hold.

        With one less the rail may bear the others.
        """
        return self.in_a_way(tried) or self.not_borne(tried)

    def in_a_way(self, tried: PanelJob) -> frozenset[str]:
        """Return the keys of seats whose holder or rail stands in the way of a tool or a hand."""
        keys = {one.item.key for one in tried.arrangement.seats}
        hits = (hit for way in tried.ways for hit in (way.hit, way.hand) if hit is not None)
        found = {hit.name for hit in hits if hit.name in keys}
        if not found and missing_mm(tried.ways) > missing_mm(self.job.ways):
            # a rail that is longer for them is in a way
            return frozenset(keys)
        return frozenset(found)

    def not_borne(self, tried: PanelJob) -> frozenset[str]:
        """Return the key of the last seat on each rail that does not hold with them."""
        weak = failing_rails(self.loads.on(tried))
        last = (tried.seats_on(rail)[-1:] for rail in tried.arrangement.rails if rail.name in weak)
        return frozenset(one.item.key for seats in last for one in seats)


def with_kept_free(
    job: PanelJob,
    remembered: Iterable[ReservedSeat],
    found: Iterable[ReservedSeat],
    *,
    around: Surroundings,
    numbered: Numbered,
    run: Run,
) -> PanelJob:
    """Return a panel with as many seats that are kept free as are asked for and find room.

    Args:
        job: The panel, arranged, without any.
        remembered: The seats of the papers, which keep their names.
        found: Seats for which a search left room.
        around: What is on the panel beside holders and rails.
        numbered: What numbers the rails of an arrangement.
        run: The run that keeps what was computed before.
    """
    wished = job.problem.seats
    if not wished:
        return job
    if not screws_known(job):
        return replace(job, seats_short="the screws of its rails are not known")
    loads = LoadsOf(job)
    if loads.by.strength is None and job.panel.places_known:
        short = f"it is not known what a rail on its {loads.by.one}s bears"
        return replace(job, seats_short=short)
    panel = _Panel(job, around, numbered, usual_depth_mm(job.units, run), loads)
    nameless = (replace(one, item=replace(one.item, key="")) for one in found)
    seats = _beside_each_other(job, (*remembered, *nameless))
    kept = _sound(panel, seats, run)
    while len(kept.arrangement.seats) < len(wished):
        more = _one_more(panel, kept, run)
        if isinstance(more, str):
            return replace(kept, seats_short=more)
        kept = more
    return kept


def _beside_each_other(
    job: PanelJob, candidates: Sequence[ReservedSeat]
) -> tuple[ReservedSeat, ...]:
    """Return the seats that can be together beside what hangs, no more than are asked for."""
    stays: tuple[ReservedSeat, ...] = ()
    for seat in candidates:
        if len(stays) == len(job.problem.seats):
            break
        tried = (*stays, _called(seat, stays))
        if with_seats(job.problem, job.arrangement, tried) is not None:
            stays = tried
    return stays


def _called(seat: ReservedSeat, others: Sequence[ReservedSeat]) -> ReservedSeat:
    """Return a seat under a name that no other one has."""
    taken = {one.item.key for one in others}
    if seat.item.key and seat.item.key not in taken:
        return seat
    key = next(key for key in map(seat_key, count(1)) if key not in taken)
    return ReservedSeat(replace(seat.item, key=key), replace(seat.place, key=key))


def _sound(panel: _Panel, seats: tuple[ReservedSeat, ...], run: Run) -> PanelJob:
    """Return the panel with those of the seats that are in no way and are borne."""
    while seats:
        run.go_on()
        arrangement = with_seats(panel.job.problem, panel.job.arrangement, seats)
        if arrangement is None:
            return panel.job
        tried = panel.on(arrangement, run)
        refused = panel.refused(tried)
        if not refused:
            return tried
        seats = tuple(one for one in seats if one.item.key not in refused)
    return panel.job


def _one_more(panel: _Panel, found: PanelJob, run: Run) -> PanelJob | str:
    """Return the panel with one seat more that is in no way and is borne, or why there is none."""
    before = found.arrangement
    wished = panel.job.problem.seats[0]
    item = _called(ReservedSeat(wished, before.places[0]), before.seats).item
    places = more_seats(found.problem, before, item, in_rows=before.in_rows)
    in_a_way = not_borne = False
    for arrangement in islice(places, MOST_PROVEN):
        run.go_on()
        tried = panel.on(arrangement, run)
        if panel.in_a_way(tried):
            in_a_way = True
        elif panel.not_borne(tried):
            not_borne = True
        else:
            return tried
    if not (in_a_way or not_borne):
        return (
            f"no rail within reach has room left for a plate of {said.most(item.width_mm)} and "
            "its tools"
        )
    why = (
        *(("a holder would be in the way of a tool or a hand",) if in_a_way else ()),
        *(("the rail would not bear it",) if not_borne else ()),
    )
    return f"where a rail has room left, {' or '.join(why)}"
