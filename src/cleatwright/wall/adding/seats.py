"""Seats for new holders while all that hangs stays: the first step that has one, then the points.

A rail that is there goes before a new piece at a height that is in use, and that before a new
height, whatever they cost: whoever hangs one tool more wants to screw on no rail for it. Of the
rails that are there what is free goes before what is kept free for just that, the reserved seats.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import permutations
from typing import Literal

from cleatwright.wall.conflicts import conflicts, overlap, whole
from cleatwright.wall.explaining.insertion import Standing, free_places, heights
from cleatwright.wall.model import Arrangement, Item, Place, ReservedSeat, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Rail, Rect, distance_mm
from cleatwright.wall.rails import cut_rails, kept_rail
from cleatwright.wall.score import (
    MM_PER_CM,
    half_perimeter_mm,
    moved_cost,
    raised_cost,
    reach_cost,
    score,
    sideways_cost,
)
from cleatwright.wall.tolerances import TOLERANCE_MM

SeatStep = Literal["rail", "height", "new height", "any height"]
"""On a rail that is there; on a new piece at a height in use; at another of the usual heights; at
any height at which it touches what is above or below it."""
STEPS: tuple[SeatStep, ...] = ("rail", "height", "new height", "any height")
ON_RAILS, ON_NEW_RAILS = STEPS[:1], STEPS[1:]
# so many seats of a step are looked at to the last point, the seemingly cheapest first
MOST_LOOKED_AT = 60
# all orders of so many new things are tried, and of more only that of their size
MOST_ORDERED = 3


def _any(_problem: WallProblem, _places: Sequence[Place]) -> bool:
    return True


@dataclass(frozen=True)
class SeatWish:
    """What a seat is held to beside the rules.

    Args:
        off: Boxes from which the new thing keeps off with its tools.
        off_mm: By how much.
        accepts: Whether a wall with it will do, asked of those that break no rule and cost less
            than what was accepted before.
        more_x_mm: Left edges of its plate that are tried beside those at which it meets something.
        beside_mm: The x to which it is nearest of seats that cost the same; the left end for none.
    """

    off: Sequence[Rect] = ()
    off_mm: float = 0.0
    accepts: Callable[[WallProblem, Sequence[Place]], bool] = _any
    more_x_mm: tuple[float, ...] = ()
    beside_mm: float = 0.0

    def is_off(self, box: Rect) -> bool:
        """Return whether a box is far enough from those that it keeps off."""
        return all(distance_mm(box, one) >= self.off_mm for one in self.off)


NO_WISH = SeatWish()


@dataclass(frozen=True)
class SeatFound:
    """A seat for one new thing.

    Args:
        space: The wall, with the row that is laid for it.
        place: Where it hangs.
        step: The first step that has a seat.
        points: What the whole wall costs with it.
    """

    space: WallSpace
    place: Place
    step: SeatStep
    points: float


@dataclass(frozen=True)
class _Beside:
    """A wall on which some things hang, and one thing that looks for a seat beside them."""

    standing: Standing
    item: Item
    wish: SeatWish = NO_WISH

    @cached_property
    def rails(self) -> tuple[Rail, ...]:
        """The rails that are there: those that stay, and those that the others need."""
        return cut_rails(self.standing.problem, self.standing.places)

    @cached_property
    def points(self) -> float:
        """What the wall costs without the thing."""
        places = self.standing.places
        return score(self.standing.problem, Arrangement(places, self.rails)).total

    @cached_property
    def mates(self) -> tuple[tuple[float, float, float], ...]:
        """The boxes of the others of its group."""
        items = self.standing.items
        return tuple(
            _box(items[one.key], one)
            for one in self.standing.places
            if self.item.group and items[one.key].group == self.item.group
        )

    def candidates(self, step: SeatStep) -> Iterator[Place]:
        edge_mm, item = self.standing.rule.edge_above_mm, self.item
        tops = {rail.z_top_mm - edge_mm for rail in self.rails}
        usual = heights(self.standing, item)
        in_use = [z for z in usual if any(abs(z - top) <= TOLERANCE_MM for top in tops)]
        if not item.on_rail:
            # what is screwed flat needs no rail
            in_use, new = list(usual), list[float]()
        else:
            new = [z for z in usual if z not in in_use]
        if step == "any height":
            known = set(usual)
            tried = [z for z in heights(self.standing, item, edges=True) if z not in known]
        else:
            tried = new if step == "new height" else in_use
        aim = self.standing.problem.aim_of(item)
        more = (*self.wish.more_x_mm, *(() if aim is None else (aim.x_mm - item.width_mm / 2,)))
        for place in free_places(self.standing, item, z_mm=tried, more_x_mm=more):
            if step == "rail" and item.on_rail and not self._on_rail(place):
                continue
            if self.wish.is_off(whole(item, place)):
                yield place

    def _on_rail(self, place: Place) -> bool:
        edge_mm = self.standing.rule.edge_above_mm
        return any(
            abs(rail.z_top_mm - edge_mm - place.z_mm) <= TOLERANCE_MM
            and rail.x0_mm - TOLERANCE_MM <= place.x_mm
            and place.x_mm + self.item.width_mm <= rail.x1_mm + TOLERANCE_MM
            for rail in self.rails
        )

    def at_least(self, place: Place) -> float:
        """Return what a seat costs without what it may ask of rails."""
        problem, item = self.standing.problem, self.item
        height_mm = place.z_mm + problem.space.floor_gap_mm
        cost = reach_cost(item, height_mm, problem=problem)
        cost += raised_cost(item, height_mm, problem=problem)
        cost += sideways_cost(item, place.x_mm, problem=problem)
        cost += moved_cost(item, place, problem=problem)
        if item.group:
            more = half_perimeter_mm((*self.mates, _box(item, place)))
            before = half_perimeter_mm(self.mates) if self.mates else 0.0
            cost += problem.weights.group * (more - before) / MM_PER_CM
        return cost

    def best(self, step: SeatStep) -> SeatFound | None:
        """Return the seat of a step with the fewest points that breaks no rule."""
        ranked = sorted(
            ((self.at_least(one), one) for one in self.candidates(step)),
            key=lambda seat: (
                round(seat[0], 6),
                seat[1].z_mm,
                abs(seat[1].x_mm - self.wish.beside_mm),
            ),
        )
        best: SeatFound | None = None
        looked = 0
        for least, place in ranked:
            if best is not None and (
                looked >= MOST_LOOKED_AT or self.points + least >= best.points
            ):
                break
            problem, places = self.standing.with_one(self.item, place)
            if self.standing.in_rows and self.item.on_rail and kept_rail(problem, place) is None:
                continue
            tried = Arrangement(places, cut_rails(problem, places))
            looked += 1
            if conflicts(problem, tried):
                continue
            points = score(problem, tried).total
            if (best is None or points < best.points) and self.wish.accepts(problem, places):
                best = SeatFound(problem.space, place, step, points)
        return best


def _box(item: Item, place: Place) -> tuple[float, float, float]:
    left = place.x_mm - item.side_left_mm
    return left, left + item.whole_width_mm, place.z_mm


def best_seat(
    problem: WallProblem,
    places: Sequence[Place],
    item: Item,
    *,
    in_rows: bool = False,
    steps: Sequence[SeatStep] = STEPS,
    wish: SeatWish = NO_WISH,
) -> SeatFound | None:
    """Return the best seat for one new thing; None when no step has one.

    Args:
        problem: The wall and all that hangs or shall hang.
        places: Where the others hang; they stay.
        item: The new thing.
        in_rows: Whether a new rail is a whole row.
        steps: The steps, the first that has a seat counts.
        wish: What its seat is held to beside the rules.
    """
    here = {place.key for place in places}
    standing = Standing(
        problem.having(one for one in problem.items if one.key in here),
        tuple(places),
        in_rows=in_rows,
    )
    beside = _Beside(standing, item, wish)
    return next((seat for step in steps if (seat := beside.best(step)) is not None), None)


@dataclass(frozen=True)
class Seated:
    """Everything has a place.

    Args:
        space: The wall, with the rows that were laid.
        places: The places, sorted by key.
        in_rows: Whether all new rails are whole rows.
    """

    space: WallSpace
    places: tuple[Place, ...]
    in_rows: bool = False


def seats_beside(
    problem: WallProblem,
    places: Sequence[Place],
    new: Sequence[Item],
    *,
    in_rows: bool = False,
    reserved: Sequence[ReservedSeat] = (),
) -> Seated | None:
    """Return the places of all, those of the new things beside the others; None when one has none.

    The largest is seated first. Where that leaves no seat for another one, other orders are
    tried of a few.

    Args:
        problem: The wall and all that hangs or shall hang.
        places: Where the others hang; they stay.
        new: The new things.
        in_rows: Whether new rails are whole rows; where these give no seats, pieces may.
        reserved: Seats that are kept free for what is new: it takes one before a rail is put up.
    """
    for rows in (True, False) if in_rows else (False,):
        found = _in_order(problem, places, new, in_rows=rows, reserved=reserved)
        if found is not None:
            return found
    return None


def _in_order(
    problem: WallProblem,
    places: Sequence[Place],
    new: Sequence[Item],
    *,
    in_rows: bool,
    reserved: Sequence[ReservedSeat],
) -> Seated | None:
    by_size = sorted(new, key=lambda one: (-_area_mm2(one), one.key))
    orders: Iterable[Sequence[Item]] = (
        permutations(by_size) if len(by_size) <= MOST_ORDERED else (by_size,)
    )
    for order in orders:
        seated, wall = list(places), problem
        for item in order:
            left = _beside_new(reserved, wall, seated)
            seat = _seat(wall, seated, item, in_rows=in_rows, reserved=left)
            if seat is None:
                break
            seated.append(seat.place)
            wall = wall.on(seat.space)
        else:
            return Seated(wall.space, tuple(sorted(seated, key=lambda one: one.key)), in_rows)
    return None


def _seat(
    wall: WallProblem,
    places: Sequence[Place],
    item: Item,
    *,
    in_rows: bool,
    reserved: Sequence[ReservedSeat],
) -> SeatFound | None:
    """Return the seat of one new thing: a rail is put up only where no reserved seat takes it."""
    if not reserved:
        return best_seat(wall, places, item, in_rows=in_rows)
    kept = wall.hanging(reserved)
    both = (*places, *(one.place for one in reserved))
    beside = (kept, both), (wall, places)
    return next(
        (
            seat
            for steps in (ON_RAILS, ON_NEW_RAILS)
            for problem, there in beside
            if (seat := best_seat(problem, there, item, in_rows=in_rows, steps=steps)) is not None
        ),
        None,
    )


def _beside_new(
    reserved: Sequence[ReservedSeat], wall: WallProblem, places: Sequence[Place]
) -> list[ReservedSeat]:
    """Return the reserved seats that nothing which was seated since has taken."""
    boxes = [whole(wall.known[one.key], one) for one in places]
    return [
        seat
        for seat in reserved
        if not any(overlap(whole(seat.item, seat.place), box) for box in boxes)
    ]


def _area_mm2(item: Item) -> float:
    return item.whole_width_mm * (item.up_mm + item.down_mm)
