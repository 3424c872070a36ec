"""Where one more holder finds room while all the others stay.

The candidates are the heights at which rails are tried and the edges of everything that
hangs; the rules are looked at for all of them at once, and by ``conflicts`` for what remains.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import islice

import numpy as np
from numpy.typing import NDArray

from cleatwright.wall.conflicts import conflicts, whole
from cleatwright.wall.model import Arrangement, Item, Place, RailRule, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Rail, Rect
from cleatwright.wall.rails import as_drawn, cut_rails, kept_rail
from cleatwright.wall.rows.laying import with_row_behind, without_bare_rows
from cleatwright.wall.studs import reaches_of
from cleatwright.wall.tolerances import DIGITS, TOLERANCE_MM

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

# of two in order above each other, the second hangs at least so much further to the right
ASIDE_MM = 5.0


@dataclass(frozen=True)
class Standing:
    """A wall on which some items hang: what one more item has to keep off.

    Args:
        problem: The wall with all its items, those too that hang nowhere.
        places: Where those hang that do, each key once.
        drawn: The rails of the drawings, by whose names rails are called; none when empty.
        in_rows: Whether a new rail is a whole row.
    """

    problem: WallProblem
    places: tuple[Place, ...] = ()
    drawn: tuple[Rail, ...] = ()
    in_rows: bool = False

    @property
    def space(self) -> WallSpace:
        """Return the wall itself."""
        return self.problem.space

    @property
    def rule(self) -> RailRule:
        """Return how rails may lie."""
        return self.problem.rule

    @cached_property
    def items(self) -> Mapping[str, Item]:
        """Return all that hangs, by key."""
        return {place.key: self.problem.known[place.key] for place in self.places}

    def without(self, *keys: str) -> Standing:
        """Return the wall without some of its items, and without rows that carried only these."""
        places = tuple(place for place in self.places if place.key not in keys)
        rest = self.problem.having(one for one in self.problem.items if one.key not in keys)
        return replace(self, problem=without_bare_rows(rest, places), places=places)

    def with_one(self, item: Item, place: Place) -> tuple[WallProblem, tuple[Place, ...]]:
        """Return what hangs and one item more, and all their places, sorted by key."""
        places = sorted((*self.places, place), key=lambda one: one.key)
        problem = self.problem.having((*self.items.values(), item))
        if self.in_rows and item.on_rail and kept_rail(problem, place) is None:
            problem = with_row_behind(problem, place)
        return problem, tuple(places)

    def broken_by(self, item: Item, place: Place) -> tuple[str, ...]:
        """Return the rules that are broken when one more item hangs at a place."""
        problem, places = self.with_one(item, place)
        rails = cut_rails(problem, places)
        called = as_drawn(rails, self.drawn) if self.drawn else rails
        return conflicts(problem, Arrangement(places, called))


def heights(s: Standing, item: Item, *, edges: bool = False) -> tuple[float, ...]:
    """Return the hang heights to try for an item, from the top down.

    With ``edges`` also those at which it touches what is above or below it, which the
    regular steps of the rail heights miss.
    """
    space, rule = s.space, s.rule
    found = set(s.problem.tried_mm)
    found |= {p.z_mm for p in s.places if s.items[p.key].on_rail is item.on_rail}
    if item.on_rail:
        found |= {rail.z_top_mm - rule.edge_above_mm for rail in space.given_rails}
    found |= s.problem.given_mm(on_rail=item.on_rail)
    if edges:
        found |= _edge_heights(s, item)
    depth = max(item.down_mm, item.rail_depth_mm if item.on_rail else 0.0)
    low, high = depth - TOLERANCE_MM, space.height_mm - item.up_mm + TOLERANCE_MM
    within = (z for z in found if low <= z <= high and item.may_hang_at(z))
    return tuple(sorted(within, reverse=True))


def _edge_heights(s: Standing, item: Item) -> set[float]:
    rule = s.rule
    rects = _rects(s, item)
    below = {0.0, *(rect[3] for rect in rects)}
    above = {s.space.height_mm, *(rect[2] for rect in rects)}
    found = {z + item.down_mm for z in below} | {z - item.up_mm for z in above}
    if item.on_rail:
        found |= {z + rule.height_mm - rule.edge_above_mm for z in below}
        found |= {z - rule.edge_above_mm for z in above}
        apart = rule.height_mm + rule.min_gap_mm
        tops = [p.z_mm for p in s.places if s.items[p.key].on_rail]
        tops += [rail.z_top_mm - rule.edge_above_mm for rail in s.space.given_rails]
        found |= {z + way * apart for z in tops for way in (-1.0, 1.0)}
    return {round(z, DIGITS) for z in found}


def _rects(s: Standing, item: Item) -> list[Rect]:
    """Return what the whole item keeps off."""
    rects = [whole(s.items[place.key], place) for place in s.places]
    for box in s.space.obstacles:
        off = box.heat_mm if item.keep_cool else 0.0
        rects.append((box.x_mm - off, box.right_mm + off, box.z_mm - off, box.top_mm + off))
    return rects


def _edges(s: Standing, item: Item, more_x_mm: Sequence[float]) -> Floats:
    """Return the left edges of the plate to try, from left to right.

    Those at which it touches something, or ends where something ends.
    """
    left, right = item.side_left_mm, item.width_mm + item.side_right_mm
    plates = [(p.x_mm, p.x_mm + s.items[p.key].width_mm) for p in s.places]
    plates += [(rail.x0_mm, rail.x1_mm) for rail in s.space.given_rails]
    # a rail may have to reach so far for a stud
    reaches = reaches_of(s.space.studs, wall_mm=s.space.width_mm)
    plates += [(middle.from_mm, middle.to_mm) for _, middle in reaches]
    found = {left, s.space.width_mm - right, *more_x_mm}
    found |= {x for x in (item.along.from_mm + left, item.along.to_mm - right) if math.isfinite(x)}
    found |= {x for span in item.along.begins_mm for x in span}
    for x0, x1, _, _ in _rects(s, item):
        found |= {x1 + left, x0 - right, x0 + left, x1 - right}
    for place in _ordered_with(s, item):
        found |= {place.x_mm + ASIDE_MM, place.x_mm - ASIDE_MM}
    for x0, x1 in plates:
        found |= {x1, x0 - item.width_mm, x0, x1 - item.width_mm}
    found |= {place[0] for place in (item.fixed, item.hangs_at) if place}
    tolerance = TOLERANCE_MM
    low, high = left - tolerance, s.space.width_mm - right + tolerance
    within = [x for x in found if low <= x <= high and item.may_hang_along(x)]
    return np.array(sorted(within), dtype=np.float64)


def free_places(
    s: Standing,
    item: Item,
    *,
    z_mm: Sequence[float] | None = None,
    more_x_mm: Sequence[float] = (),
) -> tuple[Place, ...]:
    """Return where the item seems to find room, from the top down and from left to right.

    ``z_mm`` are the hang heights to try, ``heights`` of the item when None, and ``more_x_mm``
    left edges of the plate to try besides those at which it touches or is in line. Only the plates
    of the others are looked at and not their whole rails, so that a place may still
    break a rule that ``Standing.broken_by`` tells.
    """
    z = np.array(heights(s, item) if z_mm is None else z_mm, dtype=np.float64)
    x = _edges(s, item, more_x_mm)
    sides = item.side_left_mm, item.width_mm + item.side_right_mm
    own = (-sides[0], sides[1], -item.down_mm, item.up_mm)
    taken = _hit(x, z, own=own, rects=_rects(s, item)) | ~_in_order(s, item, x)[None, :]
    taken |= _rail_taken(s, item, x=x, z=z)
    rows, columns = np.nonzero(~taken)
    return tuple(
        Place(item.key, float(x[column]), float(z[row]))
        for row, column in zip(rows.tolist(), columns.tolist(), strict=True)
    )


def crowded_places(s: Standing, item: Item, z_mm: float) -> tuple[tuple[int, Place], ...]:
    """Return the places at one hang height, those first where the fewest things are in the way.

    With each comes a number of rules that are broken there at the least. Of places with as many
    those come first where less of what is in the way is.
    """
    x, z = _edges(s, item, ()), np.array([z_mm], dtype=np.float64)
    own = (-item.side_left_mm, item.width_mm + item.side_right_mm, -item.down_mm, item.up_mm)
    met, area = (~_in_order(s, item, x)).astype(np.int64), np.zeros(len(x))
    met += _rail_taken(s, item, x=x, z=z)[0]
    for x0, x1, z0, z1 in _rects(s, item):
        hit = _hit(x, z, own=own, rects=[(x0, x1, z0, z1)])[0]
        tall = min(z_mm + own[3], z1) - max(z_mm + own[2], z0)
        wide = np.minimum(x + own[1], x1) - np.maximum(x + own[0], x0)
        met += hit
        area += np.where(hit, wide * tall, 0.0)
    order = np.lexsort((x, area, met)).tolist()
    return tuple((int(met[n]), Place(item.key, float(x[n]), z_mm)) for n in order)


def _hit(x: Floats, z: Floats, *, own: Rect, rects: Sequence[Rect]) -> Bools:
    """Return where a rectangle ``own``, told from the place, meets one of the others."""
    hit = np.zeros((len(z), len(x)), dtype=np.bool_)
    for x0, x1, z0, z1 in rects:
        wide = np.minimum(x + own[1], x1) - np.maximum(x + own[0], x0) > TOLERANCE_MM
        tall = np.minimum(z + own[3], z1) - np.maximum(z + own[2], z0) > TOLERANCE_MM
        hit |= tall[:, None] & wide[None, :]
    return hit


def _in_order(s: Standing, item: Item, x: Floats) -> Bools:
    """Return at which left edges the order of the item's group is kept."""
    good = np.ones(len(x), dtype=np.bool_)
    for place in _ordered_with(s, item):
        rank = s.items[place.key].rank or 0
        if rank < (item.rank or 0):
            good &= x > place.x_mm
        elif rank > (item.rank or 0):
            good &= x < place.x_mm
    return good


