"""What needs support, against closed forms on solids whose overhangs are known.

The rule itself is common practice, no source; the areas, widths and places are geometry.
"""

from __future__ import annotations

import math
import time

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import PartError, ShapeError
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.printing.support.overhang import (
    ALLOWED_MM2,
    ISLAND_MM2,
    Overhangs,
    check_support_free,
    unsupported,
)
from cleatwright.shapes.outline import Outline, Point, circle, polygon
from cleatwright.shapes.rigid import Vector, turn
from cleatwright.shapes.solid import (
    Difference,
    Lettering,
    Loft,
    Revolved,
    Solid,
    across,
    block,
    joined,
    prism,
)

KERNEL = MeshKernel()
DOWN: Vector = (0.0, 0.0, -1.0)
# the outlines are widened by a hair before they are joined
HAIR_MM2 = 0.02


def mesh(solid: Solid) -> tuple[np.ndarray, np.ndarray]:
    body = KERNEL.evaluate(solid)
    return body.vertices_mm, body.triangles


def hanging(solid: Solid, *, down: Vector = DOWN) -> Overhangs:
    vertices, triangles = mesh(solid)
    return unsupported(vertices, triangles, down=down)


def profile(points: list[Point], length_mm: float = 20.0) -> Solid:
    return across(polygon(points), 0.0, length_mm)


def gate(gap_mm: float, *, length_mm: float = 30.0) -> Solid:
    """Return two pillars with a roof over the gap between them."""
    g = gap_mm
    return profile(
        [(0, 0), (5, 0), (5, 15), (5 + g, 15), (5 + g, 0), (10 + g, 0), (10 + g, 20), (0, 20)],
        length_mm,
    )


def bored(diameter_mm: float, *, length_mm: float = 40.0) -> Solid:
    """Return a block with a level bore along x."""
    cube = block(0.0, -15.0, 0.0, length_mm, 15.0, 30.0)
    return cube - across(circle(diameter_mm, at=(0.0, 15.0)), -1.0, length_mm + 1.0)


def test_a_cantilever_hangs_with_its_whole_plan() -> None:
    """Closed form: 20 x 20 mm."""
    found = hanging(profile([(0, 0), (10, 0), (10, 15), (30, 15), (30, 20), (0, 20)]))
    assert found.area_mm2 == pytest.approx(400.0, abs=HAIR_MM2)
    assert found.bridged_mm2 == 0.0
    assert found.islands_mm == ()
    assert found.worst_mm is not None
    x, y, z = found.worst_mm
    assert 0.0 < x < 20.0
    assert 10.0 < y < 30.0
    assert z == pytest.approx(15.0)


@pytest.mark.parametrize(("gap_mm", "free"), [(3.0, True), (9.9, True), (10.1, False)])
def test_a_bridge_may_be_ten_millimetres_long(gap_mm: float, free: bool) -> None:
    found = hanging(gate(gap_mm))
    roof = pytest.approx(30.0 * gap_mm, abs=HAIR_MM2)
    assert (found.bridged_mm2, found.area_mm2) == ((roof, 0.0) if free else (0.0, roof))


@pytest.mark.parametrize("wide_mm", [9.0, 30.0, 60.0])
def test_a_closed_roof_is_a_bridge_along_its_narrow_way_however_long_it_is(wide_mm: float) -> None:
    cube = block(0.0, 0.0, 0.0, wide_mm + 10.0, 19.0, 20.0)
    found = hanging(cube - block(5.0, 5.0, -1.0, 5.0 + wide_mm, 14.0, 10.0))
    assert found.area_mm2 == 0.0
    assert found.bridged_mm2 == pytest.approx(9.0 * wide_mm, abs=HAIR_MM2)


def test_a_roof_held_only_at_its_far_ends_is_no_bridge_however_narrow_it_is() -> None:
    assert hanging(gate(30.0, length_mm=4.0)).area_mm2 == pytest.approx(120.0, abs=HAIR_MM2)


def test_where_a_slot_widens_beyond_ten_millimetres_the_rest_hangs() -> None:
    """Closed form: the width 8 + 4 x / 40 passes 10 at half the length; rest 20 (10 + 12) / 2."""
    cube = block(0.0, -12.0, 0.0, 40.0, 12.0, 20.0)
    taper = Outline(((-0.0, -4.0), (40.0, -6.0), (40.0, 6.0), (0.0, 4.0)), (0.0,) * 4)
    found = hanging(cube - prism(taper, 11.0).moved(0.0, 0.0, -1.0))
    assert found.area_mm2 == pytest.approx(220.0, rel=0.01)
    assert found.bridged_mm2 == pytest.approx(180.0, rel=0.01)


