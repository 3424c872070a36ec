"""Square posts for sockets; oracles are closed forms, a standard and predicates of the mesh."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.holders.families.square_post_rail import FAMILY, Params
from cleatwright.holders.family import BuildContext
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import wall_screws
from cleatwright.parts.grips import SquareDrive
from cleatwright.parts.holder import HolderPart, PrintPose
from cleatwright.parts.tool import Fit, FittedTool, ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block
from cleatwright.tools.registry import tool_body

CTX = BuildContext()
# ISO 1174-1 = DIN 3120, the least and the largest female square (from memory)
FEMALE_MM = {"6.3": (6.41, 6.63), "10": (9.58, 9.80), "12.5": (12.76, 13.03), "20": (19.11, 19.44)}
GoodPart = Callable[[HolderPart], MeshBody]
SupportFree = Callable[[MeshBody, PrintPose], None]


def box_socket(square_mm: float, wall_mm: float = 4.0, depth_mm: float = 15.0) -> ToolBody:
    """Return a square socket of four walls with a lid."""
    a, b, d = square_mm / 2, square_mm / 2 + wall_mm, depth_mm
    envelope = (
        block(-b, -b, 0.0, b, -a, d),
        block(-b, a, 0.0, b, b, d),
        block(-b, -a, 0.0, -a, a, d),
        block(a, -a, 0.0, b, a, d),
        block(-b, -b, d, b, b, 2 * d),
    )
    grip = SquareDrive(0.0, square_mm, depth_mm, 2 * b)
    return ToolBody("socket", "x", envelope, 0.1, (0.0, 0.0, d), (grip,), 2 * b)


def part_of(tools: list[FittedTool], params: Params, ctx: BuildContext = CTX) -> HolderPart:
    front = FAMILY.build(tools, params, ctx)
    part = wall_screws.attach(FAMILY.name, front, MountSettings(plate_mm=ctx.plate_mm))
    assert part.print_pose == "upright"
    return part


tools = st.builds(
    FittedTool,
    st.builds(box_socket, st.floats(6.0, 26.0), st.floats(1.0, 30.0), st.floats(6.0, 40.0)),
    st.builds(Fit, st.floats(0.1, 0.8), st.floats(0.0, 0.3)),
)
params = st.builds(
    Params,
    gap_mm=st.floats(3.0, 30.0),
    share=st.floats(0.6, 0.9),
    most_mm=st.floats(8.0, 25.0),
    shelf_mm=st.floats(3.0, 12.0),
    lift_mm=st.floats(0.5, 10.0),
)
plates = st.builds(BuildContext, plate_mm=st.floats(4.0, 8.0))
LEAST = Params(gap_mm=3.0, share=0.6, most_mm=8.0, shelf_mm=3.0, lift_mm=0.5)
MOST = Params(gap_mm=30.0, share=0.9, most_mm=25.0, shelf_mm=12.0, lift_mm=10.0)


@pytest.mark.parametrize("chosen", [Params(), LEAST, MOST], ids=["default", "least", "most"])
@pytest.mark.parametrize("squares", [(6.35,), (6.0, 25.0, 9.53, 12.7, 19.05)])
def test_default_least_and_most_hold_and_print_without_support(
    chosen: Params,
    squares: tuple[float, ...],
    assert_good: GoodPart,
    assert_support_free: SupportFree,
) -> None:
    group = [FittedTool(box_socket(size), Fit(0.4)) for size in squares]
    assert_support_free(assert_good(part_of(group, chosen)), "upright")


@settings(deadline=None, max_examples=15)
@given(group=st.lists(tools, min_size=1, max_size=6), chosen=params, ctx=plates)
def test_any_list_of_unequal_sockets_is_held(
    group: list[FittedTool],
    chosen: Params,
    ctx: BuildContext,
    assert_good: GoodPart,
    assert_support_free: SupportFree,
) -> None:
    assert_support_free(assert_good(part_of(group, chosen, ctx)), "upright")


@pytest.mark.parametrize("play", [0.1, 0.4, 0.8])
def test_a_socket_has_half_the_play_on_each_side_of_its_post(
    play: float, kernel: MeshKernel
) -> None:
    part = part_of([FittedTool(box_socket(12.7), Fit(play))], Params())
    lifted = [kernel.evaluate(s).placed(shift(dz=2.0)) for s in part.seats[0].envelope()[:4]]
    post = kernel.evaluate(part.solid)
    for wall in lifted:
        assert post.gap_mm(wall, within_mm=1.5) == pytest.approx(play / 2, abs=1e-6)


@pytest.mark.parametrize("name", FEMALE_MM)
def test_a_post_goes_into_the_narrowest_driving_square_of_iso_1174_and_stays_in_the_widest(
    name: str,
) -> None:
    narrow, wide = FEMALE_MM[name]
    (size,) = part_of([FittedTool(box_socket(narrow), Fit(0.3, 0.1))], Params()).sizes
    assert size.label == "square post"
    assert size.made_mm == pytest.approx(narrow - 0.4)
    # a square of the same name turns by less than an eighth about its post
    assert wide < size.made_mm * 2**0.5 * 0.95


def test_the_volume_of_a_post_is_that_of_a_prism_and_a_frustum(kernel: MeshKernel) -> None:
    """12.2 mm square, 12 mm high (0.8 of 15), chamfered by 1 mm: all of it above the shelf."""
    front = FAMILY.build([FittedTool(box_socket(12.7), Fit(0.5))], Params(), CTX)
    above = block(0.0, 0.0, 0.0, front.width_mm, front.reach_mm, 30.0)
    volume = kernel.evaluate(front.solid).overlap_mm3(kernel.evaluate(above))
    a, b = 12.2**2, 10.2**2
    assert volume == pytest.approx(a * 11.0 + (a + b + (a * b) ** 0.5) / 3, rel=1e-6)


def test_sockets_stand_apart_by_the_gap_whatever_their_widths() -> None:
    walls = (3.0, 10.0, 5.0)
    part = part_of([FittedTool(box_socket(9.5, w), Fit(0.4)) for w in walls], Params(gap_mm=6.0))
    xs = [seat.pose.apply((0.0, 0.0, 0.0))[0] for seat in part.seats]
    assert xs[1] - xs[0] == pytest.approx(9.5 + 13.0 + 6.0)
    assert xs[2] - xs[1] == pytest.approx(9.5 + 15.0 + 6.0)


def test_a_square_that_would_snap_its_post_or_is_too_shallow_is_refused() -> None:
    small = FAMILY.why_not(box_socket(5.5))
    assert small is not None
    assert "would snap" in small
    shallow = FAMILY.why_not(box_socket(12.7, depth_mm=5.0))
    assert shallow is not None
    assert "5 mm deep only" in shallow


def test_a_socket_kind_is_hollow_around_its_square_and_weighs_its_ring(kernel: MeshKernel) -> None:
    """Circle less square over the depth, half of the circle above it, steel of 7850 kg/m3."""
    body = tool_body("socket", {"outer": 22.0, "length": 38.0, "square": 12.7, "depth": 16.0})
    circle = 3.141592653589793 / 4 * 22.0**2
    volume = (circle - 12.7**2) * 16.0 + 0.5 * circle * 22.0
    assert body.mass_kg == pytest.approx(volume * 7.85e-6, rel=1e-9)
    post = kernel.evaluate(block(-6.35, -6.35, -1.0, 6.35, 6.35, 16.0))
    assert sum(kernel.evaluate(s).overlap_mm3(post) for s in body.envelope) < 1e-6
