"""Overhang areas against closed forms, and the choice among the six poses."""

import math

import manifold3d as m3
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.printing.meshfile import PrintMesh, print_mesh
from cleatwright.printing.pose import DOWN, Pose, all_poses, best_pose
from cleatwright.shapes.rigid import Rigid, turn

BED = (220.0, 220.0, 250.0)


def as_mesh(body: m3.Manifold) -> PrintMesh:
    found = body.to_mesh()
    corners = np.asarray(found.vert_properties)[:, :3]
    return print_mesh("part", "M", vertices=corners, triangles=found.tri_verts)


def profile(points: list[tuple[float, float]], width_mm: float) -> PrintMesh:
    """Return an outline in the xz plane, drawn out along y."""
    section = m3.CrossSection([np.array(points, dtype=np.float64)])
    return as_mesh(m3.Manifold.extrude(section, width_mm).rotate([90, 0, 0]))


def box(x: float, y: float, z: float) -> PrintMesh:
    return as_mesh(m3.Manifold.cube([x, y, z]))


def as_it_stands(mesh: PrintMesh) -> Pose:
    return all_poses(mesh, bed_mm=BED)[0]


@pytest.mark.parametrize(
    ("lean_deg", "expected"),
    [
        (40.0, 0.0),
        (45.0, 0.0),
        (50.0, 300.0 * math.tan(math.radians(50.0))),
        (60.0, 300.0 * math.tan(math.radians(60.0))),
    ],
)
def test_a_ramp_hangs_over_from_45_degrees_on(lean_deg: float, expected: float) -> None:
    """Closed form: a face 15 high and 20 wide that leans by a covers 15 x 20 x tan a of the bed."""
    out = 15.0 * math.tan(math.radians(lean_deg))
    mesh = profile([(0, 0), (10, 0), (10 + out, 15), (0, 15)], 20.0)
    pose = as_it_stands(mesh)
    assert pose.overhang_mm2 == pytest.approx(expected, abs=1e-3)
    assert pose.needs_support == (expected > 0)


def test_a_cantilever_hangs_over_with_its_whole_plan() -> None:
    """Closed form: 10 x 20 = 200 mm2."""
    mesh = profile([(0, 0), (10, 0), (10, 20), (20, 20), (20, 25), (0, 25)], 20.0)
    assert as_it_stands(mesh).overhang_mm2 == pytest.approx(200.0)


def test_a_cube_on_the_bed_hangs_over_nowhere() -> None:
    for pose in all_poses(box(20, 20, 20), bed_mm=BED):
        assert pose.overhang_mm2 == 0.0
        assert not pose.needs_support


def test_a_ball_hangs_over_below_45_degrees_of_latitude() -> None:
    """Closed form: the disc of radius r sin a, less what touches the bed; a is 44.25 degrees."""
    mesh = as_mesh(m3.Manifold.sphere(10.0, 256))
    disc = math.pi * (10.0 * math.sin(math.radians(44.25))) ** 2
    assert as_it_stands(mesh).overhang_mm2 == pytest.approx(disc, rel=0.01)


@pytest.mark.parametrize(("gap_mm", "needs"), [(9.0, False), (11.0, True)])
def test_a_bridge_of_up_to_ten_millimetres_needs_no_support(gap_mm: float, needs: bool) -> None:
    """Closed form: a roof of 20 mm times the gap, between two pillars."""
    g = gap_mm
    outline = [(0, 0), (5, 0), (5, 15), (5 + g, 15), (5 + g, 0), (10 + g, 0), (10 + g, 20), (0, 20)]
    pose = as_it_stands(profile(outline, 20.0))
    roof = pytest.approx(20.0 * g, abs=0.01)
    assert (pose.overhang_mm2, pose.bridged_mm2) == ((roof, 0.0) if needs else (0.0, roof))
    assert pose.needs_support == needs


def test_a_wedge_that_points_down_needs_support_without_any_overhang() -> None:
    """Its faces lean by atan(2 / 6), 18 degrees; its edge hangs 9 mm above the bed."""
    gate = [
        (0, 0),
        (5, 0),
        (5, 15),
        (7, 15),
        (9, 9),
        (11, 15),
        (13, 15),
        (13, 0),
        (18, 0),
        (18, 20),
    ]
    pose = as_it_stands(profile([*gate, (0, 20)], 20.0))
    assert pose.islands == 1
    assert pose.needs_support


@pytest.mark.parametrize(("down", "rotation"), DOWN)
def test_each_rotation_puts_its_side_down(down: str, rotation: Rigid) -> None:
    """The outward normal of the side that is put down points to -z afterwards."""
    axis, sign = "xyz".index(down[1]), -1.0 if down[0] == "-" else 1.0
    outward = [0.0, 0.0, 0.0]
    outward[axis] = sign
    turned = rotation.direct((outward[0], outward[1], outward[2]))
    assert turned == (0.0, 0.0, -1.0)
    rows = np.array(rotation.rows)
    assert np.linalg.det(rows) == pytest.approx(1.0)


