"""Rolls on loose rods; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.holders.trial import Trial

from cleatwright.base.said import in_mm
from cleatwright.holders.families.roll_spindle.family import FAMILY
from cleatwright.holders.families.roll_spindle.rod import STOCK_MM, bending_n_mm2, rod_for, undone
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.grips import RollBore
from cleatwright.parts.tool import Fit, ToolBody
from cleatwright.shapes.rigid import shift, turn
from cleatwright.tools.features.pieces import free_opening_mm, ring_sectors


def roll(bore_mm: float, wall_mm: float, width_mm: float, *, mass_kg: float = 0.3) -> ToolBody:
    """Return a roll about the y axis, as it hangs in its own frame."""
    outer = bore_mm + 2 * wall_mm
    ring = ring_sectors(
        outer_mm=outer, opening_mm=bore_mm, thickness_mm=width_mm, z_mm=0.0, count=16
    )
    free = free_opening_mm(bore_mm, count=16)
    grip = RollBore(turn("z", 90.0), free, outer, width_mm)
    return ToolBody("roll", "x", ring, mass_kg, (0.0, 0.0, 0.0), (grip,), outer)


TRIAL = Trial(
    FAMILY,
    st.builds(
        roll,
        st.floats(16.0, 120.0),
        st.floats(1.0, 90.0),
        st.floats(3.0, 150.0),
        mass_kg=st.floats(0.01, 0.6),
    ),
    groups=tuple(
        tuple(roll(*size, mass_kg=0.1) for size in sizes)
        for sizes in (
            ((76.0, 14.0, 50.0),),
            ((8.0, 1.0, 3.0),),
            ((76.0, 14.0, 50.0), (25.0, 12.0, 19.0), (32.0, 14.0, 140.0), (150.0, 80.0, 12.0)),
        )
    ),
    held=(roll(20.0, 10.0, 100.0, mass_kg=0.5),),
    refused=(
        (roll(8.0, 30.0, 300.0, mass_kg=3.0), "no rod that passes its bore"),
        (roll(100.0, 120.0, 20.0), "more than 320 mm"),
    ),
)


@pytest.mark.parametrize("play", [0.1, 0.4, 0.8])
def test_a_rod_has_half_the_play_on_each_side_and_half_a_millimetre_at_its_ends(
    play: float, kernel: MeshKernel
) -> None:
    part = TRIAL.part(roll(76.0, 14.0, 50.0), fit=Fit(play))
    *_, rod = (kernel.evaluate(piece) for piece in part.seats[0].envelope())
    body = kernel.evaluate(part.solid)
    raised = rod.placed(shift(0.0, 0.0, 1.5))
    assert body.gap_mm(raised, within_mm=5.0) == pytest.approx(min(play / 2, 0.5), abs=2e-3)


def test_a_roll_hangs_with_the_top_of_its_bore_on_the_rod_and_turns_freely(
    kernel: MeshKernel,
) -> None:
    """The rod touches the bore; the roll stays 1.5 mm and half the play clear of the hooks."""
    part = TRIAL.part(roll(76.0, 14.0, 50.0))
    *ring, rod = (kernel.evaluate(piece) for piece in part.seats[0].envelope())
    assert min(rod.gap_mm(piece, within_mm=1.0) for piece in ring) == pytest.approx(0.0, abs=1e-6)
    assert all(rod.overlap_mm3(piece) < 1e-3 for piece in ring)
    body = kernel.evaluate(part.solid)
    gap = min(body.gap_mm(piece, within_mm=5.0) for piece in ring)
    # the plate is 1 mm behind the roll, the hooks are farther
    assert gap == pytest.approx(1.0, abs=0.05)
    (low, _, _), (high, _, _) = rod.facts.bounds_mm
    assert high - low == pytest.approx(50.4 + 2 * (1.5 + 6.0 - 0.5))


def test_what_goes_along_with_a_roll_changes_nothing_but_its_envelope() -> None:
    tool = roll(76.0, 14.0, 50.0)
    seated = TRIAL.front(tool).seats[0].tool
    assert seated.envelope[:-1] == tool.envelope
    assert (seated.kind, seated.grips, seated.mass_kg, seated.com_mm) == (
        tool.kind,
        tool.grips,
        tool.mass_kg,
        tool.com_mm,
    )


def test_the_list_of_what_to_buy_names_each_rod_and_its_length() -> None:
    front = TRIAL.front(roll(76.0, 14.0, 50.0), roll(76.0, 14.0, 20.0))
    names = [in_mm(one.name) for one in front.hardware]
    assert names == ["round rod 12 mm, 64 mm long", "round rod 12 mm, 34 mm long"]


def test_a_rod_bends_as_a_beam_under_a_uniform_load() -> None:
    """1 kg over 400 mm: 9.80665 * 400 / 8 = 490.3 N mm over pi 20^3 / 32 = 785.4 mm3."""
    assert bending_n_mm2(20.0, span_mm=400.0, mass_kg=1.0) == pytest.approx(0.62432, abs=1e-5)


@given(st.floats(8.0, 100.0), st.floats(6.0, 30.0), st.floats(20.0, 500.0), st.floats(0.01, 5.0))
def test_a_rod_passes_the_bore_and_is_stiff_enough_or_there_is_none(
    bore: float, wish: float, span: float, mass: float
) -> None:
    rod = rod_for(bore, wish_mm=wish, span_mm=span, mass_kg=mass)
    stiff = [
        size
        for size in STOCK_MM
        if size <= bore - 1.0 and mass * 9.80665 * span / 8 <= 10.0 * math.pi * size**3 / 32
    ]
    assert (rod is None) == (not stiff)
    if rod is not None:
        assert rod in stiff
        assert rod >= wish or rod == max(stiff)


def test_a_motion_undone_is_no_motion() -> None:
    there = turn("x", 30.0).then(shift(1.0, 2.0, 3.0)).then(turn("z", 75.0))
    back = there.then(undone(there))
    assert back.apply((4.0, -5.0, 6.0)) == pytest.approx((4.0, -5.0, 6.0))
