"""Plans to choose from, for one tool more on a wall that hangs.

Oracles: what hangs by the ledger, and the numbers that the plans show.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest

from cleatwright.jobs.checking import check_workshop
from cleatwright.jobs.hung import record_hung
from cleatwright.jobs.making import make_workshop
from cleatwright.jobs.plans import PlanCost, PlansToChoose, plans

AWL = """
[[tool]]
name = "New awl"
kind = "screwdriver"
measures = { shank = 4, shank_length = 70, handle = 28, handle_length = 90 }
"""


def test_the_first_plan_moves_nothing_and_each_costs_something_else(shed: Path) -> None:
    made = make_workshop(shed)
    asked, kept = check_workshop(shed).remarks[-1].split(", and ")
    assert asked == "3 seats are to be kept free on the wall (reserved_seats)"
    assert f"{kept[0]} of 3 reserved seats found room on the wall" in " ".join(made.notes)
    record_hung(shed)
    document = shed / "workshop.toml"
    document.write_text(document.read_text("utf-8") + AWL, "utf-8")
    before = sorted((path.name, path.stat().st_mtime_ns) for path in shed.iterdir())
    found = plans(shed)
    first = found.plans[0]
    assert (first.far, first.moved, first.scrapped, first.rails_down) == ("little", (), (), 0)
    assert first.parts >= 1
    # by hand: 0.45 mm x 0.2 mm x 50 mm/s x 3600 s of PETG with 1.27 g/cm3 are 20.6 g in an hour
    assert first.print_h == pytest.approx(first.plastic_g / 20.574, rel=1e-3)
    lines = {what: values for what, *values in found.cells}
    assert lines["hours on the printer, about"][0] == f"{first.print_h:.1f} h"
    assert first.seats[1] == 3
    assert lines["reserved seats that find room"][0] == f"{first.seats[0]} of 3"
    assert found.taken == "little"
    shown = list(zip(*found.cells, strict=True))[1:]
    assert len(shown) == len(found.plans) <= 3
    assert all(one != other for one, other in combinations(shown, 2))
    # one of two lines for each plan that makes, moves or costs no less than another
    assert not any(later.no_better_than(one) for one, later in combinations(found.plans, 2))
    told = found.notes("make")
    for far, better in found.worse:
        assert far not in {one.far for one in found.plans}
        assert f"{far} is left out: in no line of the table is it better than {better}." in told
    assert sorted((path.name, path.stat().st_mtime_ns) for path in shed.iterdir()) == before


def test_what_a_printer_prints_in_an_hour_is_what_its_owner_says(shed: Path) -> None:
    document = shed / "workshop.toml"
    text = document.read_text("utf-8")
    told = text.replace("[printer.bench]", "[printer.bench]\ngrams_per_hour = 80")
    document.write_text(told, "utf-8")
    first = plans(shed).plans[0]
    assert first.print_h == pytest.approx(first.plastic_g / 80)


COSTS = PlanCost(
    far="little",
    parts=2,
    plastic_g=40.0,
    print_h=2.0,
    scrapped=(),
    moved=(),
    rails=1,
    rail_mm=900.0,
    rails_down=0,
    seats=(2, 3),
    overhead_kg=1.0,
    points=300.0,
    failing=(),
)


@pytest.mark.parametrize(
    "less",
    [
        {"parts": 1},
        {"plastic_g": 30.0},
        {"print_h": 1.0},
        {"rails": 0},
        {"rail_mm": 700.0},
        {"seats": (3, 3)},
        {"overhead_kg": 0.5},
        {"points": 250.0},
    ],
)
def test_a_plan_that_costs_less_in_one_line_is_shown(less: dict[str, object]) -> None:
    """All else of it is worse: more is scrapped and moves, more rails come down, more fails."""
    worse = replace(
        COSTS,
        far="parts",
        scrapped=("a",),
        moved=("b",),
        rails_down=1,
        failing=("R1 fails.",),
        points=400.0,
    )
    assert worse.no_better_than(COSTS)
    assert not replace(worse, **less).no_better_than(COSTS)
    assert not COSTS.no_better_than(worse)


def test_what_a_table_does_not_show_makes_no_plan_better() -> None:
    assert replace(COSTS, points=299.9, plastic_g=39.8).no_better_than(COSTS)


def test_a_plan_that_is_left_out_is_named_with_the_better_one() -> None:
    found = PlansToChoose("Shed", "mm", (COSTS,), "little", (("parts", "little"),))
    line = "parts is left out: in no line of the table is it better than little."
    assert found.choice("make") == (line, "make takes little.")
    assert found.unless_chosen == f"little is made. {line}"
    assert found.as_dict()["left_out"] == [{"plan": "parts", "no_better_than": "little"}]
