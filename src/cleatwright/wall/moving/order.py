"""In which order to move what hangs, so that each place is free when its turn comes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from graphlib import TopologicalSorter
from itertools import combinations
from typing import Literal

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array
from scipy.sparse.csgraph import shortest_path

from cleatwright.base.errors import KernelError, WallError
from cleatwright.wall.conflicts import Rect, overlap
from cleatwright.wall.moving.moves import Move

Action = Literal["take down", "move", "hang"]
Graph = Mapping[str, tuple[str, ...]]


@dataclass(frozen=True)
class Step:
    """One thing to do at the wall.

    Args:
        action: Whether to take it down, to move it, or to hang it.
        move: The move of which it is a part.
    """

    action: Action
    move: Move

    @property
    def sentence(self) -> str:
        """Return what to do, in a sentence."""
        name = f'"{self.move.name}"'
        if self.action == "move":
            return f"Move {name} {self.move.way}: {self.move.target}."
        if self.action == "hang":
            return f"Hang {name}: {self.move.target}."
        if self.move.what == "comes off":
            return f"Take down {name}: it comes off the wall."
        if self.move.renewed:
            return f"Take down {name}: a new part takes its place."
        return f"First take down {name}, to make room."


def ordered(
    wanted: Iterable[Move], *, before: Mapping[str, Rect], after: Mapping[str, Rect]
) -> tuple[Step, ...]:
    """Return the steps, in an order in which each place is free when its turn comes.

    What comes off, and each part that another one replaces, is taken down first. Where
    holders stand in each other's way in a ring, as few as possible are taken down
    first and hung again at the end.

    Args:
        wanted: The moves, in any order.
        before: The room (x0, x1, z0, z1) that each holder that moves takes now, by its key.
        after: The room that each holder will take, by its key; also of those that stay.

    Raises:
        WallError: A room is missing, or two holders would overlap at the end.
    """
    chosen = sorted(wanted, key=lambda move: move.key)
    _require_sound(chosen, after)
    movers = [move for move in chosen if move.what == "moves" and not move.renewed]
    blockers = _blockers(movers, before, after)
    down = _fewest_taken_down(blockers)
    gone = [
        *(move for move in chosen if move.key in down),
        *(move for move in chosen if move.what == "comes off" or move.renewed),
    ]
    known = {move.key: move for move in movers}
    new = [move for move in chosen if move.what == "is new" or move.renewed or move.key in down]
    return (
        *(Step("take down", move) for move in gone),
        *(Step("move", known[key]) for key in _in_turn(_without(blockers, down))),
        *(Step("hang", move) for move in new),
    )


def _require_sound(wanted: Sequence[Move], after: Mapping[str, Rect]) -> None:
    hung = [move for move in wanted if move.after is not None]
    for move in hung:
        _room(after, move)
    for one, other in combinations(hung, 2):
        same = one.panel_after == other.panel_after
        if same and overlap(after[one.key], after[other.key]):
            raise WallError(f'"{one.name}" and "{other.name}" would overlap', where="moves")


def _room(rooms: Mapping[str, Rect], move: Move) -> Rect:
    if move.key not in rooms:
        raise WallError(f'the room that "{move.name}" takes is not known', where="moves")
    return rooms[move.key]


def _blockers(
    movers: Sequence[Move], before: Mapping[str, Rect], after: Mapping[str, Rect]
) -> Graph:
    """Return for each holder that moves those that stand now where it shall hang."""
    now = {move.key: _room(before, move) for move in movers}
    return {
        move.key: tuple(
            other.key
            for other in movers
            if other is not move
            and other.panel_before == move.panel_after
            and overlap(after[move.key], now[other.key])
        )
        for move in movers
    }


def _without(graph: Graph, down: frozenset[str]) -> Graph:
    return {
        key: tuple(other for other in others if other not in down)
        for key, others in graph.items()
        if key not in down
    }


def _in_turn(graph: Graph) -> list[str]:
    """Return the keys, each after those that stand in its way, else sorted."""
    sorter = TopologicalSorter(graph)
    sorter.prepare()
    turn: list[str] = []
    while sorter.is_active():
        ready = sorted(sorter.get_ready())
        turn += ready
        sorter.done(*ready)
    return turn


def _fewest_taken_down(graph: Graph) -> frozenset[str]:
    """Return the smallest set without which no ring is left.

    Only rings that are found to be left take part in the choice, so that few are needed.
    """
    rings: list[frozenset[str]] = []
    down: frozenset[str] = frozenset()
    while found := _rings(_without(graph, down)):
        rings += found
        down = _smallest_hitting(rings)
    return down


def _rings(graph: Graph) -> tuple[frozenset[str], ...]:
    """Return a shortest ring through each member that lies on one; none when there is no ring."""
    keys = sorted(graph)
    flags = np.array([[other in graph[key] for other in keys] for key in keys], dtype=np.int64)
    if not flags.any():
        return ()
    far, prior = shortest_path(csr_array(flags), unweighted=True, return_predecessors=True)
    rings: dict[frozenset[str], None] = {}
    for k in range(len(keys)):
        # back from each that has k in its way; the others are out of reach
        home = np.where(flags[:, k] > 0, far[k], np.inf)
        here = int(home.argmin())
        if not np.isfinite(home[here]):
            continue
        ring = {keys[k]}
        while here != k:
            ring.add(keys[here])
            here = int(prior[k, here])
        rings[frozenset(ring)] = None
    return tuple(rings)


def _smallest_hitting(rings: Sequence[frozenset[str]]) -> frozenset[str]:
    """Return the fewest keys of which each ring has one."""
    keys = sorted(frozenset[str]().union(*rings))
    member = np.array([[key in ring for key in keys] for ring in rings], dtype=np.float64)
    found = milp(
        np.ones(len(keys)),
        integrality=np.ones(len(keys), dtype=np.int64),
        bounds=Bounds(0, 1),
        constraints=LinearConstraint(member, lb=1),
        options={"mip_rel_gap": 0.0},
    )
    if found.x is None:
        raise KernelError(f"the order of the moves was not found: {found.message}")
    return frozenset(keys[k] for k in np.flatnonzero(found.x > 0.5).tolist())
