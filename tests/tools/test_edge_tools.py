"""Edge tools, saws, files, squares, rules and callipers: closed forms and what grips promise."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.tools.ordinary import example, overlap

from cleatwright.base.errors import MeasureError
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.grips import Blade, EyeHole, FlatEdge, Loop, Overhang, Shoulder, ThinPlate
from cleatwright.shapes.outline import circle
from cleatwright.shapes.solid import Union, block, prism
from cleatwright.tools.features.plates import SIDES, free_hole_mm, hand_hole, pierced, round_hole

BLADES = ("chisel", "marking-knife", "scissors", "hand-saw", "back-saw")
PLATES = ("hand-saw", "square", "rule", "scraper")
FAR_MM = 999.0


@pytest.mark.parametrize("name", BLADES)
def test_nothing_but_the_blade_lies_below_its_stop(name: str) -> None:
    body = example(name)
    grip = body.needed_grip(Blade)
    x, y, low = grip.width_mm / 2, grip.thickness_mm / 2, grip.z_mm - grip.length_mm
    around = block(-FAR_MM, -FAR_MM, -FAR_MM, FAR_MM, FAR_MM, grip.z_mm)
    inside = block(-x, -y, low, x, y, grip.z_mm)
    assert overlap(body, around - inside) == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize("name", BLADES)
def test_the_stop_reaches_as_far_as_it_says(name: str) -> None:
    body = example(name)
    grip = body.needed_grip(Blade)
    high = grip.z_mm + 0.5
    above = block(-FAR_MM, -FAR_MM, grip.z_mm + 0.01, FAR_MM, FAR_MM, high)
    facts = MeshKernel().evaluate(Union(body.envelope) & above).facts
    assert facts.size_mm[:2] == pytest.approx((grip.stop_x_mm, grip.stop_y_mm), abs=0.05)


@pytest.mark.parametrize("name", PLATES)
def test_a_thin_plate_is_thin_up_to_its_height_and_level_below(name: str) -> None:
    body = example(name)
    grip = body.needed_grip(ThinPlate)
    kernel = MeshKernel()
    turned = kernel.evaluate(Union(tuple(p.placed(grip.pose) for p in body.envelope)))
    x = grip.thickness_mm / 2
    for left, right in ((-FAR_MM, -x), (x, FAR_MM)):
        beside = block(left, -FAR_MM, -1.0, right, FAR_MM, grip.height_mm)
        assert turned.overlap_mm3(kernel.evaluate(beside)) == pytest.approx(0.0, abs=1e-6)
    foot = block(-x, grip.edge_y0_mm, 0.0, x, grip.edge_y1_mm, 0.01)
    assert turned.overlap_mm3(kernel.evaluate(foot)) == pytest.approx(foot_volume(grip), rel=1e-3)
    before = block(-FAR_MM, grip.edge_y1_mm, -1.0, FAR_MM, FAR_MM, grip.height_mm)
    assert turned.overlap_mm3(kernel.evaluate(before)) == pytest.approx(0.0, abs=1e-6)


def foot_volume(grip: ThinPlate) -> float:
    return 0.01 * grip.thickness_mm * (grip.edge_y1_mm - grip.edge_y0_mm)


@settings(deadline=None, max_examples=30)
@given(
    half=st.floats(15.0, 60.0),
    below=st.floats(1.0, 60.0),
    above=st.floats(1.0, 60.0),
    share=st.floats(0.2, 0.9),
)
def test_pieces_around_a_hole_leave_out_the_hole_and_nothing_else(
    half: float, below: float, above: float, share: float
) -> None:
    """Areas: a rectangle less a regular twelve-sided polygon, n/2 r^2 sin(2 pi / n)."""
    diameter = 2.0 * half * share
    low, high = -diameter / 2 - below, diameter / 2 + above
    pieces = pierced(half, low, high, round_hole(diameter, 0.0))
    hole = SIDES / 2 * (diameter / 2) ** 2 * math.sin(2.0 * math.pi / SIDES)
    area = 2.0 * half * (high - low) - hole
    assert sum(piece.area_mm2 for piece in pieces) == pytest.approx(area, rel=1e-9)


def test_a_hand_hole_is_drawn_within_its_round_ends() -> None:
    for x, z in hand_hole(90.0, 42.0, 100.0):
        assert math.hypot(max(abs(x) - 24.0, 0.0), z - 100.0) == pytest.approx(21.0, abs=1e-9)


@pytest.mark.parametrize(("name", "grip"), [("rule", EyeHole), ("hand-saw", EyeHole)])
def test_a_pin_goes_through_a_hole_and_bears_at_its_top(name: str, grip: type[EyeHole]) -> None:
    body = example(name)
    eye = body.needed_grip(grip)
    pin = prism(circle(eye.diameter_mm - 1e-3), 400.0).turned("x", 90.0)
    centre = eye.z_mm - eye.diameter_mm / 2
    assert overlap(body, pin.moved(0.0, 200.0, centre)) == pytest.approx(0.0, abs=1e-6)
    bar = block(-0.2, -50.0, eye.z_mm, 0.2, 50.0, eye.z_mm + 0.1)
    assert overlap(body, bar) == pytest.approx(0.4 * 0.1 * eye.thickness_mm, rel=1e-3)


def test_the_loop_of_a_saw_is_as_wide_and_as_high_as_it_was_measured() -> None:
    grip = example("back-saw").needed_grip(Loop)
    assert (grip.width_mm, grip.height_mm, grip.bundle_mm) == (85.0, 42.0, 22.0)
    assert grip.z_mm == pytest.approx(250.0 + 105.0 / 2 + 21.0)


def test_a_rule_weighs_its_steel() -> None:
    """Closed form: 7850 kg/m3 (steel tables), 300 by 28 by 1 mm less a hole of twelve sides."""
    hole = SIDES / 2 * 3.0**2 * math.sin(2.0 * math.pi / SIDES)
    assert example("rule").mass_kg == pytest.approx((300.0 * 28.0 - hole) * 7850e-9, rel=1e-9)
    assert free_hole_mm(6.0) == pytest.approx(6.0 * math.cos(math.radians(15.0)))
    plain = example("rule", hole=0.0, hole_rim=0.0)
    assert plain.grip(EyeHole) is None
    assert plain.mass_kg == pytest.approx(300.0 * 28.0 * 7850e-9, rel=1e-12)


def test_the_plate_of_a_hand_saw_is_a_trapezium() -> None:
    """Closed form: half the sum of heel and toe; 100 mm more of plate are added at its mean."""
    steel = (115.0 + 55.0) / 2 * 1.4 * 7850e-9
    longer, saw = example("hand-saw", plate_length=600.0), example("hand-saw")
    assert longer.mass_kg - saw.mass_kg == pytest.approx(100.0 * steel, rel=1e-9)


@pytest.mark.parametrize(
    ("bolster", "length", "blade"),
    [
        (17.0, 8.0, Blade(110.0, 110.0, 18.0, 5.0, 17.0, 17.0)),
        (9.0, 8.0, Blade(118.0, 118.0, 18.0, 9.0, 32.0, 32.0)),
        (0.0, 0.0, Blade(110.0, 110.0, 18.0, 5.0, 32.0, 32.0)),
    ],
)
def test_a_chisel_rests_on_its_bolster_when_that_is_wide_enough(
    bolster: float, length: float, blade: Blade
) -> None:
    assert example("chisel", bolster=bolster, bolster_length=length).grip(Blade) == blade


def test_a_chisel_as_wide_as_its_handle_has_no_shoulder() -> None:
    assert example("chisel").grip(Shoulder) is not None
    assert example("chisel", blade_width=38.0).grip(Shoulder) is None


def test_a_round_file_has_no_flat_edge_and_a_flat_one_has_the_circle_around_it() -> None:
    """Pythagoras: 20 by 15 mm lie within 25 mm."""
    assert example("file", width=8.0, thickness=0.0).grip(FlatEdge) is None
    neck = example("file", width=20.0, thickness=15.0).needed_grip(Shoulder)
    assert neck.neck_mm == pytest.approx(25.0)


def test_the_shorter_jaw_of_a_calliper_says_how_wide_its_head_is() -> None:
    grip = example("calliper").needed_grip(Overhang)
    assert grip.head_x_mm == 2.0 * (8.0 + 17.0)
    other = example("calliper", small_jaw=50.0).needed_grip(Overhang)
    assert other.head_x_mm == 2.0 * (8.0 + 40.0)


@pytest.mark.parametrize(("handle", "blade"), [(16.2, 11.2), (16.2332, 11.2332), (20.3, 15.3)])
def test_a_handle_that_stands_out_just_as_far_as_it_must_is_none_of_the_faults(
    handle: float, blade: float
) -> None:
    """By hand 16.2 - 11.2 = 5.0, twice 2.5 mm, although doubles make a little less of it."""
    sizes = {"handle_width": handle, "blade_width": blade, "handle_thickness": 4.0}
    body = example("marking-knife", **sizes, blade_thickness=1.0)
    assert body.grip(Blade) is not None
    with pytest.raises(MeasureError, match="stand out less"):
        example("marking-knife", **sizes | {"blade_width": blade + 0.01}, blade_thickness=1.0)
