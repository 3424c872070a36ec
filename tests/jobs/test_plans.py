"""Plans to choose from, for one tool more on a wall that hangs.

Oracles: what hangs by the ledger, and the numbers that the plans show.
"""

from __future__ import annotations

from itertools import combinations
from pathlib import Path

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
    make_workshop(shed)
    record_hung(shed)
    document = shed / "workshop.toml"
    document.write_text(document.read_text("utf-8") + AWL, "utf-8")
    before = sorted((path.name, path.stat().st_mtime_ns) for path in shed.iterdir())
    found = plans(shed)
    first = found.plans[0]
    assert (first.far, first.moved, first.scrapped, first.rails_down) == ("little", (), (), 0)
    assert first.parts >= 1
    assert found.taken == "little"
    shown = list(zip(*found.cells, strict=True))[1:]
    assert len(shown) == len(found.plans) <= 3
    assert all(one != other for one, other in combinations(shown, 2))
    assert sorted((path.name, path.stat().st_mtime_ns) for path in shed.iterdir()) == before
