"""Tools that hang by a hole, an arm or a strap: what is free, and closed forms of their masses.

Weights called ordinary are trade weights, common practice without a source.
"""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.tools.ordinary import example, overlap

from cleatwright.parts.grips import EyeHole, HookedArm, Loop
from cleatwright.shapes.outline import circle
from cleatwright.shapes.solid import block, prism
from cleatwright.tools.registry import tool_body


@pytest.mark.parametrize("name", ["adjustable-wrench", "pipe-wrench", "paint-brush"])
@pytest.mark.parametrize("hole", [5.0, 9.0, 17.0])
def test_the_hole_of_a_handle_is_free_and_its_rim_is_not(name: str, hole: float) -> None:
    """A regular polygon of 12 sides within the hole leaves cos(pi / 12) of it free."""
    body = example(name, hole=hole)
    grip = body.needed_grip(EyeHole)
    assert grip.diameter_mm == pytest.approx(hole * math.cos(math.pi / 12))
    middle = grip.z_mm - grip.diameter_mm / 2
    peg = prism(circle(grip.diameter_mm - 1e-3), 400.0).turned("x", 90.0)
    assert overlap(body, peg.moved(0.0, 200.0, middle)) == pytest.approx(0.0, abs=1e-6)
    above = block(-1.0, -50.0, grip.z_mm, 1.0, 50.0, grip.z_mm + grip.rim_mm)
    expected = 2.0 * grip.thickness_mm * grip.rim_mm
    assert overlap(body, above) == pytest.approx(expected, rel=1e-6)
    assert body.extent_mm[1][2] == pytest.approx(grip.z_mm + grip.rim_mm)


@settings(deadline=None, max_examples=15)
@given(throat=st.floats(40.0, 150.0), opening=st.floats(20.0, 120.0), pad=st.floats(0.5, 15.0))
def test_behind_the_bar_of_a_clamp_it_is_free_below_the_arm(
    throat: float, opening: float, pad: float
) -> None:
    body = example("bar-clamp", throat=throat, opening=opening, pad=pad)
    grip = body.needed_grip(HookedArm)
    back = -grip.bar_y_mm / 2
    high, end = grip.z_mm, back - grip.reach_mm
    free = block(-50.0, end + grip.nose_y_mm, high - grip.free_mm, 50.0, back, high)
    assert overlap(body, free) == pytest.approx(0.0, abs=1e-6)
    under = block(-50.0, end - 9.0, high - grip.free_mm, 50.0, back, high - grip.nose_mm)
    assert overlap(body, under) == pytest.approx(0.0, abs=1e-6)
    arm = block(-50.0, end - 9.0, high, 50.0, back, high + 1.0)
    assert overlap(body, arm) == pytest.approx(grip.reach_mm * grip.arm_x_mm, rel=1e-6)


def test_the_strap_of_goggles_leaves_its_opening_free() -> None:
    body = example("goggles")
    grip = body.needed_grip(Loop)
    x = grip.width_mm / 2
    inside = block(-x, -99.0, grip.z_mm - grip.height_mm, x, 99.0, grip.z_mm)
    assert overlap(body, inside) == pytest.approx(0.0, abs=1e-6)
    assert (grip.width_mm, grip.height_mm, grip.bundle_mm) == (164.0, 127.0, 25.0)


def test_a_mallet_is_a_hammer_of_wood() -> None:
    """All of it is wood: volumes of blocks, an oval as pi / 4 of its box, times 720 kg/m3."""
    sizes = {
        "length": 300.0,
        "head_length": 150.0,
        "head_width": 70.0,
        "head_height": 100.0,
        "neck_width": 30.0,
        "neck_depth": 30.0,
        "handle_width": 30.0,
    }
    head, handle = 150.0 * 70.0 * 100.0, 30.0 * 30.0 * 200.0
    expected = (0.9 * head + 0.785 * handle) * 720.0e-9
    assert tool_body("mallet", sizes).mass_kg == pytest.approx(expected, rel=1e-9)
