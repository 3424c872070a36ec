"""Things hang where the screws of their rails bear them; looked for by trying every place."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.small import can, document

from cleatwright.base.stages.run import Run
from cleatwright.base.units import length_mm
from cleatwright.project.computing import compute
from cleatwright.siting.arranging import numbered_on
from cleatwright.siting.bearing import STAGE, well_borne
from cleatwright.siting.borne_there import BorneThere
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.answers import why_rail
from cleatwright.siting.rails.least_borne import borne_nowhere
from cleatwright.siting.rails.loading import LoadsOf, failing_rails, loaded_rails
from cleatwright.siting.rails.spacing import with_enough_screws
from cleatwright.siting.raising import at_other_heights
from cleatwright.siting.typed_place import typed_place
from cleatwright.siting.walls import spots_of
from cleatwright.siting.ways_out import surroundings
from cleatwright.wall.conflicts import conflicts, whole
from cleatwright.wall.explaining.elsewhere import Offering, other_place
from cleatwright.wall.explaining.insertion import Standing
from cleatwright.wall.model import Item, Place, RailRule, WallSpace
from cleatwright.wall.off_heat import nearer_heat
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Profile, distance_mm
from cleatwright.wall.score import hung
from cleatwright.workshop.document.store import load

WALL = (
    'made_of = "concrete"\nreserved_seats = 0\nanchor = { name = "plug", loads = "allowable", '
    "tension_n = TENSION, shear_n = 750, hole = 8, hole_depth = 65, embedment = 50, screw = 6, "
    "screw_length = 80, edge = 100, spacing = 350 }\n"
)
CANS = tuple(
    can(f"Can {n}", diameter=66.0, height=150.0, mass=mass, holder=True)
    for n, mass in enumerate(("8 kg", "8 kg", "300 g"))
)
NUMBERED = partial(numbered_on, after=0)


def written(folder: Path, tension_n: int) -> Path:
    wall = WALL.replace("TENSION", str(tension_n))
    text = document("Studio", *CANS, width=2000, height=1200, studs=(), wall=wall)
    (folder / "workshop.toml").write_text(text, "utf-8")
    return folder


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return written(tmp_path_factory.mktemp("studio"), 9000)


@pytest.fixture(scope="module")
def strong(folder: Path) -> PanelJob:
    return compute(folder).panels[0]


def weakened(job: PanelJob, tension_n: int) -> PanelJob:
    """Return a panel whose anchors bear less, as many as help."""
    assert job.panel.anchor is not None
    anchor = job.panel.anchor.model_copy(update={"tension_n": float(tension_n)})
    return with_enough_screws(replace(job, panel=job.panel.model_copy(update={"anchor": anchor})))


def borne(job: PanelJob, folder: Path, *, may_move: set[str] | None = None) -> PanelJob:
    return well_borne(
        job,
        may_move={item.key for item in job.problem.items} if may_move is None else may_move,
        around=surroundings(load(folder), (), panel=job.panel.name),
        numbered=NUMBERED,
        run=Run(),
    )


def failing(job: PanelJob) -> set[str]:
    return set(failing_rails(loaded_rails(job)))


def used(job: PanelJob) -> float:
    return max(one.check.utilisation for one in loaded_rails(job) if one.check)


def with_one_moved(job: PanelJob) -> Iterator[PanelJob]:
    """Yield the wall with one thing 25 mm on along its rail, and so on, where that breaks no rule.

    The rail and its anchors stay as they are.
    """
    (rail,) = job.arrangement.rails
    for moved in job.arrangement.places:
        others = [one for one in job.arrangement.places if one != moved]
        for x in range(0, 2000, 25):
            places = (*others, Place(moved.key, float(x), moved.z_mm))
            found = replace(hung(job.problem, places), rails=job.arrangement.rails)
            if not conflicts(job.problem, found):
                carried = tuple(sorted(rail.carries))
                yield replace(
                    job, arrangement=replace(found, rails=(replace(rail, carries=carried),))
                )


@settings(deadline=None, max_examples=8)
@given(tension_n=st.integers(550, 850))
def test_where_a_move_along_the_rail_lets_it_hold_it_holds(
    strong: PanelJob, folder: Path, tension_n: int
) -> None:
    weak = weakened(strong, tension_n)
    found = borne(weak, folder)
    if not failing(weak):
        assert found == weak
    elif not all(failing(one) for one in with_one_moved(weak)):
        assert not failing(found)
    worst = [
        max(one.check.utilisation for one in loaded_rails(job) if one.check)
        for job in (weak, found)
    ]
    assert worst[1] <= worst[0]
    assert conflicts(found.problem, found.arrangement) == ()
    assert all(way.free for way in found.ways)


@pytest.mark.parametrize("tension_n", [660, 750])
def test_two_heavy_things_before_one_anchor_are_hung_apart(
    strong: PanelJob, folder: Path, tension_n: int
) -> None:
    """They hang side by side in the middle; the move costs nothing and is a short one."""
    weak = weakened(strong, tension_n)
    found = borne(weak, folder)
    assert failing(weak)
    assert not failing(found)
    moved = [
        (before.key, abs(before.x_mm - after.x_mm))
        for before, after in zip(
            sorted(weak.arrangement.places, key=lambda one: one.key),
            sorted(found.arrangement.places, key=lambda one: one.key),
            strict=True,
        )
        if before != after
    ]
    assert len(moved) == 1
    assert moved[0][1] < 500.0
    assert found.arrangement.scores.total == pytest.approx(weak.arrangement.scores.total)
    assert found.spots == spots_of(found.units, found.arrangement)


def test_nothing_hot_moves_beside_what_heat_spoils(strong: PanelJob, folder: Path) -> None:
    """Two hot things in the middle, a spray can far to the left: one moves to the other side."""
    items = [
        replace(item, hot=item.key != "003", spoilt_by_heat=item.key == "003")
        for item in strong.problem.items
    ]
    problem = strong.problem.having(items)
    places = tuple(
        replace(one, x_mm=300.0) if one.key == "003" else one for one in strong.arrangement.places
    )
    arrangement = replace(NUMBERED(hung(problem, places)), in_rows=strong.arrangement.in_rows)
    weak = weakened(replace(strong, problem=problem, arrangement=arrangement), 700)
    found = borne(weak, folder)
    assert failing(weak)
    assert not failing(found)
    boxes = {
        place.key: whole(found.problem.known[place.key], place)
        for place in found.arrangement.places
    }
    for hot in ("001", "002"):
        assert distance_mm(boxes[hot], boxes["003"]) >= 300.0


def test_what_may_not_move_stays_on_a_rail_that_fails(strong: PanelJob, folder: Path) -> None:
    weak = weakened(strong, 700)
    assert borne(weak, folder, may_move=set()) == weak


def test_a_plan_hangs_things_where_its_anchors_bear_them(tmp_path: Path) -> None:
    """The whole way from the document."""
    assert failing(compute(written(tmp_path, 700)).panels[0]) == set()


@pytest.mark.parametrize("tension_n", [60, 240])
def test_what_no_place_bears_is_known_without_a_search(
    strong: PanelJob, folder: Path, tension_n: int
) -> None:
    """Each place of each thing along the rail is tried, with anchors as close as 100 mm.

    By the lever rule one of the two anchors beside a load bears half of it at the least.
    """
    weak = weakened(strong, tension_n)
    assert weak.panel.anchor is not None
    close = weak.panel.anchor.model_copy(update={"spacing_mm": 100.0})
    space = weak.problem.space
    assert space.all_over is not None
    space = replace(space, all_over=replace(space.all_over, least_mm=100.0))
    weak = replace(
        weak,
        panel=weak.panel.model_copy(update={"anchor": close}),
        problem=weak.problem.on(space),
    )
    nowhere = borne_nowhere(weak)
    assert nowhere == {"001", "002", "003"}
    assert borne_nowhere(weakened(strong, 320)) == frozenset()
    (rail,) = weak.arrangement.rails
    for key in sorted(nowhere):
        alone = replace(rail, carries=(key,))
        for x in range(0, 1900, 100):
            places = tuple(
                replace(one, x_mm=float(x)) if one.key == key else one
                for one in weak.arrangement.places
            )
            there = replace(weak.arrangement, places=places, rails=(alone,))
            assert failing(with_enough_screws(replace(weak, arrangement=there)))
    assert borne(weak, folder) == weak


def test_loads_that_are_kept_are_those_that_are_computed(strong: PanelJob) -> None:
    weak = weakened(strong, 700)
    loads = LoadsOf(weak)
    for _, job in zip(range(20), with_one_moved(weak), strict=False):
        assert loads.on(job) == loaded_rails(job)


def test_a_wall_that_no_anchor_bears_tries_few_places(
    strong: PanelJob, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What can be borne by itself is still moved for, and an end is set to that."""
    monkeypatch.setattr("cleatwright.siting.bearing.MOST_TRIED", 7)
    told: list[str] = []
    weak = weakened(strong, 320)
    run = Run(report=lambda progress: told.append(progress.stage))
    found = well_borne(
        weak,
        may_move={item.key for item in weak.problem.items},
        around=surroundings(load(folder), (), panel=weak.panel.name),
        numbered=NUMBERED,
        run=run,
    )
    assert failing(found)
    assert told.count(STAGE) == 8


