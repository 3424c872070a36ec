"""What is wrong with an arrangement, found without any of the code that made it.

Every rule is stated here once more from the words of the model, pair by pair
and in plain millimetres, so that a fault of the search cannot hide itself.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import combinations, permutations

from cleatwright.base import said
from cleatwright.wall.model import Arrangement, Item, Place, RailRule, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Rail, Rect
from cleatwright.wall.tolerances import TOLERANCE_MM


def conflicts(problem: WallProblem, arrangement: Arrangement) -> tuple[str, ...]:
    """Return one sentence for each rule that the arrangement breaks; empty when it is sound."""
    space, rule, known = problem.space, problem.rule, problem.known
    strange = [p.key for p in arrangement.places if p.key not in known]
    if strange:
        return tuple(f'"{key}" has a place, but there is no such holder.' for key in strange)
    placed = [
        *((known[p.key], p) for p in arrangement.places),
        *((seat.item, seat.place) for seat in arrangement.seats),
    ]
    return (
        *_counted(problem.items, arrangement),
        *_fixed(placed),
        *_ordered(placed),
        *_cool(space, placed),
        *_safe(placed),
        *_along(placed),
        *_kept(space, arrangement.rails),
        *_inside(space, placed),
        *_rectangles(space, placed),
        *_hung(rule, placed, arrangement.rails),
        *_rails_clear(space, rule, placed, arrangement.rails),
        *_rails_apart(rule, arrangement.rails),
    )


def whole(item: Item, place: Place) -> Rect:
    """Return x0, x1, z0, z1 of an item with its tools and the room for lifting them."""
    return (
        place.x_mm - item.side_left_mm,
        place.x_mm + item.width_mm + item.side_right_mm,
        place.z_mm - item.down_mm,
        place.z_mm + item.up_mm,
    )


def overlap(a: Rect, b: Rect) -> bool:
    """Return whether two rectangles share more than an edge."""
    return (
        min(a[1], b[1]) - max(a[0], b[0]) > TOLERANCE_MM
        and min(a[3], b[3]) - max(a[2], b[2]) > TOLERANCE_MM
    )


def _counted(items: Sequence[Item], arrangement: Arrangement) -> Iterator[str]:
    counts = Counter(p.key for p in arrangement.places)
    counts.update(left.key for left in arrangement.left_over)
    for item in items:
        if counts[item.key] != 1:
            yield (
                f'"{item.key}" is named {counts[item.key]} times among the places and '
                "those left over, instead of once."
            )


def _fixed(placed: Sequence[tuple[Item, Place]]) -> Iterator[str]:
    for item, place in placed:
        if item.fixed is not None and item.fixed != (place.x_mm, place.z_mm):
            yield f'"{item.key}" was moved from its fixed place.'


def _ordered(placed: Sequence[tuple[Item, Place]]) -> Iterator[str]:
    ranked = [(i.group, i.rank, i.key, p.x_mm) for i, p in placed if i.group and i.rank is not None]
    for (group, rank, key, x), (other_group, other_rank, other, other_x) in permutations(ranked, 2):
        if group == other_group and rank < other_rank and x >= other_x:
            yield f'"{key}" does not hang to the left of "{other}", as its group is ordered.'


def _cool(space: WallSpace, placed: Sequence[tuple[Item, Place]]) -> Iterator[str]:
    for item, place in placed:
        for box in space.obstacles if item.keep_cool else ():
            off = box.heat_mm
            if off == 0.0:
                continue
            near = (box.x_mm - off, box.right_mm + off, box.z_mm - off, box.top_mm + off)
            if overlap(whole(item, place), near):
                yield (
                    f'"{item.key}" must stay cool and hangs within {said.mm(off)} of "{box.name}".'
                )


def _safe(placed: Sequence[tuple[Item, Place]]) -> Iterator[str]:
    for item, place in placed:
        low, high = item.bounds.lowest_mm, item.bounds.highest_mm
        where = (item.fixed, item.hangs_at)
        if any(at is not None and abs(at[1] - place.z_mm) <= TOLERANCE_MM for at in where):
            continue
        if place.z_mm > high + TOLERANCE_MM:
            yield f'"{item.key}" hangs higher than is safe: {item.bounds.high_why}.'
        if place.z_mm < low - TOLERANCE_MM:
            yield f'"{item.key}" hangs lower than is safe: {item.bounds.low_why}.'


def _along(placed: Sequence[tuple[Item, Place]]) -> Iterator[str]:
    for item, place in placed:
        if not item.may_hang_along(place.x_mm):
            yield f'"{item.key}" hangs where it may not: {"; ".join(item.along.words)}.'


def _kept(space: WallSpace, rails: Sequence[Rail]) -> Iterator[str]:
    for rail in space.kept_rails:
        same = (one for one in rails if one.number == rail.number and one.stays)
        if not any(one.strip == rail.strip for one in same):
            yield f"Rail {rail.name}, which hangs already, is not among the rails."
    for row in space.rows:
        if not any(one.strip == row.strip for one in rails):
            yield f"The row at {said.mm(row.z_top_mm)} is not among the rails."
    for number, times in sorted(Counter(rail.number for rail in rails).items()):
        if times > 1:
            yield f"{times} rails are called R{number}."


def _inside(space: WallSpace, placed: Sequence[tuple[Item, Place]]) -> Iterator[str]:
    for item, place in placed:
        x0, x1, z0, z1 = whole(item, place)
        if item.on_rail:
            z0 = min(z0, place.z_mm - item.rail_depth_mm)
        if (
            min(x0, z0) < -TOLERANCE_MM
            or x1 > space.width_mm + TOLERANCE_MM
            or z1 > space.height_mm + TOLERANCE_MM
        ):
            yield f'"{item.key}" reaches beyond the edge of the wall.'


def _rectangles(space: WallSpace, placed: Sequence[tuple[Item, Place]]) -> Iterator[str]:
    for (one, at), (other, there) in combinations(placed, 2):
        if overlap(whole(one, at), whole(other, there)):
            yield f'"{one.key}" and "{other.key}" overlap.'
    for item, place in placed:
        for box in space.obstacles:
            if overlap(whole(item, place), (box.x_mm, box.right_mm, box.z_mm, box.top_mm)):
                yield f'"{item.key}" overlaps the obstacle "{box.name}".'


def _hung(
    rule: RailRule, placed: Sequence[tuple[Item, Place]], rails: Sequence[Rail]
) -> Iterator[str]:
    for item, place in placed:
        top = place.z_mm + rule.edge_above_mm
        if item.on_rail and not any(
            abs(rail.z_top_mm - top) <= TOLERANCE_MM
            and rail.x0_mm <= place.x_mm + TOLERANCE_MM
            and rail.x1_mm >= place.x_mm + item.width_mm - TOLERANCE_MM
            for rail in rails
        ):
            yield f'"{item.key}" has no rail behind its whole plate.'


def _rails_clear(
    space: WallSpace,
    rule: RailRule,
    placed: Sequence[tuple[Item, Place]],
    rails: Sequence[Rail],
) -> Iterator[str]:
    for rail in rails:
        x0, x1, z0, z1 = here = rail.strip
        if (
            min(x0, z0) < -TOLERANCE_MM
            or x1 > space.width_mm + TOLERANCE_MM
            or z1 > space.height_mm + TOLERANCE_MM
        ):
            yield f"Rail {rail.name} reaches beyond the edge of the wall."
        for box in space.obstacles:
            # one that hangs already may well hang in the room that holders keep off
            if not rail.stays and overlap(here, (box.x_mm, box.right_mm, box.z_mm, box.top_mm)):
                yield f'Rail {rail.name} crosses the obstacle "{box.name}".'
        for item, place in placed:
            if not item.on_rail:
                if overlap(here, whole(item, place)):
                    yield (
                        f'Rail {rail.name} runs behind "{item.key}", '
                        "which is screwed flat to the wall."
                    )
                continue
            own = abs(rail.z_top_mm - place.z_mm - rule.edge_above_mm) <= TOLERANCE_MM
            bears = (
                place.x_mm,
                place.x_mm + item.width_mm,
                place.z_mm - item.rail_depth_mm,
                place.z_mm,
            )
            if not own and overlap(here, bears):
                yield f'Rail {rail.name} lies where "{item.key}" bears on its own rail.'


def _rails_apart(rule: RailRule, rails: Sequence[Rail]) -> Iterator[str]:
    for one, other in combinations(rails, 2):
        if one.shared_mm(other) <= TOLERANCE_MM:
            continue
        clear = abs(one.z_top_mm - other.z_top_mm) - rule.height_mm
        if clear < rule.min_gap_mm - TOLERANCE_MM:
            yield (
                f"Rails {one.name} and {other.name} are {said.mm(max(clear, 0.0))} apart "
                f"instead of {said.mm(rule.min_gap_mm)}."
            )
