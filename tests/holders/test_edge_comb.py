"""Combs for flat tools on edge; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.holders.families.edge_comb.family import FAMILY, Params
from cleatwright.holders.family import BuildContext
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import french_cleat, wall_screws
from cleatwright.parts.grips import FlatEdge
from cleatwright.parts.holder import HolderPart, PrintPose
from cleatwright.parts.tool import Fit, FittedTool, ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block

CTX = BuildContext()
GoodPart = Callable[[HolderPart], MeshBody]
SupportFree = Callable[[MeshBody, PrintPose], None]


def headed_bar(
    width_mm: float,
    *,
    thickness_mm: float = 6.0,
    straight_mm: float = 100.0,
    head: float = 2.0,
    balance: float = 0.5,
) -> ToolBody:
    """Return a flat bar between two box heads, ``head`` (>= 1) times as wide and 1.4 as thick.

    ``balance`` is the share of the straight part that lies below the centre of mass,
    as far as a comb can take it.
    """
    x, y, end = width_mm / 2, thickness_mm / 2, 20.0
    low, high = end, end + straight_mm
    envelope = (
        block(-x * head, -y * 1.4, 0.0, x * head, y * 1.4, end),
        block(-x, -y, low, x, y, high),
        block(-x * head, -y * 1.4, high, x * head, y * 1.4, high + end),
    )
    com = min(max(low + balance * straight_mm, low + 8.0), high - 8.0)
    grip = FlatEdge(low, high, width_mm, thickness_mm)
    return ToolBody("bar", "x", envelope, 0.3, (0.0, 0.0, com), (grip,), width_mm * head)


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
        headed_bar,
        st.floats(5.0, 60.0),
        thickness_mm=st.floats(2.0, 15.0),
        straight_mm=st.floats(27.0, 400.0),
        head=st.floats(1.0, 3.0),
        balance=st.floats(0.0, 1.0),
    ),
    st.builds(Fit, st.floats(0.1, 0.8), st.floats(0.0, 0.3)),
)
params = st.builds(
    Params,
    tilt_deg=st.floats(25.0, 35.0),
    span_mm=st.floats(25.0, 160.0),
    cheek_mm=st.floats(5.0, 10.0),
    hold_share=st.floats(0.55, 0.85),
)
plates = st.builds(BuildContext, plate_mm=st.floats(4.0, 8.0), hand_room_mm=st.floats(6.0, 30.0))


def assert_ways_miss_neighbours(part: HolderPart, kernel: MeshKernel) -> None:
    bodies = [[kernel.evaluate(piece) for piece in seat.envelope()] for seat in part.seats]
    for k, (seat, pieces) in enumerate(zip(part.seats, bodies, strict=True)):
        others = [piece for j, other in enumerate(bodies) if j != k for piece in other]
        for piece in pieces:
            way = piece.swept(seat.way_out[0])
            assert sum(way.overlap_mm3(other) for other in others) == 0.0


@pytest.mark.parametrize(
    "chosen",
    [
        Params(),
        Params(tilt_deg=25.0, span_mm=25.0, cheek_mm=5.0, hold_share=0.55),
        Params(tilt_deg=35.0, span_mm=160.0, cheek_mm=10.0, hold_share=0.85),
    ],
)
@pytest.mark.parametrize("widths", [(12.0,), (6.0, 30.0, 12.0, 45.0, 8.0, 20.0, 15.0)])
def test_default_least_and_most_hold_and_print_without_support(
    chosen: Params,
    widths: tuple[float, ...],
    assert_good: GoodPart,
    assert_support_free: SupportFree,
    kernel: MeshKernel,
) -> None:
    group = [FittedTool(headed_bar(w, thickness_mm=w / 3), Fit(0.4)) for w in widths]
    part = part_of(group, chosen)
    assert_good(part)
    assert_ways_miss_neighbours(part, kernel)
    assert_support_free(assert_good(screwed(group, chosen)), "on-its-back")


@settings(deadline=None, max_examples=15)
@given(group=st.lists(tools, min_size=1, max_size=7), chosen=params, ctx=plates)
def test_any_list_of_unequal_tools_is_held(
    group: list[FittedTool],
    chosen: Params,
    ctx: BuildContext,
    assert_good: GoodPart,
    assert_support_free: SupportFree,
    kernel: MeshKernel,
) -> None:
    assert all(FAMILY.why_not(tool.body) is None for tool in group)
    part = part_of(group, chosen, ctx)
    assert_good(part)
    assert_support_free(assert_good(screwed(group, chosen, ctx)), "on-its-back")
    assert_ways_miss_neighbours(part, kernel)
    for seat in part.seats:
        assert 0.0 < seat.com_mm[0] < part.bounds_mm[1][0], "a tool hangs over on one side"


@pytest.mark.parametrize("play", [0.1, 0.4, 0.8])
def test_a_shaft_has_half_the_play_on_each_side(play: float, kernel: MeshKernel) -> None:
    part = part_of([FittedTool(headed_bar(20.0), Fit(play))], Params())
    up = (0.0, 3.0 * math.cos(math.radians(30.0)), 3.0 * math.sin(math.radians(30.0)))
    shaft = kernel.evaluate(part.seats[0].envelope()[1]).placed(shift(*up))
    gap = kernel.evaluate(part.solid).gap_mm(shaft, within_mm=2.0)
    assert gap == pytest.approx(play / 2, abs=1e-6)


def test_the_biggest_lies_lowest_and_each_balances_between_the_cheeks() -> None:
    group = [FittedTool(headed_bar(w), Fit(0.4)) for w in (12.0, 30.0, 20.0)]
    part = part_of(group, Params(span_mm=60.0))
    assert [seat.tool.order_mm for seat in part.seats] == [24.0, 40.0, 60.0]
    heights = [seat.rest_z_mm for seat in part.seats]
    assert heights == sorted(heights, reverse=True)
    assert [seat.com_mm[0] for seat in part.seats] == pytest.approx([30.0] * 3)


def test_heads_of_neighbours_are_a_hand_room_apart(kernel: MeshKernel) -> None:
    group = [FittedTool(headed_bar(w), Fit(0.4)) for w in (30.0, 18.0)]
    part = part_of(group, Params())
    upper, lower = ([kernel.evaluate(p) for p in seat.envelope()] for seat in part.seats)
    assert upper[0].gap_mm(lower[0], within_mm=50.0) == pytest.approx(12.0, abs=1e-6)


def test_volume_of_one_comb_in_closed_form(kernel: MeshKernel) -> None:
    """Two cheeks 5 thick less a slot 6.5 wide and 13 deep at 30 degrees, with two fillets."""
    tool = FittedTool(headed_bar(20.0, head=1.0), Fit(0.5))
    front = FAMILY.build([tool], Params(), CTX)
    cos, tan = math.sqrt(0.75), math.sqrt(1.0 / 3.0)
    # the heads are 8.4 thick; their rear corner stands 4 mm before the plate of 5 mm
    bottom_y = 5.0 + 4.0 + 4.2 * 0.5
    reach = bottom_y + 13.0 * cos + 3.25 * 0.5
    mouth_z = 13.0 * 0.5 - 3.25 * cos
    toe = mouth_z - 6.0 / cos
    heel = toe - (reach - 5.0)

    def top_at(y: float) -> float:
        # the top is a line 3.25 + 6 above the slot's middle, measured across it
        return (3.25 + 6.0) / cos + (y - bottom_y) * tan

    outline = [
        (0.0, heel),
        (5.0, heel),
        (reach, toe),
        (reach, top_at(reach)),
        (5.0, top_at(5.0)),
        (0.0, top_at(5.0)),
    ]
    pairs = zip(outline, outline[1:] + outline[:1], strict=True)
    area = sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs) / 2
    slot = 6.5 * 13.0 + 6.5**2 * tan / 2
    flares = 0.5 * 1.5 * (1.5 / (1.5 + tan) + 1.5 / (1.5 - tan))
    fillet = (3.0 * 5.0 + 3.0**2 / 2) * (top_at(5.0) - heel - 3.0)
    expected = 2 * 5.0 * (area - slot - flares) + 2 * fillet
    assert kernel.evaluate(front.solid).facts.volume_mm3 == pytest.approx(expected, rel=1e-6)


def test_a_straight_part_too_short_for_two_cheeks_is_refused() -> None:
    assert FAMILY.why_not(headed_bar(12.0, straight_mm=27.0)) is None
    assert "too short" in (FAMILY.why_not(headed_bar(12.0, straight_mm=26.0)) or "")


def test_a_tool_that_balances_in_its_head_is_refused() -> None:
    even = headed_bar(12.0)
    heavy = ToolBody("bar", "x", even.envelope, 0.3, (0.0, 0.0, 125.0), even.grips, 24.0)
    assert "balances at 125 mm" in (FAMILY.why_not(heavy) or "")
