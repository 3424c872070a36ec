"""Arranging holders on a wall: the one function that the program calls, and its checks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from cleatwright.base.errors import WallError
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.model import (
    Arrangement,
    Item,
    LeftOver,
    Place,
    RailRule,
    WallSpace,
)
from cleatwright.wall.problem import UNIT, Problem, make_problem
from cleatwright.wall.rails import cut_rails
from cleatwright.wall.reach import ReachBand, Weights, reach_band
from cleatwright.wall.score import score
from cleatwright.wall.search import Progress, construct, improve
from cleatwright.wall.state import NONE, Spot, State

ROUNDS_TIMES_ITEMS = 60_000
FEWEST_ROUNDS, MOST_ROUNDS = 100, 2000


def default_rounds(item_count: int) -> int:
    """Return so many rounds that a few seconds are enough: fewer for more items.

    >>> default_rounds(40), default_rounds(5), default_rounds(1000)
    (1500, 2000, 100)
    """
    rounds = ROUNDS_TIMES_ITEMS // max(item_count, 1)
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
    ``cleatwright.wall.remedies`` for what would help.

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
    _check_obstacles(space)
    known = _by_key(items)
    band = band or reach_band()
    weights = weights or Weights()
    _check_fixed(space, rule, items)
    p = make_problem(space, rule, items, band=band, weights=weights)
    start, pinned = _pinned(p)
    found = construct(p, start)
    found = improve(
        p,
        found,
        pinned=np.array(pinned, dtype=np.int64),
        seed=seed,
        rounds=default_rounds(len(items)) if rounds is None else rounds,
        progress=progress,
    )
    places = _places(p, found.state)
    rails = cut_rails(space, rule, known, places)
    hung = {place.key for place in places}
    return Arrangement(
        places=places,
        rails=rails,
        scores=score(
            places, rails, known, floor_gap_mm=space.floor_gap_mm, band=band, weights=weights
        ),
        left_over=tuple(
            LeftOver(item.key, reason(space, rule, item), ())
            for item in p.items
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
            where="wall",
            todo="Change the wall, or leave these holders off it",
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


def _by_key(items: Sequence[Item]) -> dict[str, Item]:
    known: dict[str, Item] = {}
    for item in items:
        if item.key in known:
            raise WallError(f'two holders have the key "{item.key}"', where="wall")
        known[item.key] = item
    return known


def _check_obstacles(space: WallSpace) -> None:
    for box in space.obstacles:
        if (
            min(box.x_mm, box.z_mm) < 0.0
            or box.right_mm > space.width_mm
            or box.top_mm > space.height_mm
        ):
            raise WallError(
                f'The obstacle "{box.name}" reaches from ({box.x_mm:g}, {box.z_mm:g}) to '
                f"({box.right_mm:g}, {box.top_mm:g}) mm",
                where="wall",
                allowed=f"within {space.width_mm:g} × {space.height_mm:g} mm",
                todo="Give its place from the lower left corner of the wall",
            )


def _check_fixed(space: WallSpace, rule: RailRule, items: Sequence[Item]) -> None:
    fixed = [item for item in items if item.fixed]
    places = tuple(Place(i.key, *i.fixed) for i in fixed if i.fixed)
    rails = cut_rails(space, rule, {i.key: i for i in fixed}, places)
    nothing = score((), (), {}, floor_gap_mm=0.0, band=reach_band(), weights=Weights())
    wrong = conflicts(space, rule, fixed, Arrangement(places, rails, nothing))
    if wrong:
        raise WallError(
            "The fixed places cannot be kept. " + " ".join(wrong),
            where="wall",
            todo="Move or free one of them",
        )


def _pinned(p: Problem) -> tuple[State, list[int]]:
    """Return the state with the fixed items only, and their indices."""
    state, pinned = State.empty(p), list[int]()
    for i, item in enumerate(p.items):
        if item.fixed is None:
            continue
        plate, z = (round(value * UNIT) for value in item.fixed)
        x = plate - int(p.left[i])
        row = NONE
        if item.on_rail:
            middle = plate + int(p.plate[i]) // 2
            r = p.rails
            row = int(np.flatnonzero((r.z == z) & (r.from_x <= middle) & (middle <= r.to_x))[0])
        state.put(p, i, Spot(x, z, row, 0))
        pinned.append(i)
    return state, pinned


def _places(p: Problem, state: State) -> tuple[Place, ...]:
    places: list[Place] = []
    for i in np.flatnonzero(state.stands).tolist():
        item = p.items[i]
        x, z = (int(state.box[i, 0]) + int(p.left[i])) / UNIT, int(state.z[i]) / UNIT
        places.append(Place(item.key, *(item.fixed or (x, z))))
    return tuple(places)


def with_help(arrangement: Arrangement, helps: dict[str, tuple[str, ...]]) -> Arrangement:
    """Return the arrangement with advice for each item that is left over."""
    return replace(
        arrangement,
        left_over=tuple(replace(o, helps=helps.get(o.key, ())) for o in arrangement.left_over),
    )