@pytest.mark.parametrize(
    ("diameter_mm", "chord_error_mm"), [(5.0, 0.02), (10.0, 0.02), (13.0, 0.02), (14.0, 0.001)]
)
def test_the_top_of_a_level_bore_is_a_bridge(diameter_mm: float, chord_error_mm: float) -> None:
    """Closed form: it leans over 45 degrees on a width of d sin 45, to one chord on each side.

    At 14 mm that is 9.9 mm, and only a mesh with short chords can tell.
    """
    body = MeshKernel(chord_error_mm=chord_error_mm).evaluate(bored(diameter_mm))
    found = unsupported(body.vertices_mm, body.triangles, down=DOWN)
    chord = 2.0 * math.sqrt(diameter_mm * chord_error_mm)
    # the slack makes it up to 1.3 % narrower: sin 45 less sin 44.25
    wide = diameter_mm * math.sqrt(0.5)
    assert found.area_mm2 == 0.0
    assert found.bridged_mm2 / 40.0 == pytest.approx(wide, abs=chord + 0.014 * wide)


def test_the_top_of_a_wide_level_bore_hangs() -> None:
    """Closed form: 16 sin 45 = 11.3 mm is longer than a bridge."""
    assert hanging(bored(16.0)).area_mm2 / 40.0 == pytest.approx(16.0 * math.sqrt(0.5), abs=0.8)


def test_a_teardrop_bore_of_any_width_prints() -> None:
    """A circle of radius r whose top is two tangents at 45 degrees that meet at r sqrt 2."""
    r, s = 15.0, 15.0 * math.sqrt(0.5)
    bulge = math.tan(math.radians(270.0 / 4.0))
    drop = Outline(((-s, s), (s, s), (0.0, 2.0 * s)), (bulge, 0.0, 0.0))
    assert drop.bounds == pytest.approx((-r, -r, r, 2.0 * s))
    cube = block(0.0, -20.0, -20.0, 30.0, 20.0, 30.0)
    found = hanging(cube - across(drop, -1.0, 31.0))
    assert found == Overhangs(0.0, 0.0, None, ())


@pytest.mark.parametrize(("lean_deg", "free"), [(44.0, True), (45.0, True), (46.0, False)])
def test_a_slope_prints_up_to_45_degrees(lean_deg: float, free: bool) -> None:
    """Closed form: 15 high and 20 wide, it covers 15 x 20 x tan a."""
    out = 15.0 * math.tan(math.radians(lean_deg))
    found = hanging(profile([(0, 0), (10, 0), (10 + out, 15), (0, 15)]))
    assert found.area_mm2 == pytest.approx(0.0 if free else 20.0 * out, abs=HAIR_MM2)


@settings(max_examples=40, deadline=None)
@given(lean_deg=st.floats(5.0, 80.0), spin_deg=st.floats(0.0, 360.0))
def test_any_slope_either_prints_or_hangs_with_its_plan(lean_deg: float, spin_deg: float) -> None:
    out = 15.0 * math.tan(math.radians(lean_deg))
    solid = profile([(0, 0), (10, 0), (10 + out, 15), (0, 15)]).turned("z", spin_deg)
    area = hanging(solid).area_mm2
    if lean_deg <= 45.5:
        assert area == 0.0
    elif lean_deg >= 46.0:
        assert area == pytest.approx(20.0 * out, rel=1e-4)


def test_an_upright_cone_that_widens_by_45_degrees_prints() -> None:
    found = hanging(Revolved(polygon([(0.0, 0.0), (5.0, 0.0), (25.0, 20.0), (0.0, 20.0)])))
    assert found.area_mm2 == 0.0


