"""Files of discs; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.holders.families.disc_file import FAMILY, Params
from cleatwright.holders.family import BuildContext
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import wall_screws
from cleatwright.parts.grips import Disc
from cleatwright.parts.holder import HolderPart, PrintPose
from cleatwright.parts.tool import Fit, FittedTool, ToolBody
from cleatwright.shapes.outline import circle
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block, prism

CTX = BuildContext()
GoodPart = Callable[[HolderPart], MeshBody]
SupportFree = Callable[[MeshBody, PrintPose], None]


def disc(diameter_mm: float, thickness_mm: float) -> ToolBody:
    """Return a disc about the x axis."""
    whole = prism(circle(diameter_mm), thickness_mm).turned("y", 90.0).moved(-thickness_mm / 2)
    grip = Disc(diameter_mm=diameter_mm, thickness_mm=thickness_mm)
    return ToolBody("disc", "x", (whole,), 0.3, (0.0, 0.0, 0.0), (grip,), diameter_mm)


def part_of(tools: list[FittedTool], params: Params, ctx: BuildContext = CTX) -> HolderPart:
    front = FAMILY.build(tools, params, ctx)
    part = wall_screws.attach(FAMILY.name, front, MountSettings(plate_mm=ctx.plate_mm))
    assert part.print_pose == "on-its-back"
    return part


tools = st.builds(
    FittedTool,
    st.builds(disc, st.floats(30.0, 420.0), st.floats(0.3, 60.0)),
    st.builds(Fit, st.floats(0.1, 0.8), st.floats(0.0, 0.3)),
)
params = st.builds(
    Params,
    fin_mm=st.floats(3.0, 16.0),
    rise_share=st.floats(0.4, 0.9),
    floor_mm=st.floats(3.0, 8.0),
    lip_mm=st.floats(4.0, 12.0),
    lift_mm=st.floats(0.5, 4.0),
)
plates = st.builds(BuildContext, plate_mm=st.floats(4.0, 8.0), hand_room_mm=st.floats(6.0, 30.0))


@pytest.mark.parametrize(
    "chosen",
    [
        Params(),
        Params(fin_mm=3.0, rise_share=0.4, floor_mm=3.0, lip_mm=4.0, lift_mm=0.5),
        Params(fin_mm=16.0, rise_share=0.9, floor_mm=8.0, lip_mm=12.0, lift_mm=4.0),
    ],
)
@pytest.mark.parametrize(
    "sizes",
    [
        ((150.0, 3.0),),
        ((30.0, 0.3),),
        ((420.0, 4.0), (30.0, 60.0), (150.0, 3.0), (150.0, 3.0), (125.0, 25.0), (315.0, 3.2)),
    ],
)
def test_default_least_and_most_hold_and_print_without_support(
    chosen: Params,
    sizes: tuple[tuple[float, float], ...],
    assert_good: GoodPart,
    assert_support_free: SupportFree,
) -> None:
    group = [FittedTool(disc(*size), Fit(0.4)) for size in sizes]
    assert_support_free(assert_good(part_of(group, chosen)), "on-its-back")


@settings(deadline=None, max_examples=10)
@given(group=st.lists(tools, min_size=1, max_size=6), chosen=params, ctx=plates)
def test_any_file_of_unequal_discs_is_held_and_prints_without_support(
    group: list[FittedTool],
    chosen: Params,
    ctx: BuildContext,
    assert_good: GoodPart,
    assert_support_free: SupportFree,
) -> None:
    assert_support_free(assert_good(part_of(group, chosen, ctx)), "on-its-back")


@pytest.mark.parametrize("play", [0.1, 0.4, 0.8])
def test_a_disc_has_half_the_play_on_each_side(play: float, kernel: MeshKernel) -> None:
    part = part_of([FittedTool(disc(150.0, 3.0), Fit(play))], Params())
    raised = kernel.evaluate(part.seats[0].envelope()[0]).placed(shift(0.0, 0.0, 1.0))
    gap = kernel.evaluate(part.solid).gap_mm(raised, within_mm=5.0)
    assert gap == pytest.approx(play / 2, abs=1e-6)


def test_a_disc_is_lifted_by_its_sagitta_the_lip_and_the_lift() -> None:
    """A flank at 30 degrees is touched r (1 - cos 30) above the lowest point, without play."""
    front = FAMILY.build([FittedTool(disc(200.0, 3.0), Fit(0.0))], Params(), CTX)
    up = front.seats[0].way_out[0][2]
    assert up == pytest.approx(100.0 * (1.0 - math.cos(math.radians(30.0))) + 5.0 + 1.0)


def test_equal_neighbours_share_a_fin_and_the_width_is_that_of_slots_and_fins() -> None:
    front = FAMILY.build([FittedTool(disc(150.0, 9.6), Fit(0.4))] * 5, Params(), CTX)
    assert front.width_mm == pytest.approx(5 * 10.0 + 6 * 5.0)
    centres = [seat.pose.shift_mm[0] for seat in front.seats]
    assert centres == pytest.approx([10.0, 25.0, 40.0, 55.0, 70.0])


def test_small_discs_stand_higher_so_that_all_back_flanks_lie_in_one_plane(
    kernel: MeshKernel,
) -> None:
    """The flank of a disc of radius r leaves the plate at (r + 1) tan 30 - r (1/cos 30 - 1)."""
    group = [FittedTool(disc(size, 5.0), Fit(0.0)) for size in (200.0, 100.0)]
    front = FAMILY.build(group, Params(), CTX)
    tan, deep = math.tan(math.radians(30.0)), 1.0 / math.cos(math.radians(30.0)) - 1.0
    roots = [(r + 1.0) * tan - r * deep for r in (100.0, 50.0)]
    lows = [seat.pose.shift_mm[2] - r for seat, r in zip(front.seats, (100.0, 50.0), strict=True)]
    assert lows[1] - lows[0] == pytest.approx(roots[0] - roots[1])
    assert kernel.evaluate(front.solid).facts.bounds_mm[0][2] == pytest.approx(front.low_mm)


def test_the_fin_between_two_discs_is_solid(kernel: MeshKernel) -> None:
    group = [FittedTool(disc(size, 5.0), Fit(0.4)) for size in (150.0, 60.0)]
    front = FAMILY.build(group, Params(), CTX)
    x = (front.width_mm - 25.8) / 2 + 5.0 + 5.4
    probe = kernel.evaluate(block(x + 1.0, 6.0, 38.0, x + 4.0, 20.0, 40.0))
    assert kernel.evaluate(front.solid).overlap_mm3(probe) == pytest.approx(3.0 * 14.0 * 2.0)


def test_discs_that_are_too_small_or_too_thick_are_refused() -> None:
    assert FAMILY.why_not(disc(30.0, 60.0)) is None
    assert "diameter of 29 mm" in (FAMILY.why_not(disc(29.0, 3.0)) or "")
    assert "thickness of 61 mm" in (FAMILY.why_not(disc(100.0, 61.0)) or "")
