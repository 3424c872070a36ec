"""Pegs for tools with a hole; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import strategies as st
from tests.holders.trial import Trial

from cleatwright.holders.families.peg.family import FAMILY
from cleatwright.holders.family import BuildContext
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.kernels.mesh.shell_cut import Shell
from cleatwright.mounts.mount import MountSettings
from cleatwright.parts.grips import EyeHole
from cleatwright.parts.tool import Fit, ToolBody
from cleatwright.printing.walls.arms import arms_share
from cleatwright.printing.walls.loaded import Loaded
from cleatwright.shapes.outline import polygon
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block, prism
from cleatwright.statics.cleat import OwnWeight

SECTORS = 16


def pierced(
    hole_mm: float, thickness_mm: float, *, kg: float = 0.1, rim_mm: float = 4.0
) -> ToolBody:
    """Return a flat ring of sectors around a circle of the hole, with a tail below it."""
    half, inner = math.pi / SECTORS, hole_mm / 2
    outer, spread = inner + rim_mm, math.tan(half)
    sector = polygon(
        [
            (-inner * spread, inner),
            (inner * spread, inner),
            (outer * spread, outer),
            (-outer * spread, outer),
        ]
    )
    upright = prism(sector, thickness_mm).turned("x", 90.0).moved(0.0, thickness_mm / 2, 0.0)
    ring = tuple(upright.turned("y", 360.0 * k / SECTORS) for k in range(SECTORS))
    tail = block(-outer, -thickness_mm / 2, -150.0, outer, thickness_mm / 2, -outer)
    grip = EyeHole(inner, hole_mm, thickness_mm, rim_mm)
    return ToolBody("eye", "x", (*ring, tail), kg, (0.0, 0.0, -60.0), (grip,), hole_mm)


TRIAL = Trial(
    FAMILY,
    st.builds(pierced, st.floats(7.0, 60.0), st.floats(1.0, 30.0)),
    groups=tuple(
        tuple(pierced(hole, 6.0) for hole in holes) for holes in ((10.0,), (7.0, 30.0, 12.0, 60.0))
    ),
    # 14 mm: 32 F e / (pi d^3) = 32 x 19.6 x 16 / (pi x 2744) = 1.2 MPa, by hand
    held=(pierced(7.0, 5.0), pierced(40.0, 20.0, kg=2.0)),
    refused=(
        (pierced(6.9, 5.0), "too small for a printed peg"),
        (pierced(20.0, 61.0), "bends"),
        (pierced(8.0, 20.0, kg=2.0), "of what it bears"),
    ),
)


@pytest.mark.parametrize("fit", [Fit(0.1), Fit(0.4, 0.1), Fit(0.8)])
def test_a_peg_a_tip_a_rise_a_lift_and_the_play_fill_the_hole(fit: Fit, kernel: MeshKernel) -> None:
    """Sums of lengths: lifted over the tip, the hole's bottom is the play below the peg's."""
    params = {"tip_mm": 3.0, "rise_share": 0.05, "lift_mm": 0.7}
    part = TRIAL.part(pierced(12.0, 6.0), fit=fit, params=params)
    play = fit.play_mm + fit.correction_mm
    peg, length = part.seats[0].sizes
    assert length.made_mm == pytest.approx(6.0 + play)
    assert peg.made_mm == pytest.approx(12.0 - 3.0 - 0.7 - 0.05 * (6.0 + play) - play)
    # rear of the tool: half a play in front of the full length, there the peg is that much higher
    lifted = [
        kernel.evaluate(piece).placed(shift(0.0, 0.0, 3.7)) for piece in part.seats[0].envelope()
    ]
    gap = min(kernel.evaluate(part.solid).gap_mm(piece, within_mm=5.0) for piece in lifted)
    assert gap == pytest.approx(play + 0.05 * play / 2, abs=0.005)


def test_volume_of_one_peg_in_closed_form(kernel: MeshKernel) -> None:
    """Cylinders, a cone and a sheared cylinder of one section: pi d^2 / 4 times length."""
    front = TRIAL.front(pierced(40.0, 8.0), params={"tip_mm": 3.0})
    d, root = 14.0, 19.0

    def cone(a: float, b: float, h: float) -> float:
        return math.pi * h / 12.0 * (a * a + a * b + b * b)

    # plate 5, root 2.5; the axis lies 1 mm of room, 2.5 of root and half the length before it
    tip_y = 5.0 + 1.0 + 2.5 + 8.4
    straight = tip_y + 3.0 + 1.0 - 7.5
    expected = (
        math.pi / 4 * root**2 * 5.0 + cone(root, d, 2.5) + math.pi / 4 * d**2 * straight
    ) + cone(d, d - 1.0, 1.0)
    fine = MeshKernel(chord_error_mm=0.0005).evaluate(front.solid)
    assert fine.facts.volume_mm3 == pytest.approx(expected, rel=3e-4)


def test_tools_keep_the_room_of_a_hand_between_them() -> None:
    """A hole of 30 mm with rims of 4 mm is 38 mm wide: two hang 38 mm + 17 mm apart."""
    part = TRIAL.part(*[pierced(30.0, 4.0)] * 2, ctx=BuildContext(hand_room_mm=17.0))
    left, right = (seat.pose.shift_mm[0] for seat in part.seats)
    assert right - left == pytest.approx(38.0 + 17.0)


def test_the_root_of_the_outer_peg_stays_on_the_plate_with_its_margin(kernel: MeshKernel) -> None:
    """The plate is cut by the row alone: the roots of 2.5 mm end 3 mm before its edges."""
    front = TRIAL.front(*[pierced(30.0, 4.0)] * 2)
    (low, _, _), (high, _, _) = kernel.evaluate(front.solid).facts.bounds_mm
    assert low == pytest.approx(front.width_mm - high)
    assert low == pytest.approx(3.0, abs=0.01)


def test_a_thick_body_close_below_a_thin_loop_passes_the_root(kernel: MeshKernel) -> None:
    """Lifted over the tip, a body 30 mm deep below a loop of 15 mm meets nothing on its way out."""
    strap = pierced(15.0, 4.0)
    body = block(-40.0, -15.0, -60.0, 40.0, 15.0, -7.5)
    bag = replace(strap, envelope=(*strap.envelope, body))
    part = TRIAL.on_rail(bag)
    holder, seat = kernel.evaluate(part.solid), part.seats[0]
    up, out = seat.way_out
    for piece in seat.envelope():
        raised = kernel.evaluate(piece).placed(shift(*up))
        assert holder.overlap_mm3(raised.swept(out)) < 1e-6


@pytest.mark.parametrize("fit", [Fit(0.1), Fit(0.4), Fit(0.8, 0.3)])
@pytest.mark.parametrize(
    ("hole_mm", "thickness_mm", "kg"),
    [
        *((7.0, 3.0, 0.1), (7.0, 6.0, 0.1), (8.0, 6.0, 0.4), (9.0, 12.0, 0.1)),
        *((10.0, 12.0, 0.5), (11.0, 25.0, 0.1), (12.0, 25.0, 0.4), (14.0, 50.0, 0.1)),
        *((16.0, 12.0, 1.5), (31.0, 60.0, 0.2), (40.0, 20.0, 2.0)),
    ],
)
def test_a_peg_that_is_not_refused_bears_a_hand_across_its_layers(
    hole_mm: float, thickness_mm: float, kg: float, fit: Fit, kernel: MeshKernel
) -> None:
    """Cut by the other rule, at 14 places with walls alone: nowhere more than it may."""
    tool = pierced(hole_mm, thickness_mm, kg=kg)
    assert FAMILY.why_not(tool) is None
    part = TRIAL.part(tool, fit=fit)
    shell = Shell("y", 3 * 0.45, 0.9)
    body = kernel.evaluate(part.solid)
    assert arms_share(Loaded(body, part, OwnWeight(0.02, 10.0), MountSettings(), shell)) <= 1.0


@pytest.mark.parametrize(("hole_mm", "thickness_mm", "kg"), [(7.0, 12.0, 0.1), (9.0, 50.0, 0.1)])
def test_a_hole_that_leaves_too_thin_a_peg_is_refused_with_the_share(
    hole_mm: float, thickness_mm: float, kg: float
) -> None:
    """By hand for 7 mm: a peg of 4 mm, 32 x 10 N x 8 mm / (pi 4^3) = 12.7 MPa of 8 MPa."""
    reason = FAMILY.why_not(pierced(hole_mm, thickness_mm, kg=kg))
    assert reason is not None
    assert "of what it bears" in reason
