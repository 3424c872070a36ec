"""The screws of the rails: how long, how many, and what that takes for granted."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import MeasureError
from cleatwright.base.lengths import Wording
from cleatwright.pack.hardware import hardware_table, rail_hardware
from cleatwright.papers.kit.tables import csv_bytes
from cleatwright.siting.rails.screws import rail_screw_mm

# lengths of chipboard screws of 5 mm in any shop; from memory
SHOP_MM = (20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 120)
# NDS 2018, 12.1.5.6: six diameters of 5 mm in the stud
DEEP_MM = 30.0


def on_lining(panel: Any, lining_mm: float) -> Any:
    """Return what was computed for a panel, as if its owner had given the lining."""
    return replace(panel, panel=panel.panel.model_copy(update={"lining_mm": lining_mm}))


def listed(panels: list[Any]) -> list[list[str]]:
    """Return the rows of the list in the file, without its heading."""
    table = hardware_table(rail_hardware(panels), Wording())
    data = csv_bytes(table.heading, table.rows)
    return list(csv.reader(io.StringIO(data.decode("utf-8-sig"))))[1:]


def test_a_lining_that_nobody_gave_is_taken_as_plasterboard_and_said_so(done: Any) -> None:
    """EN 520, 12.5 mm (from memory): 18 + 12.5 + 30 = 60.5 mm, and 70 mm is the next on sale."""
    ((item, count, note, rule),) = listed([done.job.panels[0]])
    assert item == "countersunk wood screw 5 x 70 mm"
    assert "12.5 mm lining taken as plasterboard (measure yours), 39.5 mm in the stud" in note
    assert "NDS 2018, 12.1.5.6" in rule
    # two in each stud (common practice, no source); the shed's studs by hand from its document
    studs = [100.0, 700.0, 1100.0]
    rails = done.job.panels[0].arrangement.rails
    assert int(count) == 2 * sum(run.x0_mm < x < run.x1_mm for run in rails for x in studs) > 0


@pytest.mark.parametrize(
    ("lining_mm", "item", "said"),
    [
        (0.0, "5 x 50 mm", "18 mm rail, no lining as given, 32 mm in the stud"),
        (12.5, "5 x 70 mm", "12.5 mm lining as given, 39.5 mm in the stud"),
        (22.5, "5 x 80 mm", "22.5 mm lining as given, 39.5 mm in the stud"),
        (60.0, "5 x 120 mm", "60 mm lining as given, 42 mm in the stud"),
    ],
)
def test_a_lining_that_was_given_decides_how_long_the_screws_are(
    done: Any, lining_mm: float, item: str, said: str
) -> None:
    """18 mm of rail, the lining and 30 mm in the stud, and then the next length on sale."""
    ((name, _, note, _),) = listed([on_lining(done.job.panels[0], lining_mm)])
    assert name.endswith(item)
    assert said in note


def test_each_panel_has_screws_for_its_own_lining_and_equal_ones_are_added_up(done: Any) -> None:
    wall = done.job.panels[0]
    bare, thick = on_lining(wall, 0.0), on_lining(wall, 22.5)
    count = int(listed([wall])[0][1])
    rows = listed([bare, thick, bare])
    assert [(row[0][-9:], int(row[1])) for row in rows] == [
        ("5 x 50 mm", 2 * count),
        ("5 x 80 mm", count),
    ]


def test_rails_that_stay_need_no_screws_and_those_beside_studs_ask_for_advice(done: Any) -> None:
    wall = done.job.panels[0]
    hung = replace(
        wall,
        arrangement=replace(
            wall.arrangement,
            rails=tuple(replace(r, state="document") for r in wall.arrangement.rails),
        ),
    )
    assert rail_hardware([hung]) == ()
    rails = tuple(replace(r, studs_mm=r.studs_mm[:1]) for r in wall.arrangement.rails)
    beside = replace(wall, arrangement=replace(wall.arrangement, rails=rails))
    screws, other = rail_hardware([beside])
    assert screws.count == other.count * 2 == len(rails) * 2
    assert "qualified advice" in other.note


@given(st.floats(9, 50), st.floats(0, 60))
@settings(deadline=None, max_examples=80)
def test_the_screw_is_the_shortest_in_the_shop_that_is_deep_enough(
    rail_mm: float, lining_mm: float
) -> None:
    """Looked for in the list of the shop, one length after the other."""
    enough = [one for one in SHOP_MM if one >= rail_mm + lining_mm + DEEP_MM]
    if enough:
        assert rail_screw_mm(rail_thickness_mm=rail_mm, lining_mm=lining_mm) == min(enough)
    else:
        with pytest.raises(MeasureError, match="thinner board") as caught:
            rail_screw_mm(rail_thickness_mm=rail_mm, lining_mm=lining_mm)
        assert "up to 90 mm" in caught.value.sentence
