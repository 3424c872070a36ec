"""One spot and one slide of the search against trying every place of the grid."""

import math
import random
from itertools import combinations

import numpy as np
import pytest
from shapely.geometry import box
from tests.wall.from_python import from_python

from cleatwright.wall.model import ANYWHERE_ALONG, AlongBounds, Box, Item, RailRule, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Profile, Rail
from cleatwright.wall.reach import reach_band
from cleatwright.wall.search.around import around
from cleatwright.wall.search.chance import chance
from cleatwright.wall.search.gaps import gaps_on_rail, in_a_gap
from cleatwright.wall.search.problem import make_tables
from cleatwright.wall.search.rounds import NO_LIMIT, insert
from cleatwright.wall.search.slide import FURTHEST, slide
from cleatwright.wall.search.spots import BY_COST, best_spot, spot_at
from cleatwright.wall.search.state import State, copied, cost_of, empty_state, put, take
from cleatwright.wall.search.tables import FAR, GRID, NONE, Tables
from cleatwright.wall.studs import studs_at

gaps_on_rail = from_python(gaps_on_rail)
in_a_gap = from_python(in_a_gap)
best_spot = from_python(best_spot)
slide = from_python(slide)
cost_of = from_python(cost_of)
take = from_python(take)

RULE = RailRule(Profile(80.0, 18.0, 45.0), 50.0, step_mm=100.0)
SEEDS = range(6)


def problem(seed: int, *, studs: bool = False) -> Tables:
    """Return a wall with an obstacle, a rail that hangs already and eleven holders."""
    r = random.Random(seed)  # noqa: S311 - a repeatable example, not a secret
    items = [
        Item(
            f"h{k:02}",
            width_mm=r.randrange(40, 200, 5),
            up_mm=r.randrange(20, 80, 5),
            down_mm=r.randrange(60, 220, 5),
            mass_kg=r.choice((0.2, 1.0, 4.0)),
            use=r.choice(("daily", "weekly", "seldom")),
            group=r.choice(("", "cutting", "measuring")),
            side_left_mm=r.choice((0.0, 15.0)),
            on_rail=r.random() < 0.8,
            rail_depth_mm=60.0,
            rank=r.choice((None, 1, 2)),
            over_mm=r.choice((math.inf, 0.0, 60.0)),
            along=r.choice((ANYWHERE_ALONG, AlongBounds(130.0, 700.0))),
        )
        for k in range(11)
    ]
    space = WallSpace(
        800.0,
        700.0,
        900.0,
        obstacles=(Box("socket", 300.0, 250.0, 90.0, 60.0),),
        studs=studs_at(200.0, 600.0) if studs else (),
        kept_rails=(Rail(1, 650.0, 450.0, 750.0, RULE.profile, state="document"),),
    )
    return make_tables(WallProblem(space, RULE, tuple(items), reach_band()))


def filled(t: Tables, seed: int, count: int) -> State:
    """Return a state in which some of the items stand."""
    state = empty_state(t)
    order = np.random.default_rng(seed).permutation(len(t.items))[:count]
    insert(t, state, order.astype(np.int64), FAR, BY_COST, chance(0), NO_LIMIT)
    return state


def everywhere(t: Tables, i: int) -> list[tuple[int, int]]:
    """Return every whole left edge on the grid, with every height an item may hang at."""
    heights = t.rails.z if t.items[i].on_rail else t.levels
    left = int(t.items[i].left)
    edges = range(-left, int(t.rule[0].width), GRID)
    return [(x, z) for z in sorted(set(heights.tolist())) for x in edges]


def clear(t: Tables, s: State, i: int, row: int, x: int) -> bool:
    """Return whether an item may hang in a row, by areas of rectangles that overlap."""
    if not t.items[i].from_x <= x <= t.items[i].to_x:
        return False
    item, rail = t.items[i], t.rails[row]
    z, plate = int(rail.z), (x + int(item.left), x + int(item.left) + int(item.plate))
    whole = box(x, z - item.down, x + item.whole, z + item.up)
    strip = box(plate[0], rail.low, plate[1], rail.high)
    near = box(plate[0], rail.low - t.rule[0].gap, plate[1], rail.high + t.rule[0].gap)
    bears = box(plate[0], z - item.bear, plate[1], z)
    wholes = [box(x0, z0, x1, z1) for x0, x1, z0, z1 in t.obstacles.tolist()]
    bars = []
    for j in np.flatnonzero(s.stands).tolist():
        x0, x1, z0, z1 = s.box[j].tolist()
        wholes.append(box(x0, z0, x1, z1))
        if s.row[j] == NONE or s.z[j] != z:
            x0, x1, z0, z1 = s.bar[j].tolist()
            bars.append(box(x0, z0, x1, z1))
    others = [
        box(s.hull[r, 0], t.rails[r].low, s.hull[r, 1], t.rails[r].high)
        for r in range(len(t.rails))
        if s.hull[r, 0] < FAR and t.rails[r].z != z
    ]
    return (
        x >= 0
        and x + item.whole <= t.rule[0].width
        and rail.from_x <= plate[0]
        and plate[1] <= rail.to_x
        and not any(whole.intersection(one).area for one in wholes)
        and not any(strip.intersection(one).area for one in bars)
        and not any(near.intersection(one).area for one in others)
        and not any(bears.intersection(one).area for one in others)
    )


