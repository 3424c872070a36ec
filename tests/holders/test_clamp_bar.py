"""Bars for clamps; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.holders.families.clamp_bar.family import FAMILY, Params
from cleatwright.holders.family import BuildContext
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import wall_screws
from cleatwright.parts.grips import HookedArm
from cleatwright.parts.holder import HolderPart
from cleatwright.parts.tool import Fit, FittedTool, ToolBody
from cleatwright.shapes.solid import Solid, block

CTX = BuildContext()
GoodPart = Callable[[HolderPart], MeshBody]
SupportFree = Callable[[MeshBody, str], None]


def clamp(
    reach_mm: float,
    *,
    bar_y_mm: float = 20.0,
    width_mm: float = 26.0,
    nose_mm: float = 0.0,
    free_mm: float = 90.0,
    kg: float = 1.0,
) -> ToolBody:
    """Return a bar with two jaws towards the wall; the fixed one ends in a nose."""
    x, y, z, wide = 3.0, bar_y_mm / 2, 260.0, width_mm / 2
    back = -y - reach_mm
    envelope: list[Solid] = [
        block(-x, -y, 0.0, x, y, z + 20.0),
        block(-wide / 2, back, z, wide / 2, -y, z + 20.0),
        block(-wide, back, z - free_mm - 30.0, wide, -y, z - free_mm),
    ]
    if nose_mm:
        envelope.append(block(-wide / 2, back, z - nose_mm, wide / 2, back + 15.0, z))
    grip = HookedArm(
        z_mm=z,
        bar_x_mm=2 * x,
        bar_y_mm=bar_y_mm,
        arm_x_mm=wide,
        reach_mm=reach_mm,
        free_mm=free_mm,
        nose_mm=nose_mm,
        nose_y_mm=15.0 if nose_mm else 0.0,
    )
    return ToolBody("clamp", "x", tuple(envelope), kg, (0.0, -y, z - 60.0), (grip,), reach_mm)


def part_of(tools: list[FittedTool], chosen: Params, ctx: BuildContext = CTX) -> HolderPart:
    front = FAMILY.build(tools, chosen, ctx)
    return wall_screws.attach(FAMILY.name, front, MountSettings(plate_mm=ctx.plate_mm))


bodies = st.builds(
    clamp,
    st.floats(25.0, 150.0),
    bar_y_mm=st.floats(5.0, 40.0),
    width_mm=st.floats(10.0, 60.0),
    nose_mm=st.one_of(st.just(0.0), st.floats(1.0, 8.0)),
)
tools = st.builds(FittedTool, bodies, st.builds(Fit, st.floats(0.1, 0.8), st.floats(0.0, 0.3)))
params = st.builds(
    Params,
    bar_mm=st.floats(8.0, 24.0),
    height_mm=st.floats(10.0, 16.0),
    lean_deg=st.floats(2.0, 4.0),
    lift_mm=st.floats(0.5, 3.0),
)
plates = st.builds(BuildContext, plate_mm=st.floats(4.0, 8.0), hand_room_mm=st.floats(6.0, 30.0))
BOUNDS = (
    Params(),
    Params(bar_mm=8.0, height_mm=10.0, lean_deg=2.0, lift_mm=0.5),
    Params(bar_mm=24.0, height_mm=16.0, lean_deg=4.0, lift_mm=3.0),
)


@pytest.mark.parametrize("chosen", BOUNDS)
@pytest.mark.parametrize("reaches", [(60.0,), (40.0, 100.0, 25.0, 60.0)])
@pytest.mark.parametrize("nose", [0.0, 4.0])
def test_default_least_and_most_hold_and_print_without_support(
    chosen: Params,
    reaches: tuple[float, ...],
    nose: float,
    assert_good: GoodPart,
    assert_support_free: SupportFree,
) -> None:
    fitted = [FittedTool(clamp(r, nose_mm=nose), Fit(0.4)) for r in reaches]
    assert_support_free(assert_good(part_of(fitted, chosen)), "upright")


@settings(deadline=None, max_examples=10)
@given(group=st.lists(tools, min_size=1, max_size=6), chosen=params, ctx=plates)
def test_any_list_of_unequal_clamps_is_held(
    group: list[FittedTool],
    chosen: Params,
    ctx: BuildContext,
    assert_good: GoodPart,
    assert_support_free: SupportFree,
) -> None:
    assert_support_free(assert_good(part_of(group, chosen, ctx)), "upright")


@pytest.mark.parametrize("play", [0.1, 0.4, 0.8])
def test_the_bar_ends_the_play_before_the_nose(play: float, kernel: MeshKernel) -> None:
    """The nose leans in by its own height; the gap is the play, seen along a level line."""
    part = part_of([FittedTool(clamp(35.0, nose_mm=4.0), Fit(play))], Params(bar_mm=24.0))
    seat = part.seats[0]
    bar = seat.sizes[1]
    assert bar.made_mm == pytest.approx(35.0 - 15.0 - play)
    nose = kernel.evaluate(seat.envelope()[3])
    gap = kernel.evaluate(part.solid).gap_mm(nose, within_mm=5.0)
    assert gap == pytest.approx(play * math.cos(math.radians(3.0)), abs=1e-4)


def test_volume_of_one_bay_in_closed_form(kernel: MeshKernel) -> None:
    """A side profile drawn over the whole width, less a bay and an arch: areas by hand."""
    tool = FittedTool(clamp(60.0, width_mm=26.0), Fit(0.4))
    front = FAMILY.build([tool], Params(bar_mm=14.0), BuildContext(hand_room_mm=17.0))
    slope = math.tan(math.radians(3.0))
    # 26 wide and 6 of room at each side: the bay is 38, its arch rises by 15 to a bridge of 8
    face = 12.0 + 15.0 + 2.0
    assert front.width_mm == pytest.approx(38.0 + 2 * 5.0)
    # without an arch and a bay, and with both: what is gone lies between the webs
    webs = kernel.evaluate(front.solid & block(0.0, 0.0, -300.0, 5.0, 300.0, 10.0))
    edge = front.reach_mm - face * slope
    run = front.reach_mm - 5.0
    low = -face - run
    side = 0.0
    profile = [
        (0.0, low),
        (5.0, low),
        (front.reach_mm, -face),
        (edge + 1.5 * slope, -1.5),
        (edge - 1.5, -1.5 * slope),
        (0.0, -edge * slope),
    ]
    for (y0, z0), (y1, z1) in zip(profile, profile[1:] + profile[:1], strict=True):
        side += (y0 * z1 - y1 * z0) / 2
    assert webs.facts.volume_mm3 == pytest.approx(5.0 * side, rel=1e-6)
    # the bar above the crown of its arch, 14 deep at the top; cut level below its chamfer
    level = block(0.0, 8.0, -12.0, front.width_mm, 300.0, -10.0)
    bar = kernel.evaluate(front.solid & level & block(23.0, 0.0, -99.0, 25.0, 300.0, 9.0))
    assert bar.facts.volume_mm3 == pytest.approx(2.0 * 2.0 * (14.0 + 11.0 * slope), rel=1e-6)


@pytest.mark.parametrize(
    ("tool", "clause"),
    [
        (clamp(9.0), "between its bar and its nose"),
        (clamp(151.0), "too large for their load"),
        (clamp(60.0, free_mm=30.0), "open its jaws"),
        (clamp(60.0, kg=20.0), "for years"),
    ],
)
def test_what_a_bar_cannot_carry_is_refused(tool: ToolBody, clause: str) -> None:
    assert FAMILY.why_not(clamp(60.0, kg=5.0)) is None
    assert clause in (FAMILY.why_not(tool) or "")
