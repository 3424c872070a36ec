"""What a finished arrangement costs."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping

from cleatwright.wall.model import Item, Place, RailRun, Scores
from cleatwright.wall.reach import ReachBand, Weights

MM_PER_CM = 10.0


def unary_cost(item: Item, height_mm: float, *, band: ReachBand, weights: Weights) -> float:
    """Return what one item costs for hanging at a height above the floor."""
    reach, raised = _unary(item, height_mm, band, weights)
    return reach + raised


def _unary(item: Item, height_mm: float, band: ReachBand, weights: Weights) -> tuple[float, float]:
    above_mm = max(height_mm - weights.raised_from_mm, 0.0)
    return (
        weights.of_use(item.use) * band.distance_mm(height_mm) / MM_PER_CM,
        weights.raised_kg * item.mass_kg * above_mm / MM_PER_CM,
    )


def score(
    places: Iterable[Place],
    rails: Iterable[RailRun],
    items: Mapping[str, Item],
    *,
    floor_gap_mm: float,
    band: ReachBand,
    weights: Weights,
) -> Scores:
    """Return the parts of the score of places and rails; ``items`` are found by key.

    Rails at one height count once, however many pieces they are cut into.
    """
    reach = raised = groups = 0.0
    boxes: defaultdict[str, list[tuple[float, float, float]]] = defaultdict(list)
    for place in places:
        item = items[place.key]
        one, other = _unary(item, place.z_mm + floor_gap_mm, band, weights)
        reach, raised = reach + one, raised + other
        if item.group:
            left = place.x_mm - item.side_left_mm
            boxes[item.group].append((left, left + item.whole_width_mm, place.z_mm))
    for group in sorted(boxes):
        lefts, rights, heights = zip(*boxes[group], strict=True)
        half = max(rights) - min(lefts) + max(heights) - min(heights)
        groups += weights.group * half / MM_PER_CM
    runs = tuple(rails)
    return Scores(
        reach=reach,
        raised_mass=raised,
        rail_count=weights.rail * len({run.z_top_mm for run in runs}),
        rail_length=weights.rail_length * sum(run.length_mm for run in runs) / MM_PER_CM,
        groups=groups,
    )
