"""A workshop on masonry, on solid wood and on a wall that nobody knows, invented."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.small import can, document

from cleatwright.base.errors import CleatwrightError
from cleatwright.base.stages.run import Run
from cleatwright.jobs.checking import check_workshop
from cleatwright.pack.hardware import rail_hardware
from cleatwright.pack.job import Job
from cleatwright.pack.rail_papers import load_map_view, rail_section_view
from cleatwright.pack.template import template_view
from cleatwright.papers.drilling.template import template_pages
from cleatwright.papers.load_map.drawing import load_map_pages
from cleatwright.papers.rail_section.drawing import rail_section_svg
from cleatwright.project.computing import compute
from cleatwright.siting.assessing import ASSESSED
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.fastening import fastening_of
from cleatwright.siting.rails.loading import loaded_rails
from cleatwright.workshop.document.sections import RailRules
from cleatwright.workshop.document.surfaces import Panel

PLUG = (
    'anchor = { name = "plug", loads = "LOADS", tension_n = 900, shear_n = 750, hole = 8, '
    "hole_depth = 65, embedment = 50, screw = 6, screw_length = 80, edge = 100, spacing = 100 }\n"
)
BRICK = 'made_of = "brick"\ncourse = 75\njoint_z = 20\n'
WINDOW = (
    'obstacle = [{ name = "window", kind = "window", x = 1100, z = 300, width = 500, '
    "height = 700 }]\n"
)
CANS = tuple(
    can(f"Can {n}", diameter=66.0, height=150.0, mass="600 g", holder=True) for n in range(3)
)


def made(folder: Path, wall: str, *parts: str) -> Job:
    text = document("Brick studio", *CANS, *parts, width=2000, height=1200, studs=(), wall=wall)
    (folder / "workshop.toml").write_text(text, "utf-8")
    return compute(folder)


def failing(job: PanelJob) -> tuple[str, ...]:
    return Run().need(ASSESSED, job).failing


@pytest.fixture(scope="module")
def brick(tmp_path_factory: pytest.TempPathFactory) -> PanelJob:
    wall = BRICK + WINDOW + PLUG.replace("LOADS", "allowable")
    return made(tmp_path_factory.mktemp("brick"), wall).panels[0]


@pytest.fixture(scope="module")
def bare(tmp_path_factory: pytest.TempPathFactory) -> PanelJob:
    return made(tmp_path_factory.mktemp("bare"), BRICK + WINDOW).panels[0]


WEAK = BRICK + PLUG.replace("LOADS", "allowable").replace("tension_n = 900", "tension_n = 650")
HEAVY = tuple(
    can(f"Can {n}", diameter=66.0, height=150.0, mass="2 kg", holder=True) for n in range(6)
)


def test_anchors_stand_closer_where_usual_ones_do_not_hold(tmp_path: Path) -> None:
    """Six cans of 2 kg and a person who leans ask for more anchors than one each 400 mm or so."""
    wall = f"reserved_seats = 0\n{WEAK}"
    text = document("Brick studio", *HEAVY, width=2000, height=1200, studs=(), wall=wall)
    (tmp_path / "workshop.toml").write_text(text, "utf-8")
    (panel,) = compute(tmp_path).panels
    (rail,) = panel.arrangement.rails
    assert failing(panel) == ()
    assert len(rail.studs_mm) > 2000 / 400 + 1


def test_anchors_of_the_papers_hold_every_rail_and_keep_their_distances(brick: PanelJob) -> None:
    assert failing(brick) == ()
    rails = brick.arrangement.rails
    assert rails
    for rail in rails:
        assert len(rail.studs_mm) >= 3
        # ten times 6 mm off both ends; the papers' 100 mm off the wall's ends and of each other
        assert rail.studs_mm[0] >= rail.x0_mm + 60.0 - 0.01
        assert rail.studs_mm[-1] <= rail.x1_mm - 60.0 + 0.01
        assert all(100.0 <= x <= 1900.0 for x in rail.studs_mm)
        assert all(b - a >= 99.99 for a, b in zip(rail.studs_mm, rail.studs_mm[1:], strict=False))
        for point in rail.screws:
            # joints at 20 + 75 k; a quarter of a course is inside a brick
            past = (point.z_mm - 20.0) % 75.0
            assert min(past, 75.0 - past) > 10.0


def test_loads_of_the_papers_are_converted_before_they_count(
    brick: PanelJob, tmp_path: Path
) -> None:
    """By hand: 900 / 2.5 / 1.5 = 240 N and 750 / 3.75 = 200 N (ETAG 020, EN 1990; memory)."""
    (usual,) = {one.by.strength for one in loaded_rails(brick)}
    assert usual is not None
    assert (usual.withdrawal_n, usual.lateral_n, usual.together) == (900.0, 750.0, "sum")
    raw = made(tmp_path, BRICK + PLUG.replace("LOADS", "characteristic")).panels[0]
    (strength,) = {one.by.strength for one in loaded_rails(raw)}
    assert strength is not None
    assert strength.withdrawal_n == pytest.approx(240.0)
    assert strength.lateral_n == pytest.approx(200.0)
    section = rail_section_view(raw, loaded_rails(raw)[0], Run())
    assert "divided by" in section.held
    assert "2.5" in section.held


def test_without_the_papers_nothing_holds_and_everything_says_what_each_must_bear(
    bare: PanelJob,
) -> None:
    lines = failing(bare)
    loaded = loaded_rails(bare)
    assert len(lines) == len(loaded)
    for line, one in zip(lines, loaded, strict=True):
        demand = one.demand
        assert demand is not None
        assert f"{demand.withdrawal_n:.0f} N out of the wall" in line
        assert "[wall.anchor]" in line
    cautions = " ".join(Run().need(ASSESSED, bare).cautions)
    assert "hang nothing" in cautions
    (bought,) = rail_hardware([bare])
    worst = max(math.ceil(one.demand.withdrawal_n) for one in loaded if one.demand)
    assert f"{worst} N out of the wall" in bought.note
    assert bought.count == sum(len(one.rail.studs_mm) for one in loaded)


def test_an_anchor_that_does_not_do_is_told_of_before_anything_is_made(tmp_path: Path) -> None:
    """A screw of 60 mm for a rail of 18 mm and an embedment of 50, 68 mm together."""
    short = PLUG.replace("LOADS", "allowable").replace("screw_length = 80", "screw_length = 60")
    text = document(
        "Brick studio",
        *CANS,
        width=2000,
        height=1200,
        studs=(),
        wall=BRICK + "lining = 0\n" + short,
    )
    (tmp_path / "workshop.toml").write_text(text, "utf-8")
    (told,) = [one for one in check_workshop(tmp_path).remarks if "anchors" in one]
    assert "do not do" in told
    assert "its screw of 60 mm is too short for rail, lining and embedment, 68 mm" in told


def test_the_papers_of_a_brick_wall_speak_of_anchors_and_not_of_studs(brick: PanelJob) -> None:
    job, run = brick, Run()
    loaded = loaded_rails(job)
    pages = [
        *template_pages(template_view(job, run)),
        *load_map_pages(load_map_view(job, loaded)),
        rail_section_svg(rail_section_view(job, loaded[0], run), sheet_name="A4"),
    ]
    for page in pages:
        text = " ".join(re.findall(r">([^<]+)<", page.decode())).replace("studio", "")
        assert "nchor" in text
        assert "stud" not in text
    holes = template_view(job, run).holes
    for size in ("8", "65", "50", "6"):
        assert f"⟦mm:{float(size)}" in holes
    assert "bed joint" in pages[0].decode()
    assert "without hammer" in pages[0].decode()


def test_the_load_map_of_unknown_anchors_draws_no_share(bare: PanelJob) -> None:
    view = load_map_view(bare, loaded_rails(bare))
    text = " ".join(page.decode() for page in load_map_pages(view))
    assert "not known" in text
    assert "% used" not in text


def test_a_wall_that_nobody_knows_asks_to_find_out_first(tmp_path: Path) -> None:
    job = made(tmp_path, 'made_of = "unknown"\n').panels[0]
    assert all("find out first" in line for line in failing(job))
    assert failing(job)
    remarks = check_workshop(tmp_path).remarks
    assert any("find out" in line for line in remarks)


def test_a_thick_sheet_takes_screws_whose_points_stay_inside(tmp_path: Path) -> None:
    """By hand: 18 mm of rail and 30 mm in the wood, 50 mm on sale leave 32 of the 40 mm."""
    job = made(tmp_path, 'made_of = "solid wood"\nthickness = 40\n').panels[0]
    assert failing(job) == ()
    (bought,) = rail_hardware([job])
    assert "5" in bought.name
    assert "50" in bought.name
    assert all(len(rail.studs_mm) >= 2 for rail in job.arrangement.rails)
    assert all(len(rail.screws) == 2 * len(rail.studs_mm) for rail in job.arrangement.rails)


def test_in_a_thinner_sheet_thinner_screws_hold_and_in_a_thin_one_none(tmp_path: Path) -> None:
    """By hand: 24 mm less 2 take 3.5 x 6 = 21 mm, a 40 mm screw in 18 mm of rail; 18 mm none."""
    job = made(tmp_path, 'made_of = "solid wood"\nthickness = 24\n').panels[0]
    (bought,) = rail_hardware([job])
    assert "3.5" in bought.name
    assert "40" in bought.name
    thin = made(tmp_path, 'made_of = "solid wood"\nthickness = 18\n').panels[0]
    assert failing(thin)
    assert all("studs" in line for line in failing(thin))


@pytest.mark.parametrize("made_of", ["brick", "unknown"])
def test_plates_with_wood_screws_are_refused_where_no_wood_is(tmp_path: Path, made_of: str) -> None:
    part = '\n[defaults]\nmount = "wall-screws"\n'
    with pytest.raises(CleatwrightError, match="wood screws"):
        made(tmp_path, f'made_of = "{made_of}"\n', part)


def test_studs_that_nobody_gave_are_asked_for(tmp_path: Path) -> None:
    job = made(tmp_path, "").panels[0]
    warned = " ".join(one.sentence for one in Run().need(ASSESSED, job).remarks)
    assert "of which the document gives none" in warned
    assert "made_of" in warned
    assert any("made_of" in line for line in check_workshop(tmp_path).remarks)


KEYS = st.fixed_dictionaries(
    {},
    optional={
        "loads": st.sampled_from(["allowable", "design", "characteristic"]),
        "tension_n": st.floats(1.0, 2_000.0),
        "shear_n": st.floats(1.0, 2_000.0),
        "embedment": st.floats(20.0, 80.0),
        "screw": st.floats(4.0, 10.0),
        "screw_length": st.floats(40.0, 160.0),
        "clamp": st.floats(5.0, 60.0),
        "edge": st.floats(20.0, 200.0),
        "spacing": st.floats(20.0, 200.0),
    },
)
NEEDED = {"loads", "tension_n", "shear_n", "screw", "edge", "spacing"}


@settings(deadline=None, max_examples=150)
@given(KEYS, st.sampled_from(["brick", "block", "concrete"]), st.floats(0.0, 30.0))
def test_an_anchor_has_a_strength_only_where_its_papers_say_all_of_it(
    keys: dict[str, float | str], made_of: str, plaster: float
) -> None:
    wall = {"width": 2000, "height": 1000, "made_of": made_of, "anchor": keys, "lining": plaster}
    panel = Panel.model_validate({"name": "a", **wall}, context={"units": "mm"})
    by = fastening_of(RailRules(), panel).carries
    held = 18.0 + plaster
    short = float(keys.get("screw_length", math.inf)) < held + float(keys.get("embedment", 0.0))
    short = short and "embedment" in keys
    clamps = float(keys.get("clamp", math.inf)) >= held
    assert (by.strength is None) == (bool(NEEDED - {*keys}) or short or not clamps)
    assert (by.strength is None) == bool(by.unknown)
    if by.strength is not None:
        assert by.strength.withdrawal_n <= float(keys["tension_n"])
        assert by.strength.lateral_n <= float(keys["shear_n"])


def test_a_rail_has_more_anchors_where_its_loads_need_them(tmp_path: Path) -> None:
    """Anchors that bear nine tenths of what few of them must are set closer until they hold."""
    heavy = "".join(
        can(f"Tin {n}", diameter=66.0, height=100.0, mass="4 kg", holder=True) for n in range(8)
    )
    wall = BRICK + PLUG.replace("LOADS", "allowable")
    strong = wall.replace("900", "9000").replace("750", "7500")
    few = max(loaded_rails(made(tmp_path, strong, heavy).panels[0]), key=lambda one: len(one.loads))
    assert few.check is not None
    share = 0.9 * few.check.utilisation
    weak = wall.replace("900", f"{9000 * share:.0f}").replace("750", f"{7500 * share:.0f}")
    many = max(loaded_rails(made(tmp_path, weak, heavy).panels[0]), key=lambda one: len(one.loads))
    assert (many.rail.x0_mm, many.rail.x1_mm) == (few.rail.x0_mm, few.rail.x1_mm)
    assert len(many.rail.studs_mm) > len(few.rail.studs_mm)
    assert many.check is not None
    assert many.check.holds