@pytest.mark.parametrize("at", range(6))
def test_a_pose_measures_what_the_turned_mesh_measures(at: int) -> None:
    mesh = profile([(0, 0), (10, 0), (10, 20), (33, 27), (20, 31), (0, 31)], 17.0)
    pose = all_poses(mesh, bed_mm=BED)[at]
    turned = mesh.moved(pose.rotation)
    assert (*pose.footprint_mm, pose.height_mm) == pytest.approx(turned.size_mm)
    assert pose.overhang_mm2 == pytest.approx(as_it_stands(turned).overhang_mm2, abs=1e-6)


def test_a_bracket_lies_on_its_profile() -> None:
    """An angle bracket printed on its side hangs over nowhere."""
    mesh = profile([(0, 0), (5, 0), (5, 40), (45, 40), (45, 45), (0, 45)], 30.0)
    pose = best_pose(mesh.moved(turn("z", 90)), bed_mm=BED)
    assert pose.down in {"+x", "-x"}
    assert pose.overhang_mm2 == 0.0
    assert pose.height_mm == pytest.approx(30.0)


@pytest.mark.parametrize(
    ("size", "down", "cost"),
    [
        # by hand: 8 mm2 for each mm of height; 200 more upright, 800 on the back
        ((30.0, 20.0, 10.0), "-x", 8 * 30),
        ((20.0, 20.0, 20.0), "-x", 8 * 20),
        ((60.0, 30.0, 20.0), "-z", 8 * 20 + 200),
        # on its side it would be 60 mm more than four times its narrower side of 10 mm
        ((100.0, 20.0, 10.0), "-z", 8 * 10 + 200),
        ((200.0, 8.0, 150.0), "-y", 8 * 8 + 800),
    ],
)
def test_a_box_lies_where_height_layers_and_footprint_cost_least(
    size: tuple[float, float, float], down: str, cost: float
) -> None:
    pose = best_pose(box(*size), bed_mm=BED)
    assert pose.down == down
    assert pose.cost_mm2 == pytest.approx(cost)


def test_a_tall_part_on_a_narrow_foot_pays_for_each_mm_that_sways() -> None:
    """By hand: 246 mm on 30 by 56 is 246 - 4 x 30 = 126 mm too tall."""
    pose = next(p for p in all_poses(box(246, 30, 56), bed_mm=BED) if p.down == "-x")
    assert pose.cost_mm2 == pytest.approx(8 * 246 + 20 * 126)


def test_fitting_the_bed_comes_before_overhang_and_height() -> None:
    long = box(320, 20, 10)
    lying = best_pose(long, bed_mm=(330, 220, 250))
    standing = best_pose(long, bed_mm=(220, 220, 330))
    assert (lying.down, lying.fits) == ("-z", True)
    assert (standing.height_mm, standing.fits) == (pytest.approx(320.0), True)
    assert not best_pose(long, bed_mm=BED).fits


def test_a_long_part_fits_across_the_corners_of_the_bed() -> None:
    """Closed form: 300 by 10 at 45 degrees takes 310 / sqrt 2 = 219.2 mm each way."""
    assert best_pose(box(300, 10, 30), bed_mm=(219.3, 219.3, 50)).fits
    assert not best_pose(box(300, 10, 30), bed_mm=(219.1, 219.1, 50)).fits


def test_a_quarter_turn_counts_as_fitting() -> None:
    assert best_pose(box(300, 100, 10), bed_mm=(120, 310, 50)).fits


def bracket(*, shelf_mm: float, width_mm: float) -> PrintMesh:
    """Return a plate in the xz plane with a shelf standing out of it along y."""
    plate = m3.Manifold.cube([width_mm, 5.0, 60.0])
    return as_mesh(plate + m3.Manifold.cube([width_mm, 5.0 + shelf_mm, 6.0]).translate([0, 0, 40]))


def test_a_part_that_hangs_lies_on_its_side_with_its_layers_along_the_arm() -> None:
    """Its profile is the same all along x, so that on its side it has no overhang at all."""
    pose = best_pose(bracket(shelf_mm=40.0, width_mm=30.0), bed_mm=BED)
    assert pose.down[1] == "x"
    assert pose.overhang_mm2 == 0.0


