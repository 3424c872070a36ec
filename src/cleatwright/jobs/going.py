"""How far a plan goes, by the words of a person."""

from __future__ import annotations

from typing import get_args

from cleatwright.base.errors import unknown_name
from cleatwright.project.going import Going
from cleatwright.workshop.document.sections import HowFar

FAR: tuple[HowFar, ...] = get_args(HowFar)


def going_as(limit: str | None, plan: str | None) -> Going:
    """Return how far a plan goes.

    Args:
        limit: The word for how far it may go, or None.
        plan: The word for how far it goes in any case, or None.

    Raises:
        UnknownNameError: There is no such word.
    """
    return Going(
        None if limit is None else _how_far(limit, "--change"),
        None if plan is None else _how_far(plan, "--plan"),
    )


def _how_far(word: str, where: str) -> HowFar:
    for far in FAR:
        if far == word:
            return far
    raise unknown_name("plan", word, FAR, where=where)
