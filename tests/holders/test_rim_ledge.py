"""Ledges under rims: closed forms, print rules, and any row of bins."""

from __future__ import annotations

import pytest
from hypothesis import strategies as st
from tests.holders.trial import HalfPlay, Trial

from cleatwright.holders.families.rim_ledge.family import FAMILY
from cleatwright.holders.families.rim_ledge.rim_bays import TIP_MM, Bay, ledges
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.grips import Rim
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block


def rimmed(width_mm: float, depth_mm: float, rim_mm: float, high_mm: float = 60.0) -> ToolBody:
    """Return a bin whose rim stands out by ``rim_mm`` all round, 8 mm high."""
    x, y, under = width_mm / 2, depth_mm / 2, high_mm - 8.0
    a, b = x + rim_mm, y + rim_mm
    return ToolBody(
        kind="test-bin",
        leading=f"{width_mm:g}",
        envelope=(block(-x, -y, 0.0, x, y, under), block(-a, -b, under, a, b, high_mm)),
        mass_kg=1e-6 * width_mm * depth_mm * high_mm,
        com_mm=(0.0, 0.0, high_mm / 2),
        grips=(Rim(under, width_mm, under, 2 * a, 2 * b, 8.0),),
        order_mm=width_mm,
    )


TRIAL = Trial(
    FAMILY,
    st.builds(rimmed, st.floats(20.0, 200.0), st.floats(20.0, 200.0), st.floats(3.0, 25.0)),
    groups=((rimmed(90.0, 120.0, 7.0), rimmed(40.0, 60.0, 3.0)),),
    guided=(HalfPlay(rimmed(90.0, 120.0, 7.0)),),
    held=(rimmed(90.0, 120.0, 3.0),),
    refused=((rimmed(90.0, 120.0, 2.9), "2.9 mm"), (rimmed(90.0, 300.0, 5.0), "sag")),
)


def test_a_ledge_bears_what_the_rim_stands_out_by_less_half_the_play(kernel: MeshKernel) -> None:
    """Two ledges of 7 - 0.2 mm by a rim depth of 134 mm, cut by a slab 0.1 mm under the rim."""
    part = TRIAL.part(rimmed(90.0, 120.0, 7.0))
    rim = part.seats[0].tool.envelope[1].placed(part.seats[0].pose.then(shift(0.0, 0.0, -0.1)))
    shared = kernel.evaluate(rim).overlap_mm3(kernel.evaluate(part.solid))
    assert shared == pytest.approx(0.1 * 2 * 6.8 * 134.0, rel=1e-6)
    assert part.min_wall_mm <= TIP_MM


def test_a_stop_closes_the_front_of_a_ledge_from_below_its_tip_to_its_top(
    kernel: MeshKernel,
) -> None:
    """A rectangle of 3 by 2.4 + 5 mm without the 45-degree lead-in of 1 mm, 0.5 mm into the fin."""
    bay = Bay(0.0, 100.0, 7.0, 130.0)
    for stop in ledges(bay, stop_mm=5.0)[2:]:
        facts = kernel.evaluate(stop).facts
        assert facts.volume_mm3 == pytest.approx((3.0 * 7.4 - 0.5) * 7.5)
        assert list(facts.bounds_mm[0][1:]) == pytest.approx([130.0, -TIP_MM])
        assert list(facts.bounds_mm[1][1:]) == pytest.approx([133.0, 5.0])
