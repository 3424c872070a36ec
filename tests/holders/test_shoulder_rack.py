"""Racks for shoulders; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.holders.families.shoulder_rack import FAMILY, Params
from cleatwright.holders.family import BuildContext
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import french_cleat, wall_screws
from cleatwright.parts.grips import Shoulder
from cleatwright.parts.holder import HolderPart, PrintPose
from cleatwright.parts.tool import Fit, FittedTool, ToolBody
from cleatwright.shapes.outline import circle
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block, prism

CTX = BuildContext()
GoodPart = Callable[[HolderPart], MeshBody]
SupportFree = Callable[[MeshBody, PrintPose], None]


def shouldered(neck_mm: float, ledge_mm: float = 8.0, *, length_mm: float = 100.0) -> ToolBody:
    """Return a round handle 90 high, wider by ``ledge_mm`` on each side than a round neck."""
    wide = neck_mm + 2 * ledge_mm
    envelope = (
        prism(circle(wide), 90.0).moved(0.0, 0.0, length_mm),
        prism(circle(neck_mm), length_mm),
    )
    grip = Shoulder(length_mm, neck_mm, wide, length_mm)
    com = (0.0, 0.0, length_mm + 20.0)
    return ToolBody("shouldered", "x", envelope, 0.1, com, (grip,), wide)


def hung(tools: list[FittedTool], params: Params, ctx: BuildContext = CTX) -> HolderPart:
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
    st.builds(shouldered, st.floats(3.0, 40.0), st.floats(1.5, 30.0)),
    st.builds(Fit, st.floats(0.1, 0.8), st.floats(0.0, 0.3)),
)
params = st.builds(
    Params,
    shelf_mm=st.floats(5.0, 20.0),
    recess_mm=st.floats(1.5, 4.0),
    rim_mm=st.floats(2.4, 20.0),
    lift_mm=st.floats(0.5, 10.0),
)
plates = st.builds(BuildContext, plate_mm=st.floats(4.0, 8.0), hand_room_mm=st.floats(6.0, 30.0))


@pytest.mark.parametrize(
    "chosen",
    [
        Params(),
        Params(shelf_mm=5.0, recess_mm=1.5, rim_mm=2.4, lift_mm=0.5),
        Params(shelf_mm=20.0, recess_mm=4.0, rim_mm=20.0, lift_mm=10.0),
    ],
)
@pytest.mark.parametrize("necks", [(6.0,), (4.0, 25.0, 8.0, 40.0, 3.0, 12.0)])
def test_default_least_and_most_hold_and_print_without_support(
    chosen: Params,
    necks: tuple[float, ...],
    assert_good: GoodPart,
    assert_support_free: SupportFree,
) -> None:
    group = [FittedTool(shouldered(neck), Fit(0.4)) for neck in necks]
    assert_good(hung(group, chosen))
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
    assert_good(hung(group, chosen, ctx))
    assert_support_free(assert_good(screwed(group, chosen, ctx)), "on-its-back")


@pytest.mark.parametrize("play", [0.1, 0.4, 0.8])
def test_neck_and_shoulder_have_half_the_play_all_round(play: float, kernel: MeshKernel) -> None:
    part = hung([FittedTool(shouldered(10.0), Fit(play))], Params())
    holder = kernel.evaluate(part.solid)
    handle, neck = (kernel.evaluate(piece) for piece in part.seats[0].envelope())
    # chords of both circles lie within 0.02 mm of the true ones
    assert holder.gap_mm(neck, within_mm=5.0) == pytest.approx(play / 2, abs=0.021)
    lifted = handle.placed(shift(0.0, 0.0, 1.5))
    assert holder.gap_mm(lifted, within_mm=5.0) == pytest.approx(play / 2, abs=0.021)


def test_volume_of_one_rack_in_closed_form(kernel: MeshKernel) -> None:
    """A shelf less a slot and the rest of a recess, with a cove and two webs of a rim's width.

    The recess has eight sides around a circle of radius r, and a roof with the area
    (2 sqrt 2 - 1) r^2 in front of the middle; the slot has taken its part of it.
    """
    front = FAMILY.build([FittedTool(shouldered(12.0, 12.0), Fit(0.5))], Params(), CTX)
    slot, r, rim, plate = 12.5, 36.5 / 2, 4.0, 5.0
    axis = plate + rim + r
    width, ahead = 2 * r + 4 * rim, r * math.sqrt(2.0) - slot / 2
    reach = axis + ahead + rim
    # a flare widens each side of the mouth by 2 mm over the last 2 mm
    flare = 2.0 * 2.0 / 2
    slotted = math.pi * slot**2 / 8 + slot * (ahead + rim) + 2 * flare
    kept = slot * ahead + (slot / 2) ** 2
    recess = (2 * math.sqrt(2.0) - 1.0 + 4 * math.tan(math.pi / 8)) * r**2
    recess -= math.pi * slot**2 / 8 + kept
    web = min(reach - plate, 0.8 * (axis - plate))
    cove = 3.0 * plate + 3.0**2 / 2
    webs = 2 * rim * (web * plate + web**2 / 2 - cove)
    expected = 8.0 * (width * reach - slotted) - 3.0 * recess + cove * width + webs
    measured = kernel.evaluate(front.solid).facts.volume_mm3
    assert front.width_mm == pytest.approx(width)
    assert measured == pytest.approx(expected, rel=1e-4)


def test_a_shoulder_less_than_3_mm_wider_is_refused_and_one_of_3_mm_is_not() -> None:
    assert FAMILY.why_not(shouldered(10.0, 1.5)) is None
    assert "less than 3 mm wider" in (FAMILY.why_not(shouldered(10.0, 1.4)) or "")


def test_a_tool_without_a_shoulder_is_refused() -> None:
    plain = ToolBody("peg", "x", (block(0, 0, 0, 1, 1, 1),), 0.1, (0.0, 0.0, 0.0), (), 1.0)
    assert FAMILY.why_not(plain) == "needs a shoulder, which a peg does not offer"
