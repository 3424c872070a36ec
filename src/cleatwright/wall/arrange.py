"""Arranging holders on a wall: the one function that the program calls."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from cleatwright.base.errors import WallError
from cleatwright.wall.inputs import checked_items, of_items
from cleatwright.wall.model import Arrangement, Item, LeftOver, RailRule, WallSpace
from cleatwright.wall.reach import ReachBand, reach_band
from cleatwright.wall.search.outcome import Outcome
from cleatwright.wall.search.problem import make_tables
from cleatwright.wall.search.rounds import Progress, construct, improve
from cleatwright.wall.search.start import start_state
from cleatwright.wall.weights import Weights

ROUNDS_TIMES_ITEMS = 3_000_000
FEWEST_ROUNDS, MOST_ROUNDS = 7_500, 75_000
# a wall of a few things is soon as good as it gets
ROUNDS_AN_ITEM = 3_000


def default_rounds(item_count: int) -> int:
    """Return so many rounds that a few seconds are enough: fewer for very few and for many items.

    >>> default_rounds(5), default_rounds(50), default_rounds(1000)
    (15000, 60000, 7500)
    """
    rounds = min(ROUNDS_AN_ITEM * item_count, ROUNDS_TIMES_ITEMS // max(item_count, 1))
    return min(max(rounds, FEWEST_ROUNDS), MOST_ROUNDS)


def arrange(
    space: WallSpace,
    rule: RailRule,
    items: Sequence[Item],
    *,
    seed: int = 0,
    rounds: int | None = None,
    band: ReachBand | None = None,
    weights: Weights | None = None,
    progress: Progress | None = None,
) -> Arrangement:
    """Return a good arrangement of the items; the same arguments always give the same one.

    Items that find no place are named in ``left_over``, without advice; see
    ``cleatwright.wall.asking.remedies`` for what would help.

    Args:
        space: The wall.
        rule: How rails may lie.
        items: What hangs; the order does not matter.
        seed: Start of the random numbers.
        rounds: Rounds of improvement, >= 0; ``default_rounds`` of the items when None.
        band: Heights of easy reach; from elbow to shoulder at the default stature when None.
        weights: What the parts of the score weigh.
        progress: Called in each round with rounds done and all rounds; it may raise to stop.

    Raises:
        WallError: An obstacle lies outside the wall, two items have one key, or
            the fixed places cannot be together.
    """
    search = _Search(seed, rounds, band or reach_band(), weights or Weights(), progress)
    return _arranged(space, rule, items, search)


def arrange_rest(
    space: WallSpace,
    rule: RailRule,
    items: Sequence[Item],
    *,
    seed: int = 0,
    rounds: int | None = None,
    band: ReachBand | None = None,
    weights: Weights | None = None,
    progress: Progress | None = None,
) -> Arrangement:
    """Return a good arrangement in which nothing moves that hangs already and may stay.

    The arguments and errors are those of ``arrange``.
    """
    search = _Search(seed, rounds, band or reach_band(), weights or Weights(), progress, still=True)
    return _arranged(space, rule, items, search)


@dataclass(frozen=True)
class _Search:
    seed: int
    rounds: int | None
    band: ReachBand
    weights: Weights
    progress: Progress | None
    still: bool = False


def _arranged(
    space: WallSpace, rule: RailRule, items: Sequence[Item], search: _Search
) -> Arrangement:
    known = checked_items(space, rule, items)
    band, weights = search.band, search.weights
    ordered = tuple(known[key] for key in sorted(known))
    tables = make_tables(space, rule, ordered, band=band, weights=weights)
    outcome = Outcome(tables, ordered, space, rule, known, band, weights)
    start, fixed = start_state(tables, ordered)
    pinned = np.flatnonzero(start.stands) if search.still else np.array(fixed)
    found = improve(
        tables,
        construct(tables, start),
        outcome,
        pinned=pinned.astype(np.int64),
        seed=search.seed,
        rounds=default_rounds(len(items)) if search.rounds is None else search.rounds,
        progress=search.progress,
    )
    places, rails, scores = outcome.finished(found.state)
    hung = {place.key for place in places}
    return Arrangement(
        places=places,
        rails=rails,
        scores=scores,
        left_over=tuple(
            LeftOver(item.key, reason(space, rule, item), ())
            for item in ordered
            if item.key not in hung
        ),
    )


def require_all(arrangement: Arrangement) -> Arrangement:
    """Return the arrangement when everything hangs.

    Raises:
        WallError: Something is left over; each is named with what would help.
    """
    if arrangement.left_over:
        raise WallError(
            " ".join(left.sentence for left in arrangement.left_over),
            place=of_items((left.key for left in arrangement.left_over), ("width",), ("height",)),
            todo="Change the wall, or leave these holders off it; each change was tried by itself",
        )
    return arrangement


def reason(space: WallSpace, rule: RailRule, item: Item) -> str:
    """Return why an item without a place has none."""
    tall = item.up_mm + item.down_mm
    if item.whole_width_mm > space.width_mm:
        return (
            f'"{item.key}" is {item.whole_width_mm:g} mm wide with its tools, '
            f"and the wall is {space.width_mm:g} mm wide."
        )
    if tall > space.height_mm:
        return (
            f'"{item.key}" needs {tall:g} mm of height with its tools and the room to lift them, '
            f"and the wall is {space.height_mm:g} mm high."
        )
    if item.on_rail and rule.height_mm + rule.edge_above_mm > space.height_mm:
        return f'"{item.key}" hangs on a rail, and no rail fits on a wall so low.'
    return f'"{item.key}" finds no free place beside the others.'
