"""The arranging problem as arrays of whole numbers, for the compiled search.

Lengths are hundredths of a millimetre; costs are two thousandths of a point. Items, rows of
rails and the rule are records with named fields.
"""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]
Floats = NDArray[np.float64]

UNIT = 100
COST_UNIT = 2000
GRID_MM = 5
GRID = GRID_MM * UNIT
FAR = 1 << 40
# An item left off the wall must dwarf every placement cost.
ABSENT_COST = 1 << 44
NONE = -1

ITEM = np.dtype(
    [
        ("left", np.int64),  # how far tools stand out beyond the left edge of the plate
        ("plate", np.int64),  # width of the plate
        ("whole", np.int64),  # width over plate and tools
        ("up", np.int64),  # room above the hang height
        ("down", np.int64),  # room below it
        ("bear", np.int64),  # how far below it the holder bears on its rail
        ("group", np.int64),  # number of the group, or NONE
        ("rank", np.int64),  # place from left to right in the group, or NONE
        ("cool", np.bool_),  # must hang away from heat
        ("on_rail", np.bool_),
        ("home_x", np.int64),  # whole left edge where it hangs already, or FAR
        ("home_z", np.int64),  # hang height there
        ("easy_x", np.int64),  # where the better hand takes it, or FAR
        ("sideways", np.float64),  # cost of each unit of length beside the better hand
        ("absent", np.int64),  # what it costs to leave it off
        ("from_x", np.int64),  # least whole left edge
        ("to_x", np.int64),  # most
        ("over", np.int64),  # how far its plate may reach beyond the last screws, or FAR
    ],
    align=True,
)
RAIL = np.dtype(
    [
        ("z", np.int64),  # hang height
        ("low", np.int64),  # lower edge of the rail
        ("high", np.int64),  # upper edge
        ("from_x", np.int64),  # left end of the stretch between obstacles
        ("to_x", np.int64),  # right end
        ("kept", np.bool_),  # a rail that hangs already: it costs nothing and is always there
        ("weak", np.bool_),  # no rail here can meet two studs
        ("first_x", np.int64),  # the first screws of a rail from end to end, or -FAR
        ("last_x", np.int64),  # the last ones, or FAR
    ],
    align=True,
)
RULE = np.dtype(
    [
        ("width", np.int64),  # of the wall
        ("height", np.int64),
        ("gap", np.int64),  # clear height between two rails
        ("rail_cost", np.int64),  # of each height of rails
        ("length_cost", np.int64),  # of each unit of rail
        ("group_cost", np.int64),  # of each unit of width and height of the box round a group
        ("moved_cost", np.int64),  # of each item that does not stay at home
        ("weak_cost", np.int64),  # of each rail that meets fewer than two studs
        ("over_cost", np.int64),  # of each plate too far beyond the last screws of its rail
    ],
    align=True,
)


class Tables(NamedTuple):
    """The whole problem.

    Args:
        items: Records of ITEM, in the order of the keys.
        rails: Records of RAIL, a row for each height and stretch, from top to bottom; then
            the rails that hang already.
        rule: One record of RULE.
        levels: Heights for what is screwed flat to the wall.
        turns: The rows or levels in which an item may stand, from the cheapest, then NONE,
            array ``(items, rows or levels)``.
        unary: What an item costs in each row or level by itself, the same shape.
        obstacles: x0, x1, z0, z1 of each.
        hot: The same, with the distance from their heat.
        studs: The studs from left to right: at which x, or left of it, a rail must begin and at
            which it must end to be screwed there at all, and the same for the middle of the stud,
            array ``(studs, 4)``.
        barred: An item, and between which two whole left edges its screws would meet nothing,
            array ``(m, 3)``.
        members: The items that have a group, group by group.
        starts: Where each group starts among them, and where the last one ends.
    """

    # the stubs of the library know no named fields
    items: Any
    rails: Any
    rule: Any
    levels: Ints
    turns: Ints
    unary: Ints
    obstacles: Ints
    hot: Ints
    studs: Ints
    barred: Ints
    members: Ints
    starts: Ints
