"""Families by what they cost; every sum is worked by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from cleatwright.base.errors import DesignError, RailHoldError
from cleatwright.base.said import in_mm
from cleatwright.holders import prices
from cleatwright.holders.choosing import (
    BARE,
    PULLED_OFF,
    Figures,
    PassedOver,
    Rating,
    WhyFamily,
    choices,
    ranked,
)
from cleatwright.holders.family import Family
from cleatwright.tools.registry import ordinary_body

PLAIN = Figures(
    tools=2,
    grams=30.0,
    support=False,
    width_mm=120.0,
    reach_mm=40.0,
    hold_share=0.0,
    kept=True,
    pulled=False,
    bought="",
)


def rated(figures: Figures, name: str = "peg", *, bare: bool = False) -> Rating:
    return Rating(name, figures, bare)


def test_the_cost_is_the_sum_of_plastic_width_and_reach_for_each_tool() -> None:
    """15 g a tool, 60 mm at 0.1 g a mm, 40 mm at 0.1 g a mm: 25 g."""
    assert rated(PLAIN).cost_g == pytest.approx(15.0 + 6.0 + 4.0)


@pytest.mark.parametrize(
    ("figures", "bare", "more_g"),
    [
        (replace(PLAIN, support=True), False, prices.SUPPORT_G),
        (replace(PLAIN, kept=False), False, prices.NOT_KEPT_G),
        (replace(PLAIN, bought="a magnet"), False, prices.BOUGHT_G),
        (replace(PLAIN, pulled=True), False, prices.PULLED_G),
        (PLAIN, True, prices.BARE_EDGE_G),
        (replace(PLAIN, hold_share=0.5), False, prices.HOLD_G / 2),
        (replace(PLAIN, hold_share=math.inf), False, prices.HOLD_G),
        (replace(PLAIN, grams=40.0), False, 5.0),
    ],
)
def test_each_drawback_costs_its_price_once(figures: Figures, *, bare: bool, more_g: float) -> None:
    more = rated(figures, bare=bare).cost_g - rated(PLAIN).cost_g
    assert more == pytest.approx(more_g)


def test_nothing_but_a_bare_edge_costs_more_than_100_g() -> None:
    """A cut is worse than any plastic that is saved: of two the guarded one comes first."""
    sheath = rated(replace(PLAIN, grams=2 * 100.0, support=True), "blade-sheath")
    peg = rated(replace(PLAIN, grams=2 * 5.0), "peg", bare=True)
    assert sheath.cost_g > peg.cost_g
    near = rated(replace(PLAIN, grams=2 * 80.0, support=True), "blade-sheath")
    assert near.cost_g < peg.cost_g
    assert BARE in peg.flaws


def test_the_cheapest_family_comes_first_and_what_cannot_be_is_told_with_its_reason() -> None:
    saw = ordinary_body("hand-saw")
    able = choices([saw])
    assert {"peg", "wide-saddle"} <= {one.name for one in able}
    grams = {"peg": 22.0, "wide-saddle": 254.0}

    def figured(family: Family) -> Figures:
        if family.name not in grams:
            raise RailHoldError("no bolt bears it", todo="Screw it to the wall")
        return replace(PLAIN, grams=grams[family.name])

    found = ranked(able, [saw], figured=figured)
    assert [one.name for one in found.ratings] == ["peg", "wide-saddle"]
    assert {one.why for one in found.passed} <= {"no bolt bears it"}
    assert len(found.ratings) + len(found.passed) == len(able)


def test_what_must_be_pulled_off_is_passed_over_where_tools_may_only_be_lifted() -> None:
    torch = ordinary_body("torch")

    def figured(family: Family) -> Figures:
        return replace(PLAIN, pulled=family.name == "spring-clip")

    able = choices([torch])
    found = ranked(able, [torch], figured=figured, lifted=True)
    assert PassedOver("spring-clip", PULLED_OFF) in found.passed
    assert "spring-clip" not in {one.name for one in found.ratings}


def test_equals_stay_in_the_order_of_the_registry() -> None:
    saw = ordinary_body("hand-saw")
    able = choices([saw])
    found = ranked(able, [saw], figured=lambda _: PLAIN)
    assert [one.name for one in found.ratings] == [one.name for one in able]


def test_a_fault_of_the_program_itself_is_no_reason_to_pass_a_family_over() -> None:
    saw = ordinary_body("hand-saw")

    def figured(_: Family) -> Figures:
        raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        ranked(choices([saw]), [saw], figured=figured)


def test_the_reason_names_the_next_best_and_what_was_passed_over() -> None:
    ratings = (rated(PLAIN, "peg"), rated(replace(PLAIN, grams=254.0), "thin-slot"))
    passed = (PassedOver("bore-block", "it would be too large for the bed"),)
    words = in_mm(WhyFamily("least", "peg", ratings, passed).words)
    assert words == (
        "15 g of plastic and 60 mm of wall a tool, 40 mm out; "
        "next best thin-slot: 127 g of plastic and 60 mm of wall a tool, 40 mm out; "
        "bore-block was passed over: it would be too large for the bed"
    )
    made = in_mm(WhyFamily("made", "thin-slot", ratings).words)
    assert made.startswith("its like are made so already; 127 g of plastic")
    assert "cheaper peg: 15 g" in made
    assert WhyFamily("owner", "peg").words == "chosen by the owner"
    assert isinstance(RailHoldError("x"), DesignError)
