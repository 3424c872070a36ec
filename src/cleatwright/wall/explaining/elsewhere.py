"""Where else one holder could hang while all the others stay, and what is in its way."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, fields
from types import MappingProxyType

from cleatwright.base import said
from cleatwright.base.errors import WallError
from cleatwright.wall.explaining.explain import PARTS
from cleatwright.wall.explaining.insertion import Standing, free_places, heights
from cleatwright.wall.explaining.typed import MM, Typing
from cleatwright.wall.model import Arrangement, Item, Place, Scores
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.score import (
    MM_PER_CM,
    half_perimeter_mm,
    hung,
    moved_cost,
    raised_cost,
    reach_cost,
    sideways_cost,
)
from cleatwright.wall.tolerances import LEAST_POINTS, SAME_MM

# of the places that look cheapest so many are looked at in full
MOST_PLACES = 24
MOST_RULES = 2
PART_WORDS = MappingProxyType(
    {
        "reach": "reach",
        "raised_mass": "mass that is lifted high",
        "rail_count": "the number of rail heights",
        "rail_length": "the length of the rails",
        "groups": "the size of the groups",
        "sideways": "the way to the better hand, or to what it is wanted near",
        "weak_rails": "rails on fewer than two studs, and what hangs too far beyond the last one",
        "moved": "holders that do not stay where they hang now",
    }
)


def _any(_problem: WallProblem, _places: Sequence[Place]) -> bool:
    return True


@dataclass(frozen=True)
class Offering:
    """What a place is held to before it is offered.

    Args:
        typing: How places are shown and typed: each is offered as it can be typed.
        bears: Whether the rails of a wall bear it with the item at a place.
    """

    typing: Typing = MM
    bears: Callable[[WallProblem, Sequence[Place]], bool] = _any


OFFERING = Offering()


@dataclass(frozen=True)
class OtherPlace:
    """Another place for one holder.

    Args:
        place: The place.
        more: What each part of the score of the whole wall is more there while all the others stay;
            less than 0 is better.
        way: How one gets there, in words.
    """

    place: Place
    more: Scores
    way: str

    @property
    def tempts(self) -> bool:
        """Return whether it looks no worse than where the holder hangs now."""
        return self.more.total < LEAST_POINTS

    @property
    def sentence(self) -> str:
        """Return what it costs while all the others stay, in words."""
        return f"It could hang {self.way} while all the others stay. {price(self.more)}"


@dataclass(frozen=True)
class InTheWay:
    """What keeps a holder from the height straight above or below where it is reached best.

    Args:
        place: The place there.
        sentences: The rules that would be broken, each with the names of what is in the way.
        more: What the whole wall would cost more while all the others stay; None when something
            is in the way, or its rail would not bear it.
        sentence: The same in words.
    """

    place: Place
    sentences: tuple[str, ...]
    more: float | None
    sentence: str

    @property
    def tempts(self) -> bool:
        """Return whether it looks no worse than where the holder hangs now."""
        return self.more is not None and self.more < LEAST_POINTS


def other_place(
    problem: WallProblem, arrangement: Arrangement, *, key: str, offering: Offering = OFFERING
) -> OtherPlace | None:
    """Return the best other place of an item, at another height or beside where it hangs now.

    All the others stay, and it can be typed as it is shown. None when the item is fixed, or there
    is no other place that its rails bear.

    Raises:
        WallError: The item has no place.
    """
    item, now, others = _parted(problem, arrangement, key=key)
    if item.fixed is not None:
        return None
    judge = _judge(others, item)
    best: tuple[float, OtherPlace] | None = None
    beside = (now.x_mm - item.whole_width_mm, now.x_mm + item.whole_width_mm)
    free = free_places(others, item, more_x_mm=beside)
    away = [place for place in free if _is_other(item, now, place)]
    away.sort(key=lambda place: (judge.guess(place), -place.z_mm, place.x_mm))
    for exact in away[:MOST_PLACES]:
        if best is not None and judge.guess(exact) >= best[0]:
            break
        place = offering.typing.free(others, item, exact)
        if place is None:
            continue
        costs = judge.scores(place)
        if best is None or costs.total < best[0]:
            if not offering.bears(*others.with_one(item, place)):
                continue
            more = _minus(costs, arrangement.scores)
            best = costs.total, OtherPlace(place, more, way_to(now, place))
    return None if best is None else best[1]


def in_the_way(
    problem: WallProblem, arrangement: Arrangement, *, key: str, offering: Offering = OFFERING
) -> InTheWay | None:
    """Return what keeps an item from the height straight above or below where it is reached best.

    None when it is fixed, or no height that may be tried is reached better.

    Raises:
        WallError: The item has no place.
    """
    item, now, others = _parted(problem, arrangement, key=key)

    def far(z_mm: float) -> float:
        return reach_cost(item, z_mm + problem.space.floor_gap_mm, problem=problem)

    better = [z for z in heights(others, item) if far(z) < far(now.z_mm)]
    if item.fixed is not None or not better:
        return None
    z = min(better, key=lambda z: (far(z), abs(z - now.z_mm)))
    exact = Place(key, now.x_mm, z)
    place = offering.typing.free(others, item, exact) or exact
    broken = others.broken_by(item, exact)
    where = f"{said.at(abs(z - now.z_mm))} {'lower' if z < now.z_mm else 'higher'}"
    if broken:
        words = f"Straight {where} something is in the way: {first_broken(broken)}"
        return InTheWay(place, broken, None, words)
    if not offering.bears(*others.with_one(item, place)):
        words = f"Straight {where} nothing is in the way, but its rail would not bear it."
        return InTheWay(place, (), None, words)
    judge = _judge(others, item)
    more = _minus(judge.scores(place), arrangement.scores)
    words = f"Straight {where} nothing is in the way. {price(more)}"
    return InTheWay(place, (), more.total, words)


def _parted(
    problem: WallProblem, arrangement: Arrangement, *, key: str
) -> tuple[Item, Place, Standing]:
    """Return an item, its place and the wall without it."""
    # what is kept free is kept free of the things too that hang already
    places = (*arrangement.places, *(seat.place for seat in arrangement.seats))
    with_seats = problem.hanging(arrangement.seats)
    whole = Standing(with_seats, places, arrangement.rails, in_rows=arrangement.in_rows)
    now = next((place for place in arrangement.places if place.key == key), None)
    if now is None:
        raise not_hung(key)
    return whole.items[key], now, whole.without(key)


def not_hung(key: str) -> WallError:
    """Return the error for a holder that has no place on the wall."""
    return WallError(
        f'"{key}" does not hang on the wall',
        allowed="a holder that has a place",
        todo="Ask for a holder on the wall, or ask what would give it a place",
    )


def _is_other(item: Item, now: Place, place: Place) -> bool:
    """Return whether a place is at another height, or wholly beside the one now."""
    return (
        abs(place.z_mm - now.z_mm) > SAME_MM
        or abs(place.x_mm - now.x_mm) >= item.whole_width_mm - SAME_MM
    )


@dataclass(frozen=True)
class _Judge:
    """What the wall costs with one more item at a place; ``bare`` is what it costs without it."""

    others: Standing
    item: Item
    bare: float

    def scores(self, place: Place) -> Scores:
        """Return the score of the whole wall."""
        return hung(*self.others.with_one(self.item, place)).scores

    def guess(self, place: Place) -> float:
        """Return about what the whole wall costs: its rails are not cut anew."""
        item, problem = self.item, self.others.problem
        height_mm = place.z_mm + self.others.space.floor_gap_mm
        return (
            self.bare
            + reach_cost(item, height_mm, problem=problem)
            + raised_cost(item, height_mm, problem=problem)
            + sideways_cost(item, place.x_mm, problem=problem)
            + moved_cost(item, place, problem=problem)
            + _group_cost(self.others, item, place)
            + (problem.weights.rail if _is_new_height(self.others, item, place) else 0.0)
        )


def _judge(others: Standing, item: Item) -> _Judge:
    costs = hung(others.problem, others.places).scores
    return _Judge(others, item, costs.total - _group_cost(others, item, None))


def _is_new_height(s: Standing, item: Item, place: Place) -> bool:
    tops = [p.z_mm for p in s.places if s.items[p.key].on_rail]
    tops += [run.z_top_mm - s.rule.edge_above_mm for run in s.space.given_rails]
    return item.on_rail and all(abs(z - place.z_mm) > SAME_MM for z in tops)


def _group_cost(s: Standing, item: Item, place: Place | None) -> float:
    """Return what the box round the group of an item costs when it hangs at a place, or not."""
    members = [(s.items[p.key], p) for p in s.places if s.items[p.key].group == item.group]
    if place is not None:
        members.append((item, place))
    if not item.group or not members:
        return 0.0
    lefts = [(one, p.x_mm - one.side_left_mm, p.z_mm) for one, p in members]
    boxes = [(x, x + one.whole_width_mm, z) for one, x, z in lefts]
    return s.problem.weights.group * half_perimeter_mm(boxes) / MM_PER_CM


def _minus(a: Scores, b: Scores) -> Scores:
    return Scores(
        **{part.name: getattr(a, part.name) - getattr(b, part.name) for part in fields(a)}
    )


def way_to(now: Place, place: Place) -> str:
    """Return in words how one gets from a place to another."""
    up, right = place.z_mm - now.z_mm, place.x_mm - now.x_mm
    told = [
        f"{said.at(abs(up))} {'higher' if up > 0.0 else 'lower'}" if abs(up) > SAME_MM else "",
        f"{said.at(abs(right))} to the {'right' if right > 0.0 else 'left'}"
        if abs(right) > SAME_MM
        else "",
    ]
    return " and ".join(words for words in told if words)


def price(more: Scores) -> str:
    """Return in words what the whole wall costs more or less, and for what most of all."""
    total = more.total
    if abs(total) < LEAST_POINTS:
        return "The wall would be as good."
    way = 1.0 if total > 0.0 else -1.0
    part = max(PARTS, key=lambda name: way * getattr(more, name))
    return (
        f"The wall would cost {abs(total):.1f} points {'more' if total > 0.0 else 'less'}, "
        f"most of all for {PART_WORDS[part]}."
    )


def _besides(more: int) -> str:
    return "One thing more is in the way." if more == 1 else f"{more} more things are in the way."


def first_broken(broken: Sequence[str]) -> str:
    """Return the first of the broken rules, and how many more there are."""
    more = len(broken) - MOST_RULES
    told = " ".join(broken[:MOST_RULES])
    return told if more <= 0 else f"{told} {_besides(more)}"
