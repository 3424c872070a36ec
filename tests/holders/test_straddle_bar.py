"""Bars for tools with two legs; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.holders.families.straddle_bar import FAMILY, Params
from cleatwright.holders.family import BuildContext
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import french_cleat, wall_screws
from cleatwright.parts.grips import Straddle
from cleatwright.parts.holder import HolderPart, PrintPose
from cleatwright.parts.tool import Fit, FittedTool, ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block

CTX = BuildContext()
GoodPart = Callable[[HolderPart], MeshBody]
SupportFree = Callable[[MeshBody, PrintPose], None]


def two_legs(
    gap_mm: float, *, leg_mm: float = 12.0, thickness_mm: float = 11.0, legs_mm: float = 100.0
) -> ToolBody:
    """Return two box legs that meet in a box head; the legs meet 5 mm above the full gap."""
    inner, wide, half = gap_mm / 2, gap_mm / 2 + leg_mm, thickness_mm / 2
    envelope = (
        block(-wide, -half, 0.0, -inner, half, legs_mm),
        block(inner, -half, 0.0, wide, half, legs_mm),
        block(-wide, -half, legs_mm - 5.0, wide, half, legs_mm + 60.0),
    )
    grip = Straddle(legs_mm, gap_mm, 5.0, legs_mm, thickness_mm, 2 * wide)
    return ToolBody("two-legs", "x", envelope, 0.25, (0.0, 0.0, legs_mm), (grip,), legs_mm)


def part_of(tools: list[FittedTool], params: Params, ctx: BuildContext = CTX) -> HolderPart:
    front = FAMILY.build(tools, params, ctx)
    return french_cleat.attach(FAMILY.name, front, MountSettings(plate_mm=ctx.plate_mm))


def screwed(tools: list[FittedTool], params: Params, ctx: BuildContext = CTX) -> HolderPart:
    """Return the part with a plain plate, which promises a pose in which it prints."""
    front = FAMILY.build(tools, params, ctx)
    part = wall_screws.attach(FAMILY.name, front, MountSettings(plate_mm=ctx.plate_mm))
    assert part.print_pose == "on-its-back"
    return part


tools = st.builds(
    FittedTool,
    st.builds(
        two_legs,
        st.floats(6.0, 60.0),
        leg_mm=st.floats(3.0, 30.0),
        thickness_mm=st.floats(3.0, 60.0),
        legs_mm=st.floats(40.0, 600.0),
    ),
    st.builds(Fit, st.floats(0.1, 0.8), st.floats(0.0, 0.3)),
)
params = st.builds(
    Params,
    bar_mm=st.floats(6.0, 20.0),
    lip_mm=st.floats(2.5, 10.0),
    lift_mm=st.floats(0.5, 10.0),
)
plates = st.builds(BuildContext, plate_mm=st.floats(4.0, 8.0), hand_room_mm=st.floats(6.0, 30.0))


@pytest.mark.parametrize(
    "chosen",
    [
        Params(),
        Params(bar_mm=6.0, lip_mm=2.5, lift_mm=0.5),
        Params(bar_mm=20.0, lip_mm=10.0, lift_mm=10.0),
    ],
)
@pytest.mark.parametrize("gaps", [(9.0,), (6.0, 30.0, 12.0, 60.0, 7.5, 20.0, 15.0)])
def test_default_least_and_most_hold_and_print_without_support(
    chosen: Params,
    gaps: tuple[float, ...],
    assert_good: GoodPart,
    assert_support_free: SupportFree,
) -> None:
    group = [FittedTool(two_legs(gap), Fit(0.4)) for gap in gaps]
    assert_good(part_of(group, chosen))
    assert_support_free(assert_good(screwed(group, chosen)), "on-its-back")


@settings(deadline=None, max_examples=15)
@given(group=st.lists(tools, min_size=1, max_size=7), chosen=params, ctx=plates)
def test_any_list_of_unequal_tools_is_held(
    group: list[FittedTool],
    chosen: Params,
    ctx: BuildContext,
    assert_good: GoodPart,
    assert_support_free: SupportFree,
) -> None:
    assert_good(part_of(group, chosen, ctx))
    assert_support_free(assert_good(screwed(group, chosen, ctx)), "on-its-back")


@pytest.mark.parametrize("play", [0.1, 0.4, 0.8])
def test_a_leg_is_half_the_play_away_from_the_bar(play: float, kernel: MeshKernel) -> None:
    part = part_of([FittedTool(two_legs(12.0), Fit(play))], Params())
    seat = part.seats[0]
    # lowered legs have left the crotch, so that only the flanks are near
    leg = kernel.evaluate(seat.envelope()[1])
    gap = kernel.evaluate(part.solid).gap_mm(leg, within_mm=5.0)
    assert gap == pytest.approx(play / 2, abs=1e-6)


def test_a_bar_is_the_gap_less_play_and_correction() -> None:
    part = part_of([FittedTool(two_legs(9.0), Fit(0.4, 0.1))], Params())
    bar = part.seats[0].sizes[0]
    assert bar.measured_mm == 9.0
    assert bar.made_mm == pytest.approx(9.0 - 0.4 - 0.1)


def test_the_tool_has_its_play_before_the_lip(kernel: MeshKernel) -> None:
    """Lifted by 2 mm, its lower front edge is (play / 2 + 2) / sqrt 2 from a face at 45 degrees."""
    part = part_of([FittedTool(two_legs(12.0), Fit(0.6))], Params())
    head = kernel.evaluate(part.seats[0].envelope()[2]).placed(shift(0.0, 0.0, 2.0))
    gap = kernel.evaluate(part.solid).gap_mm(head, within_mm=5.0)
    assert gap == pytest.approx((0.3 + 2.0) / math.sqrt(2.0), abs=1e-6)


def test_volume_of_one_bar_in_closed_form(kernel: MeshKernel) -> None:
    """Bar 10 wide, 8 high, 4 of lip: a prism whose rims are cut by 1 mm, and a web.

    A section that shrinks by t has the area A - P t + 4 t^2: its corners turn by 45 degrees
    as often to the right as to the left, and by 90 degrees four times.
    """
    front = FAMILY.build([FittedTool(two_legs(10.5), Fit(0.5))], Params(), CTX)
    lip_y = 5.0 + 1.0 + 2 * 11.5 / 2
    end, run = lip_y + 4.0 + 3.0, lip_y - 5.0
    cove = 3.0**2 / 2 + 3.0 * 5.0
    area = end * 8.0 + 3.0 * 4.0 + 4.0**2 / 2 + cove
    level = 5.0 + (end - 8.0) + 3.0 + lip_y
    perimeter = level + (8.0 + 3.0) + (8.0 + 4.0) + (3.0 + 4.0) * math.sqrt(2.0)
    bar = area * (10.0 - 2 * 1.0) + 2 * (area - perimeter / 2 + 4.0 / 3)
    web = 4.0 * (run**2 / 2 + run * 5.0 - cove)
    measured = kernel.evaluate(front.solid).facts.volume_mm3
    assert measured == pytest.approx(bar + web, rel=1e-6)


def test_a_gap_under_6_mm_is_refused_and_one_of_6_mm_is_not() -> None:
    assert FAMILY.why_not(two_legs(6.0)) is None
    refusal = FAMILY.why_not(two_legs(5.9))
    assert refusal is not None
    assert "5.9 mm apart" in refusal


def test_a_tool_without_legs_needs_a_straddle() -> None:
    plain = ToolBody("peg", "x", (block(0, 0, 0, 1, 1, 1),), 0.1, (0.0, 0.0, 0.0), (), 1.0)
    assert FAMILY.why_not(plain) == "needs a straddle, which a peg does not offer"


@pytest.mark.parametrize(("above_mm", "depth_mm"), [(3.9, 30.0), (4.1, 11.0), (-2.0, 30.0)])
def test_only_what_comes_down_behind_the_lip_moves_the_lip_out(
    above_mm: float, depth_mm: float
) -> None:
    """A head 30 mm deep that begins below the top of a lip of 4 mm must stay behind the lip."""
    plain = two_legs(12.0)
    rest = 100.0 - 5.0
    head = block(-18.0, -15.0, rest + above_mm, 18.0, 15.0, rest + 60.0)
    tool = ToolBody(
        "two-legs", "x", (*plain.envelope, head), 0.25, (0.0, 0.0, 100.0), plain.grips, 100.0
    )
    part = part_of([FittedTool(tool, Fit(0.4))], Params(lip_mm=4.0))
    assert part.seats[0].sizes[1].measured_mm == pytest.approx(depth_mm)
