"""What a finished arrangement costs."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import replace

from cleatwright.wall.ground import PLACES_A_RAIL
from cleatwright.wall.model import Arrangement, Item, Place, ReservedSeat, Scores
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rails import cut_rails, weak
from cleatwright.wall.tolerances import SAME_MM, SLACK_MM

MM_PER_CM = 10.0


def reach_cost(item: Item, height_mm: float, *, problem: WallProblem) -> float:
    """Return what an item costs whose tools are taken out of easy reach.

    Args:
        item: The item.
        height_mm: Its hang height above the floor; the hand takes its tools above or below that.
        problem: The wall.
    """
    band, weights = problem.band_of(item), problem.weights
    hand_mm = height_mm + item.hand_up_mm
    away_mm = band.distance_mm(hand_mm) + weights.beyond * band.beyond_mm(hand_mm)
    return weights.of_use(item.use) * away_mm / MM_PER_CM


def raised_cost(item: Item, height_mm: float, *, problem: WallProblem) -> float:
    """Return what the mass of an item costs at a height above the floor."""
    above_mm = max(height_mm - problem.band_of(item).low_mm, 0.0)
    return problem.weights.raised_kg * item.mass_kg * above_mm / MM_PER_CM


def sideways_cost(item: Item, x_mm: float, *, problem: WallProblem) -> float:
    """Return what an item costs whose plate has its left edge at ``x_mm``."""
    aim = problem.aim_of(item)
    return 0.0 if aim is None else aim.per_cm * abs(x_mm + item.width_mm / 2 - aim.x_mm) / MM_PER_CM


def moved_cost(item: Item, place: Place, *, problem: WallProblem) -> float:
    """Return what it costs that an item does not stay where it hangs."""
    if item.hangs_at is None or stays_at(item.hangs_at, place):
        return 0.0
    return problem.weights.moved


def stays_at(before: tuple[float, float], place: Place) -> bool:
    """Return whether a place is the one before, to the eye."""
    return max(abs(place.x_mm - before[0]), abs(place.z_mm - before[1])) <= SAME_MM


def hung(
    problem: WallProblem, places: Sequence[Place], seats: Sequence[ReservedSeat] = ()
) -> Arrangement:
    """Return the arrangement of given places: rails as they are cut, and what it costs.

    A seat stays only on a rail that hangs or carries something: for it alone none is put up.

    Args:
        problem: The wall and what hangs.
        places: Where that hangs.
        seats: The seats that are kept free, which the rails are long enough for.
    """
    free = {one.item.key for one in seats}
    rails = cut_rails(problem.hanging(seats), (*places, *(one.place for one in seats)))
    alone = [one for one in rails if one.carries and not one.stays and free.issuperset(one.carries)]
    if alone:
        bare = {key for rail in alone for key in rail.carries}
        return hung(problem, places, [one for one in seats if one.item.key not in bare])
    rails = tuple(
        replace(rail, carries=tuple(key for key in rail.carries if key not in free))
        for rail in rails
    )
    tried = Arrangement(tuple(places), rails, seats=tuple(seats))
    return replace(tried, scores=score(problem, tried))


def seats_cost(problem: WallProblem, seats: Sequence[ReservedSeat]) -> float:
    """Return what it weighs in a search that seats find no room, or none within easy reach."""
    gap_mm, weights = problem.space.floor_gap_mm, problem.weights
    lacking = weights.seat * max(len(problem.seats) - len(seats), 0)
    return lacking + sum(seat_cost(one.place.z_mm + gap_mm, problem=problem) for one in seats)


def seat_cost(height_mm: float, *, problem: WallProblem) -> float:
    """Return what it weighs that a seat lies out of easy reach at a height above the floor."""
    return problem.weights.seat_reach * problem.band.distance_mm(height_mm) / MM_PER_CM


def score(problem: WallProblem, arrangement: Arrangement) -> Scores:
    """Return the parts of the score of places and rails; seats that are kept free count nothing.

    Rails at one height count once, however many pieces they are cut into; those that
    hang already count nothing.
    """
    space, weights = problem.space, problem.weights
    reach = raised = sideways = moved = groups = 0.0
    boxes: defaultdict[str, list[tuple[float, float, float]]] = defaultdict(list)
    for place in arrangement.places:
        item = problem.known[place.key]
        if item.reserved:
            continue
        height_mm = place.z_mm + space.floor_gap_mm
        reach += reach_cost(item, height_mm, problem=problem)
        raised += raised_cost(item, height_mm, problem=problem)
        sideways += sideways_cost(item, place.x_mm, problem=problem)
        moved += moved_cost(item, place, problem=problem)
        if item.group:
            left = place.x_mm - item.side_left_mm
            boxes[item.group].append((left, left + item.whole_width_mm, place.z_mm))
    for group in sorted(boxes):
        groups += weights.group * half_perimeter_mm(boxes[group]) / MM_PER_CM
    rails = [rail for rail in arrangement.rails if not rail.stays]
    return Scores(
        reach=reach,
        raised_mass=raised,
        rail_count=weights.rail * len({rail.z_top_mm for rail in rails}),
        rail_length=weights.rail_length * sum(rail.length_mm for rail in rails) / MM_PER_CM,
        groups=groups,
        sideways=sideways,
        weak_rails=weights.weak_rail * len(weak(space, rails))
        + weights.overhang * len(overhanging(problem, arrangement)),
        moved=moved,
    )


def overhanging(problem: WallProblem, arrangement: Arrangement) -> tuple[str, ...]:
    """Return what hangs too far beyond the last screws of its rail, by its keys."""
    at = {place.key: place.x_mm for place in arrangement.places}
    return tuple(
        key
        for rail in arrangement.rails
        if len(rail.studs_mm) >= PLACES_A_RAIL
        for key in rail.carries
        if key in at
        and max(
            rail.studs_mm[0] - at[key],
            at[key] + problem.known[key].width_mm - rail.studs_mm[-1],
        )
        > problem.known[key].over_mm + SLACK_MM
    )


def half_perimeter_mm(boxes: Iterable[tuple[float, float, float]]) -> float:
    """Return width plus height of the box round (left, right, hang height) of each of a group."""
    lefts, rights, heights = zip(*boxes, strict=True)
    return max(rights) - min(lefts) + max(heights) - min(heights)
