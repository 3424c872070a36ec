"""Which of the rails that hang already may stay beside a finished arrangement."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.inputs import NOTHING
from cleatwright.wall.model import Arrangement, Item, Place, RailRule, RailRun, WallSpace
from cleatwright.wall.rails import cut_rails
from cleatwright.wall.reach import ReachBand
from cleatwright.wall.score import score
from cleatwright.wall.weights import Weights


@dataclass(frozen=True)
class InTheWay:
    """A rail that cannot stay, and the key of the first item that it hinders, or ""."""

    run: RailRun
    key: str


@dataclass(frozen=True)
class Kept:
    """An arrangement with the rails that stay.

    Args:
        space: The wall; its ``kept_rails`` are all that stay.
        arrangement: Where everything hangs.
        in_the_way: The rails that come down.
    """

    space: WallSpace
    arrangement: Arrangement
    in_the_way: tuple[InTheWay, ...] = ()


def keep_rails(
    kept: Kept,
    rails: Iterable[RailRun],
    *,
    rule: RailRule,
    items: Sequence[Item],
    band: ReachBand,
) -> Kept:
    """Return the same places with as many of the rails as may stay; the others come down.

    Args:
        kept: An arrangement that was made as if these rails did not hang.
        rails: Rails that hang already; the first ones first.
        rule: How rails may lie.
        items: What hangs.
        band: Where the person reaches.
    """
    known = {item.key: item for item in items}
    space, found = kept.space, kept.arrangement
    gone: list[InTheWay] = []
    for run in rails:
        with_it = replace(space, kept_rails=(*space.kept_rails, run))
        tried = _recut(with_it, rule, known, found)
        if conflicts(with_it, rule, items, tried):
            gone.append(InTheWay(run, _hindered(with_it, rule, known, found.places)))
        else:
            space, found = with_it, tried
    scores = score(found.places, found.rails, known, space=space, band=band, weights=Weights())
    return Kept(space, replace(found, scores=scores), (*kept.in_the_way, *gone))


def _recut(
    space: WallSpace, rule: RailRule, items: Mapping[str, Item], found: Arrangement
) -> Arrangement:
    return replace(found, rails=cut_rails(space, rule, items, found.places))


def _hindered(
    space: WallSpace, rule: RailRule, items: Mapping[str, Item], places: Sequence[Place]
) -> str:
    """Return the key of the first item that could not hang where it does even alone, or ""."""
    for place in places:
        alone = {place.key: items[place.key]}
        rails = cut_rails(space, rule, alone, (place,))
        arrangement = Arrangement((place,), rails, NOTHING)
        if conflicts(space, rule, tuple(alone.values()), arrangement):
            return place.key
    return ""
