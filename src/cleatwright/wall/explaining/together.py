"""The least changes after which everything finds a place: tried together, as a whole."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import combinations

from cleatwright.wall.explaining.offers import (
    Ask,
    Offer,
    freed,
    larger,
    left_out,
    moved_to,
    other_wishes,
    panels,
)
from cleatwright.wall.problem import WallProblem

# so many changes are tried together, and so many sets of them in a short search
MOST_CHANGES, MOST_SETS = 4, 16
# and of those that are tried one after the other so many are proven
MOST_PROVEN = 2
# what is left over of a changed wall is hard to place: so many times the rounds of other trials
MORE_ROUNDS = 5
# what a wall is made larger by counts once, and a given height is another one on a wall begun lower
SIZES = frozenset(("wider", "higher", "lower"))


def least_together(ask: Ask, offers: Sequence[Offer]) -> tuple[Offer, ...]:
    """Return the fewest changes, and of as many the smallest, after which everything hangs.

    They are proven together, by arranging the wall and each panel to which something is moved with
    as many rounds as the person does. Where no set of these does, others are looked for after the
    one that helps most. None where nothing that was tried does.

    Args:
        ask: What is asked.
        offers: The changes, each of which helps somebody; the smallest first.
    """
    tried = 0
    for chosen in _sets(ask, offers):
        if tried == MOST_SETS:
            break
        tried += 1
        if len(chosen) > 1 and not _all_hang(ask, chosen, full=False):
            continue
        if _all_hang(ask, chosen, full=True):
            return chosen
    return next(_one_by_one(ask, offers), ())


def _one_by_one(ask: Ask, offers: Sequence[Offer]) -> Iterator[tuple[Offer, ...]]:
    """Yield changes after which everything hangs: each but the first is tried after the others."""
    chosen: tuple[Offer, ...] = ()
    now, left = ask, offers
    while left and len(chosen) < MOST_CHANGES:
        all_at_once = [one for one in left if one.helped >= now.trials.waiting]
        for one in all_at_once[:MOST_PROVEN]:
            if _all_hang(ask, (*chosen, one), full=True):
                yield *chosen, one
        if all_at_once:
            return
        most = max(len(one.helped) for one in left)
        chosen = (*chosen, next(one for one in left if len(one.helped) == most))
        found = ask.trials.arranged(changed_by(ask, chosen), first=True)
        if found is None or not found.left_over:
            return
        waiting = frozenset(one.key for one in found.left_over)
        now = replace(
            ask,
            problem=changed_by(ask, chosen),
            places=found.places,
            trials=replace(ask.trials, waiting=waiting, rounds=MORE_ROUNDS * ask.trials.rounds),
            wanted=ask.trials.waiting,
            tried={},
        )
        left = [one for one in _further(now) if _can_be_together((*chosen, one))]


def _further(ask: Ask) -> Sequence[Offer]:
    """Return what helps further on a wall that is changed, of the kinds that say it by themselves.

    A place by hand would be told on the changed wall. What takes longer, or leaves something out,
    is looked for only where nothing before it helps all who still wait.
    """
    key = min(ask.trials.waiting)
    found: list[Offer] = []
    for kind in (
        lambda: (*panels(ask, key), *other_wishes(ask, key), *freed(ask, key)),
        lambda: (*larger(ask, [key], wide=True), *larger(ask, [key], wide=False)),
        lambda: left_out(ask, key),
    ):
        found += kind()
        if any(one.helped >= ask.trials.waiting for one in found):
            break
    return sorted(found, key=lambda one: one.size)


def _sets(ask: Ask, offers: Sequence[Offer]) -> Iterator[tuple[Offer, ...]]:
    """Yield sets of changes that help all who wait, one by one, the least set first."""
    waiting = ask.trials.waiting
    for count in range(1, MOST_CHANGES + 1):
        good = (
            chosen
            for chosen in combinations(_few(offers, count), count)
            if _needed(chosen, waiting) and _can_be_together(chosen)
        )
        yield from sorted(good, key=_much)


def _few(offers: Sequence[Offer], count: int) -> Sequence[Offer]:
    """Return the changes of which sets are made; the more there are in one, the fewer."""
    if count <= 2:
        return offers
    # of changes that help the same ones the smallest stand for all
    first: dict[tuple[frozenset[str], str], Offer] = {}
    for one in offers:
        first.setdefault((one.helped, one.family), one)
    return list(first.values())[: 24 // count]


def _much(chosen: Sequence[Offer]) -> list[tuple[int, float, str]]:
    """Return how much a set changes: first the largest of its changes."""
    return sorted((one.size for one in chosen), reverse=True)


def _needed(chosen: Sequence[Offer], waiting: frozenset[str]) -> bool:
    """Return whether a set helps all who wait, and would not without one of its changes."""

    def helped(rest: Sequence[Offer]) -> frozenset[str]:
        return frozenset[str]().union(*(one.helped for one in rest))

    return helped(chosen) >= waiting and not any(
        helped([other for other in chosen if other is not one]) >= waiting for one in chosen
    )


def _can_be_together(chosen: Sequence[Offer]) -> bool:
    families = [one.family for one in chosen]
    sizes = [family for family in families if family in SIZES]
    # on a wall begun lower a height means another one
    told_anew = "lower" in families and not {"place", "higher"}.isdisjoint(families)
    return len(sizes) == len(set(sizes)) and not told_anew


def changed_by(ask: Ask, chosen: Sequence[Offer]) -> WallProblem:
    """Return the wall with a set of changes; one that is begun lower is told anew at the end."""
    wall = ask.problem
    for one in sorted(chosen, key=lambda one: one.family == "lower"):
        wall = one.change(wall)
    return wall


def _all_hang(ask: Ask, chosen: Sequence[Offer], *, full: bool) -> bool:
    moved: defaultdict[str, list[str]] = defaultdict(list)
    for one in chosen:
        if one.moved is not None:
            moved[one.moved[0]].append(one.moved[1])
    return ask.trials.all_hang(changed_by(ask, chosen), full=full) and all(
        ask.trials.all_hang(moved_to(ask, name, keys), full=full) for name, keys in moved.items()
    )
