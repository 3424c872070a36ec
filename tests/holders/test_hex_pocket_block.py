"""Hexagonal pockets in steps; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.holders.families.hex_pocket_block.family import FAMILY, MOST_ROWS, Params
from cleatwright.holders.family import BuildContext
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import wall_screws
from cleatwright.parts.grips import HexShank
from cleatwright.parts.holder import HolderPart, PrintPose
from cleatwright.parts.tool import Fit, FittedTool, ToolBody
from cleatwright.shapes.outline import hexagon
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid, block, prism

CTX = BuildContext()
GoodPart = Callable[[HolderPart], MeshBody]
SupportFree = Callable[[MeshBody, PrintPose], None]


def bit(flats_mm: float, length_mm: float = 25.0, *, head_mm: float = 0.0) -> ToolBody:
    """Return a bit whose lower 12 mm at least are hexagonal, with a square head if it has one."""
    shank = max(12.0, 0.5 * length_mm)
    envelope: tuple[Solid, ...] = (prism(hexagon(flats_mm).turned(90.0), length_mm),)
    if head_mm > 0.0:
        h = head_mm / 2
        envelope = (*envelope, block(-h, -h, shank, h, h, length_mm))
    grip = HexShank(0.0, flats_mm, shank)
    return ToolBody("bit", "x", envelope, 0.01, (0.0, 0.0, length_mm / 2), (grip,), length_mm)


def part_of(tools: list[FittedTool], params: Params, ctx: BuildContext = CTX) -> HolderPart:
    front = FAMILY.build(tools, params, ctx)
    part = wall_screws.attach(FAMILY.name, front, MountSettings(plate_mm=ctx.plate_mm))
    assert part.print_pose == "upright"
    return part


tools = st.builds(
    FittedTool,
    st.builds(
        bit,
        st.floats(3.0, 20.0),
        st.floats(18.0, 160.0),
        head_mm=st.one_of(st.just(0.0), st.floats(3.0, 30.0)),
    ),
    st.builds(Fit, st.floats(0.1, 0.8), st.floats(0.0, 0.3)),
)
params = st.builds(
    Params,
    gap_mm=st.floats(4.0, 20.0),
    depth_mm=st.floats(8.0, 16.0),
    step_mm=st.floats(3.0, 10.0),
    row_mm=st.floats(40.0, 220.0),
    lift_mm=st.floats(0.5, 4.0),
)
plates = st.builds(BuildContext, plate_mm=st.floats(4.0, 8.0))
LEAST = Params(gap_mm=4.0, depth_mm=8.0, step_mm=3.0, row_mm=40.0, lift_mm=0.5)
MOST = Params(gap_mm=20.0, depth_mm=16.0, step_mm=10.0, row_mm=220.0, lift_mm=4.0)


@pytest.mark.parametrize("chosen", [Params(), LEAST, MOST], ids=["default", "least", "most"])
@pytest.mark.parametrize("flats", [(6.35,), (3.0, 20.0, 6.35, 4.0, 10.0, 6.35)])
def test_default_least_and_most_hold_and_print_without_support(
    chosen: Params,
    flats: tuple[float, ...],
    assert_good: GoodPart,
    assert_support_free: SupportFree,
) -> None:
    group = [FittedTool(bit(size, 25.0 + 5.0 * k), Fit(0.4)) for k, size in enumerate(flats)]
    assert_support_free(assert_good(part_of(group, chosen)), "upright")


@settings(deadline=None, max_examples=15)
@given(group=st.lists(tools, min_size=1, max_size=6), chosen=params, ctx=plates)
def test_any_list_of_unequal_bits_is_held(
    group: list[FittedTool],
    chosen: Params,
    ctx: BuildContext,
    assert_good: GoodPart,
    assert_support_free: SupportFree,
) -> None:
    assert_support_free(assert_good(part_of(group, chosen, ctx)), "upright")


def test_forty_bits_stand_in_four_rows_of_ten_each_higher_than_the_one_in_front(
    assert_good: GoodPart,
) -> None:
    part = part_of([FittedTool(bit(6.35, 40.0), Fit(0.4)) for _ in range(40)], Params())
    assert_good(part)
    places = [seat.pose.apply((0.0, 0.0, 0.0)) for seat in part.seats]
    for k in range(MOST_ROWS):
        rows = places[10 * k : 10 * k + 10]
        assert len({(round(y, 6), round(z, 6)) for _, y, z in rows}) == 1
        assert [x for x, _, _ in rows] == sorted(x for x, _, _ in rows)
    fronts = [places[10 * k] for k in range(MOST_ROWS)]
    assert [round(b[2] - a[2], 6) for a, b in pairwise(fronts)] == [6.0] * 3
    assert all(a[1] > b[1] for a, b in pairwise(fronts))


def test_bits_in_the_second_row_are_lifted_over_those_in_front(kernel: MeshKernel) -> None:
    """The swept way out of each bit meets no other bit that stands in its seat."""
    group = [FittedTool(bit(6.35, 25.0 + k), Fit(0.4)) for k in range(12)]
    part = part_of(group, Params(row_mm=45.0))
    standing = [[kernel.evaluate(piece) for piece in seat.envelope()] for seat in part.seats]
    for k, seat in enumerate(part.seats):
        pieces = standing[k]
        others = [piece for j, tool in enumerate(standing) if j != k for piece in tool]
        for move in seat.way_out:
            swept = [piece.swept(move) for piece in pieces]
            assert sum(a.overlap_mm3(b) for a in swept for b in others) < 1e-6, (k, move)
            pieces = [piece.placed(shift(*move)) for piece in pieces]


@pytest.mark.parametrize("play", [0.1, 0.4, 0.8])
def test_a_bit_has_half_the_play_at_each_flat(play: float, kernel: MeshKernel) -> None:
    part = part_of([FittedTool(bit(6.35), Fit(play))], Params())
    shank = kernel.evaluate(part.seats[0].envelope()[0]).placed(shift(0.0, 0.0, 5.0))
    gap = kernel.evaluate(part.solid).gap_mm(shank, within_mm=5.0)
    assert gap == pytest.approx(play / 2, abs=1e-6)


def test_a_pocket_takes_away_a_hexagon_and_its_lead_in(kernel: MeshKernel) -> None:
    """Volume of a hexagonal prism and of the frustum of its chamfer, in closed form."""
    wide = FittedTool(bit(10.0, 40.0, head_mm=16.0), Fit(0.5))
    narrow = FittedTool(bit(6.0, 40.0, head_mm=16.0), Fit(0.5))
    least, most = (
        kernel.evaluate(FAMILY.build([tool], Params(), CTX).solid).facts.volume_mm3
        for tool in (wide, narrow)
    )

    def area(flats: float) -> float:
        return math.sqrt(3.0) / 2 * flats**2

    def pocket(flats: float) -> float:
        low, high = area(flats), area(flats + 1.2)
        return low * (10.0 - 0.6) + 0.6 / 3 * (low + high + math.sqrt(low * high))

    assert most - least == pytest.approx(pocket(10.5) - pocket(6.5), rel=1e-6)


def test_six_bits_make_a_front_of_less_than_twenty_cubic_centimetres(kernel: MeshKernel) -> None:
    group = [FittedTool(bit(6.35), Fit(0.4)) for _ in range(6)]
    assert kernel.evaluate(FAMILY.build(group, Params(), CTX).solid).facts.volume_mm3 < 20e3


@pytest.mark.parametrize(
    ("tool", "words"),
    [(bit(21.0), "21 mm across flats"), (bit(6.35, 170.0), "length of 170 mm")],
)
def test_a_bit_for_other_hands_is_refused(tool: ToolBody, words: str) -> None:
    refusal = FAMILY.why_not(tool)
    assert refusal is not None
    assert words in refusal