@pytest.mark.parametrize(("tension_n", "told"), [(9000, "may find better"), (500, "not bear it")])
def test_of_a_rail_that_is_better_elsewhere_it_is_asked_whether_it_bears_that(
    strong: PanelJob, tension_n: int, told: str
) -> None:
    """Two of 8 kg and one of 300 g hang 200 mm too low; concrete bears alike at every height."""
    low = tuple(replace(one, z_mm=one.z_mm - 200.0) for one in strong.arrangement.places)
    # a row of the plan would stay where it was
    problem = strong.problem.on(replace(strong.problem.space, rows=()))
    lowered = replace(strong, problem=problem, arrangement=NUMBERED(hung(problem, low)))
    weak = weakened(lowered, tension_n)
    assert bool(failing(weak)) is (tension_n < 9000)
    _, sentences = why_rail([weak], "R1")
    (higher,) = [line for line in sentences if " higher " in line]
    assert "higher nothing is in the way" in higher
    assert told in higher


def test_a_place_beside_another_thing_is_typed_on_the_side_that_is_free(strong: PanelJob) -> None:
    """From touching its neighbour on in steps of 0.1 mm; a 1/32 inch is 0.79 mm."""
    job = replace(strong, setting=replace(strong.setting, units="in"))
    wall = Standing(job.problem, job.arrangement.places, job.arrangement.rails)
    item, others = job.problem.known["001"], wall.without("001")
    beside = max(others.places, key=lambda one: one.x_mm)
    right = beside.x_mm + job.problem.known[beside.key].width_mm
    touching = right + job.problem.known[beside.key].side_right_mm + item.side_left_mm
    sides: set[bool] = set()
    for tenth in range(9):
        exact = Place("001", touching + tenth / 10, beside.z_mm)
        typed = typed_place(job, exact)
        there = Place("001", length_mm(typed.x), length_mm(typed.z))
        assert not others.broken_by(item, there)
        assert abs(there.x_mm - exact.x_mm) < 25.4 / 32
        sides.add(there.x_mm > exact.x_mm)
    assert sides == {False, True}


