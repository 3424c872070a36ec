"""Spring clips: the mouth, the play, the leg and the way out in the mesh itself."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import strategies as st
from tests.holders.trial import CTX, GoodPart, HalfPlay, Trial, bound

from cleatwright.design.building import build
from cleatwright.design.proving import trial_recipe
from cleatwright.holders.families.spring_clip.family import FAMILY
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.parts.grips import RoundBody
from cleatwright.parts.tool import Fit, ToolBody
from cleatwright.shapes.outline import circle
from cleatwright.shapes.solid import Solid, block, prism


def rod(diameter_mm: float, height_mm: float, *, head_mm: float = 0.0) -> ToolBody:
    """Return an upright rod, with a wider head above it when asked for."""
    envelope: list[Solid] = [prism(circle(diameter_mm), height_mm)]
    if head_mm:
        envelope.append(prism(circle(head_mm), 20.0).moved(dz=height_mm))
    grip = RoundBody(z_mm=0.0, diameter_mm=diameter_mm, height_mm=height_mm)
    centre = (0.0, 0.0, height_mm / 2)
    return ToolBody("rod", "x", tuple(envelope), 0.1, centre, (grip,), diameter_mm)


TRIAL = Trial(
    FAMILY,
    st.builds(rod, st.floats(6.0, 60.0), st.floats(30.0, 250.0)),
    groups=tuple(
        tuple(rod(size, 40.0 + 2 * size) for size in sizes)
        for sizes in ((6.0,), (60.0,), (6.0, 30.0, 10.0, 60.0, 14.0, 22.0))
    ),
    guided=(HalfPlay(rod(24.0, 100.0), raised_mm=2.0, within_mm=0.03),),
    held=(rod(6.0, 30.0),),
    refused=(
        (rod(5.5, 90.0), "5.5"),
        (rod(61.0, 90.0), "61"),
        (rod(20.0, 29.0), "29"),
        (replace(rod(20.0, 90.0), grips=()), "needs a round body"),
    ),
)


@pytest.mark.parametrize("diameter", [6.0, 12.0, 27.0, 28.1, 30.0, 60.0])
def test_arms_of_a_low_body_stay_free_of_its_floor(
    diameter: float, kernel: MeshKernel, assert_good: GoodPart
) -> None:
    """A clip just above the floor reaches below it at its feet, half a millimetre beside it."""
    most = {name: bound(FAMILY, name, "le") for name in FAMILY.params.model_fields}
    part = TRIAL.part(rod(diameter, 30.0), fit=Fit(0.8), params=most | {"height_share": 0.4})
    assert_good(part)
    spring = part.seats[0].spring
    assert spring is not None
    x, axis, _ = part.seats[0].pose.shift_mm
    before = kernel.evaluate(block(x - 99, CTX.plate_mm + 0.01, -99, x + 99, axis + 99, 99))
    arms = kernel.evaluate(spring.moving[0])
    rest = kernel.evaluate(part.solid).without(arms)
    beside = MeshBody(rest.manifold ^ before.manifold)
    assert beside.gap_mm(MeshBody(arms.manifold ^ before.manifold), within_mm=5.0) > 0.5


def test_a_body_with_a_wide_head_keeps_clear_of_the_plate(assert_good: GoodPart) -> None:
    torch = rod(25.0, 100.0, head_mm=60.0)
    part = TRIAL.part(torch)
    assert_good(part)
    assert part.seats[0].pose.shift_mm[1] - 30.0 >= CTX.plate_mm


@pytest.mark.parametrize(("diameter", "undercut"), [(6.0, 0.35), (20.0, 1.0), (60.0, 3.0)])
def test_the_mouth_is_narrower_than_the_body_by_twice_what_the_arms_give(
    diameter: float, undercut: float, kernel: MeshKernel
) -> None:
    """A twentieth of the diameter, at least 0.35 mm; a slab as wide as the mouth passes."""
    front = TRIAL.front(rod(diameter, 100.0))
    spring, pose = front.seats[0].spring, front.seats[0].pose
    assert spring is not None
    assert spring.deflection_mm == pytest.approx(undercut)
    x, y, _ = pose.shift_mm
    arms = kernel.evaluate(spring.moving[0])
    for spare, free in ((-0.02, True), (0.08, False)):
        half = diameter / 2 - undercut + spare
        slab = kernel.evaluate(block(x - half, y, 0.0, x + half, y + 99.0, 99.0))
        assert (arms.overlap_mm3(slab) == 0.0) is free


def test_the_moving_arms_alone_keep_the_body_in(kernel: MeshKernel) -> None:
    part = TRIAL.part(rod(20.0, 100.0))
    seat = part.seats[0]
    assert seat.spring is not None
    out = kernel.evaluate(seat.envelope()[0]).swept(seat.way_out[0])
    holder = kernel.evaluate(part.solid)
    arms = kernel.evaluate(seat.spring.moving[0])
    assert holder.overlap_mm3(out) > 5.0
    assert holder.without(arms).overlap_mm3(out) < 1e-6


def test_volume_of_a_leg_in_closed_form(kernel: MeshKernel) -> None:
    """At y a leg is as high as the clip and its way to the tip: thickness times a trapezium."""
    front = TRIAL.front(rod(30.0, 100.0))
    seat = front.seats[0]
    assert seat.spring is not None
    x, axis, _ = seat.pose.shift_mm
    near, far = CTX.plate_mm + 1.0, axis
    cut = block(x, near, -99.0, x + 99.0, far, 199.0)
    measured = kernel.evaluate(seat.spring.moving[0]).overlap_mm3(kernel.evaluate(cut))
    lean = math.radians(seat.spring.tip_deg)
    tip = axis + seat.spring.mean_radius_mm * math.cos(lean) + 0.9
    heights = 12.0 + (tip - near), 12.0 + (tip - far)
    assert measured == pytest.approx(1.8 * (far - near) * sum(heights) / 2, rel=1e-6)


def test_slender_bodies_get_longer_legs_than_their_radius() -> None:
    front = TRIAL.front(rod(8.0, 150.0))
    spring = front.seats[0].spring
    assert spring is not None
    assert spring.straight_mm > 2 * 4.2


def test_the_program_checks_the_strain_and_lets_the_way_out_pass_the_arms(
    kernel: MeshKernel,
) -> None:
    built = build(trial_recipe(FAMILY.name, "marker", (0.8, 1.0, 1.3)), kernel)
    checks = {check.name: check for check in built.contract}
    assert checks["spring strain"].utilisation == pytest.approx(0.95, abs=1e-6)
    assert checks["way out free"].holds
    assert checks["kept until it is lifted"].holds


def test_the_arms_of_a_neighbour_are_no_way_out(kernel: MeshKernel) -> None:
    """Each body may push its own arms aside only."""
    part = TRIAL.part(*([rod(20.0, 100.0)] * 2))
    one, other = part.seats
    swapped = replace(one, spring=other.spring)
    assert one.spring is not None
    holder = kernel.evaluate(part.solid)
    assert swapped.spring is not None
    left = holder.without(kernel.evaluate(swapped.spring.moving[0]))
    out = kernel.evaluate(one.envelope()[0]).swept(one.way_out[0])
    assert left.overlap_mm3(out) > 5.0