@pytest.mark.parametrize("seed", SEEDS)
def test_gaps_in_a_row_without_a_rail_are_where_nothing_overlaps(seed: int) -> None:
    t = problem(seed)
    s = filled(t, seed, 7)
    tried = 0
    for i in np.flatnonzero(~s.stands & t.items.on_rail).tolist():
        for row in [row for row in t.turns[i].tolist() if row != NONE and s.hull[row, 0] == FAR]:
            near = around(t, s)
            gaps = gaps_on_rail(t, s, near, i, row)
            for x in range(-int(t.items[i].left), int(t.rule[0].width), GRID):
                assert in_a_gap(near, gaps, x) == clear(t, s, i, row, x)
                tried += 1
    assert tried > 0


@pytest.mark.parametrize("studs", [False, True])
@pytest.mark.parametrize("seed", SEEDS)
def test_the_best_spot_adds_least_of_all_places_on_the_grid(seed: int, *, studs: bool) -> None:
    t = problem(seed, studs=studs)
    s = filled(t, seed, 7)
    for i in np.flatnonzero(~s.stands).tolist():
        added = []
        for at in everywhere(t, i):
            spot = spot_at(t, s, around(t, s), i, at)
            if spot[0] != FAR:
                trial = copied(s)
                put(t, trial, i, spot)
                added.append(cost_of(t, trial) - cost_of(t, s))
        best = best_spot(t, s, around(t, s), i, FAR, BY_COST, chance(0), NO_LIMIT)
        assert (best[0] == FAR) == (not added)
        if added:
            trial = copied(s)
            put(t, trial, i, best)
            # where rails reach for studs, what is in their way is not looked at before: a step less
            step = int(t.rule[0].length_cost) * GRID if studs else 0
            assert min(added) <= cost_of(t, trial) - cost_of(t, s) <= min(added) + step


@pytest.mark.parametrize("studs", [False, True])
@pytest.mark.parametrize("seed", SEEDS)
def test_sliding_moves_along_the_wall_only_and_lets_nothing_overlap(
    seed: int, *, studs: bool
) -> None:
    t = problem(seed, studs=studs)
    s = filled(t, seed, 9)
    standing = np.flatnonzero(s.stands).astype(np.int64)
    movable, pinned = standing[1:], int(standing[0])
    luck = chance(seed)
    moved = 0
    for one in movable.tolist():
        before = copied(s)
        slide(t, s, movable, one, luck)
        by = s.box[:, 0] - before.box[:, 0]
        moved += np.count_nonzero(by)
        assert by[pinned] == 0
        assert max(by) == 0 or min(by) == 0
        assert max(abs(by)) <= FURTHEST * GRID
        assert np.array_equal(s.z, before.z)
        assert np.array_equal(s.row, before.row)
        assert np.array_equal(s.stands, before.stands)
        boxes = [box(x0, z0, x1, z1) for x0, x1, z0, z1 in s.box[standing].tolist()]
        assert not any(a.intersection(b).area for a, b in combinations(boxes, 2))
        ranked = [i for i in standing.tolist() if NONE not in (t.items[i].rank, t.items[i].group)]
        for a, b in combinations(ranked, 2):
            if t.items[a].group == t.items[b].group and t.items[a].rank < t.items[b].rank:
                assert s.box[a, 0] + t.items[a].left < s.box[b, 0] + t.items[b].left
    assert moved > 0


@pytest.mark.parametrize("seed", SEEDS)
def test_after_sliding_the_cost_is_that_of_the_same_places_put_afresh(seed: int) -> None:
    t = problem(seed)
    s = filled(t, seed, 9)
    movable = np.flatnonzero(s.stands).astype(np.int64)
    luck = chance(seed)
    for one in movable.tolist():
        slide(t, s, movable, one, luck)
    fresh = empty_state(t)
    for i in movable.tolist():
        at = (int(s.box[i, 0]), int(s.z[i]))
        put(t, fresh, i, (*at, int(s.row[i]), int(s.paid[i])))
    assert cost_of(t, fresh) == cost_of(t, s)
    take(t, s, movable)
    assert cost_of(t, s) == 0
