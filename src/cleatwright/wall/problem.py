"""The arranging problem in whole numbers, so that no result depends on rounding.

Lengths are hundredths of a millimetre; costs are two thousandths of a point,
because a weight of one half per centimetre is then one per unit of length.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cleatwright.wall.model import Item, RailRule, WallSpace
from cleatwright.wall.rails import END_MM, STUDS_A_RAIL
from cleatwright.wall.reach import ReachBand
from cleatwright.wall.score import MM_PER_CM, raised_cost, reach_cost
from cleatwright.wall.weights import Weights

Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

UNIT = 100
COST_UNIT = 2000
GRID_MM = 5
GRID = GRID_MM * UNIT
FAR = 1 << 40
NONE = -1
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

    For a plate that is screwed to the wall ``low`` and ``high`` are not used. A row that is
    ``kept`` is a rail that hangs already: it costs nothing and is there even when empty. No
    rail on a row that is ``weak`` can meet two studs.
    """

    z: Ints
    low: Ints
    high: Ints
    from_x: Ints
    to_x: Ints
    kept: Bools
    weak: Bools

    def __len__(self) -> int:
        return len(self.z)


@dataclass(frozen=True, eq=False)
class Problem:
    """Items, rails and obstacles as arrays; item ``i`` is the i-th by key.

    ``hot`` are the obstacles with the distance round them from which what must stay cool
    keeps away. ``studs`` are padded at both ends with two that are far away. ``home`` is
    the whole left edge and the hang height at which an item hangs already, or far away.
    """

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
    rank: Ints
    home: Ints
    obstacles: Ints
    hot: Ints
    studs: Ints
    stud_end: int
    rails: Rows
    levels: Rows
    usable: tuple[Ints, ...]
    unary: tuple[Ints, ...]
    easy_x: int | None
    sideways: NDArray[np.float64]
    rail_cost: int
    length_cost: int
    group_cost: int
    moved_cost: int
    weak_cost: int

    def rows_of(self, i: int) -> Rows:
        """Return the rows in which item ``i`` may stand."""
        return self.rails if self.items[i].on_rail else self.levels

    def obstacles_of(self, i: int) -> Ints:
        """Return what item ``i`` keeps off."""
        return self.hot if self.items[i].keep_cool else self.obstacles

    def own_cost(self, i: int, *, rows: Ints, x: Ints) -> Ints:
        """Return what item ``i`` costs by itself, array ``(rows, candidates)``."""
        cost = self.unary[i][rows][:, None]
        if self.easy_x is not None:
            aside = np.abs(x + self.left[i] + self.plate[i] // 2 - self.easy_x)
            cost = cost + np.rint(self.sideways[i] * aside).astype(np.int64)
        if self.home[i, 0] < FAR:
            there = (self.rows_of(i).z[rows] == self.home[i, 1])[:, None] & (x == self.home[i, 0])
            cost = cost + np.where(there, 0, self.moved_cost)
        return cost


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
    obstacles = _boxes(space, lambda _: 0.0)
    rails = _rail_rows(space, rule, ordered, obstacles)
    levels = _level_rows(space, rule, ordered)
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
        costs = (
            reach_cost(item, h, band=band, weights=weights)
            + raised_cost(item, h, band=band, weights=weights)
            for h in heights
        )
        unary.append(column([round(cost * COST_UNIT) for cost in costs]))
    left = column([over(i.side_left_mm) for i in ordered])
    return Problem(
        items=ordered,
        width=under(space.width_mm),
        height=height,
        gap=over(rule.min_gap_mm),
        left=left,
        plate=column([over(i.width_mm) for i in ordered]),
        whole=column(
            [over(i.side_left_mm) + over(i.width_mm) + over(i.side_right_mm) for i in ordered]
        ),
        up=up,
        down=down,
        bear=bear,
        group=column([groups.index(i.group) if i.group else NONE for i in ordered]),
        group_count=len(groups),
        rank=column([NONE if i.rank is None or not i.group else i.rank for i in ordered]),
        home=_homes(ordered, left),
        obstacles=obstacles,
        hot=_boxes(space, lambda heat_mm: heat_mm),
        studs=column([-FAR, -FAR, *(round(x * UNIT) for x in sorted(space.studs_mm)), FAR, FAR]),
        stud_end=over(END_MM),
        rails=rails,
        levels=levels,
        usable=tuple(usable),
        unary=tuple(unary),
        easy_x=None if band.easy_x_mm is None else round(band.easy_x_mm * UNIT),
        sideways=np.array(
            [weights.sideways * weights.of_use(i.use) * COST_PER_UNIT for i in ordered],
            dtype=np.float64,
        ),
        rail_cost=round(weights.rail * COST_UNIT),
        length_cost=round(weights.rail_length * COST_PER_UNIT),
        group_cost=round(weights.group * COST_PER_UNIT),
        moved_cost=round(weights.moved * COST_UNIT),
        weak_cost=round(weights.weak_rail * COST_UNIT),
    )


def _boxes(space: WallSpace, grown: Callable[[float], float]) -> Ints:
    """Return the obstacles as x0, x1, z0, z1, grown by what their heat asks for."""
    rows: list[tuple[int, int, int, int]] = []
    for b in sorted(space.obstacles, key=lambda b: (b.x_mm, b.z_mm, b.name)):
        off = grown(b.heat_mm)
        rows.append(
            (under(b.x_mm - off), over(b.right_mm + off), under(b.z_mm - off), over(b.top_mm + off))
        )
    return np.array(rows, dtype=np.int64).reshape(-1, 4)


def _homes(items: Sequence[Item], left: Ints) -> Ints:
    homes = np.full((len(items), 2), FAR, dtype=np.int64)
    for k, item in enumerate(items):
        if item.hangs_at is not None:
            x, z = (round(value * UNIT) for value in item.hangs_at)
            homes[k] = x - left[k], z
    return homes


def _heights(space: WallSpace, rule: RailRule) -> list[int]:
    count = int(space.height_mm / rule.step_mm + 1e-9)
    return [round(k * rule.step_mm * UNIT) for k in range(count, -1, -1)]


def _given(items: Sequence[Item], *, on_rail: bool) -> set[int]:
    """Return the heights at which items are fixed or hang already."""
    places = [place for i in items if i.on_rail is on_rail for place in (i.fixed, i.hangs_at)]
    return {round(place[1] * UNIT) for place in places if place}


def _rail_rows(space: WallSpace, rule: RailRule, items: Sequence[Item], obstacles: Ints) -> Rows:
    top, width = under(space.height_mm), under(space.width_mm)
    kept = [
        (
            round((run.z_top_mm - rule.edge_above_mm) * UNIT),
            over(run.z_top_mm) - over(rule.height_mm),
            over(run.z_top_mm),
            over(run.x0_mm),
            under(run.x1_mm),
        )
        for run in sorted(space.kept_rails, key=lambda run: (-run.z_top_mm, run.x0_mm))
    ]
    gap = over(rule.min_gap_mm)
    bars = obstacles.tolist() + [(x0, x1, low - gap, high + gap) for _, low, high, x0, x1 in kept]
    rows: list[tuple[int, int, int, int, int]] = []
    for z in sorted({*_heights(space, rule), *_given(items, on_rail=True)}, reverse=True):
        high = z + over(rule.edge_above_mm)
        low = high - over(rule.height_mm)
        if low < 0 or high > top:
            continue
        left = 0
        crossing = sorted((x0, x1) for x0, x1, z0, z1 in bars if z0 < high and z1 > low)
        for x0, x1 in [*crossing, (width, FAR)]:
            if x0 > left:
                rows.append((z, low, high, left, min(x0, width)))
            left = max(left, x1)
    table = np.array(rows + kept, dtype=np.int64).reshape(-1, 5)
    columns = (np.ascontiguousarray(table[:, k]) for k in range(5))
    is_kept = np.arange(len(table)) >= len(rows)
    studs = np.sort(np.array([round(x * UNIT) for x in space.studs_mm], dtype=np.int64))
    end = over(END_MM)
    first = np.searchsorted(studs, table[:, 3] + end, side="left")
    met = np.searchsorted(studs, table[:, 4] - end, side="right") - first
    is_weak = (met < STUDS_A_RAIL) & ~is_kept & bool(len(studs))
    return Rows(*columns, kept=is_kept, weak=is_weak)


def _level_rows(space: WallSpace, rule: RailRule, items: Sequence[Item]) -> Rows:
    heights = sorted({*_heights(space, rule), *_given(items, on_rail=False)}, reverse=True)
    z = np.array(heights, dtype=np.int64)
    width = np.full_like(z, under(space.width_mm))
    no = np.zeros(len(z), dtype=np.bool_)
    return Rows(z, z, z, np.zeros_like(z), width, kept=no, weak=no)
