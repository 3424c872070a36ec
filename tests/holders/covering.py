"""Few trials of all families in which every pair occurs of what a trial is made of."""

from __future__ import annotations

from collections.abc import Iterable
from heapq import heapify, heappop, heappush
from itertools import combinations

from cleatwright.design.proving import USUAL_MOUNTS, FamilyTrial
from cleatwright.mounts.joints.registry import ONE_PIECE

Together = frozenset[tuple[str, object]]


def shown_by(trial: FamilyTrial) -> frozenset[Together]:
    """Return what a trial shows: each pair of family, kind, number of tools, mount and joint.

    A family with a kind is looked at on both usual mounts: there support and sections are asked.
    """
    parts = {
        "family": trial.family,
        "kind": trial.kind,
        "tools": len(trial.scales),
        "mount": trial.mount,
        "joint": trial.joint,
    }
    pairs = {frozenset(two) for two in combinations(parts.items(), 2)}
    if trial.joint == ONE_PIECE and trial.mount in USUAL_MOUNTS:
        pairs.add(frozenset((part, parts[part]) for part in ("family", "kind", "mount")))
    return frozenset(pairs)


def covering(trials: Iterable[FamilyTrial]) -> tuple[FamilyTrial, ...]:
    """Return trials, in their order, that together show all that any of them shows.

    The next is always the first of those that show most that none before it showed, three tools
    before one: the choice depends on nothing but what is registered, and what is registered anew is
    taken by itself.
    """
    shows = [(trial, shown_by(trial)) for trial in trials]
    # what a trial shows anew only gets less: whoever still shows as much as before is the next
    heap = [(-len(all_), -len(trial.scales), k) for k, (trial, all_) in enumerate(shows)]
    heapify(heap)
    taken: list[int] = []
    shown: set[Together] = set()
    while heap:
        before, tools, k = heappop(heap)
        new = shows[k][1] - shown
        if len(new) < -before:
            heappush(heap, (-len(new), tools, k))
        elif new:
            shown |= new
            taken.append(k)
    return tuple(shows[k][0] for k in sorted(taken))
