"""What of the score is each holder's own, in numbers and in words.

Reach, raised mass, distance from the better hand and having to move belong to one holder.
What several share is divided by these rules:

- a new rail height: in equal parts among the holders that hang on a new rail at that height;
- the length of a piece of rail, and its lack of studs: by the widths of the plates on it;
- a group: each holder owns what the box round its group would shrink without it.

What is left belongs to nobody. For a group it is less than 0 where two holders at two ends
would each spare the same width.
"""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, fields

from cleatwright.base import said
from cleatwright.wall.model import Arrangement, Item, Place, Scores
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rails import weak
from cleatwright.wall.reach import ReachBand
from cleatwright.wall.score import (
    MM_PER_CM,
    half_perimeter_mm,
    moved_cost,
    overhanging,
    raised_cost,
    reach_cost,
    sideways_cost,
)
from cleatwright.wall.tolerances import LEAST_POINTS, SAME_MM

PARTS = tuple(part.name for part in fields(Scores))

Shares = defaultdict[str, float]


@dataclass(frozen=True)
class Explained:
    """What one holder costs, and why.

    Args:
        key: The holder.
        height_mm: Its hang height above the floor.
        outside_mm: How far above the band of easy reach a hand takes its tools; less than 0 below.
        beyond_mm: How far out of all reach they are taken, >= 0.
        costs: Its own share of each part of the score.
        sentences: The reasons in words, the dearest first.
    """

    key: str
    height_mm: float
    outside_mm: float
    beyond_mm: float
    costs: Scores
    sentences: tuple[str, ...]


def explain(problem: WallProblem, arrangement: Arrangement) -> tuple[Explained, ...]:
    """Return what each placed item costs by itself, in the order of the places.

    Together with what is nobody's by ``shares_of`` it adds up to the scores of the arrangement.
    """
    known = problem.known
    shares = shares_of(problem, arrangement)
    alone, over = _alone(arrangement), frozenset(overhanging(problem, arrangement))
    often = Counter(known[place.key].group for place in arrangement.places)
    told: list[Explained] = []
    for place in arrangement.places:
        item, height_mm = known[place.key], place.z_mm + problem.space.floor_gap_mm
        hand_mm = height_mm + item.hand_up_mm
        costs = Scores(
            reach=reach_cost(item, height_mm, problem=problem),
            raised_mass=raised_cost(item, height_mm, problem=problem),
            sideways=sideways_cost(item, place.x_mm, problem=problem),
            moved=moved_cost(item, place, problem=problem),
            **{name: owned[place.key] for name, owned in shares.items()},
        )
        told.append(
            Explained(
                key=place.key,
                height_mm=height_mm,
                outside_mm=_outside_mm(problem.band_of(item), hand_mm),
                beyond_mm=problem.band_of(item).beyond_mm(hand_mm),
                costs=costs,
                sentences=_sentences(
                    item,
                    place,
                    costs,
                    height_mm,
                    problem=problem,
                    alone=item.key in alone,
                    grouped=often[item.group] > 1,
                    over=item.key in over,
                ),
            )
        )
    return tuple(told)


def _outside_mm(band: ReachBand, height_mm: float) -> float:
    away = band.distance_mm(height_mm)
    return -away if height_mm < band.low_mm else away


def shares_of(problem: WallProblem, arrangement: Arrangement) -> dict[str, Shares]:
    """Return for each shared part of the score what each key owns of it.

    What nobody owns stands under ""; it may be less than 0.
    """
    known, weights = problem.known, problem.weights
    count, length, weakness = Shares(float), Shares(float), Shares(float)
    on_height: defaultdict[float, list[str]] = defaultdict(list)
    weak_numbers = {rail.number for rail in weak(problem.space, arrangement.rails)}
    for rail in arrangement.rails:
        if rail.stays:
            continue
        on_height[rail.z_top_mm] += rail.carries
        widths = {key: known[key].width_mm for key in rail.carries} or {"": 1.0}
        whole = math.fsum(widths.values())
        for key, width in widths.items():
            part = width / whole
            length[key] += part * weights.rail_length * rail.length_mm / MM_PER_CM
            if rail.number in weak_numbers:
                weakness[key] += part * weights.weak_rail
    for key in overhanging(problem, arrangement):
        weakness[key] += weights.overhang
    for keys in on_height.values():
        for key in keys or [""]:
            count[key] += weights.rail / max(len(keys), 1)
    return {
        "rail_count": count,
        "rail_length": length,
        "groups": _group_shares(problem, arrangement.places),
        "weak_rails": weakness,
    }


def _alone(arrangement: Arrangement) -> frozenset[str]:
    """Return the items that are the only one on a new rail at their height."""
    on_height: defaultdict[float, list[str]] = defaultdict(list)
    for rail in arrangement.rails:
        if not rail.stays:
            on_height[rail.z_top_mm] += rail.carries
    return frozenset(keys[0] for keys in on_height.values() if len(keys) == 1)


