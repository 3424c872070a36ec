"""The heights at which each item may hang, with what each costs at the least.

This is stated from the words of the model and in millimetres, apart from the search, so that
a fault of the search cannot hide itself in the bound.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cleatwright.wall.model import Item, Place, RailRule, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rails import kept_rail
from cleatwright.wall.score import raised_cost, reach_cost
from cleatwright.wall.tolerances import DIGITS, HAIR_MM, SAME_MM

Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]
Floats = NDArray[np.float64]
Span = tuple[float, float]


@dataclass(frozen=True, eq=False)
class Choices:
    """One entry for each item and height.

    Args:
        item: Index of the item, array ``(n,)``.
        z_mm: Hang height, array ``(n,)``.
        rail: True where the item needs a rail that does not hang yet.
        kept: True where it hangs on a rail that stays.
        cost: What it costs there at the least, array ``(n,)``.
    """

    item: Ints
    z_mm: Floats
    rail: Bools
    kept: Bools
    cost: Floats


@dataclass(frozen=True)
class RailHeight:
    """Where rails for one hang height may lie: new ones, and those that stay."""

    z_mm: float
    new: tuple[Span, ...]
    kept: tuple[Span, ...]


def rail_heights(problem: WallProblem) -> dict[float, RailHeight]:
    """Return every height for rails by its hang height."""
    space, rule = problem.space, problem.rule
    standing = [(round(k.z_top_mm - rule.edge_above_mm, DIGITS), k) for k in space.kept_rails]
    heights = {*_tried(problem, on_rail=True), *(z for z, _ in standing)}
    return {
        z: RailHeight(
            z,
            new=_stretches(space, rule, z),
            kept=tuple((k.x0_mm, k.x1_mm) for height, k in standing if height == z),
        )
        for z in sorted(heights)
    }


def choices(problem: WallProblem) -> Choices:
    """Return every height of every item that arranging may return."""
    height_mm, heights = problem.space.height_mm, rail_heights(problem)
    levels = sorted(_tried(problem, on_rail=False))
    found: list[tuple[int, float, bool, bool, float]] = []
    for i, item in enumerate(problem.items):
        below = max(item.down_mm, item.rail_depth_mm if item.on_rail else 0.0)
        for z in heights if item.on_rail else levels:
            if z - below < -HAIR_MM or z + item.up_mm > height_mm + HAIR_MM:
                continue
            if not item.may_hang_at(z):
                continue
            if item.fixed and round(item.fixed[1], DIGITS) != z:
                continue
            cost = _cost(problem, item, z)
            if not item.on_rail:
                found.append((i, z, False, False, cost))
                continue
            new, kept = (_has_room(item, spans) for spans in (heights[z].new, heights[z].kept))
            if item.fixed:
                rail = kept_rail(problem, Place(item.key, *item.fixed))
                # a row is a new rail, though it is laid before anything hangs
                kept = rail is not None and rail.stays
                new = not kept
            found += [(i, z, True, False, cost)] * new + [(i, z, False, True, cost)] * kept
    columns = list(zip(*found, strict=True)) or [()] * 5
    return Choices(
        np.array(columns[0], dtype=np.int64),
        np.array(columns[1], dtype=np.float64),
        np.array(columns[2], dtype=np.bool_),
        np.array(columns[3], dtype=np.bool_),
        np.array(columns[4], dtype=np.float64),
    )


def _has_room(item: Item, spans: Sequence[Span]) -> bool:
    return any(x1 - x0 >= item.width_mm - HAIR_MM for x0, x1 in spans)


def _cost(problem: WallProblem, item: Item, z_mm: float) -> float:
    """Return what an item costs at a hang height, wherever it hangs from left to right."""

    def at(z: float) -> float:
        height_mm = z + problem.space.floor_gap_mm
        reach = reach_cost(item, height_mm, problem=problem)
        return reach + raised_cost(item, height_mm, problem=problem)

    if item.fixed:
        return at(item.fixed[1])
    if item.hangs_at is None:
        return at(z_mm)
    if abs(z_mm - item.hangs_at[1]) > SAME_MM + HAIR_MM:
        return at(z_mm) + problem.weights.moved
    # so near its old place it is put back there to the last digit
    return min(at(z_mm), at(item.hangs_at[1]))


def _tried(problem: WallProblem, *, on_rail: bool) -> set[float]:
    """Return the hang heights that arranging tries, beside those of rails that stay."""
    steps, given = problem.tried_mm, problem.given_mm(on_rail=on_rail)
    return {round(z, DIGITS) for z in (*steps, *given)}


def _stretches(space: WallSpace, rule: RailRule, z_mm: float) -> tuple[Span, ...]:
    """Return where a new rail may lie: between obstacles and rails that stay too near."""
    high = z_mm + rule.edge_above_mm
    low = high - rule.height_mm
    if low < -HAIR_MM or high > space.height_mm + HAIR_MM:
        return ()
    gap = rule.min_gap_mm - HAIR_MM
    bars = [
        *((b.x_mm, b.right_mm, b.z_mm + HAIR_MM, b.top_mm - HAIR_MM) for b in space.obstacles),
        *(
            (k.x0_mm, k.x1_mm, k.z_top_mm - rule.height_mm - gap, k.z_top_mm + gap)
            for k in space.kept_rails
        ),
    ]
    crossing = sorted((x0, x1) for x0, x1, z0, z1 in bars if z0 < high and z1 > low)
    spans: list[Span] = []
    left = 0.0
    for x0, x1 in [*crossing, (space.width_mm, space.width_mm)]:
        if x0 > left:
            spans.append((left, min(x0, space.width_mm)))
        left = max(left, x1)
    return tuple(spans)
