"""Prongs for drills; every oracle is a closed form, beam theory or a predicate of the mesh."""

from __future__ import annotations

import math

import pytest
from hypothesis import strategies as st
from tests.holders.trial import HalfPlay, Trial

from cleatwright.holders.families.pistol_grip_fork.family import FAMILY, Params
from cleatwright.holders.families.pistol_grip_fork.prongs import WEB_MM, plan_prongs, prongs
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.grips import PistolGrip
from cleatwright.parts.tool import Fit, FittedTool, ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block


def drill(
    handle_mm: float = 38.0,
    overhang_mm: float = 15.0,
    *,
    back_mm: float = 65.0,
    front_mm: float = 65.0,
    foot_mm: float = 80.0,
    foot_back_mm: float = 50.0,
    handle_length_mm: float = 115.0,
    mass_kg: float = 2.2,
) -> ToolBody:
    """Return a box over a handle 50 deep, on a foot 60 high that ends 60 in front of the axis."""
    high = 60.0 + handle_length_mm
    h, b, f = handle_mm / 2, handle_mm / 2 + overhang_mm, foot_mm / 2
    envelope = (
        block(-b, -back_mm, high, b, front_mm, high + 65.0),
        block(-h, -25.0, 60.0, h, 25.0, high),
        block(-f, -foot_back_mm, 0.0, f, 60.0, 60.0),
    )
    grip = PistolGrip(high, 2 * b, front_mm, back_mm, handle_mm, 50.0, handle_length_mm)
    com = (0.0, 5.0, 0.6 * high)
    return ToolBody("drill", "x", envelope, mass_kg, com, (grip,), 2 * b)


TRIAL = Trial(
    FAMILY,
    st.builds(
        drill,
        st.floats(22.0, 60.0),
        st.floats(6.0, 35.0),
        back_mm=st.floats(26.0, 110.0),
        front_mm=st.floats(30.0, 110.0),
        foot_mm=st.floats(20.0, 120.0),
        foot_back_mm=st.floats(26.0, 90.0),
        handle_length_mm=st.floats(100.0, 180.0),
    ),
    groups=((drill(38.0),), (drill(25.0), drill(55.0), drill(34.0))),
    guided=(HalfPlay(drill(), pieces=(1,)),),
    refused=(
        (drill(overhang_mm=5.0), "only 5 mm over its handle"),
        (drill(mass_kg=6.5), "6.5 kg"),
        (drill(back_mm=180.0), "prongs would be"),
        (drill(handle_length_mm=40.0), "only 40 mm long"),
    ),
)


def test_a_drill_that_is_pulled_has_to_climb_by_the_tangent_of_the_lean(
    kernel: MeshKernel,
) -> None:
    """After 10 mm to the front the body is clear again when it is 10 tan 6 mm higher, not less."""
    part = TRIAL.part(drill(), params={"tilt_deg": 6.0})
    holder, body = kernel.evaluate(part.solid), kernel.evaluate(part.seats[0].envelope()[0])
    rise = 10.0 * math.tan(math.radians(6.0))
    assert body.placed(shift(0.0, 10.0, rise + 0.01)).overlap_mm3(holder) < 1e-6
    assert body.placed(shift(0.0, 10.0, rise - 0.1)).overlap_mm3(holder) > 10.0


def test_the_plate_goes_below_the_webs_only_where_they_have_no_room_for_a_mark() -> None:
    """Seven signs in two lines, 5 mm high and 1.52 times as wide, and 1 mm around them."""
    wide, high = 4 * 1.52 * 5.0 + 2.0, (2.45 + 0.28) * 5.0 + 2.0
    for handle in (24.0, 30.0, 38.0, 46.0, 54.0):
        tool = FittedTool(drill(handle), Fit(0.4))
        front = TRIAL.front(tool.body)
        size = tool.size("slot", handle)
        plan = plan_prongs(
            tool.body,
            tool.body.needed_grip(PistolGrip),
            slot_mm=size.made_mm,
            tilt_deg=Params().tilt_deg,
            plate_mm=5.0,
        )
        sides = sorted((2 * plan.web_mm, plan.roof_mm - plan.low_mm))
        one_line = (7 * 1.52 * 5.0 + 2.0, 1.28 * 5.0 + 2.0)
        room = any(
            sides[0] >= min(need) and sides[1] >= max(need) for need in ((wide, high), one_line)
        )
        assert (front.plate_low_mm == front.low_mm) == room, handle


def test_the_weight_lies_over_the_prongs() -> None:
    part = TRIAL.part(drill())
    (seat,) = part.seats
    assert seat.com_mm[1] < part.bounds_mm[1][1] - 10.0


def test_webs_keep_outside_of_a_foot_that_reaches_far_back_and_inside_of_none() -> None:
    near, far = (drill(foot_back_mm=back, back_mm=100.0) for back in (30.0, 98.0))
    widths = [
        plan_prongs(
            tool,
            tool.needed_grip(PistolGrip),
            slot_mm=38.4,
            tilt_deg=6.0,
            plate_mm=5.0,
        ).web_mm
        for tool in (near, far)
    ]
    assert widths[0] == pytest.approx(38.4 / 2 + 14.0 - WEB_MM)
    assert widths[1] == pytest.approx(80.0 / 2 + 1.0)


def test_webs_of_a_drill_of_4_kg_are_stressed_by_less_than_2_newtons_per_square_millimetre(
    kernel: MeshKernel,
) -> None:
    """Bending of two rectangular webs at the plate, section modulus t h h / 6, thrice the weight.

    2 N/mm2 across the layers is a tenth of what printed PLA bears (common practice, no source).
    """
    heavy = drill(mass_kg=4.0)
    grip = heavy.needed_grip(PistolGrip)
    plan = plan_prongs(heavy, grip, slot_mm=38.4, tilt_deg=6.0, plate_mm=5.0)
    section = kernel.evaluate(prongs(plan)).overlap_mm3(
        kernel.evaluate(block(-200.0, 5.5, -300.0, 200.0, 5.6, 50.0))
    )
    high = plan.roof_mm - plan.low_mm
    assert section / 0.1 > 2 * WEB_MM * high * 0.95
    moment = 3 * 4.0 * 9.81 * (plan.reach_mm - 5.0)
    assert moment / (2 * WEB_MM * high**2 / 6) < 2.0