def test_a_ball_in_the_air_hangs_with_its_cap_and_starts_at_its_pole() -> None:
    """Closed form: a cap of radius r sin 45; its chords start at 45.75 degrees, to one facet."""
    r, chord = 10.0, math.radians(8.0)
    # the ball stands beside a post that reaches down to the bed
    half = Outline(((0.0, -r), (0.0, r)), (1.0, 0.0))
    post = block(9.0, -1.0, -20.0, 14.0, 1.0, 5.0)
    found = hanging(joined(Revolved(half), post))
    low = math.pi * (r * math.sin(math.pi / 4 - chord)) ** 2
    high = math.pi * (r * math.sin(math.pi / 4 + chord)) ** 2
    assert low < found.area_mm2 < high
    assert len(found.islands_mm) == 1
    assert found.islands_mm[0] == pytest.approx((0.0, 0.0, -r), abs=0.05)


@pytest.mark.parametrize(
    ("tip", "at"),
    [
        # a steep cone, a square spike that leans, a wedge: none has a facet that hangs
        (Revolved(polygon([(0.0, 4.0), (2.0, 12.0), (0.0, 12.0)])), (0.0, 0.0, 4.0)),
        (across(polygon([(3.0, 4.0), (1.0, 12.0), (-1.0, 12.0)]), -0.5, 0.5), (0.0, 3.0, 4.0)),
        (across(polygon([(0.0, 6.0), (2.0, 12.0), (-2.0, 12.0)]), -2.0, 2.0), (0.0, 0.0, 6.0)),
    ],
)
def test_what_points_down_into_the_air_is_an_island(tip: Solid, at: Vector) -> None:
    """A tip below a roof of 8 mm."""
    found = hanging(joined(gate(8.0, length_mm=8.0).moved(-4.0, -9.0, -4.0), tip))
    assert len(found.islands_mm) == 1
    assert found.islands_mm[0] == pytest.approx(at, abs=0.01)
    assert found.area_mm2 >= ISLAND_MM2


def test_a_cone_on_its_tip_stands_on_the_bed_and_is_no_island() -> None:
    found = hanging(Revolved(polygon([(0.0, 0.0), (10.0, 20.0), (0.0, 20.0)])))
    assert found == Overhangs(0.0, 0.0, None, ())


def test_a_pit_is_no_island() -> None:
    """Its bottom is a lowest place too, but the material is below it."""
    cup = block(0.0, 0.0, 0.0, 20.0, 20.0, 20.0) - Revolved(
        polygon([(0.0, 5.0), (8.0, 21.0), (0.0, 21.0)])
    ).moved(10.0, 10.0)
    assert hanging(cup) == Overhangs(0.0, 0.0, None, ())


@pytest.mark.parametrize(("out_mm", "starts"), [(0.8, 0), (30.0, 1)])
def test_the_keel_of_an_arm_needs_support_unless_it_is_short(out_mm: float, starts: int) -> None:
    """A V with faces of 27 degrees has no facet that hangs, and nothing below its lowest line."""
    wall = block(0.0, -5.0, 0.0, 40.0, 0.0, 40.0)
    arm = across(polygon([(0.0, 10.0), (4.0, 18.0), (-4.0, 18.0)]), -1.0, out_mm)
    found = hanging(joined(wall, arm.turned("z", 90.0).moved(20.0)))
    assert len(found.islands_mm) == starts
    assert found.area_mm2 == starts * ISLAND_MM2
    if starts:
        assert found.islands_mm[0][2] == pytest.approx(10.0)


@pytest.mark.parametrize(("gap_mm", "starts"), [(9.0, 0), (11.0, 1)])
def test_a_keel_between_two_walls_may_be_as_long_as_a_bridge(gap_mm: float, starts: int) -> None:
    bar = across(polygon([(0.0, 10.0), (4.0, 18.0), (-4.0, 18.0)]), -1.0, gap_mm + 1.0)
    walls = [block(x, -9.0, 0.0, x + 5.0, 9.0, 30.0) for x in (-5.0, gap_mm)]
    assert len(hanging(joined(*walls, bar)).islands_mm) == starts


@pytest.mark.parametrize("sides", [3, 4, 6])
def test_the_edges_of_a_pyramid_that_widens_by_45_degrees_print(sides: int) -> None:
    """They lean by atan(1 / sin(half the angle of a corner)), 63.4 degrees at most."""
    outer = [
        (math.cos(math.tau * k / sides + 0.1), math.sin(math.tau * k / sides + 0.1))
        for k in range(sides)
    ]
    grow = 5.0 + 10.0 / math.cos(math.pi / sides)
    low, high = (polygon([(r * x, r * y) for x, y in outer]) for r in (5.0, grow))
    assert hanging(Loft(low, high, 10.0)) == Overhangs(0.0, 0.0, None, ())


