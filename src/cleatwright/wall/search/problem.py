"""From wall, rails and holders to the arranging problem in whole numbers.

Costs are counted in two thousandths of a point, because a weight of one half per
centimetre is then one per unit of length, and no result depends on rounding.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Any

import numpy as np

from cleatwright.wall.ground import PLACES_A_RAIL
from cleatwright.wall.model import Item, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.score import MM_PER_CM, raised_cost, reach_cost, seat_cost
from cleatwright.wall.search.tables import (
    ABSENT_COST,
    COST_UNIT,
    FAR,
    ITEM,
    NONE,
    RAIL,
    RULE,
    UNIT,
    Ints,
    Tables,
)
from cleatwright.wall.studs import OVERHANG_MM, reaches_of, screw_x
from cleatwright.wall.tolerances import COUNT_SLACK

COST_PER_UNIT = COST_UNIT / (MM_PER_CM * UNIT)

_Span = tuple[int, int]
Records = np.ndarray[Any, np.dtype[np.void]]


def over(length_mm: float) -> int:
    """Return the length in units, rounded up."""
    return math.ceil(length_mm * UNIT - COUNT_SLACK)


def under(length_mm: float) -> int:
    """Return the length in units, rounded down."""
    return math.floor(length_mm * UNIT + COUNT_SLACK)


def make_tables(problem: WallProblem) -> Tables:
    """Return the problem in whole numbers, for items in the order of their keys."""
    space, items = problem.space, problem.items
    obstacles = _boxes(space, lambda _: 0.0)
    rails = _rail_rows(problem, obstacles)
    levels = _heights(problem, on_rail=False)
    height = under(space.height_mm)
    table = _items(problem)
    most = max(len(rails), len(levels))
    turns = np.full((len(items), most), NONE, dtype=np.int64)
    unary = np.zeros((len(items), most), dtype=np.int64)
    for k, item in enumerate(items):
        z: Ints = rails["z"] if item.on_rail else levels
        below = max(over(item.down_mm), over(item.rail_depth_mm))
        unary[k, : len(z)] = [
            round(_unary(item, one / UNIT + space.floor_gap_mm, problem) * COST_UNIT)
            for one in z.tolist()
        ]
        safe = np.array([item.may_hang_at(one / UNIT) for one in z.tolist()], dtype=np.bool_)
        usable = np.flatnonzero((z - below >= 0) & (z + over(item.up_mm) <= height) & safe)
        order = np.argsort(unary[k, usable], kind="stable")
        turns[k, : len(usable)] = usable[order]
    groups: Ints = table["group"]
    members = np.argsort(groups, kind="stable")[np.count_nonzero(groups == NONE) :]
    count = int(groups.max(initial=NONE)) + 1
    return Tables(
        items=table.view(np.recarray),
        rails=rails.view(np.recarray),
        rule=_rule(problem).view(np.recarray),
        levels=levels,
        turns=turns,
        unary=unary,
        obstacles=obstacles,
        hot=_boxes(space, lambda heat_mm: heat_mm),
        studs=_studs(space),
        barred=_barred(items),
        members=members,
        starts=np.searchsorted(groups[members], np.arange(count + 1)),
    )


def _items(problem: WallProblem) -> Records:
    items = problem.items
    groups = sorted({item.group for item in items if item.group})
    table = np.zeros(len(items), dtype=ITEM)
    for k, item in enumerate(items):
        left, plate = over(item.side_left_mm), over(item.width_mm)
        x, z = item.hangs_at or (math.inf, 0.0)
        aim = problem.aim_of(item)
        table[k] = (
            left,
            plate,
            left + plate + over(item.side_right_mm),
            over(item.up_mm),
            over(item.down_mm),
            over(item.rail_depth_mm),
            groups.index(item.group) if item.group else NONE,
            NONE if item.rank is None or not item.group else item.rank,
            item.keep_cool,
            item.on_rail,
            round(x * UNIT) - left if math.isfinite(x) else FAR,
            round(z * UNIT),
            FAR if aim is None else round(aim.x_mm * UNIT),
            0.0 if aim is None else aim.per_cm * COST_PER_UNIT,
            round(problem.weights.seat * COST_UNIT) if item.reserved else ABSENT_COST,
            *_along(item),
            under(item.over_mm) if math.isfinite(item.over_mm) else FAR,
        )
    return table


def _along(item: Item) -> _Span:
    """Return between which whole left edges an item may stand."""
    along = item.along
    whole = over(item.side_left_mm) + over(item.width_mm) + over(item.side_right_mm)
    return (
        over(along.from_mm) if along.from_mm > 0.0 else 0,
        under(along.to_mm) - whole if math.isfinite(along.to_mm) else FAR,
    )


def _barred(items: Sequence[Item]) -> Ints:
    """Return between which whole left edges an item may not stand, before, between and after."""
    rows: list[tuple[int, int, int]] = []
    for k, item in enumerate(items):
        left, free = over(item.side_left_mm), -FAR
        for a, b in item.along.begins_mm:
            low, high = over(a), under(b)
            if low > high:
                # where it hangs already, and nowhere beside it
                low = high = round(a * UNIT)
            rows.append((k, free, low - left))
            free = high - left
        if item.along.begins_mm:
            rows.append((k, free, FAR))
    return np.array(rows, dtype=np.int64).reshape(-1, 3)


def _rule(problem: WallProblem) -> Records:
    space, weights = problem.space, problem.weights
    table = np.zeros(1, dtype=RULE)
    table[0] = (
        under(space.width_mm),
        under(space.height_mm),
        over(problem.rule.min_gap_mm),
        round(weights.rail * COST_UNIT),
        round(weights.rail_length * COST_PER_UNIT),
        round(weights.group * COST_PER_UNIT),
        round(weights.moved * COST_UNIT),
        round(weights.weak_rail * COST_UNIT),
        round(weights.overhang * COST_UNIT),
    )
    return table


def _unary(item: Item, height_mm: float, problem: WallProblem) -> float:
    if item.reserved:
        return seat_cost(height_mm, problem=problem)
    reach = reach_cost(item, height_mm, problem=problem)
    return reach + raised_cost(item, height_mm, problem=problem)


def _boxes(space: WallSpace, grown: Callable[[float], float]) -> Ints:
    """Return the obstacles as x0, x1, z0, z1, grown by what their heat asks for."""
    rows: list[tuple[int, int, int, int]] = []
    for b in sorted(space.obstacles, key=lambda b: (b.x_mm, b.z_mm, b.name)):
        off = grown(b.heat_mm)
        rows.append(
            (under(b.x_mm - off), over(b.right_mm + off), under(b.z_mm - off), over(b.top_mm + off))
        )
    return np.array(rows, dtype=np.int64).reshape(-1, 4)


def _heights(problem: WallProblem, *, on_rail: bool) -> Ints:
    """Return the hang heights to try, from the top down."""
    steps, given = problem.tried_mm, problem.given_mm(on_rail=on_rail)
    heights = sorted({round(z * UNIT) for z in (*steps, *given)}, reverse=True)
    return np.array(heights, dtype=np.int64)


def _rail_rows(problem: WallProblem, obstacles: Ints) -> Records:
    space, rule = problem.space, problem.rule
    top, width = under(space.height_mm), under(space.width_mm)
    kept = [
        (
            round((run.z_top_mm - rule.edge_above_mm) * UNIT),
            over(run.z_top_mm) - over(rule.height_mm),
            over(run.z_top_mm),
            over(run.x0_mm),
            under(run.x1_mm),
        )
        for run in sorted(space.given_rails, key=lambda run: (-run.z_top_mm, run.x0_mm))
    ]
    gap = over(rule.min_gap_mm)
    bars = [
        *obstacles.tolist(),
        *((x0, x1, low - gap, high + gap) for _, low, high, x0, x1 in kept),
        *_fixed_flat(problem.items),
    ]
    rows: list[tuple[int, int, int, int, int]] = []
    # where rails are whole rows, there are none but those that are given
    heights: list[int] = [] if rule.rows else _heights(problem, on_rail=True).tolist()
    for z in heights:
        high = z + over(rule.edge_above_mm)
        low = high - over(rule.height_mm)
        if low < 0 or high > top:
            continue
        left = 0
        crossing = sorted((x0, x1) for x0, x1, z0, z1 in bars if z0 < high and z1 > low)
        given = _given_plates(problem.items, z)
        for x0, x1 in [*crossing, (width, FAR)]:
            if x0 > left:
                rows.append((z, low, high, *_near_studs(space, (left, min(x0, width)), given)))
            left = max(left, x1)
    table = np.zeros(len(rows) + len(kept), dtype=RAIL)
    studs = _studs(space)
    for k, (z, low, high, x0, x1) in enumerate([*rows, *kept]):
        met = np.count_nonzero((x0 <= studs[:, 0]) & (studs[:, 1] <= x1))
        columns = space.ground(high / UNIT, rule.height_mm).columns((x0 / UNIT, x1 / UNIT))
        if space.all_over is not None:
            met = len(columns)
        stays = k >= len(rows)
        weak = space.holds_known and not stays and met < PLACES_A_RAIL
        screws = (over(columns[0]), under(columns[-1])) if len(columns) > 1 else (-FAR, FAR)
        table[k] = (z, low, high, x0, x1, stays, weak, *screws)
    return table


def _near_studs(space: WallSpace, stretch: _Span, given: Sequence[_Span]) -> _Span:
    """Return a stretch for a rail without what is too far beyond its studs, if it meets two.

    Where something was put, or hangs already, a rail goes all the same.
    """
    x0, x1 = stretch
    met = [
        stud.x_mm
        for stud in space.studs
        if screw_x(stud, (x0 / UNIT, x1 / UNIT), wall_mm=space.width_mm) is not None
    ]
    if len(met) < PLACES_A_RAIL:
        return stretch
    first, last = over(min(met) - OVERHANG_MM), under(max(met) + OVERHANG_MM)
    inside = [one for one in given if x0 <= one[0] and one[1] <= x1]
    return (
        max(x0, min([first, *(a for a, _ in inside)])),
        min(x1, max([last, *(b for _, b in inside)])),
    )


def _given_plates(items: Sequence[Item], z: int) -> list[_Span]:
    """Return from where to where plates reach whose places at a height are given."""
    return [
        (round(at[0] * UNIT), round(at[0] * UNIT) + over(item.width_mm))
        for item in items
        if item.on_rail
        for at in (item.fixed, item.hangs_at)
        if at is not None and round(at[1] * UNIT) == z
    ]


def _fixed_flat(items: Sequence[Item]) -> list[tuple[int, int, int, int]]:
    """Return what is fixed flat on the wall as x0, x1, z0, z1: a rail ends on either side of it."""
    boxes: list[tuple[int, int, int, int]] = []
    for item in items:
        if item.on_rail or item.fixed is None:
            continue
        x, z = (round(value * UNIT) for value in item.fixed)
        left, right = over(item.side_left_mm), over(item.width_mm) + over(item.side_right_mm)
        boxes.append((x - left, x + right, z - over(item.down_mm), z + over(item.up_mm)))
    return boxes


def _studs(space: WallSpace) -> Ints:
    """Return how far a rail must reach for each stud: at the least, and for its middle."""
    reaches = reaches_of(space.studs, wall_mm=space.width_mm)
    rows = [
        [fit(x) for one in pair for fit, x in ((under, one.from_mm), (over, one.to_mm))]
        for pair in reaches
    ]
    return np.array(rows, dtype=np.int64).reshape(-1, 4)
