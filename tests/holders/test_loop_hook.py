"""Narrow hooks for small loops; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.holders.families.loop_hook.family import FAMILY, Params
from cleatwright.holders.family import BuildContext
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import wall_screws
from cleatwright.parts.grips import Loop
from cleatwright.parts.holder import HolderPart
from cleatwright.parts.tool import Fit, FittedTool, ToolBody
from cleatwright.shapes.outline import polygon
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid, block, prism

CTX = BuildContext()
GoodPart = Callable[[HolderPart], MeshBody]
SupportFree = Callable[[MeshBody, str], None]
SECTORS = 16


def ring(opening_mm: float, bundle_mm: float, *, kg: float = 0.1) -> ToolBody:
    """Return a ring of sectors whose inner polygon stands around a circle of the opening."""
    half, inner = math.pi / SECTORS, opening_mm / 2
    outer, spread = inner + 4.0, math.tan(half)
    sector = polygon(
        [
            (-inner * spread, inner),
            (inner * spread, inner),
            (outer * spread, outer),
            (-outer * spread, outer),
        ]
    )
    upright = prism(sector, bundle_mm).turned("x", 90.0).moved(0.0, bundle_mm / 2, 0.0)
    envelope = tuple(upright.turned("y", 360.0 * k / SECTORS) for k in range(SECTORS))
    grip = Loop(inner, opening_mm, opening_mm, bundle_mm)
    return ToolBody("ring", "x", envelope, kg, (0.0, 0.0, 0.0), (grip,), opening_mm)


def strap(width_mm: float, height_mm: float, bundle_mm: float) -> ToolBody:
    """Return a rectangular loop 3 mm stout, its inner top at z = 0."""
    x, y, low = width_mm / 2, bundle_mm / 2, -height_mm
    envelope: tuple[Solid, ...] = (
        block(-x - 3.0, -y, 0.0, x + 3.0, y, 3.0),
        block(-x - 3.0, -y, low - 3.0, x + 3.0, y, low),
        block(-x - 3.0, -y, low, -x, y, 0.0),
        block(x, -y, low, x + 3.0, y, 0.0),
    )
    grip = Loop(0.0, width_mm, height_mm, bundle_mm)
    return ToolBody("strap", "x", envelope, 0.15, (0.0, 0.0, low / 2), (grip,), width_mm)


def part_of(tools: list[FittedTool], chosen: Params, ctx: BuildContext = CTX) -> HolderPart:
    front = FAMILY.build(tools, chosen, ctx)
    return wall_screws.attach(FAMILY.name, front, MountSettings(plate_mm=ctx.plate_mm))


bodies = st.one_of(
    st.builds(ring, st.floats(10.0, 80.0), st.floats(2.0, 40.0)),
    st.builds(strap, st.floats(10.0, 200.0), st.floats(10.0, 200.0), st.floats(2.0, 90.0)),
)
tools = st.builds(FittedTool, bodies, st.builds(Fit, st.floats(0.1, 0.8), st.floats(0.0, 0.3)))
params = st.builds(
    Params,
    hook_mm=st.floats(8.0, 20.0),
    tip_mm=st.floats(4.0, 12.0),
    lift_mm=st.floats(0.5, 2.0),
)
plates = st.builds(BuildContext, plate_mm=st.floats(4.0, 8.0), hand_room_mm=st.floats(6.0, 30.0))
BOUNDS = (
    Params(),
    Params(hook_mm=8.0, tip_mm=4.0, lift_mm=0.5),
    Params(hook_mm=20.0, tip_mm=12.0, lift_mm=2.0),
)


@pytest.mark.parametrize("chosen", BOUNDS)
@pytest.mark.parametrize("openings", [(19.0,), (10.0, 45.0, 14.0, 80.0)])
def test_default_least_and_most_hold_and_print_without_support(
    chosen: Params,
    openings: tuple[float, ...],
    assert_good: GoodPart,
    assert_support_free: SupportFree,
) -> None:
    fitted = [FittedTool(ring(d, 10.0), Fit(0.4)) for d in openings]
    assert_support_free(assert_good(part_of(fitted, chosen)), "on-its-back")


@settings(deadline=None, max_examples=8)
@given(group=st.lists(tools, min_size=1, max_size=6), chosen=params, ctx=plates)
def test_any_list_of_unequal_loops_is_held(
    group: list[FittedTool],
    chosen: Params,
    ctx: BuildContext,
    assert_good: GoodPart,
    assert_support_free: SupportFree,
) -> None:
    assert_support_free(assert_good(part_of(group, chosen, ctx)), "on-its-back")


@pytest.mark.parametrize("play", [0.1, 0.4, 0.8])
def test_a_loop_has_half_its_play_before_the_tip(play: float, kernel: MeshKernel) -> None:
    part = part_of([FittedTool(strap(80.0, 80.0, 30.0), Fit(play))], Params())
    top = kernel.evaluate(part.seats[0].envelope()[0]).placed(shift(0.0, 0.0, 0.01))
    # pushed to the front by half the play, the loop's lower edge meets the foot of the ramp
    pushed = top.placed(shift(0.0, play / 2, 0.0))
    holder = kernel.evaluate(part.solid)
    assert holder.overlap_mm3(pushed) == pytest.approx(0.0, abs=1e-9)
    assert holder.overlap_mm3(pushed.placed(shift(0.0, 0.05, 0.0))) > 0.0


def test_the_section_at_the_tip_is_a_crowned_rectangle(kernel: MeshKernel) -> None:
    """Closed form: a circular segment, a rectangle and two triangles broken off below.

    Width 10, depth 9: the crown's radius is 6, half its angle asin(5 / 6), its fall
    6 - sqrt(36 - 25); the lower edges are broken by 2 mm.
    """
    tool = FittedTool(strap(60.0, 60.0, 30.0), Fit(0.4))
    front = FAMILY.build([tool], Params(hook_mm=10.0, tip_mm=8.0), CTX)
    # the tip's level part lies between 1 mm and 2.5 mm before the end
    end = front.reach_mm
    slab = block(0.0, end - 2.0, -60.0, front.width_mm, end - 1.5, 60.0)
    half = math.asin(5.0 / 6.0)
    segment = 36.0 / 2 * (2 * half - math.sin(2 * half))
    fall = 6.0 - math.sqrt(11.0)
    expected = 0.5 * (segment + 10.0 * (9.0 - fall) - 2.0**2)
    fine = MeshKernel(chord_error_mm=0.001).evaluate(front.solid & slab)
    assert fine.facts.volume_mm3 == pytest.approx(expected, rel=3e-4)
    assert fine.facts.bounds_mm[1][2] == pytest.approx(8.0, abs=1e-3)
    assert kernel.evaluate(front.solid).facts.bounds_mm[0][1] == pytest.approx(0.0)


@pytest.mark.parametrize(
    ("tool", "clause"),
    [
        (ring(9.9, 5.0), "smaller than a hook"),
        (strap(100.0, 9.0, 5.0), "smaller than a hook"),
        (strap(100.0, 60.0, 91.0), "bends"),
        (ring(60.0, 20.0, kg=0.5), "choose a wide saddle"),
        (ring(10.0, 80.0, kg=0.4), "for years"),
    ],
)
def test_what_a_hook_cannot_carry_is_refused(tool: ToolBody, clause: str) -> None:
    assert FAMILY.why_not(ring(10.0, 5.0)) is None
    assert clause in (FAMILY.why_not(tool) or "")