def test_a_t_prints_on_its_bar_and_not_on_its_stem() -> None:
    """Closed form: two arms of 17.5 x 10 mm."""
    tee = joined(block(-20.0, -5.0, 0.0, 20.0, 5.0, 5.0), block(-2.5, -5.0, 0.0, 2.5, 5.0, 30.0))
    assert hanging(tee) == Overhangs(0.0, 0.0, None, ())
    assert hanging(tee, down=(0.0, 0.0, 2.0)).area_mm2 == pytest.approx(350.0, abs=HAIR_MM2)


def test_the_tip_of_a_hook_that_hangs_down_is_an_island() -> None:
    """Closed form: a tip of 4 x 20 mm whose end hangs, and an arm of 21 x 20 mm beside it."""
    hook = profile([(0, 0), (5, 0), (5, 35), (26, 35), (26, 20), (30, 20), (30, 40), (0, 40)])
    found = hanging(hook)
    assert found.islands_mm == (pytest.approx((10.0, 28.0, 20.0)),)
    # the arm is held by the plate and by the tip, 21 mm apart
    assert found.area_mm2 == pytest.approx(20.0 * 4.0 + 20.0 * 21.0, abs=HAIR_MM2)
    upside_down = hanging(hook, down=(0.0, 0.0, 1.0))
    assert upside_down == Overhangs(0.0, 0.0, None, ())


@pytest.mark.parametrize(
    ("deep_mm", "long_mm", "free"),
    [(0.4, 20.0, True), (0.6, 20.0, False), (0.6, 8.0, True), (1.0, 8.0, False)],
)
def test_a_ledge_of_one_line_prints_and_a_short_one_of_two(
    deep_mm: float, long_mm: float, free: bool
) -> None:
    out = 10.0 + deep_mm
    ledge = profile([(0, 0), (10, 0), (10, 15), (out, 15), (out, 20), (0, 20)], long_mm)
    expected = 0.0 if free else deep_mm * long_mm
    assert hanging(ledge).area_mm2 == pytest.approx(expected, abs=HAIR_MM2)


@pytest.mark.parametrize("text", ["EFHLT", "AO4689", "B0 Ø12×8", "MVWXYZ"])
@pytest.mark.parametrize("spin_deg", [0.0, 90.0, 180.0])
def test_letters_cut_into_a_standing_face_print(text: str, spin_deg: float) -> None:
    letters = Lettering(text, 7.0, 1.0).turned("z", spin_deg).moved(30.0, 30.0, -0.6)
    plate = Difference(block(-40.0, -40.0, -5.0, 100.0, 100.0, 0.0), (letters,))
    assert hanging(plate.turned("x", 90.0)).area_mm2 <= ALLOWED_MM2


BRACKET = joined(
    bored(14.0, length_mm=20.0),
    block(0.0, 15.0, 20.0, 20.0, 30.0, 30.0),
    block(5.0, -19.0, 12.0, 9.0, -15.0, 16.0),
)


@settings(max_examples=20, deadline=None)
@given(degrees=st.floats(0.0, 360.0))
def test_turning_a_part_on_the_bed_changes_nothing(degrees: float) -> None:
    still, turned = hanging(BRACKET), hanging(BRACKET.turned("z", degrees))
    assert turned.area_mm2 == pytest.approx(still.area_mm2, abs=HAIR_MM2)
    assert turned.bridged_mm2 == pytest.approx(still.bridged_mm2, abs=HAIR_MM2)
    assert turned.islands_mm == still.islands_mm == ()


@pytest.mark.parametrize("down", [(0.0, 0.0, -1.0), (0.0, 1.0, 0.0), (-1.0, 0.0, 0.0)])
def test_putting_a_side_down_is_turning_the_part(down: Vector) -> None:
    rotation = {
        (0.0, 0.0, -1.0): turn("x", 0),
        (0.0, 1.0, 0.0): turn("x", -90),
        (-1.0, 0.0, 0.0): turn("y", -90),
    }[down]
    assert rotation.direct(down) == pytest.approx(DOWN)
    one, other = hanging(BRACKET, down=down), hanging(BRACKET.placed(rotation))
    assert one.area_mm2 == pytest.approx(other.area_mm2, abs=HAIR_MM2)
    assert one.bridged_mm2 == pytest.approx(other.bridged_mm2, abs=HAIR_MM2)
    assert one.worst_mm is not None
    assert other.worst_mm is not None
    # a corner of the part below the worst place lies on the same side of it
    assert rotation.apply(one.worst_mm)[2] == pytest.approx(other.worst_mm[2], abs=1e-6)


