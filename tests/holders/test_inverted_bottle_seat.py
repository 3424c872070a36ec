"""Bottles on their heads: closed forms, print rules, and any row of bottles."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from cleatwright.holders.families.inverted_bottle_seat import (
    FAMILY,
    LEAST_BEARING_MM,
    LEAST_SLOPE,
    Params,
)
from cleatwright.holders.family import BuildContext
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import wall_screws
from cleatwright.parts.holder import HolderPart, PrintPose
from cleatwright.parts.tool import Fit, FittedTool, ToolBody
from cleatwright.tools.registry import tool_body

GoodPart = Callable[[HolderPart], MeshBody]
SupportFree = Callable[[MeshBody, PrintPose], None]
FIT = Fit(0.4)
BOUNDS = {
    "cup_mm": (6.0, 25.0),
    "wall_mm": (2.4, 8.0),
    "floor_mm": (4.0, 12.0),
    "lift_mm": (0.5, 10.0),
}


def bottle(body: float, neck: float, shoulder: float, straight: float = 80.0) -> ToolBody:
    sizes = {"body": body, "neck": neck, "neck_length": 30.0, "height": straight + 30.0 + shoulder}
    return tool_body("bottle", sizes | {"shoulder": shoulder})


def hung(*tools: ToolBody, fit: Fit = FIT, params: Params | None = None) -> HolderPart:
    group = [FittedTool(tool, fit) for tool in tools]
    front = FAMILY.build(group, params or Params(), BuildContext())
    return wall_screws.attach("inverted-bottle-seat", front, MountSettings())


@st.composite
def bottles(draw: st.DrawFn) -> ToolBody:
    body = draw(st.floats(16.0, 120.0))
    neck = draw(st.floats(5.0, body - 2 * LEAST_BEARING_MM))
    steep = (body - neck) / 2 / LEAST_SLOPE
    shoulder = draw(st.one_of(st.just(0.0), st.floats(1.0, max(1.0, min(steep, 100.0)))))
    return bottle(body, neck, shoulder)


@settings(deadline=None, max_examples=15)
@given(
    tools=st.lists(bottles(), min_size=1, max_size=6),
    play=st.floats(0.1, 0.8),
    params=st.fixed_dictionaries({n: st.floats(a, b) for n, (a, b) in BOUNDS.items()}),
)
def test_any_row_of_bottles_is_good_and_prints_on_its_back(
    assert_good: GoodPart,
    assert_support_free: SupportFree,
    tools: list[ToolBody],
    play: float,
    params: dict[str, float],
) -> None:
    tools = [tool for tool in tools if FAMILY.why_not(tool) is None]
    assume(tools)
    part = hung(*tools, fit=Fit(play), params=Params(**params))
    assert_support_free(assert_good(part), "on-its-back")


@pytest.mark.parametrize("side", [0, 1])
def test_the_least_and_the_largest_parameters_are_good(
    assert_good: GoodPart, assert_support_free: SupportFree, side: int
) -> None:
    params = Params(**{name: bounds[side] for name, bounds in BOUNDS.items()})
    part = hung(bottle(62.0, 24.0, 18.0), bottle(16.0, 5.0, 0.0), params=params)
    assert_support_free(assert_good(part), "on-its-back")


def test_a_flat_shoulder_has_half_the_play_in_cup_and_slot(kernel: MeshKernel) -> None:
    part = hung(bottle(60.0, 24.0, 0.0))
    holder = kernel.evaluate(part.solid)
    gaps: list[float] = []
    for piece in part.seats[0].tool.envelope:
        body = kernel.evaluate(piece.placed(part.seats[0].pose).moved(dz=1.0))
        gaps.append(body.gap_mm(holder, within_mm=2.0))
    # circles are drawn with chords that leave them by up to 0.02 mm
    assert gaps == pytest.approx([0.2, 0.2], abs=0.03)


def test_a_cone_sinks_until_it_is_as_wide_as_the_slot() -> None:
    """A cone of 45 degrees in a slot that is 0.4 mm wider sinks by 0.2 mm (similar triangles)."""
    part = hung(bottle(64.0, 24.0, 20.0))
    pose = part.seats[0].pose
    neck_end = part.seats[0].tool.extent_mm[1][2] - 30.0
    assert pose.apply((0.0, 0.0, neck_end))[2] == pytest.approx(-0.2, abs=1e-9)
    assert part.seats[0].way_out[0][2] == pytest.approx(10.0 + 1.0 + 0.2)


def test_the_cap_hangs_free_below_the_floor() -> None:
    part = hung(bottle(60.0, 24.0, 0.0))
    lowest = part.seats[0].pose.apply((0.0, 0.0, part.seats[0].tool.extent_mm[1][2]))[2]
    assert lowest == pytest.approx(-30.0)


def test_a_wide_neck_slips_forward_by_the_closed_form() -> None:
    """A circle in a corner of 45 degrees cut off at x = m: r √2 - m - √(r² - m²) (by hand)."""
    assert FAMILY.why_not(bottle(90.0, 76.0, 0.0)) is None
    assert 45 * math.sqrt(2) - 38 - math.sqrt(45**2 - 38**2) == pytest.approx(1.5, abs=0.1)


def test_bottles_that_would_slip_through_or_wedge_are_refused_with_a_reason() -> None:
    for tool, told in (
        (bottle(40.0, 35.0, 0.0), "slips"),
        (bottle(40.0, 30.0, 40.0), "wedges"),
        (bottle(91.0, 85.0, 0.0), "slips forward"),
    ):
        reason = FAMILY.why_not(tool)
        assert reason is not None
        assert told in reason
