"""Cutting the rails to what hangs on them, and where their screws meet studs."""

from __future__ import annotations

import math
import re
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import count, pairwise

from cleatwright.wall.model import Place, RailRule, RailRun, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.studs import FURTHER_MM, Span, reaches_of, screws_in
from cleatwright.wall.tolerances import SLACK_MM

# studs that keep a rail from turning (common practice, no source)
STUDS_A_RAIL = 2
# how rails are called in every drawing
RAIL_NAME = re.compile(r"R([1-9][0-9]*)")


@dataclass(frozen=True)
class StudCrossing:
    """Where the screws of one rail go into studs, from left to right."""

    rail: str
    studs_mm: tuple[float, ...]


def stud_crossings(space: WallSpace, runs: Iterable[RailRun]) -> tuple[StudCrossing, ...]:
    """Return for each rail where it is screwed into studs."""
    return tuple(StudCrossing(run.name, _screws(space, (run.x0_mm, run.x1_mm))) for run in runs)


def weak(space: WallSpace, runs: Iterable[RailRun]) -> tuple[RailRun, ...]:
    """Return the new rails that meet fewer than two studs; none when no stud is known."""
    if not space.studs:
        return ()
    return tuple(
        run
        for run in runs
        if not run.stays and len(_screws(space, (run.x0_mm, run.x1_mm))) < STUDS_A_RAIL
    )


def kept_rail(problem: WallProblem, place: Place) -> RailRun | None:
    """Return the rail that stays and carries the item of a place there, or None."""
    item, edge_mm = problem.known[place.key], problem.rule.edge_above_mm
    if not item.on_rail:
        return None
    return next(
        (
            run
            for run in problem.space.kept_rails
            if abs(run.z_top_mm - edge_mm - place.z_mm) <= SLACK_MM
            and run.x0_mm - SLACK_MM <= place.x_mm
            and place.x_mm + item.width_mm <= run.x1_mm + SLACK_MM
        ),
        None,
    )


def cut_rails(problem: WallProblem, places: Sequence[Place]) -> tuple[RailRun, ...]:
    """Return the rails that the placed items need, each a little longer than its plates.

    Two stretches with a short hole become one piece where nothing lies in the hole. A piece
    that would meet fewer than two studs is made longer until it meets two, and one that ends a
    little before a further stud until it meets that one, where there is room.
    The rails that stay are among them, unchanged; the new ones are named from top to bottom,
    with the numbers after theirs.
    """
    space, rule = problem.space, problem.rule
    plates: defaultdict[float, list[Span]] = defaultdict(list)
    for place in places:
        item = problem.known[place.key]
        if item.on_rail and kept_rail(problem, place) is None:
            plates[place.z_mm].append((place.x_mm, place.x_mm + item.width_mm))
    heights = sorted(plates, reverse=True)
    runs = {z: _joined(sorted(plates[z]), 0.0, ()) for z in heights}
    for z in heights:
        free_of = _bars(problem, places, z) + _near(rule, runs, z)
        runs[z] = _joined(runs[z], rule.merge_mm, free_of)
    for z in heights:
        free_of = _bars(problem, places, z) + _near(rule, runs, z)
        runs[z] = _on_studs(space, runs[z], free_of)
    for z in heights:
        free_of = _bars(problem, places, z) + _near(rule, runs, z)
        longer = [
            _to_further(
                space, _with_ends(span, room, plates[z], rule.end_room_mm), room, rule.longest_mm
            )
            for span, room in zip(runs[z], _rooms(space, runs[z], free_of), strict=True)
        ]
        runs[z] = [
            part
            for span in longer
            for part in _parted(space, span, plates[z], longest_mm=rule.longest_mm)
        ]
    pieces = [
        *(RailRun("", z + rule.edge_above_mm, x0, x1) for z in heights for x0, x1 in runs[z]),
        *(replace(run, stays=True) for run in space.kept_rails),
    ]
    return numbered(pieces, after=last_number(run.name for run in space.kept_rails))


def last_number(names: Iterable[str]) -> int:
    """Return the highest number of a rail among names, or 0.

    >>> last_number(["R2", "R11", "old"]), last_number([])
    (11, 0)
    """
    found = [RAIL_NAME.fullmatch(name) for name in names]
    return max((int(match[1]) for match in found if match), default=0)


def numbered(runs: Iterable[RailRun], *, after: int) -> tuple[RailRun, ...]:
    """Return rails from top to bottom and from left to right, those without a name with one.

    Args:
        runs: The rails; one whose name is "" has none yet.
        after: The number after which names begin, >= 0.
    """
    ordered = sorted(runs, key=lambda run: (-run.z_top_mm, run.x0_mm))
    numbers = count(after + 1)
    return tuple(run if run.name else replace(run, name=f"R{next(numbers)}") for run in ordered)