def finer(triangles: np.ndarray, vertices: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Return the mesh with each triangle in four."""
    edges = np.sort(np.concatenate([triangles[:, [k, (k + 1) % 3]] for k in range(3)]), axis=1)
    pairs, at = np.unique(edges, axis=0, return_inverse=True)
    middle = at.reshape(3, -1).T + len(vertices)
    a, b, c = triangles.T
    ab, bc, ca = middle.T
    parts = [(a, ab, ca), (b, bc, ab), (c, ca, bc), (ab, bc, ca)]
    return (
        np.concatenate([vertices, vertices[pairs].mean(axis=1)]),
        np.concatenate([np.column_stack(part) for part in parts]),
    )


@pytest.mark.parametrize("solid", [BRACKET, gate(9.9), gate(10.1), bored(16.0)])
def test_a_finer_mesh_of_the_same_part_gives_the_same(solid: Solid) -> None:
    vertices, triangles = mesh(solid)
    coarse = unsupported(vertices, triangles, down=DOWN)
    points, fine = finer(triangles.astype(np.int64), vertices)
    refined = unsupported(points, fine, down=DOWN)
    assert refined.area_mm2 == pytest.approx(coarse.area_mm2, abs=HAIR_MM2)
    assert refined.bridged_mm2 == pytest.approx(coarse.bridged_mm2, abs=HAIR_MM2)


def test_the_check_takes_the_better_side_and_says_where_it_fails() -> None:
    """A plate with a shelf prints on either side; with an ear on one side, on the other."""
    shelf = profile([(0, 0), (5, 0), (5, 30), (45, 30), (45, 35), (0, 35)])
    one_ear = joined(shelf, block(-10.0, 10.0, 30.0, 20.0, 20.0, 35.0))
    two_ears = joined(one_ear, block(0.0, 10.0, 30.0, 30.0, 20.0, 35.0))
    for solid in (shelf, one_ear):
        result = check_support_free(*mesh(solid), pose="on-its-side")
        assert result.holds
        assert (result.demand, result.capacity, result.note) == (0.0, ALLOWED_MM2, "on-its-side")
    # closed form: the plate is held 10 mm above the bed by the ear, which is 10 x 5 of 275
    worst = check_support_free(*mesh(two_ears), pose="on-its-side")
    assert not worst.holds
    assert worst.demand == pytest.approx(5.0 * 35.0 + 40.0 * 5.0 - 10.0 * 5.0, abs=HAIR_MM2)
    assert worst.note.startswith("on-its-side, worst at x ")
    pointed = joined(gate(8.0), across(polygon([(9.0, 8.0), (11.0, 16.0), (7.0, 16.0)]), 9.0, 20.0))
    assert "starts in the air at 1 place" in check_support_free(*mesh(pointed), pose="upright").note


def test_an_open_mesh_and_a_direction_without_length_are_refused() -> None:
    vertices, triangles = mesh(gate(9.0))
    roof = np.flatnonzero((vertices[triangles][:, :, 2] == 15.0).all(axis=1))
    with pytest.raises(PartError, match="open"):
        unsupported(vertices, np.delete(triangles, roof[0], axis=0), down=DOWN)
    with pytest.raises(ShapeError, match="length"):
        unsupported(vertices, triangles, down=(0.0, 0.0, 0.0))


def test_a_large_part_is_judged_quickly() -> None:
    """About 4,000 triangles with 24 bores; the bound is loose, for a slow machine."""
    row = Difference(
        block(0.0, 0.0, 0.0, 40.0, 480.0, 20.0),
        tuple(across(circle(9.0, at=(10.0 + 20.0 * k, 10.0)), -1.0, 41.0) for k in range(24)),
    )
    vertices, triangles = mesh(row)
    assert len(triangles) > 3000
    start = time.perf_counter()
    assert unsupported(vertices, triangles, down=DOWN).area_mm2 == 0.0
    assert time.perf_counter() - start < 0.25
