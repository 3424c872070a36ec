"""What a grip promises to be free is free in the envelope: checked by Boolean overlap."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.tools.ordinary import example, overlap

from cleatwright.parts.grips import FlatEdge, Loop, Overhang, ShaftEnd, Shoulder, Straddle
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import circle
from cleatwright.shapes.solid import Difference, block, prism
from cleatwright.tools.registry import tool_body


@settings(deadline=None, max_examples=40)
@given(
    gap=st.floats(1.0, 20.0),
    spread=st.floats(26.0, 120.0),
    leg=st.floats(60.0, 130.0),
    below=st.floats(2.0, 25.0),
)
def test_the_gap_of_pliers_is_free_and_no_wider(
    gap: float, spread: float, leg: float, below: float
) -> None:
    body = example("pliers", gap=gap, spread=spread, leg_length=leg, gap_below=below)
    grip = body.needed_grip(Straddle)
    half, high = gap / 2, grip.z_mm - below
    inside = block(-half + 1e-4, -50.0, -1.0, half - 1e-4, 50.0, high - 1e-4)
    assert overlap(body, inside) == pytest.approx(0.0, abs=1e-6)
    wider = block(-half - 0.1, -50.0, -1.0, half + 0.1, 50.0, high)
    assert overlap(body, wider) == pytest.approx(2 * 0.1 * 11.0 * high, rel=1e-3)
    assert body.extent_mm[1][0] == pytest.approx(max(spread, 26.0) / 2)


def test_pliers_with_a_joint_wider_than_their_legs_keep_both_widths() -> None:
    body = example("pliers", head_width=60.0, spread=40.0, nose_width=60.0)
    beside = Difference(
        block(-40.0, -50.0, 0.0, 40.0, 50.0, 99.0), (block(-20.0, -60.0, -1.0, 20.0, 60.0, 100.0),)
    )
    assert overlap(body, beside) == pytest.approx(0.0, abs=1e-6)
    assert body.extent_mm[1][0] == pytest.approx(30.0)


@settings(deadline=None, max_examples=30)
@given(outer=st.floats(80.0, 600.0), share=st.floats(0.1, 0.35), thickness=st.floats(5.0, 80.0))
def test_the_opening_of_a_coil_is_free(outer: float, share: float, thickness: float) -> None:
    bundle = min(outer * share, 200.0)
    body = tool_body("coil", {"outer": outer, "bundle": bundle, "thickness": thickness})
    _check_loop(body, outer / 2, outer - 2 * bundle)


def test_the_ring_of_a_wrench_is_free() -> None:
    body = example("flat-wrench", ring=19.0)
    _check_loop(body, 170.0 - 29.0 / 2, 19.0)


def _check_loop(body: ToolBody, centre_z: float, measured: float) -> None:
    grip = body.needed_grip(Loop)
    assert grip.width_mm == grip.height_mm
    # the chords of the sectors take away at most 3.5 % of what was measured (cos 15 degrees)
    assert 0.965 * measured < grip.width_mm <= measured
    assert grip.z_mm == pytest.approx(centre_z + grip.height_mm / 2)
    peg = prism(circle(grip.width_mm - 1e-3), 400.0).turned("x", 90.0)
    assert overlap(body, peg.moved(0.0, 200.0, centre_z)) == pytest.approx(0.0, abs=1e-6)
    above = block(-1.0, -50.0, grip.z_mm, 1.0, 50.0, grip.z_mm + 1.0)
    assert overlap(body, above) == pytest.approx(2.0 * grip.bundle_mm, rel=1e-3)


def test_a_wrench_without_a_ring_offers_no_loop() -> None:
    assert example("flat-wrench").grip(Loop) is None


@pytest.mark.parametrize("ferrule", [0.0, 8.0, 12.0])
def test_nothing_wider_than_the_neck_lies_below_a_shoulder(ferrule: float) -> None:
    body = example("screwdriver", ferrule=ferrule, ferrule_length=10.0 if ferrule else 0.0)
    for grip in body.grips:
        assert isinstance(grip, Shoulder)
        low = grip.z_mm - grip.neck_length_mm
        bore = prism(circle(grip.neck_mm + 1e-3), grip.neck_length_mm).moved(0.0, 0.0, low)
        around = block(-50.0, -50.0, low, 50.0, 50.0, grip.z_mm)
        assert overlap(body, around - bore) == pytest.approx(0.0, abs=1.0)
        above = prism(circle(grip.shoulder_mm), 1.0, holes=(circle(grip.neck_mm),))
        assert overlap(body, above.moved(0.0, 0.0, grip.z_mm)) > 1.0


def test_the_widest_ledge_of_a_screwdriver_comes_first() -> None:
    body = example("screwdriver", shank=6.0, ferrule=28.0, handle=30.0)
    shoulders = [g for g in body.grips if isinstance(g, Shoulder)]
    assert [(s.neck_mm, s.shoulder_mm) for s in shoulders] == [(6.0, 28.0), (28.0, 30.0)]


def test_the_shaft_of_a_wrench_is_straight_between_its_heads() -> None:
    body = example("flat-wrench")
    grip = body.needed_grip(FlatEdge)
    x, y = grip.width_mm / 2, grip.thickness_mm / 2
    around = block(-50.0, -50.0, grip.low_mm, 50.0, 50.0, grip.high_mm)
    bar = block(-x, -y, grip.low_mm, x, y, grip.high_mm)
    assert overlap(body, around) == pytest.approx(8.0 * x * y * 121.0 / 2, rel=1e-6)
    assert overlap(body, around - bar.moved()) == pytest.approx(0.0, abs=1e-6)


def test_a_hex_key_fills_its_bore_and_points_its_short_arm_at_the_person() -> None:
    body = example("hex-key")
    grip = body.needed_grip(ShaftEnd)
    bore = prism(circle(grip.diameter_mm + 1e-3), grip.length_mm)
    around = block(-50.0, -50.0, 0.0, 50.0, 50.0, grip.length_mm)
    assert overlap(body, around - bore) == pytest.approx(0.0, abs=0.5)
    low, high = body.extent_mm
    assert (low[1], high[1], high[2]) == pytest.approx((-2.5, 28.0 - 2.5, 80.0))


@pytest.mark.parametrize("handle", [14.0, 34.0])
def test_a_hammer_keeps_its_neck_for_25_mm_below_a_flat_underside(handle: float) -> None:
    body = example("hammer", handle_width=handle)
    grip = body.needed_grip(Overhang)
    z, x, y = grip.z_mm, grip.neck_x_mm / 2, grip.neck_y_mm / 2
    around = block(-99.0, -99.0, z - 25.0, 99.0, 99.0, z)
    assert overlap(body, around) == pytest.approx(4 * x * y * 25.0, rel=1e-6)
    head = block(-99.0, -99.0, z, 99.0, 99.0, z + 1.0)
    assert overlap(body, head) == pytest.approx(grip.head_x_mm * grip.head_y_mm, rel=1e-6)
