"""What is to be arranged: the one record that searches and questions of the wall are given."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from cleatwright.wall.model import Item, RailRule, WallSpace
from cleatwright.wall.reach import USUAL_REACH, ReachBand
from cleatwright.wall.weights import WEIGHTS, Weights


@dataclass(frozen=True)
class WallProblem:
    """A wall and what shall hang on it.

    Args:
        space: The wall.
        rule: How rails may lie.
        items: What hangs; the order does not matter.
        band: Heights of easy reach; from elbow to shoulder at the default stature by itself.
        weights: What the parts of the score weigh.
    """

    space: WallSpace
    rule: RailRule
    items: tuple[Item, ...] = ()
    band: ReachBand = USUAL_REACH
    weights: Weights = WEIGHTS

    @cached_property
    def known(self) -> Mapping[str, Item]:
        """Return the items by their keys."""
        return {item.key: item for item in self.items}

    def having(self, items: Iterable[Item]) -> WallProblem:
        """Return the same wall for other items."""
        return replace(self, items=tuple(items))

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

    def given_mm(self, *, on_rail: bool) -> set[float]:
        """Return the heights at which items are fixed or hang already."""
        placed = [one for one in self.items if one.on_rail is on_rail]
        return {at[1] for one in placed for at in (one.fixed, one.hangs_at) if at is not None}