def _group_shares(problem: WallProblem, places: Iterable[Place]) -> Shares:
    known, per_cm = problem.known, problem.weights.group
    boxes: defaultdict[str, dict[str, tuple[float, float, float]]] = defaultdict(dict)
    for place in places:
        item = known[place.key]
        if item.group:
            left = place.x_mm - item.side_left_mm
            boxes[item.group][place.key] = (left, left + item.whole_width_mm, place.z_mm)
    shares = Shares(float)
    for members in boxes.values():
        whole = half_perimeter_mm(members.values())
        for key in members:
            others = [box for other, box in members.items() if other != key]
            spared = whole - (half_perimeter_mm(others) if others else 0.0)
            shares[key] = per_cm * spared / MM_PER_CM
        shares[""] += per_cm * whole / MM_PER_CM - math.fsum(shares[k] for k in members)
    return shares


def _sentences(
    item: Item,
    place: Place,
    costs: Scores,
    height_mm: float,
    *,
    problem: WallProblem,
    alone: bool,
    grouped: bool,
    over: bool,
) -> tuple[str, ...]:
    """Return why the item costs what it costs, the dearest part first; then its bounds."""
    band, per_cm = problem.band_of(item), problem.weights.group
    hand_mm = height_mm + item.hand_up_mm
    outside, beyond = _outside_mm(band, hand_mm), band.beyond_mm(hand_mm)
    side = _side(outside, "above", "below")
    reach = f"It is taken {said.mm(abs(outside), '.0f')} {side} the easy reach"
    if beyond:
        reach += f", {said.mm(beyond, '.0f')} of them where the hand does not reach at all"
    aim = problem.aim_of(item)
    aside = 0.0 if aim is None else place.x_mm + item.width_mm / 2 - aim.x_mm
    beside = "the better hand" if item.near is None else f'the middle of "{item.near.name}"'
    told = {
        "reach": f"{reach}.",
        "raised_mass": f"Its {said.mass(item.mass_kg, '.2g')} hang "
        f"{said.mm(height_mm - band.low_mm, '.0f')} above the lower edge of the easy reach.",
        "rail_count": f"It is the only one on a rail {said.at(height_mm)} above the floor.",
        "groups": f'Without it the box round the group "{item.group}" is '
        f"{said.mm(_millimetres(costs.groups, per_cm), '.0f')} smaller, width and height together.",
        "sideways": f"Its middle is {said.mm(abs(aside), '.0f')} {_side(aside, 'right', 'left')} "
        f"of {beside}.",
        "weak_rails": "It hangs so far beyond the last screws of its rail that they do not bear a "
        "hand on it."
        if over
        else "Its rail meets fewer than two studs."
        if problem.space.all_over is None
        else "Its rail has room for fewer than two screws.",
        "moved": "It does not stay where it hangs now.",
    }
    # nobody measures less on a wall
    near = {"reach": outside, "raised_mass": height_mm - band.low_mm, "sideways": aside}
    for name, off_mm in near.items():
        if abs(off_mm) < SAME_MM:
            del told[name]
    if not alone:
        del told["rail_count"]
    if not grouped:
        # the box of a single holder is its own width wherever it hangs
        del told["groups"]
    dear = sorted((-getattr(costs, name), PARTS.index(name), name) for name in told)
    bounds = (f"{why}." for why in (item.bounds.low_why, item.bounds.high_why) if why)
    reasons = (told[name] for points, _, name in dear if -points >= LEAST_POINTS)
    along = (f"{why}." for why in item.along.words)
    return (*reasons, *dict.fromkeys(bounds), *along, *_takers(item))


def _takers(item: Item) -> Iterator[str]:
    """Yield who takes an item, where several people share the wall."""
    if item.taken is None:
        return
    who, band = item.taken.who, item.taken.band
    names = said_names(who)
    if len(who) == 1:
        yield (
            f"{names} takes it, with ease from {said.mm(band.low_mm, '.0f')} to "
            f"{said.mm(band.high_mm, '.0f')} above the floor."
        )
    elif item.taken.meets:
        yield (
            f"{names} take it, all with ease from {said.mm(band.low_mm, '.0f')} to "
            f"{said.mm(band.high_mm, '.0f')} above the floor."
        )
    else:
        yield (
            f"{names} take it, and there is no height that all reach with ease: "
            f"{said.mm(band.low_mm, '.0f')} above the floor is as near to all as can be."
        )


def said_names(names: Sequence[str]) -> str:
    """Return names as a list in words.

    >>> said_names(["A"]), said_names(["A", "B", "C"])
    ('A', 'A, B and C')
    """
    return " and ".join((", ".join(names[:-1]), names[-1])) if len(names) > 1 else names[0]


def _side(value: float, more: str, less: str) -> str:
    return more if value > 0.0 else less


def _millimetres(points: float, per_cm: float) -> float:
    return points * MM_PER_CM / per_cm if per_cm else 0.0
