"""What a finished arrangement costs."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence

from cleatwright.wall.model import Arrangement, Item, Place, Scores
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rails import cut_rails, weak
from cleatwright.wall.tolerances import SAME_MM

MM_PER_CM = 10.0


def reach_cost(item: Item, height_mm: float, *, problem: WallProblem) -> float:
    """Return what an item costs for hanging out of easy reach at a height above the floor."""
    band, weights = problem.band_of(item), problem.weights
    away_mm = band.distance_mm(height_mm) + weights.beyond * band.beyond_mm(height_mm)
    return weights.of_use(item.use) * away_mm / MM_PER_CM


def raised_cost(item: Item, height_mm: float, *, problem: WallProblem) -> float:
    """Return what the mass of an item costs at a height above the floor."""
    above_mm = max(height_mm - problem.band_of(item).low_mm, 0.0)
    return problem.weights.raised_kg * item.mass_kg * above_mm / MM_PER_CM


def sideways_cost(item: Item, x_mm: float, *, problem: WallProblem) -> float:
    """Return what an item costs whose plate has its left edge at ``x_mm``."""
    easy_x_mm, weights = problem.band_of(item).easy_x_mm, problem.weights
    if easy_x_mm is None:
        return 0.0
    aside_mm = abs(x_mm + item.width_mm / 2 - easy_x_mm)
    return weights.sideways * weights.of_use(item.use) * aside_mm / MM_PER_CM


def moved_cost(item: Item, place: Place, *, problem: WallProblem) -> float:
    """Return what it costs that an item does not stay where it hangs."""
    if item.hangs_at is None or stays_at(item.hangs_at, place):
        return 0.0
    return problem.weights.moved


def stays_at(before: tuple[float, float], place: Place) -> bool:
    """Return whether a place is the one before, to the eye."""
    return max(abs(place.x_mm - before[0]), abs(place.z_mm - before[1])) <= SAME_MM


def hung(problem: WallProblem, places: Sequence[Place]) -> Arrangement:
    """Return the arrangement of given places: rails as they are cut, and what it costs."""
    tried = Arrangement(tuple(places), cut_rails(problem, places))
    return Arrangement(tried.places, tried.rails, score(problem, tried))


def score(problem: WallProblem, arrangement: Arrangement) -> Scores:
    """Return the parts of the score of places and rails.

    Rails at one height count once, however many pieces they are cut into; those that
    hang already count nothing.
    """
    space, weights = problem.space, problem.weights
    reach = raised = sideways = moved = groups = 0.0
    boxes: defaultdict[str, list[tuple[float, float, float]]] = defaultdict(list)
    for place in arrangement.places:
        item = problem.known[place.key]
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
        weak_rails=weights.weak_rail * len(weak(space, rails)),
        moved=moved,
    )


def half_perimeter_mm(boxes: Iterable[tuple[float, float, float]]) -> float:
    """Return width plus height of the box round (left, right, hang height) of each of a group."""
    lefts, rights, heights = zip(*boxes, strict=True)
    return max(rights) - min(lefts) + max(heights) - min(heights)