def _ordered_with(s: Standing, item: Item) -> list[Place]:
    """Return the places of those that hang from left to right in one order with the item."""
    if not item.group or item.rank is None:
        return []
    others = ((s.items[place.key], place) for place in s.places)
    return [p for one, p in others if one.group == item.group and one.rank is not None]


def _rail_taken(s: Standing, item: Item, *, x: Floats, z: Floats) -> Bools:
    """Return where the rail behind the item, or the item on its rail, is in the way."""
    rule = s.rule
    hung = [p for p in s.places if s.items[p.key].on_rail]
    kept = [rail.strip for rail in s.space.given_rails]
    top = rule.edge_above_mm
    strips = [
        (p.x_mm, p.x_mm + s.items[p.key].width_mm, p.z_mm + top - rule.height_mm, p.z_mm + top)
        for p in hung
    ]
    if not item.on_rail:
        own = (
            -item.side_left_mm,
            item.width_mm + item.side_right_mm,
            -item.down_mm,
            item.up_mm,
        )
        return _hit(x, z, own=own, rects=[*strips, *kept])
    strip = (0.0, item.width_mm, top - rule.height_mm, top)
    bears = (0.0, item.width_mm, -item.rail_depth_mm, 0.0)
    on_kept = np.zeros((len(z), len(x)), dtype=np.bool_)
    foreign = np.zeros_like(on_kept)
    for rail, rect in zip(s.space.given_rails, kept, strict=True):
        level = np.abs(z + top - rail.z_top_mm) <= TOLERANCE_MM
        on_kept |= level[:, None] & ((x >= rail.x0_mm) & (x + item.width_mm <= rail.x1_mm))[None, :]
        foreign |= _hit(x, z, own=bears, rects=[rect]) & ~level[:, None]
    blocked = [whole(s.items[p.key], p) for p in s.places if not s.items[p.key].on_rail]
    blocked += [(b.x_mm, b.right_mm, b.z_mm, b.top_mm) for b in s.space.obstacles]
    gap = rule.min_gap_mm
    blocked += [(x0, x1, z0 - gap, z1 + gap) for x0, x1, z0, z1 in kept]
    new = _hit(x, z, own=strip, rects=blocked)
    outside = (z + strip[2] < -TOLERANCE_MM) | (z + top > s.space.height_mm + TOLERANCE_MM)
    new |= outside[:, None]
    for place, (x0, x1, z0, z1) in zip(hung, strips, strict=True):
        away = (np.abs(z - place.z_mm) > TOLERANCE_MM)[:, None]
        deep = place.z_mm - s.items[place.key].rail_depth_mm
        near = _hit(
            x, z, own=strip, rects=[(x0, x1, z0 - gap, z1 + gap), (x0, x1, deep, place.z_mm)]
        )
        new |= near & away
        foreign |= _hit(x, z, own=bears, rects=[(x0, x1, z0, z1)]) & away
    return foreign | (new & ~on_kept)


def first_sound(s: Standing, item: Item, candidates: Iterable[Place], *, most: int) -> Place | None:
    """Return the first of at most ``most`` (>= 1) candidates that breaks no rule, or None."""
    tried = islice(candidates, most)
    return next((place for place in tried if not s.broken_by(item, place)), None)
