"""How far beyond its last screws something hangs, so that a hand may lean on its far end."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.small import can, document

from cleatwright.base.stages.run import Run
from cleatwright.project.computing import compute
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.fastening import fastening_of
from cleatwright.siting.rails.loading import loaded_rails
from cleatwright.siting.rails.overhang import OVERHANG, SHARE
from cleatwright.siting.searching import SEARCHED, Search
from cleatwright.wall.explaining.explain import explain
from cleatwright.wall.model import Item, Near, Place, RailRule, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Profile
from cleatwright.wall.score import hung
from cleatwright.wall.studs import StudPlace
from cleatwright.workshop.document.store import load

STUDS_MM = (500.0, 1100.0, 1700.0)
LEAN_N, PULL_N = 150.0, 10.0


def written(folder: Path, *cans: str) -> Path:
    text = document("Deep", *cans, width=2200, height=1000, studs=STUDS_MM)
    (folder / "workshop.toml").write_text(text, "utf-8")
    return folder


@pytest.fixture(scope="module")
def deep(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, PanelJob]:
    one = can("Bucket", diameter=100.0, height=120.0, mass="3 kg", holder=True)
    folder = written(tmp_path_factory.mktemp("deep"), one)
    return folder, compute(folder).panels[0]


def test_the_screws_before_it_bear_it_and_a_hand_by_statics(deep: tuple[Path, PanelJob]) -> None:
    """Moments by hand, for the top screw of the stud beside which it hangs out.

    A load P, x beyond a stud and e before the rail's face of 18 mm, has its next stud 600 mm off:
    the stud bears P (1 + x / 600), its top screw P (1 + x / 600) (e + 18) y / (y1^2 + y2^2) out of
    the wall; they are at one and two thirds of the rail's height of 70 mm.
    """
    folder, job = deep
    (unit,) = job.units
    workshop = load(folder)
    panel = workshop.surfaces()[0]
    over = Run().need(OVERHANG, (unit, workshop.rail, panel))
    assert 0.0 < over < 300.0
    ((loaded,),) = [(one,) for one in loaded_rails(job) if one.loads]
    (hung,) = loaded.loads
    assert hung.edges_mm is not None
    front = hung.front_mm
    assert front is not None
    wide = hung.edges_mm[1] - hung.edges_mm[0]
    middle = hung.x_mm - hung.edges_mm[0]
    high, low = 70.0 * 2 / 3, 70.0 / 3
    lever = high / (high**2 + low**2)

    def used(beyond: float) -> float:
        own = max(1.0 + (beyond - middle) / 600.0, 0.0)
        leant = 1.0 + beyond / 600.0
        down = own * hung.weight_n + leant * LEAN_N
        turn = own * hung.weight_n * (hung.distance_mm + 18.0)
        turn += leant * LEAN_N * (max(hung.distance_mm, front) + 18.0)
        # the pull of a hand on it counts at the same time
        pull = own * hung.pull_n * max(0.0, 70.0 - hung.pull_below_mm * min(1, 70 / hung.depth_mm))
        along, out = down / 2, (turn + pull) * lever + own * hung.pull_n / 2
        by = fastening_of(workshop.rail, panel).carries
        assert by.strength is not None
        p, w = by.strength.lateral_n * by.minutes, by.strength.withdrawal_n * by.minutes
        angle = math.atan2(out, along)
        both = w * p / (w * math.cos(angle) ** 2 + p * math.sin(angle) ** 2)
        return max(math.hypot(along, out) / both, along / p, out / w)

    assert wide > 100.0
    assert used(over) == pytest.approx(SHARE, rel=0.03)


def test_a_plan_hangs_deep_things_no_further_out(tmp_path: Path) -> None:
    """Twelve of them nearly fill the rail; none at its free ends lets it fail."""
    cans = [
        can(f"Bucket {n}", diameter=100.0, height=120.0, mass="1 kg", holder=True)
        for n in range(12)
    ]
    job = compute(written(tmp_path, *cans)).panels[0]
    assert all(one.check is not None and one.check.holds for one in loaded_rails(job))


def wall_of(item: Item, *, rows: bool) -> WallProblem:
    rule = RailRule(Profile(80.0, 18.0, 45.0), 50.0, rows=rows)
    studs = tuple(StudPlace(((x - 20.0, x + 20.0),)) for x in STUDS_MM)
    return WallProblem(WallSpace(2200.0, 1200.0, 700.0, studs=studs), rule, (item,))


@settings(deadline=None, max_examples=20)
@given(
    wide=st.integers(60, 300),
    over=st.integers(0, 300),
    near=st.floats(200.0, 2000.0),
    rows=st.booleans(),
)
def test_one_that_is_wanted_further_out_hangs_no_further(
    *, wide: int, over: int, near: float, rows: bool
) -> None:
    """3 points a cm are less than what it costs to hang there."""
    plain = Item("a", float(wide), 40.0, 60.0, near=Near("door", near))
    problem = wall_of(replace(plain, over_mm=float(over)), rows=rows)
    (place,) = Run().need(SEARCHED, Search(problem, 100)).places
    assert place.x_mm >= STUDS_MM[0] - over - 0.01
    assert place.x_mm + wide <= STUDS_MM[-1] + over + 0.01


@pytest.mark.parametrize(("x", "points"), [(200.0, 0.0), (195.0, 500.0), (2000.0, 500.0)])
def test_what_it_costs_is_told(x: float, points: float) -> None:
    """A plate of 100 mm, 300 mm beyond the first stud and no more; or beyond the last one."""
    problem = wall_of(Item("a", 100.0, 40.0, 60.0, over_mm=300.0), rows=False)
    found = hung(problem, (Place("a", x, 500.0),))
    (rail,) = found.rails
    if not x > STUDS_MM[-1]:
        assert rail.studs_mm[0] == STUDS_MM[0]
    assert found.scores.weak_rails == points
    (told,) = explain(problem, found)
    assert told.costs.weak_rails == points
    assert any("do not bear a hand on it" in one for one in told.sentences) == bool(points)
