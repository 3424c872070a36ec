"""The arranging problem in whole numbers, so that no result depends on rounding.

Lengths are hundredths of a millimetre; costs are two thousandths of a point,
because a weight of one half per centimetre is then one per unit of length.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cleatwright.wall.model import Item, RailRule, WallSpace
from cleatwright.wall.reach import ReachBand, Weights
from cleatwright.wall.score import MM_PER_CM, unary_cost

Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

UNIT = 100
COST_UNIT = 2000
GRID_MM = 5
GRID = GRID_MM * UNIT
FAR = 1 << 40
COST_PER_UNIT = COST_UNIT / (MM_PER_CM * UNIT)


def over(length_mm: float) -> int:
    """Return the length in units, rounded up."""
    return math.ceil(length_mm * UNIT - 1e-6)


def under(length_mm: float) -> int:
    """Return the length in units, rounded down."""
    return math.floor(length_mm * UNIT + 1e-6)


@dataclass(frozen=True, eq=False)
class Rows:
    """The heights that may be tried: one row per height and per stretch between obstacles.

    For a plate that is screwed to the wall ``low`` and ``high`` are not used.
    """

    z: Ints
    low: Ints
    high: Ints
    from_x: Ints
    to_x: Ints

    def __len__(self) -> int:
        return len(self.z)


@dataclass(frozen=True, eq=False)
class Problem:
    """Items, rails and obstacles as arrays; item ``i`` is the i-th by key."""

    items: tuple[Item, ...]
    width: int
    height: int
    gap: int
    left: Ints
    plate: Ints
    whole: Ints
    up: Ints
    down: Ints
    bear: Ints
    group: Ints
    group_count: int
    obstacles: Ints
    rails: Rows
    levels: Rows
    usable: tuple[Ints, ...]
    unary: tuple[Ints, ...]
    rail_cost: int
    length_cost: int
    group_cost: int

    def rows_of(self, i: int) -> Rows:
        """Return the rows in which item ``i`` may stand."""
        return self.rails if self.items[i].on_rail else self.levels


def make_problem(
    space: WallSpace,
    rule: RailRule,
    items: Sequence[Item],
    *,
    band: ReachBand,
    weights: Weights,
) -> Problem:
    """Return the problem in whole numbers; items are put in the order of their keys."""
    ordered = tuple(sorted(items, key=lambda item: item.key))
    obstacles = np.array(
        [
            (under(b.x_mm), over(b.right_mm), under(b.z_mm), over(b.top_mm))
            for b in sorted(space.obstacles, key=lambda b: (b.x_mm, b.z_mm, b.name))
        ],
        dtype=np.int64,
    ).reshape(-1, 4)
    rails = _rail_rows(space, rule, ordered, obstacles)
    levels = _level_rows(space, rule)
    groups = sorted({item.group for item in ordered if item.group})

    def column(values: list[int]) -> Ints:
        return np.array(values, dtype=np.int64)

    up, down = column([over(i.up_mm) for i in ordered]), column([over(i.down_mm) for i in ordered])
    bear = column([over(i.rail_depth_mm) for i in ordered])
    height = under(space.height_mm)
    usable: list[Ints] = []
    unary: list[Ints] = []
    for k, item in enumerate(ordered):
        rows = rails if item.on_rail else levels
        fits = (rows.z - max(down[k], bear[k]) >= 0) & (rows.z + up[k] <= height)
        usable.append(np.flatnonzero(fits).astype(np.int64))
        heights = [z / UNIT + space.floor_gap_mm for z in rows.z.tolist()]
        costs = (unary_cost(item, h, band=band, weights=weights) for h in heights)
        unary.append(column([round(cost * COST_UNIT) for cost in costs]))
    return Problem(
        items=ordered,
        width=under(space.width_mm),
        height=height,
        gap=over(rule.min_gap_mm),
        left=column([over(i.side_left_mm) for i in ordered]),
        plate=column([over(i.width_mm) for i in ordered]),
        whole=column(
            [over(i.side_left_mm) + over(i.width_mm) + over(i.side_right_mm) for i in ordered]
        ),
        up=up,
        down=down,
        bear=bear,
        group=column([groups.index(i.group) if i.group else -1 for i in ordered]),
        group_count=len(groups),
        obstacles=obstacles,
        rails=rails,
        levels=levels,
        usable=tuple(usable),
        unary=tuple(unary),
        rail_cost=round(weights.rail * COST_UNIT),
        length_cost=round(weights.rail_length * COST_PER_UNIT),
        group_cost=round(weights.group * COST_PER_UNIT),
    )


def _heights(space: WallSpace, rule: RailRule) -> list[int]:
    count = int(space.height_mm / rule.step_mm + 1e-9)
    return [round(k * rule.step_mm * UNIT) for k in range(count, -1, -1)]


def _rail_rows(space: WallSpace, rule: RailRule, items: Sequence[Item], obstacles: Ints) -> Rows:
    given = {round(i.fixed[1] * UNIT) for i in items if i.fixed and i.on_rail}
    rows: list[tuple[int, int, int, int, int]] = []
    for z in sorted({*_heights(space, rule), *given}, reverse=True):
        high = z + over(rule.edge_above_mm)
        low = high - over(rule.height_mm)
        if low < 0 or high > under(space.height_mm):
            continue
        left = 0
        crossing = sorted(
            (x0, x1) for x0, x1, z0, z1 in obstacles.tolist() if z0 < high and z1 > low
        )
        for x0, x1 in [*crossing, (under(space.width_mm), FAR)]:
            if x0 > left:
                rows.append((z, low, high, left, x0))
            left = max(left, x1)
    table = np.array(rows, dtype=np.int64).reshape(-1, 5)
    return Rows(*(np.ascontiguousarray(table[:, k]) for k in range(5)))


def _level_rows(space: WallSpace, rule: RailRule) -> Rows:
    z = np.array(_heights(space, rule), dtype=np.int64)
    return Rows(z, z, z, np.zeros_like(z), np.full_like(z, under(space.width_mm)))
