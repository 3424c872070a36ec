"""Slots for thin plates on edge; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.holders.families.thin_slot.family import FAMILY, Params
from cleatwright.holders.family import BuildContext
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import wall_screws
from cleatwright.parts.grips import ThinPlate
from cleatwright.parts.holder import HolderPart, PrintPose
from cleatwright.parts.tool import Fit, FittedTool, ToolBody
from cleatwright.shapes.rigid import turn
from cleatwright.shapes.solid import block
from cleatwright.tools.registry import ordinary_body

CTX = BuildContext()
GoodPart = Callable[[HolderPart], MeshBody]
SupportFree = Callable[[MeshBody, PrintPose], None]


def sheet(
    thick_mm: float,
    edge_mm: float,
    high_mm: float,
    *,
    handle_mm: float = 0.0,
    com_x_mm: float = 0.0,
) -> ToolBody:
    """Return a sheet in the xz plane that is turned on edge, with a thicker block on top."""
    t, h = thick_mm / 2, edge_mm / 2
    envelope = [block(-h, -t, 0.0, h, t, high_mm)]
    if handle_mm > 0.0:
        y = t + handle_mm
        envelope.append(block(-h - handle_mm, -y, high_mm, h + handle_mm, y, high_mm + 30.0))
    grip = ThinPlate(turn("z", 90.0), thick_mm, -h, h, high_mm)
    com = (com_x_mm, 0.0, high_mm / 2)
    return ToolBody("sheet", "x", tuple(envelope), 0.2, com, (grip,), edge_mm)


def part_of(tools: list[FittedTool], params: Params, ctx: BuildContext = CTX) -> HolderPart:
    front = FAMILY.build(tools, params, ctx)
    part = wall_screws.attach(FAMILY.name, front, MountSettings(plate_mm=ctx.plate_mm))
    assert part.print_pose == "upright"
    return part


tools = st.builds(
    FittedTool,
    st.builds(
        sheet,
        st.floats(0.3, 8.0),
        st.floats(12.0, 160.0),
        st.floats(20.0, 600.0),
        handle_mm=st.one_of(st.just(0.0), st.floats(1.0, 15.0)),
        com_x_mm=st.floats(-5.0, 10.0),
    ),
    st.builds(Fit, st.floats(0.1, 0.8), st.floats(0.0, 0.3)),
)
params = st.builds(
    Params,
    fin_mm=st.floats(1.8, 6.0),
    share=st.floats(0.25, 0.6),
    most_mm=st.floats(30.0, 90.0),
    stop_mm=st.floats(4.0, 14.0),
    floor_mm=st.floats(2.0, 8.0),
    lift_mm=st.floats(0.5, 10.0),
)
plates = st.builds(BuildContext, plate_mm=st.floats(4.0, 8.0), hand_room_mm=st.floats(6.0, 30.0))


@pytest.mark.parametrize(
    "chosen",
    [
        Params(),
        Params(fin_mm=1.8, share=0.25, most_mm=30.0, stop_mm=4.0, floor_mm=2.0, lift_mm=0.5),
        Params(fin_mm=6.0, share=0.6, most_mm=90.0, stop_mm=14.0, floor_mm=8.0, lift_mm=10.0),
    ],
)
@pytest.mark.parametrize("edges", [(60.0,), (12.0, 160.0, 30.0, 90.0, 40.0, 15.0)])
def test_default_least_and_most_hold_and_print_without_support(
    chosen: Params,
    edges: tuple[float, ...],
    assert_good: GoodPart,
    assert_support_free: SupportFree,
) -> None:
    group = [
        FittedTool(sheet(edge / 20, edge, 100.0, handle_mm=edge / 12), Fit(0.4)) for edge in edges
    ]
    assert_support_free(assert_good(part_of(group, chosen)), "upright")


@settings(deadline=None, max_examples=10)
@given(group=st.lists(tools, min_size=1, max_size=6), chosen=params, ctx=plates)
def test_any_list_of_unequal_plates_is_held_and_prints_without_support(
    group: list[FittedTool],
    chosen: Params,
    ctx: BuildContext,
    assert_good: GoodPart,
    assert_support_free: SupportFree,
) -> None:
    assert_support_free(assert_good(part_of(group, chosen, ctx)), "upright")


@pytest.mark.parametrize("play", [0.1, 0.4, 0.8])
def test_a_plate_has_half_the_play_on_each_side_and_before_its_end(
    play: float, kernel: MeshKernel
) -> None:
    part = part_of([FittedTool(sheet(2.0, 60.0, 100.0), Fit(play))], Params())
    held = kernel.evaluate(part.seats[0].envelope()[0].moved(dz=0.6))
    gap = kernel.evaluate(part.solid).gap_mm(held, within_mm=5.0)
    assert gap == pytest.approx(play / 2, abs=1e-6)
    thin = kernel.evaluate(part.seats[0].envelope()[0].moved(dy=play / 2 - 1e-3, dz=0.6))
    assert kernel.evaluate(part.solid).gap_mm(thin, within_mm=5.0) == pytest.approx(1e-3, abs=1e-6)


def test_a_steady_plate_gets_a_low_stop_and_one_that_may_tip_a_full_one() -> None:
    """A sheet of 60 mm is steady up to where half its edge is 0.35 of half its height: 171 mm."""
    for high, lift in ((170.0, 8.0 + 1.0), (172.0, 0.35 * 172.0 + 1.0)):
        fitted = FittedTool(sheet(2.0, 60.0, high), Fit(0.4))
        front = FAMILY.build([fitted], Params(most_mm=90.0), CTX)
        assert front.seats[0].way_out[0] == pytest.approx((0.0, 0.0, lift))


def test_volume_of_one_slot_in_closed_form(kernel: MeshKernel) -> None:
    """Prisms only: fins less their falling corners and openings, roots, floor, stop, bevels."""
    front = FAMILY.build([FittedTool(sheet(1.6, 59.6, 100.0), Fit(0.4))], Params(), CTX)
    plate, fin_z, stop_y = 5.0, 35.0, 5.0 + 1.0 + 59.6 + 0.2
    reach = stop_y + 2.7
    run, leg = min(35.0 - 8.0, (reach - plate) / 2), reach - plate
    half = (leg - (2.0 + math.sqrt(2.0)) * 6.0) / 3.0
    side = reach * fin_z - run**2 / 2 + reach * 3.0 + leg**2 / 2 + plate * leg - 2.0 * half**2
    roots = 2 * ((3.0 * plate + 3.0**2 / 2) * (fin_z + 3.0 + leg) - 3.0**3 / 6)
    floor = 2.0 * ((reach - plate - 4.0) * 3.0 + 2.7 * 8.0)
    bevels = 2 * 0.9**2 / 2 * (reach - run - plate)
    fins = 2 * 2.7 * side
    measured = kernel.evaluate(front.solid).facts.volume_mm3
    # the end of a bevel in the falling corner is less than a cube of its size
    assert measured == pytest.approx(fins + roots + floor - bevels, abs=2 * 0.9**3)


@pytest.mark.parametrize(
    ("tool", "why"),
    [
        (sheet(0.2, 60.0, 100.0), "0.2 mm thick"),
        (sheet(8.1, 60.0, 100.0), "8.1 mm thick"),
        (sheet(2.0, 11.0, 100.0), "lower edge of 11 mm"),
        (sheet(2.0, 161.0, 100.0), "lower edge of 161 mm"),
        (sheet(2.0, 60.0, 19.0), "19 mm high only"),
        (sheet(2.0, 60.0, 100.0, com_x_mm=43.0), "13 mm in front of its lower edge"),
    ],
)
def test_what_would_not_stand_is_refused(tool: ToolBody, why: str) -> None:
    refusal = FAMILY.why_not(tool)
    assert refusal is not None
    assert why in refusal


def test_a_saw_on_its_toe_would_break_the_fins_and_a_square_stands() -> None:
    """A fin is a bar clamped at its foot: 6 M / (L t²) against 17 N/mm² across layers.

    Source: the lowest of several makers' values of printed PLA across layers; M is the weight
    at the height of its centre, as in a knock.
    """
    for kind, stands in (("hand-saw", False), ("square", True), ("scraper", True)):
        body = ordinary_body(kind)
        grip = body.grip(ThinPlate)
        assert grip is not None
        _, _, high = grip.pose.apply(body.com_mm)
        along = grip.edge_y1_mm - grip.edge_y0_mm
        stress = 6 * body.mass_kg * 9.80665 * high / (along * 2.7**2)
        assert (stress < 17.0 / 2.0) is stands
        reason = FAMILY.why_not(body)
        assert (reason is None) is stands
        if reason is not None:
            # by hand: 0.60 kg, 339 mm above its edge
            assert "339 mm above its edge" in reason
