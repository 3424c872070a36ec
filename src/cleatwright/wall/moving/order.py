"""In which order to move what hangs, so that each place is free when its turn comes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from graphlib import TopologicalSorter
from itertools import combinations
from typing import Literal

import numpy as np

from cleatwright.base.errors import KernelError, WallError
from cleatwright.base.interrupts import defer_interrupts
from cleatwright.wall.conflicts import overlap
from cleatwright.wall.moving.moves import Move, surface
from cleatwright.wall.moving.rail_moves import RailMove
from cleatwright.wall.moving.rail_order import Graph, HangsNow, RailWork
from cleatwright.wall.rail import Rect

Action = Literal["take down", "move", "hang", "unscrew", "screw on"]


@dataclass(frozen=True)
class ChangeStep:
    """One thing to do at the wall.

    Args:
        action: Whether to take a holder down, to move it or to hang it, or to unscrew a rail or
            to screw it on.
        move: The move of which it is a part.
        meanwhile: Names of what hangs before a rail and must come off for the while.
        not_yet: Why it must not be done yet, as the end of a sentence, or "".
    """

    action: Action
    move: Move | RailMove
    meanwhile: tuple[str, ...] = ()
    not_yet: str = ""

    @property
    def sentence(self) -> str:
        """Return what to do, in a sentence."""
        move = self.move
        if self.not_yet:
            thing = move.title if isinstance(move, RailMove) else f'"{move.name}"'
            return f"Do not {self.action} {thing} yet: {self.not_yet}."
        if isinstance(move, RailMove):
            return _of_rail(self.action, move, self.meanwhile)
        if self.action == "move":
            return f"Move {move.now} {move.way}: {move.target}."
        if self.action == "hang":
            return f"Hang {move.then}: {move.target}."
        return _of_taking_down(move.now, move)


def _of_taking_down(name: str, move: Move) -> str:
    if move.what == "comes off":
        return f"Take down {name}: it comes off {surface(move.panel_before)}."
    if move.renewed:
        return f"Take down {name}: a new part takes its place."
    if move.what == "stays":
        return f"First take down {name}: its rail is changed."
    return f"First take down {name}, to make room."


def _of_rail(action: Action, move: RailMove, meanwhile: Sequence[str]) -> str:
    names = " and ".join(f'"{name}"' for name in meanwhile)
    back = "it" if len(meanwhile) == 1 else "them"
    when = "down" if action == "unscrew" else "on"
    off = (
        f" Meanwhile take off {names}, in front of it; hang {back} back once the rail is {when}."
        if names
        else ""
    )
    if action == "unscrew":
        return f"Unscrew {move.title}: it comes down.{off}"
    return f"Screw on {move.title}: {move.target}.{off}"


def ordered(
    wanted: Iterable[Move],
    *,
    before: Mapping[str, Rect],
    after: Mapping[str, Rect],
    rails: RailWork | None = None,
) -> tuple[ChangeStep, ...]:
    """Return the steps, in an order in which each place is free when its turn comes.

    What comes off, and each part that another one replaces, is taken down first. Where
    holders stand in each other's way in a ring, as few as possible are taken down
    first and hung again at the end. A rail comes down when nothing hangs on it any more, and a
    new one is screwed on before anything hangs on it.

    Args:
        wanted: The moves, in any order.
        before: The room (x0, x1, z0, z1) that each holder that moves takes now, by its key.
        after: The room that each holder will take, by its key; also of those that stay.
        rails: What happens to the rails; nothing when None.

    Raises:
        WallError: A room is missing, or two holders would overlap at the end.
    """
    chosen = sorted(wanted, key=lambda move: move.key)
    _require_sound(chosen, after)
    work = rails or RailWork()
    movers = [move for move in chosen if move.what == "moves" and not move.renewed]
    blockers = _blockers(movers, before, after, rails=work)
    known = {move.key: move for move in movers}
    down = _fewest_taken_down(blockers, among=frozenset(known))
    still = [move for move in chosen if move.what == "stays" and not move.renewed]
    down |= {move.key for move in still if work.loses_its_rail(move)}
    hanging = {
        **{move.key: _at_the_end(move, after) for move in still},
        **{move.key: _at_first(move, before) for move in movers},
    }
    gone = [
        *(move for move in chosen if move.key in down),
        *(move for move in chosen if move.what == "comes off" or move.renewed),
    ]
    new = [move for move in chosen if move.what == "is new" or move.renewed or move.key in down]
    return (
        *(ChangeStep("take down", move) for move in gone),
        *_in_the_middle(
            _without(blockers, down),
            known,
            work=work,
            hanging={key: one for key, one in hanging.items() if key not in down},
            after=after,
        ),
        *(ChangeStep("hang", move) for move in new),
    )


def _in_the_middle(
    graph: Graph,
    movers: Mapping[str, Move],
    *,
    work: RailWork,
    hanging: Mapping[str, HangsNow],
    after: Mapping[str, Rect],
) -> Iterator[ChangeStep]:
    """Yield the steps of the graph in turn: rails down, rails on, and holders that move."""
    rails = {move.key: move for move in work.moves}
    now = dict(hanging)
    turns: dict[str, int] = {key: n for n, keys in enumerate((work.down, work.new)) for key in keys}
    for key in _in_turn(graph, first=turns):
        if key in rails:
            action: Action = "unscrew" if key in work.down else "screw on"
            yield ChangeStep(
                action, rails[key], work.in_front(key, (now[one] for one in sorted(now)))
            )
        else:
            now[key] = _at_the_end(movers[key], after)
            yield ChangeStep("move", movers[key])


def _at_first(move: Move, rooms: Mapping[str, Rect]) -> HangsNow:
    assert move.before is not None  # noqa: S101 - it hangs already
    return HangsNow(move.name, move.panel_before, move.before, rooms[move.key])


def _at_the_end(move: Move, rooms: Mapping[str, Rect]) -> HangsNow:
    assert move.after is not None  # noqa: S101 - it shall hang
    return HangsNow(move.name, move.panel_after, move.after, rooms[move.key])


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
    movers: Sequence[Move],
    before: Mapping[str, Rect],
    after: Mapping[str, Rect],
    *,
    rails: RailWork,
) -> Graph:
    """Return for each holder that moves those that stand now where it shall hang, and rails."""
    now = {move.key: _room(before, move) for move in movers}
    graph = dict(rails.blockers(movers, now))
    graph |= {
        move.key: tuple(
            other.key
            for other in movers
            if other is not move
            and other.panel_before == move.panel_after
            and overlap(after[move.key], now[other.key])
        )
        + graph[move.key]
        for move in movers
    }
    return graph


def _without(graph: Graph, down: frozenset[str]) -> Graph:
    return {
        key: tuple(other for other in others if other not in down)
        for key, others in graph.items()
        if key not in down
    }


def _in_turn(graph: Graph, *, first: Mapping[str, int]) -> list[str]:
    """Return the keys, each after those that stand in its way, else ``first`` and then sorted."""
    sorter = TopologicalSorter(graph)
    sorter.prepare()
    turn: list[str] = []
    while sorter.is_active():
        ready = sorted(sorter.get_ready(), key=lambda key: (first.get(key, len(graph)), key))
        turn += ready
        sorter.done(*ready)
    return turn


def _fewest_taken_down(graph: Graph, *, among: frozenset[str]) -> frozenset[str]:
    """Return the smallest set of some keys without which no ring is left.

    No ring is made of rails alone, which wait for nothing but holders and rails that come down.

    Only rings that are found to be left take part in the choice, so that few are needed.
    """
    rings: list[frozenset[str]] = []
    down: frozenset[str] = frozenset()
    while found := _rings(_without(graph, down)):
        rings += [ring & among for ring in found]
        down = _smallest_hitting(rings)
    return down


def _rings(graph: Graph) -> tuple[frozenset[str], ...]:
    """Return a shortest ring through each member that lies on one; none when there is no ring."""
    keys = sorted(graph)
    flags = np.array([[other in graph[key] for other in keys] for key in keys], dtype=np.int64)
    if not flags.any():
        return ()
    with defer_interrupts():
        from scipy.sparse import csr_array  # noqa: PLC0415 - loads on use
        from scipy.sparse.csgraph import shortest_path  # noqa: PLC0415 - loads on use
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
    with defer_interrupts():
        from scipy.optimize import Bounds, LinearConstraint, milp  # noqa: PLC0415 - loads on use
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
