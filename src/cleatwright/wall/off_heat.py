"""Hot things off what heat spoils: each takes the best seat that is far enough, if there is one.

The search knows no pairs that want to be apart; what it found is mended by one seat at a time.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Listed
from cleatwright.wall.adding.seats import Seated, SeatStep, SeatWish, best_seat
from cleatwright.wall.conflicts import whole
from cleatwright.wall.model import Item, Place
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Rect, distance_mm
from cleatwright.wall.tolerances import SLACK_MM

HOT_MM = 300.0
HOT = Source("hot tools off what must stay cool", "common practice, no source", Evidence.PRACTICE)
VALUES = (Listed("Reach", "hot tools off what must stay cool mm", HOT_MM, HOT),)
# for it no rail at another height is put up
STEPS: tuple[SeatStep, ...] = ("rail", "height")


def off_heat(
    problem: WallProblem, places: Collection[Place], *, may_move: Collection[str], in_rows: bool
) -> Seated:
    """Return the places with hot things ``HOT_MM`` off what heat spoils, where that can be.

    Args:
        problem: The wall, with its rows.
        places: Where everything hangs.
        may_move: The keys of what may hang elsewhere.
        in_rows: Whether new rails are whole rows.
    """
    at, wall = {place.key: place for place in places}, problem
    for item in _in_turn(problem, at):
        away = tuple(_against(problem, at, item))
        here = whole(item, at[item.key])
        if item.key not in may_move or all(distance_mm(here, one) >= HOT_MM for one in away):
            continue
        others = [place for key, place in at.items() if key != item.key]
        seat = best_seat(
            wall, others, item, in_rows=in_rows, steps=STEPS, wish=SeatWish(away, HOT_MM)
        )
        if seat is not None:
            at[item.key], wall = seat.place, wall.on(seat.space)
    return Seated(wall.space, tuple(at[key] for key in sorted(at)), in_rows)


def no_nearer_heat(problem: WallProblem, at: Mapping[str, Place], item: Item) -> SeatWish:
    """Return the wish of one that moves to stay ``HOT_MM`` off, or as near as it was before.

    Args:
        problem: The wall.
        at: Where everything hangs, by its keys.
        item: The one.
    """
    away, here = tuple(_against(problem, at, item)), whole(item, at[item.key])
    return SeatWish(away, min([HOT_MM, *(distance_mm(here, one) for one in away)]))


def nearer_heat(problem: WallProblem, before: Iterable[Place], after: Iterable[Place]) -> bool:
    """Return whether something hot comes nearer than ``HOT_MM`` and than before to what it spoils.

    Args:
        problem: The wall.
        before: Where everything hangs.
        after: Where it would.
    """
    was, at = ({place.key: place for place in places} for places in (before, after))
    for item in _in_turn(problem, at):
        least = no_nearer_heat(problem, was, item).off_mm
        here = whole(item, at[item.key])
        if any(distance_mm(here, one) < least - SLACK_MM for one in _against(problem, at, item)):
            return True
    return False


def _in_turn(problem: WallProblem, at: Mapping[str, Place]) -> Iterator[Item]:
    """Yield what hangs there and is hot, then what heat spoils."""
    here = [item for item in problem.items if item.key in at]
    yield from (item for item in here if item.hot)
    yield from (item for item in here if item.spoilt_by_heat)


def _against(problem: WallProblem, at: Mapping[str, Place], item: Item) -> Iterator[Rect]:
    """Yield where the things are from which one keeps off."""
    for other in problem.items:
        apart = (item.hot and other.spoilt_by_heat) or (item.spoilt_by_heat and other.hot)
        if apart and other.key in at and other.key != item.key:
            yield whole(other, at[other.key])
