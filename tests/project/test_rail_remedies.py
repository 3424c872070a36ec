"""Of a rail that does not hold only what helps is told: each line is written and tried here.

Two cans of 8 kg have given places side by side; the statics are those of tests/siting.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from tests.small import can, document

from cleatwright.base.stages.run import Run
from cleatwright.jobs.making import make_workshop
from cleatwright.jobs.wall_answers import arrange_walls
from cleatwright.jobs.why import why_there
from cleatwright.pack.reporting import report_of
from cleatwright.project.computing import compute
from cleatwright.siting.rails.loading import failing_rails, loaded_rails
from cleatwright.web.rows.wall import panel_row

WALL = (
    'made_of = "concrete"\nreserved_seats = 0\nanchor = { name = "plug", loads = "allowable", '
    "tension_n = 700, shear_n = 750, hole = 8, hole_depth = 65, embedment = 50, screw = 6, "
    "screw_length = 80, edge = 100, spacing = 350 }\n"
)


def placed(name: str, x_mm: int) -> str:
    tool = can(name, diameter=66.0, height=150.0, mass="8 kg", holder=True)
    return f"{tool}place = {{ x = {x_mm}, z = 500 }}\n"


TEXT = document(
    "Studio",
    placed("Can 0", 900),
    placed("Can 1", 1000),
    width=2000,
    height=1200,
    studs=(),
    wall=WALL,
)


@pytest.fixture(scope="module")
def run() -> Run:
    return Run()


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory, run: Run) -> list[str]:
    """Return what why tells of a can on a rail that fails."""
    folder = tmp_path_factory.mktemp("studio")
    (folder / "workshop.toml").write_text(TEXT, "utf-8")
    assert failing(folder, TEXT, run)
    sentences = why_there(folder, "Can 0", run=run).sentences
    assert not any("leave it where it hangs" in line for line in sentences)
    assert any(line.startswith("Does not hold: anchors of rail R1") for line in sentences)
    of_rail = why_there(folder, "R1", run=run).sentences
    tried = [line for line in sentences if line.startswith("Tried")]
    assert set(tried) <= set(of_rail)
    return tried


def failing(folder: Path, text: str, run: Run) -> set[str]:
    (folder / "workshop.toml").write_text(text, "utf-8")
    (panel,) = compute(folder, run=run).panels
    return set(failing_rails(loaded_rails(panel)))


def test_another_place_that_is_told_for_a_rail_that_fails_is_borne(
    tmp_path: Path, told: list[str], run: Run
) -> None:
    (line,) = [one for one in told if "one rail less fails" in one]
    (place,) = re.findall(r"place = \{[^}]*\}", line)
    name = re.findall(r'"(Can \d)"', line)[0]
    head, rest = TEXT.split(f'tools = ["{name}"]\n')
    after = rest.partition("\n")[2]
    text = f'{head}tools = ["{name}"]\n{place}\n{after}'
    assert failing(tmp_path, text, run) == set()


def test_anchors_that_are_told_for_a_rail_that_fails_bear_it(
    tmp_path: Path, told: list[str], run: Run
) -> None:
    (line,) = [one for one in told if "anchors" in one]
    out, along = re.findall(r"(\d+) N", line)
    text = TEXT.replace("= 700", f"= {out}").replace("shear_n = 750", f"shear_n = {along}")
    assert failing(tmp_path, text, run) == set()


def test_the_height_that_is_told_for_a_rail_that_fails_lets_it_hold(
    tmp_path: Path, told: list[str], run: Run
) -> None:
    (line,) = [one for one in told if "high (" in one]
    (height,) = re.findall(r"height = \"([^\"]+)\"", line)
    assert failing(tmp_path, f'{TEXT}\n[rail]\nheight = "{height}"\n', run) == set()


def test_what_helps_is_told_wherever_a_rail_is_said_to_fail(
    tmp_path: Path, told: list[str], run: Run
) -> None:
    """By arrange, by make and in the report, in the words of why."""
    (tmp_path / "workshop.toml").write_text(TEXT, "utf-8")
    answer = arrange_walls(tmp_path, run=run)
    assert answer.helps
    assert set(told) == set(answer.helps)
    assert answer.as_dict()["helps"] == list(answer.helps)
    made = make_workshop(tmp_path, dry_run=True, run=run)
    assert made.helps == answer.helps
    assert set(answer.helps) <= set(made.summary)
    job = compute(tmp_path, advise=True, run=run)
    (panel,) = report_of(job, files=()).panels
    assert panel.helps == answer.helps
    shown = panel_row(job.panels[0], job.workshop, run)
    assert "sheet Make" in shown.helps[0]


def test_of_a_wall_that_holds_nothing_is_told(tmp_path: Path, run: Run) -> None:
    (tmp_path / "workshop.toml").write_text(TEXT.replace("= 700", "= 9000"), "utf-8")
    assert arrange_walls(tmp_path, run=run).helps == ()
    job = compute(tmp_path, run=run)
    assert panel_row(job.panels[0], job.workshop, run).helps == ()


@pytest.mark.parametrize("tension_n", [150, 430])
def test_whatever_the_anchors_bear_those_that_are_told_bear_the_wall(
    tmp_path: Path, tension_n: int, run: Run
) -> None:
    weak = f"tension_n = {tension_n}, shear_n = 260"
    text = TEXT.replace("tension_n = 700, shear_n = 750", weak)
    assert failing(tmp_path, text, run)
    lines = [one for one in arrange_walls(tmp_path, run=run).helps if "anchors whose" in one]
    assert lines
    for line in lines:
        out, along = re.findall(r"(\d+) N", line)
        strong = text.replace(weak, f"tension_n = {out}, shear_n = {along}")
        assert failing(tmp_path, strong, run) == set()


def test_where_nothing_helps_it_is_said(tmp_path: Path, run: Run) -> None:
    """Two anchors 350 mm apart have room on this wall, and with one lost the rail turns."""
    text = document("Niche", placed("Can 0", 250), width=600, height=1200, studs=(), wall=WALL)
    assert failing(tmp_path, text, run)
    sentences = why_there(tmp_path, "R1", run=run).sentences
    assert not any(line.startswith("Tried") for line in sentences)
    assert sentences[-1].startswith("Nothing that was tried for rail R1 helps")


BRICK = (
    'made_of = "brick"\nreserved_seats = 0\ncourse = 75\njoint_z = 30\nanchor = { name = "plug", '
    'loads = "allowable", tension_n = 350, shear_n = 350, hole = 8, hole_depth = 65, '
    "embedment = 50, screw = 6, screw_length = 80, edge = 100, spacing = 350 }\n"
)


def test_higher_rails_are_told_that_hold_at_another_height_only(tmp_path: Path, run: Run) -> None:
    """The one row of anchors keeps off the joints of bricks, and so depends on the height.

    Where the rail lies now it would be used 1.14 times what it may be with 140 mm; 50 mm lower its
    row lies higher, and it is used 0.90 times.
    """
    cans = (can(f"Can {k}", diameter=66.0, height=150.0, mass="5 kg", holder=True) for k in (0, 1))
    text = document("Bricks", *cans, width=1200, height=1200, studs=(), wall=BRICK)
    assert failing(tmp_path, text, run)
    before = compute(tmp_path, run=run).panels[0].arrangement.rails[0].z_top_mm
    (line,) = [one for one in arrange_walls(tmp_path, run=run).helps if "rails " in one]
    (height,) = re.findall(r"height = \"([^\"]+)\"", line)
    assert failing(tmp_path, f'{text}\n[rail]\nheight = "{height}"\n', run) == set()
    (after,) = compute(tmp_path, run=run).panels[0].arrangement.rails
    assert after.z_top_mm != before
