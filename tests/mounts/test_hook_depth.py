"""How deep a hook without a bolt, that of a wooden carrier, must bear.

Source: equilibrium by hand; a block on a slope without friction holds W tan t against a level pull.
"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.mounts.shelf import shelf

from cleatwright.base.errors import DesignError
from cleatwright.base.source import Evidence, Source
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.timber.hook_depth import needed_depth_mm, slant_mm
from cleatwright.parts.hold import MagnetPull


@given(st.floats(30.0, 150.0), st.floats(30.0, 60.0), st.floats(1.0, 3.0), st.floats(0.1, 10.0))
def test_a_deeper_reach_asks_for_a_deeper_hook_in_proportion(
    reach_mm: float, bevel_deg: float, margin: float, mass_kg: float
) -> None:
    """Without drag: margin times e / tan(bevel), e that of the tool alone, or with a light board.

    The board of 0.05 kg lies halfway out.
    """
    how = MountSettings(bevel_deg=bevel_deg, margin=margin, drag=0.0)
    front = shelf(80.0, reach_mm=reach_mm, mass_kg=mass_kg)
    e = reach_mm - 15.0
    farthest = max(e, reach_mm / 2)
    expected = margin * farthest / math.tan(math.radians(bevel_deg))
    assert needed_depth_mm(front, 0.0, how) == pytest.approx(expected)


@pytest.mark.parametrize("bevel_deg", [30.0, 45.0])
def test_the_refusal_of_a_pull_says_what_the_weight_keeps_on_that_bevel(bevel_deg: float) -> None:
    plain = shelf(80.0, mass_kg=0.5)
    pull = MagnetPull(9.0, 0.2, Source("by hand", "", Evidence.DERIVED))
    held = replace(plain, seats=(replace(plain.seats[0], magnet=pull),))
    keeps = 0.5 * 9.80665 * math.tan(math.radians(bevel_deg))
    with pytest.raises(DesignError, match=f"against {keeps:.1f} N at most"):
        needed_depth_mm(held, 0.0, MountSettings(bevel_deg=bevel_deg))


def test_a_drag_as_strong_as_the_bevel_is_refused_with_a_remedy() -> None:
    """1.5 W is more than W tan 30."""
    with pytest.raises(DesignError, match="steeper bevel"):
        needed_depth_mm(shelf(80.0), 0.0, MountSettings(drag=1.5, bevel_deg=30.0))


def test_a_rail_is_lower_at_the_wall_by_its_thickness_times_the_tangent() -> None:
    assert slant_mm(MountSettings(rail_thickness_mm=20.0, bevel_deg=45.0)) == pytest.approx(20.0)
    thick = MountSettings(rail_thickness_mm=30.0, bevel_deg=30.0)
    assert slant_mm(thick) == pytest.approx(30.0 / math.sqrt(3.0))
