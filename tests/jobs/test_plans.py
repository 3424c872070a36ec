"""Plans to choose from, for one tool more on a wall that hangs.

Oracles: what hangs by the ledger, and the numbers that the plans show.
"""

from __future__ import annotations

from itertools import combinations
from pathlib import Path

import pytest

from cleatwright.jobs.checking import check_workshop
from cleatwright.jobs.hung import record_hung
from cleatwright.jobs.making import make_workshop
from cleatwright.jobs.plans import plans

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
    assert sorted((path.name, path.stat().st_mtime_ns) for path in shed.iterdir()) == before


def test_what_a_printer_prints_in_an_hour_is_what_its_owner_says(shed: Path) -> None:
    document = shed / "workshop.toml"
    text = document.read_text("utf-8")
    told = text.replace("[printer.bench]", "[printer.bench]\ngrams_per_hour = 80")
    document.write_text(told, "utf-8")
    first = plans(shed).plans[0]
    assert first.print_h == pytest.approx(first.plastic_g / 80)
