"""The state from which the search sets out."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from cleatwright.wall.problem import FAR, NONE, UNIT, Problem
from cleatwright.wall.state import Spot, State, cheapest, spots


def start_state(p: Problem) -> tuple[State, list[int]]:
    """Return the state with what is fixed or hangs already, and the indices of the fixed items.

    What hangs already and cannot stay, because its place is no longer free, is left out.
    """
    state, pinned = State.empty(p), list[int]()
    for i, item in enumerate(p.items):
        if item.fixed is None:
            continue
        plate, z = (round(value * UNIT) for value in item.fixed)
        row = NONE
        if item.on_rail:
            middle = plate + int(p.plate[i]) // 2
            r = p.rails
            row = int(np.flatnonzero((r.z == z) & (r.from_x <= middle) & (middle <= r.to_x))[0])
        state.put(p, i, Spot(plate - int(p.left[i]), z, row, 0))
        pinned.append(i)
    for i in np.flatnonzero(~state.stands & (p.home[:, 0] < FAR)).tolist():
        spot = _home(p, state, i)
        if spot is not None:
            state.put(p, i, spot)
    return state, pinned


def _home(p: Problem, state: State, i: int) -> Spot | None:
    """Return the spot where an item hangs already, or None when it is not free."""
    found = spots(p, state, i)
    there = (found.z == p.home[i, 1])[:, None] & (found.x == p.home[i, 0])
    return cheapest(p, i, replace(found, free=found.free & there), found.cost.astype(np.float64))