def test_whoever_hangs_a_thing_elsewhere_as_told_has_rails_that_hold(strong: PanelJob) -> None:
    """Walls on anchors of 24 strengths, some of which bear all and some nothing."""
    offered = refused = 0
    for tension_n in range(400, 880, 20):
        weak = weakened(strong, tension_n)
        for key in ("001", "003"):
            bears = BorneThere(weak, key)
            without, told = (
                other_place(weak.problem, weak.arrangement, key=key, offering=one)
                for one in (Offering(), Offering(bears=bears))
            )
            refused += without != told
            if told is None:
                continue
            now = weak.arrangement
            standing = Standing(weak.problem, now.places, in_rows=now.in_rows).without(key)
            there = hung(*standing.with_one(weak.problem.known[key], told.place))
            assert {one.key for one in there.places} == {one.key for one in now.places}
            after = loaded_rails(with_enough_screws(replace(weak, arrangement=NUMBERED(there))))
            mine = [one for one in after if key in one.rail.carries]
            assert all(one.check is not None and one.check.holds for one in mine)
            assert failing(weak) or all(one.check and one.check.holds for one in after)
            offered += 1
    assert offered >= 4
    assert refused >= 4


@pytest.fixture(scope="module")
def bricks(tmp_path_factory: pytest.TempPathFactory) -> PanelJob:
    """Return two cans on a rail 140 mm high, on bricks whose joints it has to heed."""
    wall = WALL.replace("concrete", "brick").replace("TENSION", "9000").replace("750", "9000")
    cans = (can(f"Can {n}", diameter=66.0, height=150.0, mass="5 kg", holder=True) for n in (0, 1))
    text = document(
        "Bricks",
        *cans,
        width=1200,
        height=1200,
        studs=(),
        wall=f"course = 75\njoint_z = 30\n{wall}",
    )
    folder = tmp_path_factory.mktemp("bricks")
    (folder / "workshop.toml").write_text(f"{text}\n[rail]\nheight = 140\n", "utf-8")
    return compute(folder).panels[0]


