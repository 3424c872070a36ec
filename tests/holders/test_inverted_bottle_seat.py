"""Bottles on their heads: closed forms, print rules, and any row of bottles."""

from __future__ import annotations

import math

import pytest
from hypothesis import strategies as st
from tests.holders.trial import HalfPlay, Trial

from cleatwright.holders.families.inverted_bottle_seat import (
    FAMILY,
    LEAST_BEARING_MM,
    LEAST_SLOPE,
)
from cleatwright.parts.tool import ToolBody
from cleatwright.tools.registry import tool_body


def bottle(body: float, neck: float, shoulder: float, straight: float = 80.0) -> ToolBody:
    sizes = {"body": body, "neck": neck, "neck_length": 30.0, "height": straight + 30.0 + shoulder}
    return tool_body("bottle", sizes | {"shoulder": shoulder})


@st.composite
def bottles(draw: st.DrawFn) -> ToolBody:
    body = draw(st.floats(16.0, 120.0))
    neck = draw(st.floats(5.0, body - 2 * LEAST_BEARING_MM))
    steep = (body - neck) / 2 / LEAST_SLOPE
    shoulder = draw(st.one_of(st.just(0.0), st.floats(1.0, max(1.0, min(steep, 100.0)))))
    return bottle(body, neck, shoulder)


TRIAL = Trial(
    FAMILY,
    bottles(),
    groups=(
        (bottle(62.0, 24.0, 18.0), bottle(16.0, 5.0, 0.0)),
        (bottle(60.0, 24.0, 0.0),),
    ),
    # both the body in its cup and the neck in its slot
    guided=(HalfPlay(bottle(60.0, 24.0, 0.0), pieces=(0, 1), raised_mm=1.0, within_mm=0.03),),
    held=(bottle(90.0, 76.0, 0.0),),
    refused=(
        (bottle(40.0, 35.0, 0.0), "slips"),
        (bottle(40.0, 30.0, 40.0), "wedges"),
        (bottle(91.0, 85.0, 0.0), "slips forward"),
    ),
)


def test_a_cone_sinks_until_it_is_as_wide_as_the_slot() -> None:
    """A cone of 45 degrees in a slot that is 0.4 mm wider sinks by 0.2 mm (similar triangles)."""
    part = TRIAL.part(bottle(64.0, 24.0, 20.0))
    pose = part.seats[0].pose
    neck_end = part.seats[0].tool.extent_mm[1][2] - 30.0
    assert pose.apply((0.0, 0.0, neck_end))[2] == pytest.approx(-0.2, abs=1e-9)
    assert part.seats[0].way_out[0][2] == pytest.approx(10.0 + 1.0 + 0.2)


def test_the_cap_hangs_free_below_the_floor() -> None:
    part = TRIAL.part(bottle(60.0, 24.0, 0.0))
    lowest = part.seats[0].pose.apply((0.0, 0.0, part.seats[0].tool.extent_mm[1][2]))[2]
    assert lowest == pytest.approx(-30.0)


def test_a_wide_neck_slips_forward_by_the_closed_form() -> None:
    """A circle in a corner of 45 degrees cut off at x = m: r √2 - m - √(r² - m²) (by hand)."""
    assert FAMILY.why_not(bottle(90.0, 76.0, 0.0)) is None
    assert 45 * math.sqrt(2) - 38 - math.sqrt(45**2 - 38**2) == pytest.approx(1.5, abs=0.1)
