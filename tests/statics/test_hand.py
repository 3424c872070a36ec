"""What a hand does to a tool, against sums by hand.

Source: m g with g = 9.80665 m/s2 (ISO 80000-3), moments about the rail's face; one force that
points half to the front and half up has 1/sqrt 2 of itself each way.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cleatwright.base.source import Evidence, Source
from cleatwright.mounts.mount import MountSettings
from cleatwright.parts.hold import MagnetPull
from cleatwright.parts.holder import Seat
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block
from cleatwright.statics.cleat import OwnWeight
from cleatwright.statics.hand import (
    KNOCK_N,
    LIFT_N,
    PULL_N,
    Hand,
    hand_cases,
    knock_lever_mm,
    resting_cases,
)

G = 9.80665
OWN = OwnWeight(0.1, 12.0)
TUG = Hand(drag=0.1, pull_n=10.0, lift_n=10.0)
TOOLS = st.lists(st.tuples(st.floats(0.05, 3.0), st.floats(5.0, 120.0)), min_size=1, max_size=4)


def seat(mass_kg: float, out_mm: float, *, magnet_n: float = 0.0, swings: bool = False) -> Seat:
    """Return a tool 60 mm high, carried 20 mm above its lower end."""
    tool = ToolBody(
        "x", "x", (block(-5.0, -5.0, -20.0, 5.0, 5.0, 40.0),), mass_kg, (0.0, 0.0, 0.0), (), 1.0
    )
    magnet = None
    if magnet_n:
        magnet = MagnetPull(magnet_n, 0.2, Source("by hand", "", Evidence.DERIVED))
    return Seat(tool, shift(0.0, out_mm, 0.0), (), (), magnet=magnet, swings=swings)


def test_a_hand_pulls_with_a_kilogram_and_a_knock_is_half_of_it() -> None:
    """What was asked for: 10 N to the front, 10 N upwards, 5 N along the wall (a choice)."""
    usual = MountSettings()
    assert (usual.hand.pull_n, usual.hand.lift_n, usual.knock_n) == (10.0, 10.0, 5.0)
    # and what the list of values tells is what is reckoned with
    assert (PULL_N, LIFT_N, KNOCK_N) == (10.0, 10.0, 5.0)


@given(TOOLS)
def test_weights_rest_empty_full_and_with_each_tool_alone_or_away(
    tools: list[tuple[float, float]],
) -> None:
    cases = {case.name: case for case in resting_cases([seat(*one) for one in tools], OWN)}
    expected = {"empty": [], "all tools in place": tools}
    for k, one in enumerate(tools, 1):
        expected[f"tool {k} alone"] = [one]
        expected[f"tool {k} lifted off"] = [*tools[: k - 1], *tools[k:]]
    assert set(cases) == set(expected)
    for name, there in expected.items():
        weight = G * (0.1 + sum(kg for kg, _ in there))
        moment = G * (0.1 * 12.0 + sum(kg * out for kg, out in there))
        case = cases[name]
        assert case.weight_n == pytest.approx(weight)
        assert case.moment_nmm == pytest.approx(moment)
        assert (case.pull_n, case.lift_n) == (0.0, 0.0)


def test_without_any_weight_nothing_rests() -> None:
    assert resting_cases((), OwnWeight(0.0, 0.0)) == ()


@given(TOOLS)
def test_each_tool_is_drawn_out_up_and_between(tools: list[tuple[float, float]]) -> None:
    """A tool that is lifted weighs on the hand; one that is drawn out still on its seat."""
    cases = hand_cases([seat(*one) for one in tools], OWN, TUG)
    everything = G * (0.1 + sum(kg for kg, _ in tools))
    assert len(cases) == len(tools) * 2 * (2 + 2 + 1)
    for k, (kg, out) in enumerate(tools, 1):
        without = everything - G * kg
        up = [c for c in cases if c.name == f"tool {k} lifted off, drawn up"]
        assert [(c.pull_n, c.lift_n, c.lift_y_mm) for c in up] == [(0.0, 10.0, out)]
        assert up[0].weight_n == pytest.approx(without)
        between = [c for c in cases if c.name == f"tool {k} lifted off, drawn out and up"]
        # at its seat, and at the middle of the highest hand: the tool is lower than a hand
        assert [c.pull_z_mm for c in between] == [pytest.approx(10.0), 0.0]
        for c in between:
            assert (c.pull_n, c.lift_n) == (
                pytest.approx(10.0 / 2**0.5),
                pytest.approx(10.0 / 2**0.5),
            )
            assert c.lift_y_mm == out
            assert c.weight_n == pytest.approx(without)
        alone = [c for c in cases if c.name == f"tool {k} alone, drawn out"]
        assert [c.pull_z_mm for c in alone] == [pytest.approx(10.0), 0.0]
        for c in alone:
            assert (c.pull_n, c.lift_n) == (10.0, 0.0)
            assert c.weight_n == pytest.approx(G * (0.1 + kg))
            assert c.moment_nmm == pytest.approx(G * (0.1 * 12.0 + kg * out))
    full = [c for c in cases if c.name in {f"tool {k + 1}, drawn out" for k in range(len(tools))}]
    assert len(full) == 2 * len(tools)
    assert all(c.weight_n == pytest.approx(everything) for c in full)


def test_the_hardest_of_tug_drag_and_magnets_counts() -> None:
    assert TUG.pull_at(seat(1.0, 20.0)) == 10.0
    assert TUG.pull_at(seat(20.0, 20.0)) == pytest.approx(0.1 * 20.0 * G)
    assert TUG.pull_at(seat(1.0, 20.0, magnet_n=35.0)) >= 35.0


def test_a_knock_acts_at_the_far_end_of_a_tool_or_at_the_seat_of_one_that_swings() -> None:
    """A tool from 20 mm below its seat to 40 mm above it."""
    stiff, swinging = seat(1.0, 20.0), seat(1.0, 20.0, swings=True)
    assert knock_lever_mm(stiff, -10.0) == pytest.approx(50.0)
    assert knock_lever_mm(stiff, 30.0) == pytest.approx(50.0)
    assert knock_lever_mm(swinging, -10.0) == pytest.approx(10.0)
    assert knock_lever_mm(swinging, 30.0) == pytest.approx(30.0)
