"""Trays on a pitch: whole fields, closed forms, print rules, and any set of bins."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import strategies as st
from tests.holders.trial import Trial

from cleatwright.holders.choosing import choices
from cleatwright.holders.families.ribbed_tray.family import FAMILY
from cleatwright.holders.families.ribbed_tray.ribbed_floor import RIB_MM
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.grips import Footprint
from cleatwright.parts.holder import Front
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.solid import block


def box(width_mm: float, depth_mm: float, height_mm: float = 40.0) -> ToolBody:
    x, y = width_mm / 2, depth_mm / 2
    return ToolBody(
        kind="test-box",
        leading=f"{width_mm:g}",
        envelope=(block(-x, -y, 0.0, x, y, height_mm),),
        mass_kg=1e-6 * width_mm * depth_mm * height_mm,
        com_mm=(0.0, 0.0, height_mm / 2),
        grips=(Footprint(0.0, width_mm, depth_mm, height_mm),),
        order_mm=width_mm,
    )


TRIAL = Trial(
    FAMILY,
    st.builds(box, st.floats(18.0, 150.0), st.floats(18.0, 150.0), st.floats(18.0, 90.0)),
    groups=((box(44.0, 44.0), box(44.0, 40.0), box(90.0, 90.0)),),
    held=(box(18.0, 18.0),),
    refused=((box(17.0, 40.0), "17 mm"), (box(40.0, 251.0), "sag")),
)


def test_bins_of_whole_pitches_stand_a_whole_number_of_pitches_apart() -> None:
    """Bins of 46, 46 and 96 mm on a pitch of 50 mm take 1, 1 and 2 columns: 0, 50, 125 mm."""
    front = TRIAL.front(box(46.0, 40.0), box(46.0, 40.0), box(96.0, 40.0))
    xs = [seat.pose.apply((0.0, 0.0, 0.0))[0] for seat in front.seats]
    assert [x - xs[0] for x in xs] == pytest.approx([0.0, 50.0, 125.0])
    assert front.width_mm == pytest.approx(4 * 50.0 + 2 * 2.7 - RIB_MM)


def test_in_two_rows_bins_stand_behind_each_other_and_come_out_over_those_in_front() -> None:
    front = TRIAL.front(box(46.0, 40.0, 70.0), box(46.0, 40.0), params={"rows_count": 2.0})
    first, second = front.seats
    assert second.com_mm[0] == pytest.approx(first.com_mm[0])
    assert second.com_mm[1] < first.com_mm[1] - 45.0
    assert first.way_out[0][2] == pytest.approx(6.0 + 1.0)
    assert second.way_out[0][2] == pytest.approx(70.0 + 1.0)


def test_a_tray_of_one_field_has_the_volume_of_the_closed_form(kernel: MeshKernel) -> None:
    """Floor less its diamond, a lip under 45 degrees, two side walls, two webs and the cove."""
    front = TRIAL.front(box(46.0, 40.0))
    wide, reach = 50.0 + 5.4 - 1.8, 5.0 + 50.0 + 6.0 + 2.7
    floor = 4.0 * (wide * reach - 2 * 16.0**2)
    lip = (2.7 * 6.0 + 6.0**2 / 2) * (wide - 5.4)
    sides = 2 * 2.7 * 6.0 * reach
    root = 0.12 * (reach - 5.0)
    webs = 2 * 3.0 * (5.0 * root + 50.0 * (root + root / 2) / 2)
    cove = (wide - 6.0) * (5.0 * 3.0 + 4.5)
    volume = kernel.evaluate(front.solid).facts.volume_mm3
    assert volume == pytest.approx(floor + lip + sides + webs + cove, rel=1e-6)


def test_webs_are_as_deep_as_bins_ask_and_no_deeper() -> None:
    """20 kg in the middle of a field of 150 mm, on two webs 3 mm thick, by hand.

    It stands from 12 to 154 mm out: the moment at the plate is W (83 - 5), or half of W at 154.
    """
    heavy = replace(box(140.0, 142.0), mass_kg=20.0)
    (web,) = {
        front_low(TRIAL.front(heavy, params={"pitch": 150.0, "floor": one})) for one in (4, 6)
    }
    weight, middle, front = 20.0 * 9.80665, 155.0 - 0.2 - 71.0, 155.0 - 0.2
    share = (middle - (front - 142.0)) / 142.0
    moment = weight / 2 * max(middle - 5.0, share * (front - 5.0))
    deep = math.sqrt(6.0 * 1.1 * moment * 1.5 / 5.0 / 3.0)
    assert -web == pytest.approx(1.25 * deep, rel=0.02)
    assert front_low(TRIAL.front(box(46.0, 40.0))) > -12.0


def front_low(front: Front) -> float:
    """Return the lowest z of the webs of a front, which a thicker floor does not lower."""
    return round(front.low_mm, 6)


def test_a_tray_on_a_pitch_is_left_to_the_owner_to_ask_for() -> None:
    able = [one.name for one in choices([box(46.0, 40.0)])]
    assert FAMILY.by_wish
    assert "tray" in able
    assert FAMILY.name not in able
