"""Settling a panel: arranging it until every tool comes out and every hand has room.

The rectangles of the search know no depth; what really stands in the way of a tool or of the
hand shows only in the proof. The panel is then arranged once more with the room that was missing.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

from cleatwright.base.errors import WallError
from cleatwright.base.keys import content_key
from cleatwright.base.stages.codec import JsonCodec
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.design.carrying import Unit
from cleatwright.siting.arranging import ARRANGED, ArrangingRequest
from cleatwright.siting.walls import Spot, spots_of
from cleatwright.siting.ways_out import prove_ways
from cleatwright.wall.keeping import KeptArrangement
from cleatwright.wall.model import Arrangement, Item
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rows.choosing import row_heights
from cleatwright.wall.score import stays_at
from cleatwright.wall.way_out import Direction, Surroundings, WayProof

# how often a panel is arranged once more with the room that the proof found missing
MOST_TRIES = 10


@dataclass(frozen=True)
class Settling:
    """What shall hang on a panel, and how.

    Args:
        asked: The panel, and what is asked of it.
        units: What shall hang on it, in the order of its items.
        around: What else is on it; the rails come from the arrangement.
        tries: How often it is arranged at the most, >= 1; once leaves what lacks room as it is.
    """

    asked: ArrangingRequest
    units: tuple[Unit, ...]
    around: Surroundings
    tries: int = MOST_TRIES


@dataclass(frozen=True)
class Settled:
    """Where everything hangs on a panel, and how it comes out.

    Args:
        problem: The panel; items have the room that was found missing.
        kept: How it is arranged.
        ways: The proof of the way out of every tool.
    """

    problem: WallProblem
    kept: KeptArrangement
    ways: tuple[WayProof, ...]

    @property
    def comes_out(self) -> bool:
        """Return whether every tool comes out, with or without room for the hand."""
        return all(way.hit is None for way in self.ways)

    @property
    def missing_mm(self) -> float:
        """Return by how much the ways out and the hands lack room, all together."""
        return missing_mm(self.ways)


def missing_mm(ways: Sequence[WayProof]) -> float:
    """Return by how much ways out and hands lack room, all together."""
    return sum(hit.short_mm for way in ways for hit in (way.hit, way.hand) if hit)


OPPOSITE: Mapping[Direction, Direction] = MappingProxyType(
    {"right": "left", "left": "right", "up": "down", "down": "up"}
)


@dataclass(frozen=True)
class _Hung:
    """What hangs on a panel, where, and what else is on it."""

    units: tuple[Unit, ...]
    spots: tuple[tuple[str, Spot], ...]
    around: Surroundings


def _proven(run: Run, hung: _Hung) -> tuple[WayProof, ...]:
    return prove_ways(hung.units, dict(hung.spots), around=hung.around, run=run)


PROVEN = Stage("ways out of a panel", _proven, content_key, codec=JsonCodec(tuple[WayProof, ...]))
"""From all that is on a panel to the proof for each of its tools; what changed is proven anew."""


def ways_out_of(
    units: tuple[Unit, ...], arrangement: Arrangement, around: Surroundings, run: Run
) -> tuple[WayProof, ...]:
    """Return the proof of the way out of every tool of what hangs on a panel.

    Args:
        units: What hangs.
        arrangement: Where.
        around: What else is on the panel; the rails come from the arrangement.
        run: The run that keeps what was proven before.
    """
    spots = spots_of(units, arrangement)
    there = replace(around, rails=arrangement.rails)
    return run.need(PROVEN, _Hung(units, tuple(sorted(spots.items())), there))


def _settled(run: Run, settling: Settling) -> Settled:
    """Return the panel with room for seats that are kept free, if no tool lacks room for it."""
    found, asked = _least_lacking(run, settling), settling.asked
    if not (found.kept.seats and found.missing_mm):
        return found
    seats = asked.problem.seats
    without = replace(asked, problem=asked.problem.with_seats(()))
    bare = _least_lacking(run, replace(settling, asked=without))
    if bare.missing_mm < found.missing_mm:
        return replace(bare, problem=bare.problem.with_seats(seats))
    return found


def _least_lacking(run: Run, settling: Settling) -> Settled:
    """Return the try that lacks the least room; no rail comes down for want of it for a hand."""
    asked, units, best = settling.asked, settling.units, None
    for _ in range(settling.tries):
        try:
            firm = best is not None and best.comes_out and not best.kept.down
            kept = run.need(ARRANGED, replace(asked, firm=firm))
        except WallError:
            if best is None:
                raise
            return best
        ways = ways_out_of(units, kept.arrangement, settling.around, run)
        found = Settled(asked.problem, kept, ways)
        if best is None or found.missing_mm < best.missing_mm:
            best = found
        wider = with_room(asked.problem.items, units, ways, still=_still(asked, kept))
        if wider == asked.problem.items:
            return found if found.missing_mm <= best.missing_mm else best
        heights = row_heights(asked.problem, kept.arrangement)
        asked = replace(asked, problem=asked.problem.having(wider), heights_mm=heights)
    assert best is not None  # noqa: S101 - there is at least one try
    return best


SETTLED = Stage("settled panel", _settled, content_key)
"""From what shall hang on a panel to where it hangs, with the ways out; no other panel counts."""


def _still(asked: ArrangingRequest, kept: KeptArrangement) -> frozenset[str]:
    """Return the keys of what is where it hangs, or was made; none when all may move."""
    if asked.anew:
        return frozenset()
    before = {place.key: (place.x_mm, place.z_mm) for place in asked.as_made}
    return frozenset(
        place.key
        for place in kept.arrangement.places
        if place.key in before and stays_at(before[place.key], place)
    )


def with_room(
    items: tuple[Item, ...],
    units: Sequence[Unit],
    ways: Sequence[WayProof],
    *,
    still: frozenset[str] = frozenset(),
) -> tuple[Item, ...]:
    """Return the items with more room where a way out or a hand lacks it.

    A tool that has to shift one way needs more room at its other side. Where its place is given,
    or it is still where it was, the holder in its way needs it instead. What hangs still gets
    none for what hangs as still beside it.

    Args:
        items: The items.
        units: The same, built.
        ways: The proof of the way out of every tool.
        still: The keys of what is where it was.
    """
    of_unit = {one.key: unit.planned.key for unit in units for one in unit.planned.holders}
    named = {
        ("holder", one.name): unit.planned.key for unit in units for one in unit.planned.holders
    }
    named |= {
        ("tool", tool.name): unit.planned.key
        for unit in units
        for one in unit.planned.holders
        for tool in one.tools
    }
    given = {item.key for item in items if item.fixed is not None} | still
    hanging = {item.key for item in items if item.hangs_at is not None} & still
    more: dict[str, dict[Direction, float]] = {}
    for way in ways:
        for hit in (way.hit, way.hand):
            if hit is None:
                continue
            key, side = of_unit[way.holder_key], hit.direction
            if key in given and (hit.sort, hit.name) in named:
                other = named[hit.sort, hit.name]
                if key not in still or other not in still:
                    key, side = other, OPPOSITE[side]
            if key in hanging:
                continue
            rooms = more.setdefault(key, {})
            rooms[side] = max(rooms.get(side, 0.0), math.ceil(hit.short_mm * 10) / 10)
    return tuple(
        item if item.fixed is not None else _wider(item, more.get(item.key, {})) for item in items
    )


def _wider(item: Item, more_mm: Mapping[Direction, float]) -> Item:
    return replace(
        item,
        side_left_mm=item.side_left_mm + more_mm.get("right", 0.0),
        side_right_mm=item.side_right_mm + more_mm.get("left", 0.0),
        up_mm=item.up_mm + more_mm.get("down", 0.0),
        down_mm=item.down_mm + more_mm.get("up", 0.0),
    )