def test_any_pose_without_support_comes_before_a_stronger_one_with_some() -> None:
    """A web in the middle of x hangs over on the side and upright, and stands up on the back."""
    plate = m3.Manifold.cube([40.0, 10.0, 100.0])
    mesh = as_mesh(plate + m3.Manifold.cube([15.0, 30.0, 8.0]).translate([12.5, 10.0, 40.0]))
    poses = all_poses(mesh, bed_mm=BED)
    on_side = min(p.overhang_mm2 for p in poses if p.down[1] == "x")
    upright = min(p.overhang_mm2 for p in poses if p.down[1] == "z")
    # closed forms: 30 x 8 and 30 x 15, both far less than the extra that strength may cost
    assert (on_side, upright) == pytest.approx((240.0, 450.0), abs=0.01)
    chosen = best_pose(mesh, bed_mm=BED)
    assert (chosen.down, chosen.needs_support) == ("-y", False)


def test_of_two_poses_without_support_the_stronger_is_taken() -> None:
    """A gusset at 45 degrees prints upright and on its side; a lower pose would be on its back."""
    mesh = profile([(0, 0), (5, 0), (5, 20), (20, 35), (20, 40), (0, 40)], 30.0).moved(
        turn("z", 90)
    )
    free = {pose.down for pose in all_poses(mesh, bed_mm=BED) if not pose.needs_support}
    assert {"-z", "-x", "+x"} <= free
    assert best_pose(mesh, bed_mm=BED).down[1] == "x"


@pytest.mark.parametrize(("high_mm", "down"), [(15.0, "x"), (40.0, "z")])
def test_when_all_need_support_overhang_and_height_are_weighed(high_mm: float, down: str) -> None:
    """Closed forms: two webs of 15 mm hang over with 30 times their height, or with 30 x 5.

    On its side the part is 40 mm high, upright 100: 60 mm less height and layers along the
    plate are worth 60 x 8 + 200 = 680 mm2, so the side wins up to 30 h = 150 + 680.
    """
    plate = m3.Manifold.cube([40.0, 10.0, 100.0])
    web = m3.Manifold.cube([5.0, 40.0, high_mm]).translate([17.5, -15.0, 10.0])
    mesh = as_mesh(plate + web)
    poses = all_poses(mesh, bed_mm=BED)
    assert all(pose.needs_support for pose in poses)
    on_side = min(p.overhang_mm2 for p in poses if p.down[1] == "x")
    assert on_side == pytest.approx(30.0 * high_mm, rel=1e-4)
    assert min(p.overhang_mm2 for p in poses) == pytest.approx(150.0, abs=0.01)
    assert (on_side < 150.0 + 60.0 * 8.0 + 200.0) == (down == "x")
    assert best_pose(mesh, bed_mm=BED).down[1] == down


def test_a_long_bar_lies_low_though_its_side_has_a_little_less_overhang() -> None:
    """A bar 200 mm long with a lip all along: its end is free, but 200 mm high on 20 by 30."""
    bar = m3.Manifold.cube([200.0, 5.0, 30.0])
    lip = m3.Manifold.cube([200.0, 15.0, 5.0]).translate([0.0, 5.0, 25.0])
    pegs = [m3.Manifold.cube([4.0, 15.0, 4.0]).translate([x, 5.0, 0.0]) for x in (20.0, 170.0)]
    mesh = as_mesh(bar + lip + pegs[0] + pegs[1])
    by_side = {pose.down: pose for pose in all_poses(mesh, bed_mm=BED)}
    assert by_side["+x"].needs_support
    assert by_side["+x"].overhang_mm2 < by_side["+z"].overhang_mm2 + 200.0
    assert best_pose(mesh, bed_mm=BED).height_mm <= 30.0 + 1e-6


@settings(max_examples=30, deadline=None)
@given(
    sides=st.tuples(*[st.floats(5.0, 260.0)] * 3),
    web=st.tuples(st.floats(3.0, 40.0), st.floats(3.0, 40.0)),
)
def test_the_chosen_pose_costs_least_of_all_six(
    sides: tuple[float, float, float], web: tuple[float, float]
) -> None:
    plate = m3.Manifold.cube(list(sides))
    arm = m3.Manifold.cube([3.0, sides[1] + web[0], 3.0]).translate([1.0, 0.0, 1.0])
    mesh = as_mesh(plate + arm + arm.translate([0.0, 0.0, sides[2] / 2]))
    chosen = best_pose(mesh, bed_mm=BED)
    assert chosen == min(all_poses(mesh, bed_mm=BED), key=lambda pose: pose.rank)


def test_a_part_too_long_for_its_side_stands_otherwise() -> None:
    """Upright on its side it would be 300 mm high; the bed takes 250."""
    pose = best_pose(bracket(shelf_mm=40.0, width_mm=300.0), bed_mm=(310.0, 310.0, 250.0))
    assert pose.fits
    assert pose.down[1] != "x"
