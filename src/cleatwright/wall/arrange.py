"""Arranging holders on a wall: the one function that the program calls."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from cleatwright.base import said
from cleatwright.base.errors import RoomError
from cleatwright.base.interrupts import defer_interrupts
from cleatwright.wall.inputs import check_problem, of_items
from cleatwright.wall.model import Arrangement, Item, LeftOver
from cleatwright.wall.problem import WallProblem

Progress = Callable[[int, int], None]
"""Told of the rounds that are done, and of all there are; it may raise to stop."""
ROUNDS_TIMES_ITEMS = 3_000_000
FEWEST_ROUNDS, MOST_ROUNDS = 7_500, 75_000
# a wall of a few things is soon as good as it gets
ROUNDS_AN_ITEM = 3_000


def default_rounds(item_count: int) -> int:
    """Return so many rounds that a few seconds are enough: fewer for very few and for many items.

    >>> default_rounds(5), default_rounds(50), default_rounds(1000)
    (15000, 60000, 7500)
    """
    rounds = min(ROUNDS_AN_ITEM * item_count, ROUNDS_TIMES_ITEMS // max(item_count, 1))
    return min(max(rounds, FEWEST_ROUNDS), MOST_ROUNDS)


def arrange(
    problem: WallProblem,
    *,
    seed: int = 0,
    rounds: int | None = None,
    still: bool = False,
    first: bool = False,
    progress: Progress | None = None,
) -> Arrangement:
    """Return a good arrangement of the items; the same arguments always give the same one.

    Items that find no place are named in ``left_over``, without advice; see
    ``cleatwright.wall.explaining.remedies`` for what would help.

    Args:
        problem: The wall and what hangs.
        seed: Start of the random numbers.
        rounds: Rounds of improvement, >= 0; ``default_rounds`` of the items when None.
        still: True when nothing may move that hangs already and may stay.
        first: True when the first arrangement that leaves nothing over is enough.
        progress: Called in each round with rounds done and all rounds; it may raise to stop.

    Raises:
        WallError: An obstacle lies outside the wall, two items have one key, or
            the fixed places cannot be together.
    """
    check_problem(problem)
    with defer_interrupts():
        from cleatwright.wall.search.searched import searched  # noqa: PLC0415 - compiles, on use
    ordered = problem.having(sorted(problem.items, key=lambda item: item.key))
    found = searched(
        ordered,
        still=still,
        first=first,
        seed=seed,
        rounds=default_rounds(len(problem.items)) if rounds is None else rounds,
        progress=progress,
    )
    hung = {place.key for place in found.places}
    left = tuple(
        LeftOver(item.key, reason(problem, item), ())
        for item in ordered.items
        if item.key not in hung
    )
    return replace(found, left_over=left)


def require_all(arrangement: Arrangement) -> Arrangement:
    """Return the arrangement when everything hangs.

    Raises:
        RoomError: Something is left over; each is named with what would help.
    """
    if arrangement.left_over:
        told = (*(left.sentence for left in arrangement.left_over), arrangement.finish)
        raise RoomError(
            " ".join(filter(None, told)),
            place=of_items((left.key for left in arrangement.left_over), ("width",), ("height",)),
            todo="Change the wall, or leave these holders off it; what is told was tried just so",
        )
    return arrangement


def reason(problem: WallProblem, item: Item) -> str:
    """Return why an item without a place has none."""
    space, rule = problem.space, problem.rule
    tall = item.up_mm + item.down_mm
    if item.whole_width_mm > space.width_mm:
        return (
            f'"{item.key}" is {said.mm(item.whole_width_mm)} wide with its tools, '
            f"and the wall is {said.mm(space.width_mm)} wide."
        )
    if tall > space.height_mm:
        return (
            f'"{item.key}" needs {said.mm(tall)} of height with its tools and the room to lift '
            "them, "
            f"and the wall is {said.mm(space.height_mm)} high."
        )
    if item.on_rail and rule.height_mm + rule.edge_above_mm > space.height_mm:
        return f'"{item.key}" hangs on a rail, and no rail fits on a wall so low.'
    heights = (z for z in problem.tried_mm if item.down_mm <= z <= space.height_mm - item.up_mm)
    if not any(item.may_hang_at(z) for z in heights):
        return unsafe(item)
    return f'"{item.key}" finds no free place beside the others.'


def unsafe(item: Item) -> str:
    """Return that an item finds no place at a safe height, and what sets its bounds."""
    return f'"{item.key}" finds no place on the wall at a safe height: {item.bounds.words}.'
