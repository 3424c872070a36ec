"""A partial arrangement during the search: what stands where, and the rails behind it."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from cleatwright.wall.ground import PLACES_A_RAIL
from cleatwright.wall.search.compiled import compiled, lean, lean_entry
from cleatwright.wall.search.tables import FAR, NONE, Bools, Ints, Tables


class State(NamedTuple):
    """Arrays that the search changes in place.

    Args:
        box: Whole rectangles x0, x1, z0, z1, array ``(n, 4)``.
        bar: What a rail at another height may not cross: for an item on a rail its
            plate down to where it bears, else its whole rectangle; array ``(n, 4)``.
        z: Hang heights, array ``(n,)``.
        row: Index of the rail row, or NONE.
        stands: Which items stand.
        paid: What each standing item costs by itself, array ``(n,)``.
        hull: First and last x of the rail on each row, array ``(rows, 2)``: round its plates and,
            where there is room, on to two studs.
        weak: Which rows have a rail that meets fewer than two studs.
    """

    box: Ints
    bar: Ints
    z: Ints
    row: Ints
    stands: Bools
    paid: Ints
    hull: Ints
    weak: Bools


def empty_state(t: Tables) -> State:
    """Return the state in which nothing stands."""
    n, rows = len(t.items), len(t.rails)
    hull = np.tile(np.array([FAR, -FAR], dtype=np.int64), (rows, 1))
    kept: Bools = t.rails.kept
    hull[kept, 0], hull[kept, 1] = t.rails.from_x[kept], t.rails.to_x[kept]
    return State(
        box=np.zeros((n, 4), dtype=np.int64),
        bar=np.zeros((n, 4), dtype=np.int64),
        z=np.zeros(n, dtype=np.int64),
        row=np.full(n, NONE, dtype=np.int64),
        stands=np.zeros(n, dtype=np.bool_),
        paid=np.zeros(n, dtype=np.int64),
        hull=hull,
        weak=np.zeros(rows, dtype=np.bool_),
    )


def copied(state: State) -> State:
    """Return a state that shares nothing with this one."""
    return State(
        box=state.box.copy(),
        bar=state.bar.copy(),
        z=state.z.copy(),
        row=state.row.copy(),
        stands=state.stands.copy(),
        paid=state.paid.copy(),
        hull=state.hull.copy(),
        weak=state.weak.copy(),
    )


@lean
def copy_state(source: State, target: State) -> None:
    """Make the target equal to the source."""
    for i in range(len(source.z)):
        for k in range(4):
            target.box[i, k] = source.box[i, k]
            target.bar[i, k] = source.bar[i, k]
        target.z[i] = source.z[i]
        target.row[i] = source.row[i]
        target.stands[i] = source.stands[i]
        target.paid[i] = source.paid[i]
    for r in range(len(source.weak)):
        target.hull[r, 0], target.hull[r, 1] = source.hull[r, 0], source.hull[r, 1]
        target.weak[r] = source.weak[r]


@lean_entry
def put(t: Tables, s: State, i: int, spot: tuple[int, int, int, int]) -> None:
    """Let item ``i`` stand at the spot.

    The spot is its whole left edge, hang height, rail row or NONE, and what it costs by itself.
    """
    x, z, row, paid = spot
    s.box[i, 0], s.box[i, 1] = x, x + t.items[i].whole
    s.box[i, 2], s.box[i, 3] = z - t.items[i].down, z + t.items[i].up
    s.z[i], s.row[i], s.stands[i], s.paid[i] = z, row, True, paid
    if row == NONE:
        for k in range(4):
            s.bar[i, k] = s.box[i, k]
        return
    left = x + t.items[i].left
    s.bar[i, 0], s.bar[i, 1] = left, left + t.items[i].plate
    s.bar[i, 2], s.bar[i, 3] = z - t.items[i].bear, z
    lay_rail(t, s, row)


@compiled
def take(t: Tables, s: State, which: Ints) -> None:
    """Take the items away."""
    touched = np.zeros(len(t.rails), dtype=np.bool_)
    for i in which:
        if s.row[i] != NONE:
            touched[s.row[i]] = True
        s.stands[i] = False
        s.row[i] = NONE
        s.paid[i] = 0
    for row in range(len(touched)):
        if touched[row]:
            lay_rail(t, s, row)


@lean
def lay_rail(t: Tables, s: State, row: int) -> None:
    """Lay the rail of a row round its plates, and on to two studs where there is room."""
    if t.rails[row].kept:
        return
    first, last = np.int64(FAR), np.int64(-FAR)
    for i in range(len(s.row)):
        if s.row[i] == row:
            first, last = min(first, s.bar[i, 0]), max(last, s.bar[i, 1])
    s.weak[row] = False
    span = (int(first), int(last))
    if first < FAR and len(t.studs) > 0 and not _meets_two(t, span):
        longer = on_studs(t, span, _room(t, s, row, span))
        s.weak[row] = longer[1] < longer[0]
        if not s.weak[row]:
            first, last = longer
    s.hull[row, 0], s.hull[row, 1] = first, last


@lean
def _meets_two(t: Tables, span: tuple[int, int]) -> bool:
    """Return whether a rail from here to there meets two studs."""
    met = 0
    for k in range(len(t.studs)):
        met += int(span[0] <= t.studs[k, 0] and t.studs[k, 1] <= span[1])
    return met >= PLACES_A_RAIL


@lean
def on_studs(t: Tables, span: tuple[int, int], room: tuple[int, int]) -> tuple[int, int]:
    """Return the shortest span in the room that meets two studs, or (FAR, -FAR) for none.

    A stud that the span does not meet yet is met in its middle where there is room.
    """
    best = (FAR, -FAR)
    length = FAR
    for k in range(len(t.studs) - 1):
        a, b = t.studs[k, 0], t.studs[k + 1, 1]
        if a < span[0]:
            a = t.studs[k, 2] if t.studs[k, 2] >= room[0] else a
        if b > span[1]:
            b = t.studs[k + 1, 3] if t.studs[k + 1, 3] <= room[1] else b
        if a < room[0] or b > room[1]:
            continue
        first, last = min(a, span[0]), max(b, span[1])
        if last - first < length:
            length = last - first
            best = (first, last)
    return best


@lean
def _room(t: Tables, s: State, row: int, span: tuple[int, int]) -> tuple[int, int]:
    """Return from where to where the rail of a row may reach."""
    low, high = t.rails[row].from_x, t.rails[row].to_x
    z, z0, z1 = t.rails[row].z, t.rails[row].low, t.rails[row].high
    for j in range(len(s.stands)):
        if not s.stands[j] or (s.row[j] != NONE and s.z[j] == z):
            continue
        if s.bar[j, 2] < z1 and s.bar[j, 3] > z0:
            low, high = _aside(low, high, span, (s.bar[j, 0], s.bar[j, 1]))
    for r in range(len(t.rails)):
        apart = abs(t.rails[r].z - z)
        if s.hull[r, 0] < FAR and apart != 0 and apart < z1 - z0 + t.rule[0].gap:
            low, high = _aside(low, high, span, (s.hull[r, 0], s.hull[r, 1]))
    return low, high


@lean
def _aside(low: int, high: int, span: tuple[int, int], bar: tuple[int, int]) -> tuple[int, int]:
    """Return the room that a bar to the left or to the right of the span leaves."""
    if bar[1] <= span[0]:
        low = max(low, bar[1])
    if bar[0] >= span[1]:
        high = min(high, bar[0])
    return low, high


@lean
def cost_of(t: Tables, s: State) -> int:
    """Return the cost of what stands."""
    total = 0
    height = FAR
    for r in range(len(t.rails)):
        if t.rails[r].kept or s.hull[r, 0] == FAR:
            continue
        # a rail that an obstacle interrupts stays one rail; rows go from top to bottom
        if t.rails[r].z != height:
            total += t.rule[0].rail_cost
            height = t.rails[r].z
        total += t.rule[0].length_cost * (s.hull[r, 1] - s.hull[r, 0])
        if s.weak[r]:
            total += t.rule[0].weak_cost
    for i in range(len(s.paid)):
        total += s.paid[i]
    for g in range(len(t.starts) - 1):
        x0, x1, z0, z1 = group_box(t, s, g)
        if x0 < FAR:
            total += t.rule[0].group_cost * (x1 - x0 + z1 - z0)
    return total


@lean
def group_box(t: Tables, s: State, group: int) -> tuple[int, int, int, int]:
    """Return x0, x1, lowest and highest hang height of a group, or (FAR, -FAR, FAR, -FAR)."""
    x0, x1, z0, z1 = FAR, -FAR, FAR, -FAR
    if group == NONE:
        return x0, x1, z0, z1
    for k in range(t.starts[group], t.starts[group + 1]):
        i = t.members[k]
        if s.stands[i]:
            x0, x1 = min(x0, s.box[i, 0]), max(x1, s.box[i, 1])
            z0, z1 = min(z0, int(s.z[i])), max(z1, int(s.z[i]))
    return x0, x1, z0, z1