def at_height(job: PanelJob, z_mm: float) -> PanelJob | None:
    """Return the same with all on it at another height, or None where that breaks a rule."""
    bare = job.problem.on(replace(job.problem.space, rows=()))
    places = tuple(replace(one, z_mm=z_mm) for one in job.arrangement.places)
    found = hung(bare, places)
    if conflicts(bare, found):
        return None
    return with_enough_screws(replace(job, problem=bare, arrangement=NUMBERED(found)))


@pytest.mark.parametrize("bears_n", [250, 330, 350, 370])
def test_a_rail_that_holds_at_another_height_only_is_laid_there(
    bricks: PanelJob, folder: Path, bears_n: int
) -> None:
    """Each step of the heights is gone through, with the cans where they hang along the rail."""
    assert bricks.panel.anchor is not None
    loads = {"tension_n": float(bears_n), "shear_n": float(bears_n)}
    anchor = bricks.panel.anchor.model_copy(update=loads)
    panel = bricks.panel.model_copy(update={"anchor": anchor})
    weak = with_enough_screws(replace(bricks, panel=panel))
    found = borne(weak, folder)
    step_mm = weak.problem.rule.step_mm
    here_mm = weak.arrangement.places[0].z_mm
    near = [at_height(weak, here_mm + count * step_mm) for count in range(-3, 4)]
    if any(one is not None and not failing(one) for one in near):
        assert not failing(found)
    assert used(found) <= max(used(weak), 1.0)
    assert conflicts(found.problem, found.arrangement) == ()
    assert all(way.free for way in found.ways)


def test_a_row_moves_up_and_down_with_all_on_it_and_brings_nothing_hot_near(
    bricks: PanelJob,
) -> None:
    (rail,) = bricks.arrangement.rails
    keys = set(rail.carries)
    moved = list(at_other_heights(bricks, rail, keys))
    assert moved
    for problem, places in moved:
        assert {one.key for one in places} == keys
        (z_mm,) = {one.z_mm for one in places}
        assert z_mm != bricks.arrangement.places[0].z_mm
        assert (z_mm / bricks.problem.rule.step_mm) % 1.0 == pytest.approx(0.0)
        assert conflicts(problem, hung(problem, places)) == ()
    assert not list(at_other_heights(bricks, rail, keys - {rail.carries[0]}))
    assert not list(at_other_heights(bricks, replace(rail, state="recorded"), keys))


def test_a_spray_comes_no_nearer_to_what_is_hot_than_before() -> None:
    """From 400 mm off to 250 mm is nearer than the 300 mm that count; from 200 to 250 mm is not."""
    items = (
        Item("gun", 100.0, 0.0, 100.0, hot=True),
        Item("spray", 100.0, 0.0, 100.0, spoilt_by_heat=True),
    )
    rule = RailRule(Profile(70.0, 18.0, 45.0), 50.0)
    problem = WallProblem(WallSpace(2000.0, 1000.0), rule, items)

    def off(mm: float) -> tuple[Place, ...]:
        return Place("gun", 0.0, 500.0), Place("spray", 100.0 + mm, 500.0)

    assert nearer_heat(problem, off(400.0), off(250.0))
    assert not nearer_heat(problem, off(400.0), off(300.0))
    assert not nearer_heat(problem, off(200.0), off(250.0))
    assert nearer_heat(problem, off(200.0), off(150.0))
