"""Tools that are wanted near something on their wall, or on one side of it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.small import can, document

from cleatwright.base.errors import CleatwrightError
from cleatwright.base.stages.run import Run
from cleatwright.cli.main import main
from cleatwright.jobs.why import why_there
from cleatwright.pack.job import Job
from cleatwright.project.computing import compute
from cleatwright.siting.assessing import ASSESSED
from cleatwright.siting.beside import with_along
from cleatwright.siting.searching import SEARCHED, Search
from cleatwright.wall.arrange import arrange
from cleatwright.wall.conflicts import conflicts, whole
from cleatwright.wall.model import (
    ANYWHERE_ALONG,
    AlongBounds,
    Item,
    Near,
    Place,
    RailRule,
    WallSpace,
)
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Profile
from cleatwright.wall.score import hung, sideways_cost

SINK_X_MM, DOOR_X_MM = 300.0, 2500.0
THINGS = """
[[wall.obstacle]]
name = "sink"
x = 200
z = 0
width = 200
height = 100

[[wall.obstacle]]
name = "door"
x = 2450
z = 0
width = 100
height = 100
"""


def job_of(folder: Path, first: str = "", second: str = "", more: str = "") -> Job:
    """Return a wide wall with two cans; each table may have a further line."""
    text = document(
        "Wide",
        can("Can", *([first] if first else []), diameter=66, height=150, mass="400 g"),
        can("Jar", *([second] if second else []), diameter=66, height=150, mass="400 g"),
        more,
        width=2800,
        height=1200,
        studs=range(100, 2800, 400),
        wall=f"floor_gap = 700\n{THINGS}",
    )
    (folder / "workshop.toml").write_text(text, "utf-8")
    return compute(folder)


def middles_mm(job: Job) -> dict[str, float]:
    """Return the x of the middle of each holder by its tools."""
    (panel,) = job.panels
    return {
        " and ".join(tool.name for one in unit.planned.holders for tool in one.tools): (
            panel.spots[unit.planned.key].place.x_mm
            + panel.problem.known[unit.planned.key].width_mm / 2
        )
        for unit in panel.units
    }


def test_each_hangs_near_what_it_is_wanted_near_and_shares_no_holder(tmp_path: Path) -> None:
    found = middles_mm(job_of(tmp_path, 'near = "sink"', 'near = "door"'))
    assert set(found) == {"Can", "Jar"}
    assert found["Can"] == pytest.approx(SINK_X_MM, abs=5.0)
    assert found["Jar"] == pytest.approx(DOOR_X_MM, abs=5.0)


def test_both_near_one_thing_share_a_holder_there(tmp_path: Path) -> None:
    (middle,) = middles_mm(job_of(tmp_path, 'near = "door"', 'near = "door"')).values()
    assert middle == pytest.approx(DOOR_X_MM, abs=5.0)


def test_the_points_are_those_of_the_table_and_why_says_so(tmp_path: Path) -> None:
    """30 cm beside the sink, at 3 points a centimetre."""
    place = "\n[[holder]]\ntools = ['Can']\nplace = { x = 550, z = 500 }\n"
    job = job_of(tmp_path, 'near = "sink"', "", place)
    (panel,) = job.panels
    item = next(one for one in panel.problem.items if one.near is not None)
    aside_cm = (550.0 + item.width_mm / 2 - SINK_X_MM) / 10.0
    cost = sideways_cost(item, 550.0, problem=panel.problem)
    assert cost == pytest.approx(3.0 * aside_cm)
    words = " ".join(why_there(tmp_path, "Can").sentences)
    assert f'{10.0 * aside_cm:.0f} mm right of the middle of "sink"' in words


def test_no_place_of_a_grid_is_better_than_the_nearest() -> None:
    item = Item("a", 100.0, 40.0, 60.0, near=Near("sink", 1235.0))
    rule = RailRule(Profile(80.0, 18.0, 45.0), 50.0)
    problem = WallProblem(WallSpace(2000.0, 800.0, 700.0), rule, (item,))
    found = arrange(problem, rounds=300)
    grid = [(float(x), z) for x in range(0, 1901, 5) for z in problem.tried_mm if 60 <= z <= 760]
    totals = {at: hung(problem, (Place("a", *at),)).scores.total for at in grid}
    (place,) = found.places
    assert place.x_mm == pytest.approx(1185.0)
    assert found.scores.total == pytest.approx(min(totals.values()))


def test_what_is_on_no_wall_or_on_another_one_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(CleatwrightError, match=r'There is no obstacle "sinc".*Did you mean "sink"'):
        job_of(tmp_path, 'near = "sinc"')
    lid = '\n[[panel]]\nname = "lid"\nwidth = 500\nheight = 600\nstud = [{ x = 60 }, { x = 440 }]\n'
    with pytest.raises(CleatwrightError, match='"sink", is not there'):
        job_of(tmp_path, 'near = "sink"\npanel = "lid"', "", lid)
    assert main(["check", str(tmp_path)]) == 0
    assert main(["arrange", str(tmp_path)]) == 2
    assert 'tool "Can" (number 1), key "near"' in capsys.readouterr().err


def ends_mm(job: Job) -> dict[str, tuple[float, float]]:
    """Return from where to where each holder reaches with its tools, by its tools."""
    (panel,) = job.panels
    found = {}
    for unit in panel.units:
        key = unit.planned.key
        x0, x1, _, _ = whole(panel.problem.known[key], panel.spots[key].place)
        found[" and ".join(tool.name for tool in unit.planned.tools)] = (x0, x1)
    return found


def test_what_is_wanted_on_one_side_hangs_there_with_all_of_it(tmp_path: Path) -> None:
    """The sink begins at x 200 and ends at 400."""
    found = ends_mm(job_of(tmp_path, 'left_of = "sink"', 'right_of = "sink"\nleft_of = "door"'))
    assert found["Can"][1] <= 200.01
    assert found["Jar"][0] >= 399.99
    assert found["Jar"][1] <= 2450.01
    words = why_there(tmp_path, "Can").sentences
    assert 'It is wanted left of "sink".' in words


def test_near_and_on_one_side_go_together(tmp_path: Path) -> None:
    """As near to the sink as is right of it."""
    found = ends_mm(job_of(tmp_path, 'near = "sink"\nright_of = "sink"', ""))
    assert found["Can"][0] == pytest.approx(400.0, abs=5.0)


def test_where_there_is_no_room_on_that_side_it_is_told(tmp_path: Path) -> None:
    with pytest.raises(
        CleatwrightError,
        match='finds no place where it may hang: It is wanted right of "door"; It is wanted left',
    ):
        job_of(tmp_path, 'right_of = "door"\nleft_of = "sink"')


def test_a_given_place_on_the_other_side_stays_and_is_told(tmp_path: Path) -> None:
    place = "\n[[holder]]\ntools = ['Can']\nplace = { x = 550, z = 500 }\n"
    job = job_of(tmp_path, 'left_of = "sink"', "", place)
    assert ends_mm(job)["Can"][0] > 400.0
    (remark,) = [
        one.sentence
        for one in Run().need(ASSESSED, job.panels[0]).remarks
        if "wanted left of" in one.sentence
    ]
    assert '"Can" does not hang where its tools are wanted' in remark


def test_an_arrangement_beyond_the_side_is_told_of() -> None:
    """The check of a finished wall asks by itself, whatever a search did."""
    wanted = AlongBounds(200.0, 600.0, ("It is wanted left of x",))
    item = Item("a", 100.0, 40.0, 60.0, side_left_mm=10.0, along=wanted)
    rule = RailRule(Profile(80.0, 18.0, 45.0), 50.0)
    problem = WallProblem(WallSpace(2000.0, 800.0, 700.0), rule, (item,))
    for x, inside in ((209.0, False), (210.0, True), (500.0, True), (501.0, False)):
        told = conflicts(problem, hung(problem, (Place("a", x, 500.0),)))
        assert bool(told) is not inside
        assert inside or "It is wanted left of x" in told[0]


def test_what_hangs_on_the_other_side_stays(tmp_path: Path) -> None:
    """It may stay, or come nearer; what is new keeps to its side."""
    item = Item("a", 100.0, 40.0, 60.0, hangs_at=(1000.0, 500.0))
    wanted = AlongBounds(to_mm=600.0, words=("It is wanted left of x",))
    assert with_along(item, wanted).along == AlongBounds(to_mm=1100.0, words=wanted.words)
    assert with_along(replace(item, hangs_at=None), wanted).along == wanted
    assert with_along(replace(item, fixed=(900.0, 500.0)), wanted).along == ANYWHERE_ALONG


@settings(deadline=None, max_examples=8)
@given(
    st.lists(
        st.tuples(st.integers(60, 300), st.integers(0, 1900), st.integers(0, 2000)),
        min_size=1,
        max_size=7,
    ),
    st.booleans(),
)
def test_every_search_keeps_to_the_sides(things: list[tuple[int, int, int]], rows: bool) -> None:
    """What finds a place is within its bounds; alone on a wall, whatever can does find one."""
    rule = RailRule(Profile(80.0, 18.0, 45.0), 50.0, rows=rows)
    items = tuple(
        Item(
            f"{n}",
            float(wide),
            40.0,
            60.0,
            side_left_mm=7.3,
            along=AlongBounds(float(min(a, b)), float(max(a, b)), ("It is wanted there",)),
        )
        for n, (wide, a, b) in enumerate(things)
    )
    problem = WallProblem(WallSpace(2000.0, 1200.0, 700.0), rule, items)
    found = Run().need(SEARCHED, Search(problem, 300))
    assert conflicts(problem, found) == ()
    for place in found.places:
        item = problem.known[place.key]
        assert place.x_mm - 7.3 >= item.along.from_mm - 0.01
        assert place.x_mm + item.width_mm <= item.along.to_mm + 0.01
    for item in items:
        alone = Run().need(SEARCHED, Search(problem.having((item,)), 100))
        # a plate begins on a grid of 5 mm
        roomy = item.along.to_mm - item.along.from_mm >= item.whole_width_mm + 5.0
        assert not (roomy and alone.left_over)
