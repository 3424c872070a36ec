"""What is to be arranged: the one record that searches and questions of the wall are given."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from cleatwright.wall.model import Item, RailRule, ReservedSeat, WallSpace
from cleatwright.wall.reach import USUAL_REACH, ReachBand
from cleatwright.wall.weights import WEIGHTS, Weights

# a height between two steps is one that is still soon found on a rule: 1 cm, or 2/5 inch
FINER = 5


@dataclass(frozen=True)
class Aim:
    """The x at which the middle of an item costs nothing, and the points of each cm beside it."""

    x_mm: float
    per_cm: float


@dataclass(frozen=True)
class WallProblem:
    """A wall and what shall hang on it.

    Args:
        space: The wall.
        rule: How rails may lie.
        items: What hangs; the order does not matter.
        band: Heights of easy reach for what says nothing of its own; from elbow to shoulder at the
            default stature by itself.
        weights: What the parts of the score weigh.
        seats: Seats that are to be kept free where there is room; a search may leave them out.
    """

    space: WallSpace
    rule: RailRule
    items: tuple[Item, ...] = ()
    band: ReachBand = USUAL_REACH
    weights: Weights = WEIGHTS
    seats: tuple[Item, ...] = ()

    def band_of(self, item: Item) -> ReachBand:
        """Return where those reach who take an item."""
        return self.band if item.taken is None else item.taken.band

    def aim_of(self, item: Item) -> Aim | None:
        """Return where along the wall an item is wanted; None where that is all the same."""
        if item.reserved:
            return None
        if item.near is not None:
            return Aim(item.near.x_mm, self.weights.near)
        easy_x_mm = self.band_of(item).easy_x_mm
        if easy_x_mm is None:
            return None
        return Aim(easy_x_mm, self.weights.sideways * self.weights.of_use(item.use))

    @cached_property
    def known(self) -> Mapping[str, Item]:
        """Return the items by their keys."""
        return {item.key: item for item in self.items}

    def having(self, items: Iterable[Item]) -> WallProblem:
        """Return the same wall for other items."""
        return replace(self, items=tuple(items))

    def with_seats(self, seats: Iterable[Item]) -> WallProblem:
        """Return the same with other seats that are to be kept free."""
        return replace(self, seats=tuple(seats))

    def hanging(self, seats: Iterable[ReservedSeat]) -> WallProblem:
        """Return the same with seats that are kept free among its items, and no others."""
        return replace(self, items=(*self.items, *(one.item for one in seats)), seats=())

    def weighed(self, weights: Weights) -> WallProblem:
        """Return the same with other weights of the score."""
        return replace(self, weights=weights)

    def changed(self, item: Item) -> WallProblem:
        """Return the same with an item in place of the one of its key."""
        return self.having(item if one.key == item.key else one for one in self.items)

    def ruled(self, rule: RailRule) -> WallProblem:
        """Return the same with another rule for rails."""
        return replace(self, rule=rule)

    def on(self, space: WallSpace) -> WallProblem:
        """Return the same items for another wall."""
        return replace(self, space=space)

    @cached_property
    def tried_mm(self) -> tuple[float, ...]:
        """Return the heights at which things are tried anyhow, from the bottom up.

        They are the steps of the rule, and one more for each item between whose bounds no step
        lies: the middle of what is left to it, as nearly as finer steps give it.
        """
        steps = self.rule.steps_mm(self.space)
        more = {z for item in self.items for z in between_bounds(self, item, steps)}
        return tuple(sorted({*steps, *more}))

    def given_mm(self, *, on_rail: bool) -> set[float]:
        """Return the heights at which items are fixed or hang already."""
        placed = [one for one in self.items if one.on_rail is on_rail]
        return {at[1] for one in placed for at in (one.fixed, one.hangs_at) if at is not None}


def between_bounds(problem: WallProblem, item: Item, steps: Sequence[float]) -> Iterator[float]:
    """Yield a height for an item that finds no step between its bounds."""
    below = max(item.down_mm, item.rail_depth_mm if item.on_rail else 0.0)
    above = problem.space.height_mm - item.up_mm
    low, high = max(item.bounds.lowest_mm, below), min(item.bounds.highest_mm, above)
    if (low, high) == (below, above) or low > high or any(low <= z <= high for z in steps):
        return
    fine, middle = problem.rule.step_mm / FINER, (low + high) / 2
    nearest = round(middle / fine) * fine
    yield nearest if low <= nearest <= high else middle
