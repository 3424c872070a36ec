"""Where the pieces of a row lie: from end to end, parted by what is in the way and by boards.

├────────── row ──────────┤  socket  ├────────── row ──────┤
═══╪═════════╪═════════╪══▕ ▢▢▢▢▢▢ ▕══╪═════════╪══════════
   stud      stud      stud           stud      stud
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import pairwise

from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.ground import PLACES_A_RAIL, Ground
from cleatwright.wall.model import Arrangement, Item, Place
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rails import kept_rail, last_number, new_rail
from cleatwright.wall.score import hung
from cleatwright.wall.studs import OVERHANG_MM, Span
from cleatwright.wall.tolerances import SAME_MM, SLACK_MM


def with_rows(problem: WallProblem, heights_mm: Iterable[float]) -> WallProblem:
    """Return the wall with whole rows at hang heights beside the rails that it has.

    Args:
        problem: The wall; its rule asks for rows.
        heights_mm: The hang heights, in any order.
    """
    for z in sorted(heights_mm, reverse=True):
        space = problem.space
        after = last_number(space.given_rails)
        pieces = enumerate(row(problem, z), after + 1)
        laid = tuple(new_rail(problem, z, span, number=number) for number, span in pieces)
        problem = problem.on(replace(space, rows=(*space.rows, *laid)))
    return problem


def with_row_behind(problem: WallProblem, place: Place) -> WallProblem:
    """Return the wall with that piece of a row more which lies behind a place, if there is one."""
    before = problem.space.rows
    laid = with_rows(problem, (place.z_mm,))
    behind = kept_rail(laid, place)
    rows = before if behind is None else (*before, behind)
    return problem.on(replace(problem.space, rows=rows))


def without_bare_rows(problem: WallProblem, places: Sequence[Place]) -> WallProblem:
    """Return the wall without the pieces of rows that carry nothing of what hangs."""
    carrying = [kept_rail(problem, place) for place in places]
    rows = tuple(row for row in problem.space.rows if row in carrying)
    return problem.on(replace(problem.space, rows=rows))


def without_empty(problem: WallProblem, found: Arrangement) -> Arrangement:
    """Return the same without the pieces of rows that carry nothing."""
    cleared = hung(without_bare_rows(problem, found.places), found.places, found.seats)
    return replace(cleared, left_over=found.left_over, in_rows=True)


def rows_behind(problem: WallProblem, places: Sequence[Place]) -> WallProblem:
    """Return the wall with rows behind all that hangs; the same where these cannot be.

    Args:
        problem: The wall.
        places: Where things hang, some of them perhaps on no rail that is given.
    """
    known = problem.known
    on_rails = [one for one in places if known[one.key].on_rail]
    bare = {one.z_mm for one in on_rails if kept_rail(problem, one) is None}
    laid = with_rows(problem, bare)
    if not bare or any(kept_rail(laid, one) is None for one in on_rails):
        return problem
    alone = laid.having(known[one.key] for one in places)
    return problem if conflicts(alone, hung(alone, places)) else laid


def carries_given(problem: WallProblem) -> bool:
    """Return whether a rail lies behind the whole plate of everything that has a given place."""
    return all(
        kept_rail(problem, Place(item.key, *item.fixed)) is not None
        for item in problem.items
        if item.on_rail and item.fixed is not None
    )


def row(problem: WallProblem, z_mm: float) -> tuple[Span, ...]:
    """Return the pieces of a row at a hang height beside the rails that are given, from the left.

    A stretch that is held at fewer than two places takes no piece, unless something has a given
    place there.
    """
    space, rule = problem.space, problem.rule
    high = z_mm + rule.edge_above_mm
    low = high - rule.height_mm
    if low < -SLACK_MM or high > space.height_mm + SLACK_MM:
        return ()
    given = _given_plates(problem.items, z_mm)
    left, found, ground = 0.0, list[Span](), space.ground(high, rule.height_mm)
    bars = [(x0, x1) for x0, x1, z0, z1 in _bars(problem) if z0 < high and z1 > low]
    for x0, x1 in [*sorted(bars), (space.width_mm, space.width_mm)]:
        if x0 - left > SLACK_MM:
            found += _pieces(problem, ground, (left, x0), given)
        left = max(left, x1)
    return tuple(found)


def _bars(problem: WallProblem) -> list[tuple[float, float, float, float]]:
    """Return what a row ends at, as x0, x1, z0, z1."""
    space, gap = problem.space, problem.rule.min_gap_mm
    bars = [(one.x_mm, one.right_mm, one.z_mm, one.top_mm) for one in space.obstacles]
    bars += [
        (x0, x1, low - gap + SLACK_MM, top + gap - SLACK_MM)
        for x0, x1, low, top in (rail.strip for rail in space.given_rails)
    ]
    for item in problem.items:
        if not item.on_rail and item.fixed is not None:
            (x, z), left = item.fixed, item.side_left_mm
            bars.append(
                (x - left, x - left + item.whole_width_mm, z - item.down_mm, z + item.up_mm)
            )
    return bars


def _given_plates(items: Sequence[Item], z_mm: float) -> list[Span]:
    return [
        (at[0], at[0] + item.width_mm)
        for item in items
        if item.on_rail
        for at in (item.fixed, item.hangs_at)
        if at is not None and abs(at[1] - z_mm) <= SAME_MM
    ]


def _pieces(
    problem: WallProblem, ground: Ground, stretch: Span, given: Sequence[Span]
) -> list[Span]:
    """Return the pieces of a stretch between two things that a row ends at."""
    inside = [one for one in given if stretch[0] <= one[0] and one[1] <= stretch[1]]
    if not ground.known:
        return _parted(problem, ground, stretch, inside)
    met = ground.columns(stretch)
    if len(met) < PLACES_A_RAIL:
        return [stretch] if inside else []
    # no further beyond the last stud than a rail may hang
    x0 = min([met[0] - OVERHANG_MM, *(a for a, _ in inside)])
    x1 = max([met[-1] + OVERHANG_MM, *(b for _, b in inside)])
    return _parted(problem, ground, (max(stretch[0], x0), min(stretch[1], x1)), inside)


def _parted(problem: WallProblem, ground: Ground, span: Span, given: Sequence[Span]) -> list[Span]:
    """Return a span in pieces no longer than a board, each held at two places where that can be.

    It is parted as far to the right as a board reaches, midway between two studs, and under no
    plate whose place is given.
    """
    space, longest = problem.space, problem.rule.longest_mm
    x0, x1 = span
    if x1 - x0 <= longest + SLACK_MM:
        return [span]
    middles = [stud.x_mm for stud in space.studs if x0 < stud.x_mm < x1]
    cuts = [(a + b) / 2 for a, b in pairwise(middles)] or [x0 + longest, (x0 + x1) / 2]
    free = [
        x
        for x in cuts
        if x0 < x <= x0 + longest + SLACK_MM
        and not any(a < x - SLACK_MM and x + SLACK_MM < b for a, b in given)
    ]
    if not free:
        return [span]

    def merit(x: float) -> tuple[int, float]:
        parts = ((x0, x), (x, x1))
        return sum(len(ground.columns(part)) >= PLACES_A_RAIL for part in parts), x

    best = max(free, key=merit)
    return [(x0, best), *_parted(problem, ground, (best, x1), given)]
