"""The whole answer to why one holder hangs where it hangs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.wall.asking.elsewhere import (
    InTheWay,
    OtherPlace,
    in_the_way,
    not_hung,
    other_place,
)
from cleatwright.wall.asking.explain import Explained, explain
from cleatwright.wall.model import Arrangement, Item, RailRule, WallSpace
from cleatwright.wall.reach import ReachBand
from cleatwright.wall.weights import Weights


@dataclass(frozen=True)
class Why:
    """Why a holder hangs where it hangs.

    Args:
        explained: What it costs there.
        way: What keeps it from the height where it is reached best; None when it hangs there.
        other: Its best other place while all the others stay; None when there is none.
        fixed: Whether the person gave its place.
    """

    explained: Explained
    way: InTheWay | None
    other: OtherPlace | None
    fixed: bool

    @property
    def sentences(self) -> tuple[str, ...]:
        """Return the answer in full sentences."""
        if self.fixed:
            return ("Its place was given and is kept.", *self.explained.sentences)
        elsewhere = "There is no other place for it while all the others stay."
        return (
            *(self.explained.sentences or ("It hangs where it is reached with ease.",)),
            *(() if self.way is None else (self.way.sentence,)),
            elsewhere if self.other is None else self.other.sentence,
        )


def why(
    space: WallSpace,
    rule: RailRule,
    items: Sequence[Item],
    arrangement: Arrangement,
    *,
    key: str,
    band: ReachBand,
    weights: Weights,
) -> Why:
    """Return why the item of a key hangs where it hangs, and what else it could do.

    Raises:
        WallError: The item has no place; ``find_help`` tells why, and what would give it one.
    """
    told = explain(space, rule, items, arrangement, band=band, weights=weights)
    own = next((one for one in told if one.key == key), None)
    if own is None:
        raise not_hung(key)
    return Why(
        explained=own,
        way=in_the_way(space, rule, items, arrangement, key=key, band=band, weights=weights),
        other=other_place(space, rule, items, arrangement, key=key, band=band, weights=weights),
        fixed=next(item for item in items if item.key == key).fixed is not None,
    )
