"""How snugly a spot is enclosed: the guide while some items still find no place.

A spot whose four sides all touch something wastes nothing. Counting the sides
leads a crowded wall to tight packings where the score alone would not.
"""

from __future__ import annotations

import numpy as np

from cleatwright.wall.bits import share_flag
from cleatwright.wall.problem import Ints, Problem
from cleatwright.wall.state import State


def touching_sides(p: Problem, s: State, i: int, *, z: Ints, x: Ints) -> Ints:
    """Return how many sides of item ``i`` touch, array ``(rows, candidates)``, from 0 to 4."""
    edge = np.array(
        [
            (-1, 0, -1, p.height),
            (p.width, p.width + 1, -1, p.height),
            (-1, p.width, -1, 0),
            (-1, p.width, p.height, p.height + 1),
        ],
        dtype=np.int64,
    )
    boxes = np.concatenate((s.box, p.obstacles, edge))
    x0, x1, z0, z1 = boxes.T
    low, high, end = z - p.down[i], z + p.up[i], x + p.whole[i]
    tall = (low[:, None] < z1) & (high[:, None] > z0)
    wide = (x[:, None] < x1) & (end[:, None] > x0)
    sides = (
        (tall, x[:, None] == x1),
        (tall, end[:, None] == x0),
        (low[:, None] == z1, wide),
        (high[:, None] == z0, wide),
    )
    touching = np.zeros((len(z), len(x)), dtype=np.int64)
    for rows, columns in sides:
        touching += share_flag(rows, columns)
    return touching
