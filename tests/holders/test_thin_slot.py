"""Slots for thin plates on edge; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math

import pytest
from hypothesis import strategies as st
from tests.holders.trial import HalfPlay, Trial

from cleatwright.base.said import in_mm
from cleatwright.holders.families.thin_slot.family import FAMILY
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.grips import ThinPlate
from cleatwright.parts.tool import Fit, ToolBody
from cleatwright.shapes.rigid import turn
from cleatwright.shapes.solid import block
from cleatwright.tools.registry import ordinary_body


def sheet(
    thick_mm: float,
    edge_mm: float,
    high_mm: float,
    *,
    handle_mm: float = 0.0,
    com_x_mm: float = 0.0,
) -> ToolBody:
    """Return a sheet in the xz plane that is turned on edge, with a thicker block on top."""
    t, h = thick_mm / 2, edge_mm / 2
    envelope = [block(-h, -t, 0.0, h, t, high_mm)]
    if handle_mm > 0.0:
        y = t + handle_mm
        envelope.append(block(-h - handle_mm, -y, high_mm, h + handle_mm, y, high_mm + 30.0))
    grip = ThinPlate(turn("z", 90.0), thick_mm, -h, h, high_mm)
    com = (com_x_mm, 0.0, high_mm / 2)
    return ToolBody("sheet", "x", tuple(envelope), 0.2, com, (grip,), edge_mm)


TRIAL = Trial(
    FAMILY,
    st.builds(
        sheet,
        st.floats(0.3, 8.0),
        st.floats(12.0, 160.0),
        st.floats(20.0, 600.0),
        handle_mm=st.one_of(st.just(0.0), st.floats(1.0, 15.0)),
        com_x_mm=st.floats(-5.0, 10.0),
    ),
    groups=tuple(
        tuple(sheet(edge / 20, edge, 100.0, handle_mm=edge / 12) for edge in edges)
        for edges in ((60.0,), (12.0, 160.0, 30.0, 90.0, 40.0, 15.0))
    ),
    guided=(HalfPlay(sheet(2.0, 60.0, 100.0), raised_mm=0.6),),
    refused=(
        (sheet(0.2, 60.0, 100.0), "0.2 mm thick"),
        (sheet(8.1, 60.0, 100.0), "8.1 mm thick"),
        (sheet(2.0, 11.0, 100.0), "lower edge of 11 mm"),
        (sheet(2.0, 161.0, 100.0), "lower edge of 161 mm"),
        (sheet(2.0, 60.0, 19.0), "19 mm high only"),
        (sheet(2.0, 60.0, 100.0, com_x_mm=43.0), "13 mm in front of its lower edge"),
    ),
)


@pytest.mark.parametrize("play", [0.1, 0.4, 0.8])
def test_a_plate_has_half_the_play_on_each_side_and_before_its_end(
    play: float, kernel: MeshKernel
) -> None:
    part = TRIAL.part(sheet(2.0, 60.0, 100.0), fit=Fit(play))
    held = kernel.evaluate(part.seats[0].envelope()[0].moved(dz=0.6))
    gap = kernel.evaluate(part.solid).gap_mm(held, within_mm=5.0)
    assert gap == pytest.approx(play / 2, abs=1e-6)
    thin = kernel.evaluate(part.seats[0].envelope()[0].moved(dy=play / 2 - 1e-3, dz=0.6))
    assert kernel.evaluate(part.solid).gap_mm(thin, within_mm=5.0) == pytest.approx(1e-3, abs=1e-6)


def test_a_steady_plate_gets_a_low_stop_and_one_that_may_tip_a_full_one() -> None:
    """A sheet of 60 mm is steady up to where half its edge is 0.35 of half its height: 171 mm."""
    for high, lift in ((170.0, 8.0 + 1.0), (172.0, 0.35 * 172.0 + 1.0)):
        front = TRIAL.front(sheet(2.0, 60.0, high), params={"most_mm": 90.0})
        assert front.seats[0].way_out[0] == pytest.approx((0.0, 0.0, lift))


def test_volume_of_one_slot_in_closed_form(kernel: MeshKernel) -> None:
    """Prisms only: fins less their falling corners and openings, roots, floor, stop, bevels."""
    front = TRIAL.front(sheet(1.6, 59.6, 100.0))
    plate, fin_z, stop_y = 5.0, 35.0, 5.0 + 1.0 + 59.6 + 0.2
    reach = stop_y + 2.7
    run, leg = min(35.0 - 8.0, (reach - plate) / 2), reach - plate
    half = (leg - (2.0 + math.sqrt(2.0)) * 6.0) / 3.0
    side = reach * fin_z - run**2 / 2 + reach * 3.0 + leg**2 / 2 + plate * leg - 2.0 * half**2
    roots = 2 * ((3.0 * plate + 3.0**2 / 2) * (fin_z + 3.0 + leg) - 3.0**3 / 6)
    floor = 2.0 * ((reach - plate - 4.0) * 3.0 + 2.7 * 8.0)
    bevels = 2 * 0.9**2 / 2 * (reach - run - plate)
    fins = 2 * 2.7 * side
    measured = kernel.evaluate(front.solid).facts.volume_mm3
    # the end of a bevel in the falling corner is less than a cube of its size
    assert measured == pytest.approx(fins + roots + floor - bevels, abs=2 * 0.9**3)


def test_a_saw_on_its_toe_would_break_the_fins_and_a_square_stands() -> None:
    """A fin is a bar clamped at its foot: 6 M / (L t²) against 17 N/mm² across layers.

    Source: the lowest of several makers' values of printed PLA across layers; M is the weight
    at the height of its centre, as in a knock.
    """
    for kind, stands in (("hand-saw", False), ("square", True), ("scraper", True)):
        body = ordinary_body(kind)
        grip = body.needed_grip(ThinPlate)
        _, _, high = grip.pose.apply(body.com_mm)
        along = grip.edge_y1_mm - grip.edge_y0_mm
        stress = 6 * body.mass_kg * 9.80665 * high / (along * 2.7**2)
        assert (stress < 17.0 / 2.0) is stands
        reason = FAMILY.why_not(body)
        assert (reason is None) is stands
        if reason is not None:
            # by hand: 0.60 kg, 339 mm above its edge
            assert "339 mm above its edge" in in_mm(reason)
