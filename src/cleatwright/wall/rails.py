"""Cutting the rails to what hangs on them, and where their screws go."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import count, pairwise

from cleatwright.wall.ground import PLACES_A_RAIL, Ground
from cleatwright.wall.model import Place, RailRule, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Rail
from cleatwright.wall.studs import Span
from cleatwright.wall.tolerances import SLACK_MM


def weak(space: WallSpace, rails: Iterable[Rail]) -> tuple[Rail, ...]:
    """Return the new rails held at fewer than two places; none where no such place is known."""
    if not space.holds_known:
        return ()
    return tuple(one for one in rails if not one.stays and len(one.studs_mm) < PLACES_A_RAIL)


def kept_rail(problem: WallProblem, place: Place) -> Rail | None:
    """Return the rail that is given and carries the item of a place there, or None."""
    item, edge_mm = problem.known[place.key], problem.rule.edge_above_mm
    if not item.on_rail:
        return None
    return next(
        (
            run
            for run in problem.space.given_rails
            if abs(run.z_top_mm - edge_mm - place.z_mm) <= SLACK_MM
            and run.x0_mm - SLACK_MM <= place.x_mm
            and place.x_mm + item.width_mm <= run.x1_mm + SLACK_MM
        ),
        None,
    )


def cut_rails(problem: WallProblem, places: Sequence[Place]) -> tuple[Rail, ...]:
    """Return the rails that the placed items need, each a little longer than its plates.

    Two stretches with a short hole become one piece where nothing lies in the hole. A piece
    that would be held at fewer than two places is made longer until there are two, and one that
    ends a little before a further stud until it meets that one, where there is room.
    The rails that stay are among them; the new ones are numbered from top to bottom, after theirs.
    Each knows the keys of what hangs on it.
    """
    space, rule = problem.space, problem.rule
    kept = {place.key: rail for place in places if (rail := kept_rail(problem, place))}
    plates: defaultdict[float, list[Span]] = defaultdict(list)
    for place in places:
        item = problem.known[place.key]
        if item.on_rail and place.key not in kept:
            plates[place.z_mm].append((place.x_mm, place.x_mm + item.width_mm))
    heights = sorted(plates, reverse=True)
    runs = {z: _joined(sorted(plates[z]), 0.0, ()) for z in heights}
    for z in heights:
        free_of = _bars(problem, places, z) + _near(rule, runs, z)
        runs[z] = _joined(runs[z], rule.merge_mm, free_of)
    grounds = {z: space.ground(z + rule.edge_above_mm, rule.height_mm) for z in heights}
    for z in heights:
        free_of = _bars(problem, places, z) + _near(rule, runs, z)
        runs[z] = _held(grounds[z], space, runs[z], free_of)
    for z in heights:
        free_of = _bars(problem, places, z) + _near(rule, runs, z)
        longer = [
            grounds[z].further(
                _with_ends(span, room, plates[z], rule.end_room_mm),
                room,
                longest_mm=rule.longest_mm,
            )
            for span, room in zip(runs[z], _rooms(space, runs[z], free_of), strict=True)
        ]
        runs[z] = [
            part
            for span in longer
            for part in _parted(grounds[z], span, plates[z], longest_mm=rule.longest_mm)
        ]
    pieces = [
        *(new_rail(problem, z, span) for z in heights for span in runs[z]),
        *space.given_rails,
    ]
    rails = numbered(pieces, after=last_number(space.given_rails))
    return tuple(_carrying(problem, rails, places, kept))


def new_rail(problem: WallProblem, z_mm: float, span: Span, *, number: int = 0) -> Rail:
    """Return a rail for a hang height, with the screws that it has by what the wall is.

    Args:
        problem: The wall.
        z_mm: The hang height.
        span: From where to where it reaches.
        number: Its number; 0 for none yet.
    """
    space, rule = problem.space, problem.rule
    top_mm, (x0, x1) = z_mm + rule.edge_above_mm, span
    return Rail(
        number,
        top_mm,
        x0,
        x1,
        rule.profile,
        panel=space.panel,
        studs_mm=space.ground(top_mm, rule.height_mm).columns(span),
        rows=space.rows_at(top_mm, rule.height_mm),
    )


def _carrying(
    problem: WallProblem, rails: Iterable[Rail], places: Iterable[Place], kept: Mapping[str, Rail]
) -> Iterator[Rail]:
    """Yield rails with the keys of what hangs on them; ``kept`` has the given ones, by key."""
    known, edge_mm = problem.known, problem.rule.edge_above_mm
    given = {rail.number for rail in problem.space.given_rails}
    hung = sorted((p for p in places if known[p.key].on_rail), key=lambda p: (p.x_mm, p.key))
    on_given: defaultdict[int, list[str]] = defaultdict(list)
    on_new: defaultdict[float, list[Place]] = defaultdict(list)
    for place in hung:
        if place.key in kept:
            on_given[kept[place.key].number].append(place.key)
        else:
            on_new[place.z_mm + edge_mm].append(place)
    for rail in rails:
        if rail.number in given:
            yield replace(rail, carries=tuple(on_given[rail.number]))
            continue
        beside = (
            place.key
            for place in on_new[rail.z_top_mm]
            if rail.x0_mm <= place.x_mm and place.x_mm + known[place.key].width_mm <= rail.x1_mm
        )
        yield replace(rail, carries=tuple(beside))


def last_number(rails: Iterable[Rail]) -> int:
    """Return the highest number of a rail, or 0."""
    return max((rail.number for rail in rails), default=0)


def numbered(rails: Iterable[Rail], *, after: int) -> tuple[Rail, ...]:
    """Return rails from top to bottom and from left to right, each with a number.

    Args:
        rails: The rails; those whose number is 0 have none yet.
        after: The number after which new ones begin, >= 0.
    """
    ordered = sorted(rails, key=lambda rail: (-rail.z_top_mm, rail.x0_mm))
    numbers = count(after + 1)
    return tuple(one if one.number else replace(one, number=next(numbers)) for one in ordered)


def as_drawn(rails: Iterable[Rail], drawn: Sequence[Rail]) -> tuple[Rail, ...]:
    """Return rails that are only tried, called as those that they would be in the drawings.

    Args:
        rails: The rails; what hangs already has its number.
        drawn: The rails of the drawings. One of the same height that shares some of its length
            is the same rail; what is none of them is called new.
    """
    left = [rail for rail in drawn if not rail.stays]
    numbers = count(last_number(drawn) + 1)
    called: list[Rail] = []
    for rail in rails:
        same = next((one for one in left if not rail.stays and one.meets(rail)), None)
        if same is not None:
            left.remove(same)
            called.append(replace(rail, number=same.number))
        else:
            called.append(
                rail if rail.stays else replace(rail, number=next(numbers), state="tried")
            )
    return tuple(called)


def _with_ends(span: Span, room: Span, plates: Sequence[Span], end_mm: float) -> Span:
    """Return the span with ``end_mm`` of rail beyond its outermost plates, where there is room."""
    on = [plate for plate in plates if span[0] <= plate[0] and plate[1] <= span[1]]
    first, last = min(plate[0] for plate in on), max(plate[1] for plate in on)
    return (
        min(span[0], max(room[0], first - end_mm)),
        max(span[1], min(room[1], last + end_mm)),
    )


def _rooms(space: WallSpace, spans: Sequence[Span], free_of: Sequence[Span]) -> list[Span]:
    """Return from where to where each piece of one height may reach; half way to the next one."""
    rooms: list[Span] = []
    for k, (x0, x1) in enumerate(spans):
        left = max([0.0, *(b for _, b in free_of if b <= x0 + SLACK_MM)])
        right = min([space.width_mm, *(a for a, _ in free_of if a >= x1 - SLACK_MM)])
        if k:
            left = max(left, (spans[k - 1][1] + x0) / 2)
        if k + 1 < len(spans):
            right = min(right, (x1 + spans[k + 1][0]) / 2)
        rooms.append((left, right))
    return rooms


def _held(
    ground: Ground, space: WallSpace, spans: Sequence[Span], free_of: Sequence[Span]
) -> list[Span]:
    """Return the pieces of one height, longer or joined where that holds them at two places."""
    longer = [
        ground.lengthened(span, room)
        for span, room in zip(spans, _rooms(space, spans, free_of), strict=True)
    ]
    for k, span in enumerate(longer):
        if not ground.known or len(ground.columns(span)) >= PLACES_A_RAIL:
            continue
        joined = [
            [*spans[:n], (spans[n][0], spans[n + 1][1]), *spans[n + 2 :]]
            for n in sorted((k - 1, k), key=lambda n: _hole(spans, n))
            if 0 <= n < len(spans) - 1
            and not any(a < spans[n + 1][0] and b > spans[n][1] for a, b in free_of)
        ]
        if joined:
            return _held(ground, space, joined[0], free_of)
    return longer


def _hole(spans: Sequence[Span], n: int) -> float:
    """Return the width of the hole after piece ``n``; infinite at the ends."""
    return spans[n + 1][0] - spans[n][1] if 0 <= n < len(spans) - 1 else math.inf


def _parted(ground: Ground, span: Span, plates: Sequence[Span], *, longest_mm: float) -> list[Span]:
    """Return a span in parts no longer than a board, parted between plates.

    A part that is held at two places goes before a longer one. What cannot be parted stays whole,
    which is for the cutting of boards to report.
    """
    if span[1] - span[0] <= longest_mm + SLACK_MM:
        return [span]
    edges = sorted(plate for plate in plates if span[0] <= plate[0] and plate[1] <= span[1])
    cuts = [
        (before[1] + after[0]) / 2
        for before, after in pairwise(edges)
        if before[1] <= after[0] and (before[1] + after[0]) / 2 - span[0] <= longest_mm
    ]
    if not cuts:
        return [span]

    def merit(x: float) -> tuple[bool, bool, float]:
        left, right = (len(ground.columns(part)) for part in ((span[0], x), (x, span[1])))
        return left >= PLACES_A_RAIL, right >= PLACES_A_RAIL, x

    best = max(cuts, key=merit)
    return [
        (span[0], best),
        *_parted(ground, (best, span[1]), plates, longest_mm=longest_mm),
    ]


def _joined(spans: Sequence[Span], hole_mm: float, free_of: Sequence[Span]) -> list[Span]:
    joined: list[Span] = []
    for x0, x1 in spans:
        if joined:
            a, b = joined[-1]
            blocked = any(p < x0 and q > b for p, q in free_of)
            if x0 - b <= hole_mm + SLACK_MM and (not blocked or x0 - b <= SLACK_MM):
                joined[-1] = (a, max(b, x1))
                continue
        joined.append((x0, x1))
    return joined


def _bars(problem: WallProblem, places: Sequence[Place], z: float) -> list[Span]:
    """Return the stretches that a rail for hang height ``z`` must leave free."""
    space, rule = problem.space, problem.rule
    high = z + rule.edge_above_mm
    low = high - rule.height_mm
    bars = [(b.x_mm, b.right_mm) for b in space.obstacles if b.z_mm < high and b.top_mm > low]
    reach_mm = rule.height_mm + rule.min_gap_mm - SLACK_MM
    bars += [
        (run.x0_mm, run.x1_mm) for run in space.given_rails if abs(run.z_top_mm - high) < reach_mm
    ]
    for place in places:
        item = problem.known[place.key]
        if not item.on_rail and place.z_mm - item.down_mm < high and place.z_mm + item.up_mm > low:
            left = place.x_mm - item.side_left_mm
            bars.append((left, left + item.whole_width_mm))
        bears = item.on_rail and place.z_mm != z
        if bears and place.z_mm - item.rail_depth_mm < high and place.z_mm > low:
            bars.append((place.x_mm, place.x_mm + item.width_mm))
    return bars


def _near(rule: RailRule, runs: Mapping[float, Sequence[Span]], z: float) -> list[Span]:
    """Return the stretches of rails at other heights that are too near to be passed."""
    reach_mm = rule.height_mm + rule.min_gap_mm
    return [
        span
        for other in sorted(runs)
        if other != z and abs(other - z) < reach_mm - SLACK_MM
        for span in runs[other]
    ]