def as_drawn(runs: Iterable[RailRun], drawn: Sequence[RailRun]) -> tuple[RailRun, ...]:
    """Return rails that are only tried, called as those that they would be in the drawings.

    Args:
        runs: The rails; what hangs already has its name.
        drawn: The rails of the drawings. One of the same height that shares some of its length
            is the same rail; what is none of them is called new.
    """
    left = [run for run in drawn if not run.stays]
    numbers = count(last_number(run.name for run in drawn) + 1)
    called: list[RailRun] = []
    for run in runs:
        same = next((one for one in left if not run.stays and _same(one, run)), None)
        if same is not None:
            left.remove(same)
            called.append(replace(run, name=same.name))
        else:
            called.append(run if run.stays else replace(run, name=f"R{next(numbers)} (new)"))
    return tuple(called)


def _same(one: RailRun, other: RailRun) -> bool:
    shared = min(one.x1_mm, other.x1_mm) - max(one.x0_mm, other.x0_mm)
    return abs(one.z_top_mm - other.z_top_mm) <= SLACK_MM and shared > SLACK_MM


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


def _on_studs(space: WallSpace, spans: Sequence[Span], free_of: Sequence[Span]) -> list[Span]:
    """Return the pieces of one height, longer or joined where that gives them two studs."""
    longer = [
        _to_studs(space, span, room)
        for span, room in zip(spans, _rooms(space, spans, free_of), strict=True)
    ]
    for k, span in enumerate(longer):
        if not space.studs or len(_screws(space, span)) >= STUDS_A_RAIL:
            continue
        joined = [
            [*spans[:n], (spans[n][0], spans[n + 1][1]), *spans[n + 2 :]]
            for n in sorted((k - 1, k), key=lambda n: _hole(spans, n))
            if 0 <= n < len(spans) - 1
            and not any(a < spans[n + 1][0] and b > spans[n][1] for a, b in free_of)
        ]
        if joined:
            return _on_studs(space, joined[0], free_of)
    return longer


def _hole(spans: Sequence[Span], n: int) -> float:
    """Return the width of the hole after piece ``n``; infinite at the ends."""
    return spans[n + 1][0] - spans[n][1] if 0 <= n < len(spans) - 1 else math.inf


def _to_studs(space: WallSpace, span: Span, room: Span) -> Span:
    """Return the span, lengthened as little as possible inside ``room`` to meet two studs.

    A stud that it does not meet yet is met in its middle where there is room.
    """
    lefts, rights = list[float](), list[float]()
    for least, middle in reaches_of(space.studs, wall_mm=space.width_mm):
        left, right = least.from_mm, least.to_mm
        if left < span[0] - SLACK_MM and middle.from_mm >= room[0]:
            left = middle.from_mm
        if right > span[1] + SLACK_MM and middle.to_mm <= room[1]:
            right = middle.to_mm
        if left >= room[0] - SLACK_MM and right <= room[1] + SLACK_MM:
            lefts.append(min(left, span[0]))
            rights.append(max(right, span[1]))
    wanted = min(STUDS_A_RAIL, len(lefts))
    if len(_screws(space, span)) >= wanted:
        return span
    spans = zip(lefts, rights[wanted - 1 :], strict=False)
    return min(spans, key=lambda s: (s[1] - s[0], s[0]))


def _to_further(space: WallSpace, span: Span, room: Span, longest_mm: float) -> Span:
    """Return the span, lengthened to further studs a little beyond its ends where there is room.

    It grows no longer than a board; one that is longer already is parted later.
    """
    x0, x1 = span
    most_mm = max(longest_mm, x1 - x0)
    reaches = reaches_of(space.studs, wall_mm=space.width_mm)
    for least, middle in reaches:
        last = min(room[1], x0 + most_mm) + SLACK_MM
        if least.to_mm > x1 and least.x0_mm - x1 <= FURTHER_MM:
            x1 = next((to for to in (middle.to_mm, least.to_mm) if to <= last), x1)
    for least, middle in reversed(reaches):
        first = max(room[0], x1 - most_mm) - SLACK_MM
        if least.from_mm < x0 and x0 - least.x1_mm <= FURTHER_MM:
            x0 = next((x for x in (middle.from_mm, least.from_mm) if x >= first), x0)
    return x0, x1


def _parted(
    space: WallSpace, span: Span, plates: Sequence[Span], *, longest_mm: float
) -> list[Span]:
    """Return a span in parts no longer than a board, parted between plates.

    A part that meets two studs goes before a longer one. What cannot be parted stays whole,
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
        left, right = (len(_screws(space, part)) for part in ((span[0], x), (x, span[1])))
        return left >= STUDS_A_RAIL, right >= STUDS_A_RAIL, x

    best = max(cuts, key=merit)
    return [
        (span[0], best),
        *_parted(space, (best, span[1]), plates, longest_mm=longest_mm),
    ]


def _screws(space: WallSpace, span: Span) -> tuple[float, ...]:
    return screws_in(space.studs, span, wall_mm=space.width_mm)


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
        (run.x0_mm, run.x1_mm) for run in space.kept_rails if abs(run.z_top_mm - high) < reach_mm
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
