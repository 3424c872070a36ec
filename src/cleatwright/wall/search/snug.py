"""How snugly a spot is enclosed: the guide while some items still find no place.

A spot whose four sides all touch something wastes nothing. Counting the sides
leads a crowded wall to tight packings where the score alone would not.
"""

from __future__ import annotations

from cleatwright.wall.search.compiled import compiled
from cleatwright.wall.search.state import State
from cleatwright.wall.search.tables import Tables

Box = tuple[int, int, int, int]


@compiled
def touching_sides(t: Tables, s: State, i: int, at: tuple[int, int]) -> int:
    """Return how many sides of item ``i`` touch with its whole left edge and hang height there."""
    x, z = at
    own = (x, x + t.items[i].whole, z - t.items[i].down, z + t.items[i].up)
    left = own[0] == 0
    right = own[1] == t.rule[0].width
    below = own[2] == 0
    above = own[3] == t.rule[0].height
    for j in range(len(s.stands)):
        if s.stands[j]:
            box = (s.box[j, 0], s.box[j, 1], s.box[j, 2], s.box[j, 3])
            left, right, below, above = _sides(own, box, (left, right, below, above))
    boxes = t.hot if t.items[i].cool else t.obstacles
    for k in range(len(boxes)):
        box = (boxes[k, 0], boxes[k, 1], boxes[k, 2], boxes[k, 3])
        left, right, below, above = _sides(own, box, (left, right, below, above))
    return int(left) + int(right) + int(below) + int(above)


@compiled
def _sides(
    own: Box, box: Box, found: tuple[bool, bool, bool, bool]
) -> tuple[bool, bool, bool, bool]:
    left, right, below, above = found
    beside = own[2] < box[3] and own[3] > box[2]
    over = own[0] < box[1] and own[1] > box[0]
    return (
        left or (beside and own[0] == box[1]),
        right or (beside and own[1] == box[0]),
        below or (over and own[2] == box[3]),
        above or (over and own[3] == box[2]),
    )
