"""The state from which the search sets out."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from cleatwright.wall.model import Item
from cleatwright.wall.search.around import around
from cleatwright.wall.search.spots import spot_at
from cleatwright.wall.search.state import State, empty_state, put
from cleatwright.wall.search.tables import FAR, NONE, UNIT, Tables


def start_state(t: Tables, items: Sequence[Item]) -> tuple[State, list[int]]:
    """Return the state with what is fixed or hangs already, and the indices of the fixed items.

    What hangs already and cannot stay, because its place is no longer free, is left out.
    """
    state, pinned = empty_state(t), list[int]()
    for i, item in enumerate(items):
        if item.fixed is None:
            continue
        plate, z = (round(value * UNIT) for value in item.fixed)
        row = NONE
        if item.on_rail:
            middle = plate + int(t.items[i].plate) // 2
            across = (t.rails.from_x <= middle) & (middle <= t.rails.to_x)
            # a place written in inches lies a hair off the rail that it means
            apart = np.where(across, np.abs(t.rails.z - z), FAR)
            row = int(np.argmin(apart))
        put(t, state, i, (plate - int(t.items[i].left), z, row, 0))
        pinned.append(i)
    for i in range(len(items)):
        if not state.stands[i] and t.items[i].home_x < FAR:
            home = (int(t.items[i].home_x), int(t.items[i].home_z))
            spot = spot_at(t, state, around(t, state), i, home)
            if spot[0] != FAR:
                put(t, state, i, spot)
    return state, pinned
