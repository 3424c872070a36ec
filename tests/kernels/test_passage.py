"""Swept pieces, where they meet something and what would free them.

Oracles: closed forms of swept volumes, the slab method for boxes (a box that moves meets
another where the intervals of time along x, y and z share a moment), hulls by scipy.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import accumulate

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.spatial import ConvexHull

from cleatwright.base.errors import KernelError
from cleatwright.kernels.mesh import Convex, MeshBody, MeshKernel, Passage
from cleatwright.shapes.outline import circle
from cleatwright.shapes.rigid import Vector, shift
from cleatwright.shapes.solid import Difference, block, prism

KERNEL = MeshKernel()
Corner = tuple[float, float, float]
Interval = tuple[float, float]
sizes = st.tuples(*[st.floats(2.0, 40.0)] * 3)
steps = st.tuples(*[st.floats(-60.0, 60.0)] * 3)
# where something lies in the field that is passed through, from one side of it to the other
shares = st.tuples(*[st.floats(0.05, 0.95)] * 3)
WAYS: tuple[Vector, ...] = ((1.0, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, 0.0, -1.0))
TINY_MM3 = 1e-6


def box(low: Vector, size: Vector) -> Convex:
    high = tuple(a + b for a, b in zip(low, size, strict=True))
    return Convex(KERNEL.corners(block(*low, *high)))


def on_the_way(size: Vector, moves: Sequence[Vector], other: Vector, share: Vector) -> Vector:
    """Return where another box lies so that it overlaps the box around the whole way."""
    stops = [
        (0.0, 0.0, 0.0),
        *accumulate(moves, lambda a, b: (a[0] + b[0], a[1] + b[1], a[2] + b[2])),
    ]
    low = [min(stop[k] for stop in stops) for k in range(3)]
    high = [max(stop[k] for stop in stops) + size[k] for k in range(3)]
    x, y, z = (low[k] - other[k] + share[k] * (high[k] - low[k] + other[k]) for k in range(3))
    return x, y, z


def ball(radius: float, rings: int) -> Convex:
    """Return the hull of points on a ball, ``rings`` from pole to pole and twice that around."""
    polar, around = np.meshgrid(
        np.linspace(0.0, math.pi, rings + 1), np.arange(2 * rings) * math.pi / rings
    )
    points = [np.sin(polar) * np.cos(around), np.sin(polar) * np.sin(around), np.cos(polar)]
    return Convex(radius * np.stack(points, axis=-1).reshape(-1, 3))


def test_the_swept_volume_of_a_ball_converges_to_ball_and_cylinder() -> None:
    """4/3 pi r^3 + pi r^2 L; the error of facets falls with the square of their number."""
    radius, length = 10.0, 35.0
    move = (length * 2 / 7, length * 3 / 7, length * 6 / 7)
    exact = 4 / 3 * math.pi * radius**3 + math.pi * radius**2 * length
    errors = [
        exact - ball(radius, rings).swept(move).body.facts.volume_mm3 for rings in (16, 32, 64)
    ]
    assert 0.0 < errors[2] < 2e-3 * exact
    assert errors[0] / errors[1] == pytest.approx(4.0, rel=0.1)
    assert errors[1] / errors[2] == pytest.approx(4.0, rel=0.1)


@settings(deadline=None, max_examples=40)
@given(size=sizes, move=steps)
def test_a_swept_box_is_the_box_and_its_shadow_times_the_way(size: Vector, move: Vector) -> None:
    """Length times the area seen along the move is |mx| b c + |my| a c + |mz| a b."""
    (a, b, c), (x, y, z) = size, (abs(step) for step in move)
    swept = box((3.0, -5.0, 8.0), size).swept(move)
    # corners closer than the kernel tells apart become one: each face is there to within that
    apart = 5e-5 * (a * b + b * c + c * a)
    assert swept.body.facts.volume_mm3 == pytest.approx(
        a * b * c + x * b * c + y * a * c + z * a * b, rel=1e-6, abs=apart
    )


@settings(deadline=None, max_examples=20)
@given(size=sizes, move=steps, seed=st.integers(0, 2**32 - 1))
def test_a_point_lies_in_the_sweep_exactly_when_some_position_contains_it(
    size: Vector, move: Vector, seed: int
) -> None:
    swept = box((0.0, 0.0, 0.0), size).swept(move)
    low, high = swept.box_mm
    points = np.random.default_rng(seed).uniform(low - 1.0, high + 1.0, size=(300, 3))
    hull = ConvexHull(swept.body.vertices_mm)
    depth = (hull.equations[:, :3] @ points.T + hull.equations[:, 3:]).max(axis=0)
    for point, outside in zip(points, depth, strict=True):
        if abs(outside) > 1e-6:
            # the moments at which the point is between the two faces across each axis
            spans = [
                _moments(0.0, size[k], float(point[k]), float(point[k]), move[k]) for k in range(3)
            ]
            within = max(0.0, *(s[0] for s in spans)) <= min(1.0, *(s[1] for s in spans))
            assert within == (outside < 0.0)


def test_many_positions_fill_the_sweep_as_their_number_grows() -> None:
    """A box along a diagonal: what is left between n + 1 positions falls as 1 / n."""
    piece, move = box((0.0, 0.0, 0.0), (10.0, 20.0, 30.0)), (30.0, 20.0, 10.0)
    whole = piece.swept(move).body
    gaps: list[float] = []
    for count in (8, 16, 32):
        places = [shift(*(part * k / count for part in move)) for k in range(count + 1)]
        bodies = [piece.placed(place).body for place in places]
        for body in bodies:
            assert whole.overlap_mm3(body) == pytest.approx(body.facts.volume_mm3)
        gaps.append(whole.facts.volume_mm3 - MeshBody.joined(bodies).facts.volume_mm3)
    assert gaps[0] / gaps[1] == pytest.approx(2.0, rel=0.05)
    assert gaps[1] / gaps[2] == pytest.approx(2.0, rel=0.05)


def test_a_box_ten_above_stops_a_way_of_twelve_two_short() -> None:
    way = Passage((box((-20.0, 30.0, 0.0), (40.0, 10.0, 90.0)),), ((0, 0, 12.0), (0, 50.0, 0)))
    above = box((-500.0, 0.0, 100.0), (1000.0, 200.0, 60.0)).body
    assert way.meets([above], touch_mm3=0.5)
    assert way.travel_mm([above], touch_mm3=0.5) == pytest.approx(10.0, abs=0.01)
    number, short = way.freeing_shift(WAYS, [above], touch_mm3=0.5)
    assert WAYS[number] == (0.0, 0.0, -1.0)
    assert short == pytest.approx(2.0, abs=0.01)


def test_a_thing_before_the_wall_stops_the_second_move_and_the_first_counts() -> None:
    way = Passage((box((0.0, 0.0, 0.0), (40.0, 10.0, 90.0)),), ((0, 0, 12.0), (0, 50.0, 0)))
    beside = box((37.0, 30.0, -200.0), (100.0, 5.0, 400.0)).body
    # 12 up, and 20 until the front at y = 10 is at y = 30
    assert way.travel_mm([beside], touch_mm3=0.5) == pytest.approx(32.0, abs=0.01)
    number, short = way.freeing_shift(WAYS, [beside], touch_mm3=0.5)
    assert WAYS[number] == (-1.0, 0.0, 0.0)
    assert short == pytest.approx(3.0, abs=0.01)


def test_what_only_touches_along_the_whole_way_is_free() -> None:
    way = Passage((box((0.0, 0.0, 0.0), (40.0, 10.0, 90.0)),), ((0, 0, 12.0), (0, 50.0, 0)))
    beside = box((40.0, 0.0, -200.0), (10.0, 100.0, 400.0)).body
    assert not way.meets([beside], touch_mm3=0.5)
    assert way.travel_mm([beside], touch_mm3=0.5) == math.inf


@pytest.mark.parametrize("deep_mm", [0.001, 0.01, 0.1])
def test_what_shares_a_little_more_than_a_touch_is_in_the_way(deep_mm: float) -> None:
    """A slab as deep as the overlap, 10 wide and 90 + 12 high along the first move."""
    way = Passage((box((0.0, 0.0, 0.0), (40.0, 10.0, 90.0)),), ((0, 0, 12.0), (0, -5.0, 0)))
    beside = box((40.0 - deep_mm, 0.0, -200.0), (10.0, 100.0, 400.0)).body
    shared = deep_mm * 10.0 * 102.0
    assert way.meets([beside], touch_mm3=0.99 * shared)
    assert not way.meets([beside], touch_mm3=1.01 * shared)
    # before it moves they share 90 of the 102, so that it comes 6 mm far with 96
    assert way.travel_mm([beside], touch_mm3=deep_mm * 10.0 * 96.0) == pytest.approx(6.0, abs=0.02)
    assert way.travel_mm([beside], touch_mm3=1.01 * shared) == math.inf
    # a third of the slab stays when it gives way by two thirds of its depth
    _, short = way.freeing_shift([(-1.0, 0.0, 0.0)], [beside], touch_mm3=shared / 3)
    assert short == pytest.approx(deep_mm * 2 / 3, abs=0.006)


def test_a_pin_is_free_in_a_wider_bore_and_is_freed_upwards_out_of_a_narrower_one() -> None:
    """A pin of 10 mm in a bore of 20 or 8; the plate is 6 thick, and the pin is 4 deep in it."""
    plate = block(-50.0, -50.0, 0.0, 50.0, 50.0, 6.0)
    pin = Convex(KERNEL.corners(prism(circle(10.0), 30.0).moved(dz=2.0)))
    way = Passage((pin,), ((0.0, 0.0, 40.0),))
    for bore_mm, free in ((20.0, True), (8.0, False)):
        cut = prism(circle(bore_mm), 10.0).moved(dz=-2.0)
        body = KERNEL.evaluate(Difference(plate, (cut,)))
        assert way.meets([body], touch_mm3=0.5) != free
        if not free:
            number, short = way.freeing_shift(WAYS, [body], touch_mm3=0.5)
            assert WAYS[number] == (0.0, 0.0, 1.0)
            assert short == pytest.approx(4.0, abs=0.02)


def _moments(low: float, high: float, a: float, b: float, speed: float) -> Interval:
    """Return when an interval that moves from (low, high) meets (a, b); empty when never."""
    if abs(speed) < 1e-12:
        return (-math.inf, math.inf) if low < b and high > a else (math.inf, -math.inf)
    first, last = sorted(((a - high) / speed, (b - low) / speed))
    return first, last


def _meeting(low: Vector, size: Vector, move: Vector, other: tuple[Vector, Vector]) -> float:
    """Return the share of a move at which two boxes meet by the slab method, or infinity."""
    spans = [
        _moments(low[k], low[k] + size[k], other[0][k], other[0][k] + other[1][k], move[k])
        for k in range(3)
    ]
    start, end = max(0.0, *(s[0] for s in spans)), min(1.0, *(s[1] for s in spans))
    return start if start < end else math.inf


@settings(deadline=None, max_examples=60)
@given(size=sizes, move=steps, other=sizes, at=steps)
def test_boxes_meet_where_the_slab_method_says(
    size: Vector, move: Vector, other: Vector, at: Vector
) -> None:
    way = Passage((box((0.0, 0.0, 0.0), size),), (move,))
    body = box(at, other).body
    length = math.hypot(*move)
    assume(length > 1.0)
    share = _meeting((0.0, 0.0, 0.0), size, move, (at, other))
    travel = way.travel_mm([body], touch_mm3=TINY_MM3)
    if math.isinf(share):
        # what grazes an edge or a corner is a matter of rounding
        assert math.isinf(travel) or way.legs[0][0].body.overlap_mm3(body) < 1e-3
        return
    assume(way.legs[0][0].body.overlap_mm3(body) > 0.1)
    # a corner that enters needs some depth until the volume counts
    assert share * length - 0.01 <= travel <= share * length + 0.3


@settings(deadline=None, max_examples=40)
@given(size=sizes, move=steps, other=sizes, share=shares)
def test_the_least_shift_is_that_of_a_brute_force_over_shifts(
    size: Vector, move: Vector, other: Vector, share: Vector
) -> None:
    """Every 0.1 mm in each of the four directions, the slab method asks whether both are apart."""
    way = Passage((box((0.0, 0.0, 0.0), size),), (move,))
    at = on_the_way(size, [move], other, share)
    body = box(at, other).body
    assume(way.meets([body], touch_mm3=0.1))

    def clear(direction: Vector, mm: float) -> bool:
        low = (direction[0] * mm, 0.0, direction[2] * mm)
        return math.isinf(_meeting(low, size, move, (at, other)))

    grid = np.arange(0.0, 300.0, 0.1)
    # both are convex, so that what is free once stays free
    least = min(next(mm for mm in grid if clear(way_, float(mm))) for way_ in WAYS)
    _, short = way.freeing_shift(WAYS, [body], touch_mm3=TINY_MM3)
    assert least - 0.45 <= short <= least + 0.02


@settings(deadline=None, max_examples=20)
@given(size=sizes, other=sizes, share=shares, offset=steps)
def test_moving_or_mirroring_everything_changes_only_left_and_right(
    size: Vector, other: Vector, share: Vector, offset: Vector
) -> None:
    moves = ((0.0, 0.0, 20.0), (0.0, 50.0, 0.0))
    at = on_the_way(size, moves, other, share)
    piece, thing = box((0.0, 0.0, 0.0), size), box(at, other)
    way = Passage((piece,), moves)
    assume(way.meets([thing.body], touch_mm3=1.0))
    travel = way.travel_mm([thing.body], touch_mm3=0.5)
    left, right, up, down = _shifts(way, thing.body)
    motion = shift(*offset)
    there = Passage((piece.placed(motion),), moves)
    body = thing.placed(motion).body
    assert there.travel_mm([body], touch_mm3=0.5) == pytest.approx(travel, abs=0.02)
    assert _shifts(there, body) == pytest.approx([left, right, up, down], abs=0.02)
    flip = np.array([-1.0, 1.0, 1.0])
    mirrored = Passage((Convex(piece.corners_mm * flip),), moves)
    body = Convex(thing.corners_mm * flip).body
    assert mirrored.travel_mm([body], touch_mm3=0.5) == pytest.approx(travel, abs=0.02)
    assert _shifts(mirrored, body) == pytest.approx([right, left, up, down], abs=0.02)
    least = mirrored.freeing_shift(WAYS, [body], touch_mm3=0.5)[1]
    assert least == pytest.approx(min(left, right, up, down), abs=0.02)


def _shifts(way: Passage, body: MeshBody) -> list[float]:
    return [way.freeing_shift([one], [body], touch_mm3=0.5)[1] for one in WAYS]


def test_a_slice_of_a_cone_has_the_volume_of_a_frustum() -> None:
    """A third of pi h (R^2 + R r + r^2), less what 720 facets leave out of a circle."""
    around = np.arange(720) * math.pi / 360
    ring = np.column_stack([30 * np.cos(around), 30 * np.sin(around), np.zeros(720)])
    cone = Convex(np.vstack([ring, [[0.0, 0.0, 90.0]]]))
    part = cone.between("z", 15.0, 60.0)
    assert part is not None
    exact = math.pi * 45.0 / 3 * (25.0**2 + 25.0 * 10.0 + 10.0**2)
    assert part.body.facts.volume_mm3 == pytest.approx(exact, rel=2e-5)
    assert cone.between("z", 91.0, 99.0) is None
    assert cone.between("x", -31.0, -30.0) is None


def test_a_spread_box_grows_by_its_steps() -> None:
    grown = box((0.0, 0.0, 0.0), (10.0, 20.0, 30.0)).spread(
        [(x, y, 0.0) for x in (-12.0, 12.0) for y in (0.0, 12.0)]
    )
    assert grown.body.facts.volume_mm3 == pytest.approx(34.0 * 32.0 * 30.0)
    assert grown.box_mm.tolist() == [[-12.0, 0.0, 0.0], [22.0, 32.0, 30.0]]


def test_pieces_without_volume_and_ways_without_a_move_are_refused() -> None:
    flat = Convex(np.array([[0.0, 0, 0], [1, 0, 0], [1, 1, 0], [0, 1, 0]]))
    with pytest.raises(KernelError, match="without volume"):
        _ = flat.body
    with pytest.raises(KernelError, match="along 0 moves"):
        Passage((flat,), ())
    with pytest.raises(KernelError, match="of 0 pieces"):
        Passage((), ((0.0, 0.0, 1.0),))
