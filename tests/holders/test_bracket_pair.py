"""Pairs of brackets; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.holders.families.bracket_pair import FAMILY, Params
from cleatwright.holders.family import BuildContext
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import wall_screws
from cleatwright.parts.grips import LyingBar
from cleatwright.parts.holder import HolderPart, PrintPose
from cleatwright.parts.tool import Fit, FittedTool, ToolBody
from cleatwright.shapes.outline import circle
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid, block, prism

CTX = BuildContext()
GoodPart = Callable[[HolderPart], MeshBody]
SupportFree = Callable[[MeshBody, PrintPose], None]


def bar(
    length_mm: float,
    depth_mm: float,
    height_mm: float = 0.0,
    *,
    com_mm: float = 0.0,
    head_mm: float = 0.0,
) -> ToolBody:
    """Return a bar along x, round without a height; a head beyond one end, so wide both ways."""
    tall, y = height_mm or depth_mm, depth_mm / 2
    whole: Solid = block(-length_mm / 2, -y, 0.0, length_mm / 2, y, tall)
    if not height_mm:
        lying = prism(circle(depth_mm), length_mm).turned("y", 90.0)
        whole = lying.moved(-length_mm / 2, 0.0, depth_mm / 2)
    pieces = [whole]
    if head_mm:
        end, h = length_mm / 2, head_mm / 2
        pieces.append(block(end, -h, tall / 2 - h, end + 20.0, h, tall / 2 + h))
    grip = LyingBar(
        length_mm=length_mm, depth_mm=depth_mm, height_mm=tall, round_section=not height_mm
    )
    com = (com_mm, 0.0, tall / 2)
    return ToolBody("bar", "x", tuple(pieces), 0.8, com, (grip,), length_mm)


def part_of(tools: list[FittedTool], params: Params, ctx: BuildContext = CTX) -> HolderPart:
    front = FAMILY.build(tools, params, ctx)
    part = wall_screws.attach(FAMILY.name, front, MountSettings(plate_mm=ctx.plate_mm))
    assert part.print_pose == "upright"
    return part


tools = st.builds(
    FittedTool,
    st.builds(
        bar,
        st.floats(130.0, 2000.0),
        st.floats(2.0, 120.0),
        st.one_of(st.just(0.0), st.floats(2.0, 120.0)),
        com_mm=st.floats(-40.0, 40.0),
        head_mm=st.one_of(st.just(0.0), st.floats(20.0, 150.0)),
    ),
    st.builds(Fit, st.floats(0.1, 0.8), st.floats(0.0, 0.3)),
)
params = st.builds(
    Params,
    span_mm=st.floats(60.0, 300.0),
    bracket_mm=st.floats(5.0, 12.0),
    lip_mm=st.floats(4.0, 12.0),
    floor_mm=st.floats(4.0, 12.0),
    lift_mm=st.floats(0.5, 4.0),
)
plates = st.builds(BuildContext, plate_mm=st.floats(4.0, 8.0), hand_room_mm=st.floats(6.0, 30.0))


@pytest.mark.parametrize(
    "chosen",
    [
        Params(),
        Params(span_mm=60.0, bracket_mm=5.0, lip_mm=4.0, floor_mm=4.0, lift_mm=0.5),
        Params(span_mm=300.0, bracket_mm=12.0, lip_mm=12.0, floor_mm=12.0, lift_mm=4.0),
    ],
)
@pytest.mark.parametrize(
    "sizes",
    [
        ((600.0, 25.0, 60.0),),
        ((1300.0, 25.0, 0.0),),
        ((600.0, 25.0, 60.0), (1300.0, 28.0, 0.0), (120.0, 2.0, 2.0), (300.0, 20.0, 45.0)),
    ],
)
def test_default_least_and_most_hold_and_print_without_support(
    chosen: Params,
    sizes: tuple[tuple[float, float, float], ...],
    assert_good: GoodPart,
    assert_support_free: SupportFree,
) -> None:
    group = [FittedTool(bar(*size), Fit(0.4)) for size in sizes]
    assert_support_free(assert_good(part_of(group, chosen)), "upright")


@settings(deadline=None, max_examples=12)
@given(group=st.lists(tools, min_size=1, max_size=6), chosen=params, ctx=plates)
def test_any_stack_of_unequal_bars_is_held_and_prints_without_support(
    group: list[FittedTool],
    chosen: Params,
    ctx: BuildContext,
    assert_good: GoodPart,
    assert_support_free: SupportFree,
) -> None:
    assert all(FAMILY.why_not(tool.body) is None for tool in group)
    assert_support_free(assert_good(part_of(group, chosen, ctx)), "upright")


@pytest.mark.parametrize("play", [0.1, 0.4, 0.8])
def test_a_box_section_has_half_the_play_before_the_lip_and_behind(
    play: float, kernel: MeshKernel
) -> None:
    part = part_of([FittedTool(bar(400.0, 30.0, 50.0), Fit(play))], Params())
    raised = kernel.evaluate(part.seats[0].envelope()[0]).placed(shift(0.0, 0.0, 0.5))
    gap = kernel.evaluate(part.solid).gap_mm(raised, within_mm=5.0)
    assert gap == pytest.approx(play / 2, abs=1e-6)


def test_a_round_pole_touches_both_flanks_at_30_degrees(kernel: MeshKernel) -> None:
    """A circle on two tangents at 30 degrees touches them 30 degrees beside its lowest point."""
    part = part_of([FittedTool(bar(1000.0, 28.0), Fit(0.4))], Params())
    (x, y, z), radius = part.seats[0].pose.shift_mm, 14.0
    body = kernel.evaluate(part.solid)
    for side in (-1, 1):
        touch_y = y + side * radius * math.sin(math.radians(30.0))
        touch_z = z + radius * (1.0 - math.cos(math.radians(30.0)))
        probe = block(x - 200.0, touch_y - 0.05, touch_z, x + 200.0, touch_y + 0.05, touch_z + 1.0)
        assert body.overlap_mm3(kernel.evaluate(probe)) < 0.1 * 16.0 * 0.06
        under = block(x - 99.0, touch_y - 0.05, touch_z - 1.0, x + 99.0, touch_y + 0.05, touch_z)
        assert body.overlap_mm3(kernel.evaluate(under)) == pytest.approx(0.1 * 16.0, rel=0.05)


@pytest.mark.parametrize(("com", "aside"), [(0.0, 0.0), (40.0, -40.0), (-120.0, 94.0)])
def test_the_centre_of_mass_comes_to_the_middle_as_far_as_the_bar_reaches(
    com: float, aside: float
) -> None:
    """400 mm of bar on a span of 200 with brackets of 8 can move (400 - 208) / 2 - 2 = 94."""
    front = FAMILY.build(
        [FittedTool(bar(400.0, 30.0, 50.0, com_mm=com), Fit(0.4))], Params(span_mm=200.0), CTX
    )
    assert front.seats[0].pose.shift_mm[0] - front.width_mm / 2 == pytest.approx(aside)
    assert abs(front.seats[0].com_mm[0] - front.width_mm / 2) < 100.0


def test_brackets_stand_half_a_length_apart_but_no_more_than_the_span() -> None:
    for length, span in ((200.0, 100.0), (2000.0, 160.0)):
        front = FAMILY.build([FittedTool(bar(length, 30.0, 50.0), Fit(0.4))], Params(), CTX)
        assert front.width_mm == pytest.approx(span + 8.0 + 6.0)


def test_volume_of_one_pair_in_closed_form(kernel: MeshKernel) -> None:
    """Prisms 8 wide: a triangle, the slab of 6, the lip of 5 by 6 less a bevel of 1 by 1."""
    front = FAMILY.build([FittedTool(bar(400.0, 29.5, 50.0), Fit(0.5))], Params(), CTX)
    end = 30.0 + 5.0
    section = end**2 / 2 + 5.0 * (end + 6.0) + 6.0 * end + 5.0 * 6.0 - 0.5
    measured = kernel.evaluate(front.solid).facts.volume_mm3
    assert measured == pytest.approx(2 * 8.0 * section, rel=1e-6)


def test_a_short_bar_and_one_that_balances_at_its_end_are_refused() -> None:
    assert FAMILY.why_not(bar(120.0, 20.0, 20.0)) is None
    assert "shorter than" in (FAMILY.why_not(bar(119.0, 20.0, 20.0)) or "")
    assert "balances 190 mm" in (FAMILY.why_not(bar(400.0, 20.0, 20.0, com_mm=190.0)) or "")
    assert "depth of 150 mm" in (FAMILY.why_not(bar(400.0, 150.0, 20.0)) or "")
