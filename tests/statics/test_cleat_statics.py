"""The statics of the cleat against hand cases.

Source: equilibrium by hand, and the bevel table "Bevel statics" (closed form: the horizontal
force of a load W on a bevel of angle t without friction is W tan t).
"""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cleatwright.parts.holder import Seat
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block
from cleatwright.statics.cleat import LoadCase, OwnWeight, depth_needed_mm, load_cases, tug_n

BEVELS = st.floats(30.0, 60.0)


def needed(case: LoadCase, bevel_deg: float = 45.0, contact_z_mm: float = 0.0) -> float:
    return depth_needed_mm(case, contact_z_mm=contact_z_mm, bevel_deg=bevel_deg)


def test_a_45_degree_hook_with_reach_equal_to_drop_is_exactly_on_the_edge() -> None:
    assert needed(LoadCase("", 10.0, 10.0 * 80.0)) == pytest.approx(80.0, rel=1e-12)


@pytest.mark.parametrize(("bevel_deg", "horizontal"), [(30.0, 0.577), (45.0, 1.000)])
def test_the_bevel_gives_the_tabulated_horizontal_force(
    bevel_deg: float, horizontal: float
) -> None:
    """H(mu=0)/W = 0.577 at 30 degrees and 1.000 at 45 degrees (closed form, three digits)."""
    assert 100.0 / needed(LoadCase("", 1.0, 100.0), bevel_deg) == pytest.approx(
        horizontal, abs=5e-4
    )


@given(
    BEVELS,
    st.floats(0.1, 100.0),
    st.floats(1.0, 300.0),
    st.floats(0.0, 0.5),
    st.floats(0.0, 20.0),
)
def test_the_depth_found_balances_moments_and_forces(
    bevel_deg: float, weight_n: float, distance_mm: float, share: float, below_mm: float
) -> None:
    """At the depth found, N = (W e - F d) / depth and H = N + F is just W tan t."""
    pull = share * weight_n
    case = LoadCase("", weight_n, weight_n * distance_mm, pull, -below_mm)
    depth = needed(case, bevel_deg)
    if depth == 0.0:
        assert weight_n * distance_mm <= pull * below_mm
        return
    foot_n = (weight_n * distance_mm - pull * below_mm) / depth
    assert foot_n + pull == pytest.approx(weight_n * math.tan(math.radians(bevel_deg)), rel=1e-9)


def test_a_pull_as_strong_as_the_bevel_holds_no_depth() -> None:
    assert needed(LoadCase("", 10.0, 100.0, pull_n=10.0)) == math.inf


def test_a_steeper_bevel_needs_less_depth() -> None:
    case = LoadCase("", 10.0, 500.0)
    assert needed(case, 60.0) < needed(case, 45.0) < needed(case, 30.0)


def test_an_empty_holder_is_a_case_of_its_own() -> None:
    (empty, full) = load_cases((), OwnWeight(0.2, 15.0), drag=0.3)
    assert empty.name == "empty"
    assert empty.weight_n == pytest.approx(0.2 * 9.80665)
    assert full.moment_nmm == pytest.approx(0.2 * 9.80665 * 15.0)


@given(BEVELS, st.floats(0.1, 50.0), st.floats(5.0, 80.0), st.floats(-30.0, 60.0))
def test_a_tug_just_unhooks_where_the_depth_needed_is_the_depth_there(
    bevel_deg: float, weight_n: float, distance_mm: float, below_mm: float
) -> None:
    """Closed form turned round: the pull found needs exactly the depth of bearing that is there."""
    depth = 1.2 * distance_mm / math.tan(math.radians(bevel_deg)) + max(0.0, below_mm)
    at_rest = LoadCase("", weight_n, weight_n * distance_mm, 0.0, -below_mm)
    pull = tug_n(at_rest, contact_z_mm=0.0, depth_mm=depth, bevel_deg=bevel_deg)
    assert pull > 0.0
    if math.isfinite(pull) and pull < weight_n * math.tan(math.radians(bevel_deg)) * (1 - 1e-9):
        pulled = LoadCase("", weight_n, weight_n * distance_mm, pull, -below_mm)
        assert needed(pulled, bevel_deg) == pytest.approx(depth, rel=1e-6)


def test_a_bar_and_a_fork_recomputed_by_hand() -> None:
    """Recomputed by hand from weights and arms: 57.7/3.916 and 257.6/7.586 mm of depth."""
    bar = LoadCase("", 4.119 + 0.209, 4.119 * 12.8, 0.412, 12.0)
    assert needed(bar) == pytest.approx(57.7 / 3.916, rel=2e-3)
    fork = LoadCase("", 7.649 + 0.701, 7.649 * 32.3 + 0.701 * 1.94, 0.765, 12.0)
    assert needed(fork) == pytest.approx(257.6 / 7.586, rel=2e-3)


@given(st.lists(st.floats(0.05, 3.0), min_size=1, max_size=5), st.floats(0.05, 0.9))
def test_a_hand_draws_each_tool_with_its_share_of_the_weight_at_the_height_of_its_seat(
    masses: list[float], drag: float
) -> None:
    """Friction by hand: share times m g, with all the others there and with none of them."""
    box = block(-1.0, -1.0, -1.0, 1.0, 1.0, 1.0)
    seats = [
        Seat(
            ToolBody("x", "x", (box,), kg, (0.0, 0.0, 0.0), (), 1.0),
            shift(0.0, 20.0),
            (),
            (),
            rest_z_mm=-5.0 * number,
        )
        for number, kg in enumerate(masses, 1)
    ]
    cases = load_cases(seats, OwnWeight(0.1, 10.0), drag=drag)
    for number, kg in enumerate(masses, 1):
        for name, weight_kg in (
            (f"tool {number} alone, drawn out", 0.1 + kg),
            (f"tool {number} drawn out", 0.1 + sum(masses)),
        ):
            drawn = [case for case in cases if case.name == name]
            assert -5.0 * number in [case.pull_z_mm for case in drawn]
            for case in drawn:
                assert case.pull_n == pytest.approx(drag * kg * 9.80665)
                assert case.weight_n == pytest.approx(weight_kg * 9.80665)


@given(st.lists(st.tuples(st.floats(0.05, 3.0), st.floats(5.0, 120.0)), min_size=1, max_size=5))
def test_a_tool_lifted_off_leaves_the_sum_of_the_others(tools: list[tuple[float, float]]) -> None:
    box = block(-1.0, -1.0, -1.0, 1.0, 1.0, 1.0)
    seats = [
        Seat(ToolBody("x", "x", (box,), kg, (0.0, 0.0, 0.0), (), 1.0), shift(0.0, y), (), ())
        for kg, y in tools
    ]
    cases = load_cases(seats, OwnWeight(0.1, 10.0), drag=0.1)
    for number, _ in enumerate(tools, 1):
        (lifted,) = [case for case in cases if case.name == f"tool {number} lifted off"]
        rest = [one for k, one in enumerate(tools, 1) if k != number]
        weight = 9.80665 * (0.1 + sum(kg for kg, _ in rest))
        moment = 9.80665 * (0.1 * 10.0 + sum(kg * y for kg, y in rest))
        assert lifted.weight_n == pytest.approx(weight)
        assert lifted.moment_nmm == pytest.approx(moment)
        assert lifted.pull_n == 0.0
