"""Forks for heads over necks; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.holders.families.fork import FAMILY, Params
from cleatwright.holders.family import BuildContext
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import french_cleat, wall_screws
from cleatwright.parts.grips import Overhang
from cleatwright.parts.holder import HolderPart, PrintPose
from cleatwright.parts.tool import Fit, FittedTool, ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block

CTX = BuildContext()
GoodPart = Callable[[HolderPart], MeshBody]
SupportFree = Callable[[MeshBody, PrintPose], None]


def headed(
    neck_mm: float, overhang_mm: float, *, head_y_mm: float = 27.0, share: float = 0.7
) -> ToolBody:
    """Return a box head 30 high on a box neck 200 long; ``share`` is neck over head along y."""
    x, y, n = neck_mm / 2 + overhang_mm, head_y_mm / 2, neck_mm / 2
    envelope = (
        block(-x, -y, 200.0, x, y, 230.0),
        block(-n, -y * share, 0.0, n, y * share, 200.0),
    )
    grip = Overhang(200.0, neck_mm, head_y_mm * share, 200.0, neck_mm, 2 * x, head_y_mm)
    return ToolBody("headed", "x", envelope, 0.8, (0.0, 0.0, 190.0), (grip,), 2 * x)


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
        headed,
        st.floats(6.0, 60.0),
        st.floats(6.0, 100.0),
        head_y_mm=st.floats(10.0, 90.0),
        share=st.floats(0.4, 1.0),
    ),
    st.builds(Fit, st.floats(0.1, 0.8), st.floats(0.0, 0.3)),
)
params = st.builds(
    Params,
    prong_mm=st.floats(6.0, 12.0),
    lip_mm=st.floats(2.5, 7.0),
    lift_mm=st.floats(0.5, 4.0),
)
plates = st.builds(BuildContext, plate_mm=st.floats(4.0, 8.0), hand_room_mm=st.floats(6.0, 30.0))


@pytest.mark.parametrize(
    "chosen",
    [
        Params(),
        Params(prong_mm=6.0, lip_mm=2.5, lift_mm=0.5),
        Params(prong_mm=12.0, lip_mm=7.0, lift_mm=4.0),
    ],
)
@pytest.mark.parametrize("necks", [(22.0,), (6.0, 30.0, 12.0, 60.0, 8.0, 20.0, 15.0)])
def test_default_least_and_most_hold_and_print_without_support(
    chosen: Params,
    necks: tuple[float, ...],
    assert_good: GoodPart,
    assert_support_free: SupportFree,
) -> None:
    group = [FittedTool(headed(neck, neck), Fit(0.4)) for neck in necks]
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
def test_a_neck_has_half_the_play_on_each_side(play: float, kernel: MeshKernel) -> None:
    part = part_of([FittedTool(headed(22.0, 40.0), Fit(play))], Params())
    neck = kernel.evaluate(part.seats[0].envelope()[1])
    gap = kernel.evaluate(part.solid).gap_mm(neck, within_mm=5.0)
    assert gap == pytest.approx(play / 2, abs=1e-6)


def test_the_head_has_half_the_play_before_the_lips(kernel: MeshKernel) -> None:
    """Lifted by 2 mm, its lower front edge is (play / 2 + 2) / sqrt 2 from a face at 45 degrees."""
    part = part_of([FittedTool(headed(22.0, 40.0), Fit(0.6))], Params())
    head = kernel.evaluate(part.seats[0].envelope()[0]).placed(shift(0.0, 0.0, 2.0))
    gap = kernel.evaluate(part.solid).gap_mm(head, within_mm=5.0)
    assert gap == pytest.approx((0.3 + 2.0) / math.sqrt(2.0), abs=1e-6)


def test_a_prong_bears_no_more_than_12_mm_and_never_stands_out_beside_the_head() -> None:
    for overhang, bearing in ((40.0, 12.0), (6.0, 6.0 - 0.2)):
        fitted = FittedTool(headed(22.0, overhang), Fit(0.4))
        front = FAMILY.build([fitted], Params(), CTX)
        assert front.width_mm == pytest.approx(max(40.0, 22.4 + 2 * bearing + 6.0))


def test_volume_of_one_fork_in_closed_form(kernel: MeshKernel) -> None:
    """Prongs 12 wide and 8 high, lips 4 high and 3 thick on top, the mouth's corners cut off.

    The slot and the room between the webs end 1 mm behind the front of the plate.
    """
    front = FAMILY.build([FittedTool(headed(22.0, 40.0, head_y_mm=29.5), Fit(0.5))], Params(), CTX)
    lip_y, back = 5.0 + 1.0 + 30.0, 5.0 - 1.0
    end, run = lip_y + 4.0 + 3.0, lip_y - 5.0
    in_plate = (22.5 + 2 * 12.0) * back * (8.0 + run)
    lip = 3.0 * 4.0 + 4.0**2 / 2
    prong = 12.0 * ((end - back) * 8.0 + lip) - 2.0**2 / 2 * (8.0 + 4.0)
    web = 4.0 * (run**2 / 2 + run * (5.0 - back))
    cove = (12.0 - 4.0) * (3.0 + 5.0 - back) ** 2 / 2
    measured = kernel.evaluate(front.solid).facts.volume_mm3
    assert measured == pytest.approx(in_plate + 2 * (prong + web + cove), rel=1e-6)


def test_an_overhang_under_6_mm_is_refused_and_one_of_6_mm_is_not() -> None:
    assert FAMILY.why_not(headed(22.0, 6.0)) is None
    refusal = FAMILY.why_not(headed(22.0, 5.5))
    assert refusal is not None
    assert "only 5.5 mm" in refusal
