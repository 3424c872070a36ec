"""Pegs for tools with a hole; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.holders.families.peg.family import FAMILY, Params
from cleatwright.holders.family import BuildContext
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import french_cleat, wall_screws
from cleatwright.parts.grips import EyeHole
from cleatwright.parts.holder import HolderPart
from cleatwright.parts.tool import Fit, FittedTool, ToolBody
from cleatwright.shapes.outline import polygon
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block, prism

CTX = BuildContext()
GoodPart = Callable[[HolderPart], MeshBody]
SupportFree = Callable[[MeshBody, str], None]
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


def part_of(
    tools: list[FittedTool], chosen: Params, ctx: BuildContext = CTX, *, flat: bool = False
) -> HolderPart:
    front = FAMILY.build(tools, chosen, ctx)
    mount = wall_screws if flat else french_cleat
    return mount.attach(FAMILY.name, front, MountSettings(plate_mm=ctx.plate_mm))


bodies = st.builds(pierced, st.floats(7.0, 60.0), st.floats(1.0, 30.0))
tools = st.builds(FittedTool, bodies, st.builds(Fit, st.floats(0.1, 0.8), st.floats(0.0, 0.3)))
params = st.builds(
    Params,
    tip_mm=st.floats(2.0, 6.0),
    rise_mm=st.floats(0.02, 0.15),
    lift_mm=st.floats(0.4, 2.0),
)
plates = st.builds(BuildContext, plate_mm=st.floats(4.0, 8.0), hand_room_mm=st.floats(6.0, 30.0))
BOUNDS = (
    Params(),
    Params(tip_mm=2.0, rise_mm=0.02, lift_mm=0.4),
    Params(tip_mm=6.0, rise_mm=0.15, lift_mm=2.0),
)


@pytest.mark.parametrize("chosen", BOUNDS)
@pytest.mark.parametrize("holes", [(10.0,), (7.0, 30.0, 12.0, 60.0)])
def test_default_least_and_most_hold_and_print_without_support(
    chosen: Params,
    holes: tuple[float, ...],
    assert_good: GoodPart,
    assert_support_free: SupportFree,
) -> None:
    fitted = [FittedTool(pierced(hole, 6.0), Fit(0.4)) for hole in holes]
    assert_good(part_of(fitted, chosen))
    body = assert_good(part_of(fitted, chosen, flat=True))
    assert_support_free(body, "on-its-back")


@settings(deadline=None, max_examples=6)
@given(group=st.lists(tools, min_size=1, max_size=6), chosen=params, ctx=plates)
def test_any_list_of_unequal_holes_is_held(
    group: list[FittedTool],
    chosen: Params,
    ctx: BuildContext,
    assert_good: GoodPart,
    assert_support_free: SupportFree,
) -> None:
    body = assert_good(part_of(group, chosen, ctx, flat=True))
    assert_support_free(body, "on-its-back")


@pytest.mark.parametrize("play", [0.1, 0.4, 0.8])
def test_a_peg_a_tip_a_rise_a_lift_and_the_play_fill_the_hole(
    play: float, kernel: MeshKernel
) -> None:
    """Sums of lengths: lifted over the tip, the hole's bottom is the play below the peg's."""
    tool = FittedTool(pierced(12.0, 6.0), Fit(play))
    part = part_of([tool], Params(tip_mm=3.0, rise_mm=0.05, lift_mm=0.7))
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
    tool = FittedTool(pierced(40.0, 8.0), Fit(0.4))
    front = FAMILY.build([tool], Params(tip_mm=3.0), CTX)
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


@pytest.mark.parametrize(
    ("tool", "clause"),
    [
        (pierced(6.9, 5.0), "too small for a printed peg"),
        (pierced(20.0, 61.0), "bends"),
        (pierced(8.0, 20.0, kg=2.0), "for years"),
    ],
)
def test_what_a_peg_cannot_carry_is_refused(tool: ToolBody, clause: str) -> None:
    assert FAMILY.why_not(pierced(7.0, 5.0)) is None
    assert clause in (FAMILY.why_not(tool) or "")


def test_a_large_hole_carries_two_kilograms() -> None:
    """14 mm: 32 F e / (pi d^3) = 32 x 19.6 x 16 / (pi x 2744) = 1.2 MPa, by hand."""
    assert FAMILY.why_not(pierced(40.0, 20.0, kg=2.0)) is None


def test_tools_keep_the_room_of_a_hand_between_them() -> None:
    """A hole of 30 mm with rims of 4 mm is 38 mm wide: two hang 38 mm + 17 mm apart."""
    pair = [FittedTool(pierced(30.0, 4.0), Fit(0.4)) for _ in range(2)]
    part = part_of(pair, Params(), BuildContext(hand_room_mm=17.0))
    left, right = (seat.pose.shift_mm[0] for seat in part.seats)
    width = pair[0].body.width_mm
    assert right - left == pytest.approx(width + 17.0)


def test_the_root_of_the_outer_peg_stays_on_the_plate_with_its_margin(kernel: MeshKernel) -> None:
    """The plate is cut by the row alone: the roots of 2.5 mm end 3 mm before its edges."""
    pair = [FittedTool(pierced(30.0, 4.0), Fit(0.4)) for _ in range(2)]
    front = FAMILY.build(pair, Params(), CTX)
    (low, _, _), (high, _, _) = kernel.evaluate(front.solid).facts.bounds_mm
    assert low == pytest.approx(front.width_mm - high)
    assert low == pytest.approx(3.0, abs=0.01)
