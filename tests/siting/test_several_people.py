"""Several people share a wall: who takes what, and what children must not reach.

Shares of the stature: shoulder 0.818, elbow 0.630 (Drillis and Contini); fingertips overhead 1.2893
(ANSUR II).
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.small import can, document

from cleatwright.base.errors import CleatwrightError
from cleatwright.base.stages.run import Run
from cleatwright.jobs.checking import check_workshop
from cleatwright.pack.drawing import elevation_view
from cleatwright.pack.job import Job
from cleatwright.pack.reporting import report_of
from cleatwright.papers.elevation.drawing import elevation_pages
from cleatwright.project.computing import compute
from cleatwright.shapes.extent import joint_extent
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.people import on_panel
from cleatwright.siting.safe_heights import SafeHeights
from cleatwright.standards.people.cdc_statures import most_stature_mm
from cleatwright.statics.take_out import grip_z_mm
from cleatwright.web.rows.wall import panel_row
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.person import OtherPerson, Person
from cleatwright.workshop.document.store import checked

FLOOR_GAP_MM = 300.0
SHARE_OF_SHOULDER, SHARE_OF_ELBOW, TOUCHED = 0.818, 0.630, 1.2893
PEOPLE = """
[person]
name = "Ann"
stature = 1600

[[other_person]]
name = "Bo"
stature = 1900
"""
TOM = '\n[[other_person]]\nname = "Tom"\nchild = true\n'
SMALL_TOM = f"{TOM}stature = 900\n"


def a_can(name: str, *lines: str) -> str:
    return can(name, *lines, diameter=66, height=150, mass="400 g")


def text_of(*parts: str, people: str = PEOPLE, wall: str = "") -> str:
    return document(
        "Shared",
        *parts,
        people,
        width=1200,
        height=1900,
        studs=(60, 600, 1140),
        wall=f"floor_gap = {FLOOR_GAP_MM:g}\n{wall}",
    )


def job_of(folder: Path, *parts: str, **said: Any) -> Job:
    (folder / "workshop.toml").write_text(text_of(*parts, **said), "utf-8")
    return compute(folder)


def hands_mm(job: Job) -> dict[str, float]:
    """Return the height of the hand on each tool above the floor, by its own count."""
    return {name: hand for name, hand, _ in _taken(job.panels[0])}


def lowest_mm(job: Job) -> dict[str, float]:
    """Return the height of the lowest point of each tool above the floor."""
    return {name: low for name, _, low in _taken(job.panels[0])}


def _taken(panel: PanelJob) -> list[tuple[str, float, float]]:
    found: list[tuple[str, float, float]] = []
    for planned, made in zip(panel.planned, panel.built, strict=True):
        base = FLOOR_GAP_MM + panel.spots[planned.key].place.z_mm
        base -= made.part.hanging.contact_z_mm
        for tool, seat in zip(planned.tools, made.part.seats, strict=True):
            low, high = joint_extent(seat.envelope())
            hand = base + high[2] - min(97.0, high[2] - low[2]) / 2
            found.append((tool.name, hand, base + low[2]))
    return found


def test_each_tool_hangs_where_it_is_easy_for_who_takes_it(tmp_path: Path) -> None:
    job = job_of(
        tmp_path,
        a_can("All", 'use = "daily"'),
        a_can("Low", 'use = "daily"', 'taken_by = ["Ann"]'),
        a_can("High", 'use = "daily"', 'taken_by = ["Bo"]'),
    )
    (panel,) = job.panels
    heights = {}
    for unit in panel.units:
        (seat,), hanging = unit.outer.part.seats, unit.outer.part.hanging
        hand = grip_z_mm(seat) - hanging.contact_z_mm
        at = panel.spots[unit.planned.key].place.z_mm
        heights[unit.planned.name] = at + FLOOR_GAP_MM + hand
    # steps of 50 mm
    for name, low, high in (
        ("All", SHARE_OF_ELBOW * 1900, SHARE_OF_SHOULDER * 1600),
        ("Low", SHARE_OF_ELBOW * 1600, SHARE_OF_SHOULDER * 1600),
        ("High", SHARE_OF_ELBOW * 1900, SHARE_OF_SHOULDER * 1900),
    ):
        assert low - 25.0 <= heights[name] <= high + 25.0
    report = report_of(job, files=())
    takers = {seat.tool: seat.taken_by for one in report.holders for seat in one.seats}
    assert takers == {"All": ("Ann", "Bo"), "Low": ("Ann",), "High": ("Bo",)}
    assert [one.name for one in report.panels[0].people] == ["Ann", "Bo"]
    reasons = [line for one in report.holders if one.why_there for line in one.why_there.reasons]
    assert any("Ann and Bo take it, all with ease from 1197 mm to 1309 mm" in x for x in reasons)


def test_a_group_says_who_takes_its_tools(tmp_path: Path) -> None:
    group = '\n[[group]]\nname = "paint"\ntaken_by = ["Bo"]\n'
    own = a_can("Own", 'group = "paint"', 'taken_by = ["Ann"]')
    workshop = checked(text_of(a_can("Red", 'group = "paint"'), own, group))
    assert [item.taken_by for item in workshop.items()] == [("Bo",), ("Ann",)]


def test_the_smallest_shoulder_bounds_what_is_sharp(tmp_path: Path) -> None:
    """A strip of wall just below the shoulder of Bo is no place for what Ann takes, too."""
    freezer = '\n[[wall.obstacle]]\nname = "freezer"\nx = 0\nz = 0\nwidth = 1200\nheight = {:g}\n'
    high = freezer.format(SHARE_OF_SHOULDER * 1900 - FLOOR_GAP_MM - 300)
    sharp = 'properties = ["sharp"]'
    with pytest.raises(CleatwrightError, match="no higher than the shoulder of Ann, 1309 mm"):
        job_of(tmp_path, a_can("Plane", sharp), high)
    job = job_of(tmp_path, a_can("Plane", sharp, 'taken_by = ["Bo"]'), high)
    assert hands_mm(job)["Plane"] <= SHARE_OF_SHOULDER * 1900 + 5.0


def test_what_can_hurt_hangs_out_of_the_reach_of_a_child(tmp_path: Path) -> None:
    tools = [
        a_can(name, f'properties = ["{name}"]') for name in ("sharp", "hot", "liquid", "flammable")
    ]
    job = job_of(
        tmp_path,
        *tools,
        a_can("harmless", "properties = []", 'taken_by = ["Tom"]'),
        people=PEOPLE + SMALL_TOM,
    )
    low = lowest_mm(job)
    assert all(z >= TOUCHED * 900 - 0.1 for name, z in low.items() if name != "harmless")
    assert hands_mm(job)["harmless"] < 1.2 * 900
    report = report_of(job, files=())
    assert any("a height is no lock" in one for one in report.cautions)
    (tom,) = [one for one in report.panels[0].people if one.child]
    assert tom.touches_mm == pytest.approx(TOUCHED * 900)


def test_a_child_of_an_age_counts_as_tall_where_things_are_kept_from_it() -> None:
    """P95 before the next birthday (CDC) in shoes of 25 mm; and as P5 where it takes something."""
    tom = checked(text_of(people=f"{PEOPLE}{TOM}age = 4\n")).people[-1]
    assert tom.most_mm == most_stature_mm(4) + 25.0 == 1162.0 + 25.0
    assert tom.least_mm == 935.0 + 25.0


def test_where_no_height_is_left_both_are_named_and_what_to_change(tmp_path: Path) -> None:
    big = PEOPLE + TOM + "stature = 1200\n"
    tools = [a_can(f"Knife {k}", 'properties = ["sharp"]') for k in range(6)]
    for ask in (check_workshop, compute):
        (tmp_path / "workshop.toml").write_text(text_of(*tools, people=big), "utf-8")
        with pytest.raises(CleatwrightError) as caught:
            ask(tmp_path)
        told = str(caught.value)
        assert told.count("There is no height") == 1
        assert '"Knife 0", "Knife 1", "Knife 2" and 3 more (sharp): each of them' in told
        assert "the shoulder of Ann, 1309 mm" in told
        assert "the reach of Tom, who touches what is up to 1547 mm" in told
        for way in ("locked", "height_reason", "name Tom in taken_by"):
            assert way in told


@pytest.mark.parametrize(
    ("tool", "wall", "caution"),
    [
        ("", 'locked = "a shutter with a lock"\n', "kept from them otherwise: a shutter with"),
        (
            'lowest_height = 1000\nheight_reason = "in a box with a lock"',
            "",
            "within the reach of Tom, for its owner's reason: in a box with a lock",
        ),
        (
            'highest_height = 2000\nheight_reason = "on a firm step"',
            "",
            "for its owner's reason: on a firm step",
        ),
        ('taken_by = ["Ann", "Bo", "Tom"]', "", "Tom is a child and takes what can hurt: Knife"),
    ],
)
def test_the_owner_lifts_a_bound_and_reads_why(
    tmp_path: Path, tool: str, wall: str, caution: str
) -> None:
    big = PEOPLE + TOM + "stature = 1200\n"
    knife = a_can("Knife", 'properties = ["sharp"]', tool)
    job = job_of(tmp_path, knife, people=big, wall=wall)
    report = report_of(job, files=())
    assert any(caution in one for one in report.cautions)
    if "Tom" in tool:
        assert any(caution in one for one in check_workshop(tmp_path).remarks)


def test_a_given_place_within_the_reach_of_a_child_is_kept_and_told(tmp_path: Path) -> None:
    place = '\n[[holder]]\ntools = ["Knife"]\nplace = { x = 200, z = 600 }\n'
    knife = a_can("Knife", 'properties = ["sharp"]')
    job = job_of(tmp_path, knife, place, people=PEOPLE + TOM + "stature = 1200\n")
    (found,) = job.found
    assert any("hangs out of the reach of Tom" in one for one in found.warnings)


def test_who_does_not_reach_over_the_bench_is_named(tmp_path: Path) -> None:
    short = PEOPLE.replace("stature = 1900", "stature = 1300")
    with pytest.raises(CleatwrightError) as caught:
        job_of(tmp_path, a_can("Can"), people=short, wall="bench_depth = 650\n")
    assert "The arm of Bo, 501.8 mm long, does not reach the wall" in str(caught.value)


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> tuple[Workshop, PanelJob]:
    """A wall with things that can hurt, arranged for one person."""
    folder = tmp_path_factory.mktemp("built")
    tools = [
        a_can("Plane", 'properties = ["sharp"]'),
        a_can("Oil", 'properties = ["liquid"]'),
        can("Anvil", diameter=90, height=140, mass="5 kg"),
    ]
    (folder / "workshop.toml").write_text(text_of(*tools, people=""), "utf-8")
    job = compute(folder)
    return job.workshop, job.panels[0]


@settings(max_examples=60, deadline=None)
@given(
    adults=st.lists(st.integers(1450, 2050), min_size=1, max_size=3),
    child=st.integers(800, 1700),
    share=st.floats(0.0, 1.0),
)
def test_no_safe_height_is_within_the_reach_of_a_child(
    built: tuple[Workshop, PanelJob], adults: list[int], child: int, share: float
) -> None:
    """Wherever the bounds let a tool hang, its lowest point is above the child's fingertips."""
    workshop, panel = built
    first, *others = adults
    people = workshop.model_copy(
        update={
            "person": Person(name="A0", stature_mm=first),
            "other_persons": (
                *(OtherPerson(name=f"A{k}", stature_mm=mm) for k, mm in enumerate(others, 1)),
                OtherPerson(name="C", child=True, stature_mm=child),
            ),
        }
    )
    heights = SafeHeights(people, panel.panel)
    for unit in panel.units:
        bounds = heights.bounds(unit)
        if bounds.lowest_mm > bounds.highest_mm:
            continue
        z_mm = bounds.lowest_mm + share * (bounds.highest_mm - bounds.lowest_mm)
        part = unit.outer.part
        base = FLOOR_GAP_MM + z_mm - part.hanging.contact_z_mm
        for seat in part.seats:
            assert base + joint_extent(seat.envelope())[0][2] >= TOUCHED * child - 0.01
            if bounds.high_why and "shoulder" in bounds.high_why:
                assert base + grip_z_mm(seat) <= SHARE_OF_SHOULDER * min(adults) + 0.01


def test_of_several_children_the_one_counts_that_touches_highest(
    built: tuple[Workshop, PanelJob],
) -> None:
    workshop, panel = built

    def least_mm(*children: float) -> list[float]:
        others = tuple(
            OtherPerson(name=f"C{k}", child=True, stature_mm=mm) for k, mm in enumerate(children)
        )
        people = workshop.model_copy(
            update={"person": Person(name="A", stature_mm=1900.0), "other_persons": others}
        )
        heights = SafeHeights(people, panel.panel)
        return [heights.bounds(unit).lowest_mm for unit in panel.units]

    small, tall = least_mm(900.0), least_mm(1050.0)
    assert least_mm(900.0, 1050.0) == least_mm(1050.0, 900.0) == tall
    # where either keeps something up, the tall one keeps it up by what it touches more
    risen = [b - a for a, b in zip(small, tall, strict=True) if b != a]
    assert risen
    assert risen == pytest.approx([TOUCHED * 150.0] * len(risen))


def test_a_bar_for_each_person_is_drawn_beside_the_wall(tmp_path: Path) -> None:
    job = job_of(tmp_path, a_can("Can"), people=PEOPLE + SMALL_TOM)
    (panel,) = job.panels
    view = elevation_view(panel, Run())
    assert [one.name for one in view.people] == ["Ann", "Bo", "Tom"]
    pages = elevation_pages(view)
    words = b"".join(pages).decode()
    assert all(f">{name}</text>" in words for name in ("Ann", "Bo", "Tom"))
    assert "Tom, a child, touches what is up to 1160.4" in words
    assert "Ann: easy 1008 to 1308.8" in words
    assert b"person-name" not in elevation_pages(replace(view, people=()))[0]
    row = panel_row(panel, job.workshop, Run())
    assert [(one.name, one.child) for one in row.people] == [
        ("Ann", False),
        ("Bo", False),
        ("Tom", True),
    ]
    assert row.people[0].words == "Ann: easy from 1008 mm to 1309 mm"
    assert row.people[2].easy_mm is None


SEATED = '\n[person]\nname = "Ann"\nstature = 1755\nseated = true\n'


@pytest.mark.parametrize(("depth", "most"), [(0.0, 1220.0), (500.0, 1220.0), (600.0, 1120.0)])
def test_who_sits_reaches_what_the_public_code_says(depth: float, most: float) -> None:
    """Oracle: 2010 ADA Standards 308.2; the shoulder by ANSUR II: 598 mm above the seat."""
    wall = f"bench_depth = {depth:g}\nbench_height = 700\n" if depth else ""
    workshop = checked(text_of(people=SEATED, wall=wall))
    band = on_panel(workshop, workshop.surface()).usual.band
    assert band.highest_mm == most
    assert band.lowest_mm == (700.0 if depth else pytest.approx(388.0, abs=1.0))
    assert band.high_mm == pytest.approx(455.0 + 598.0, abs=3.0)
    measured = checked(text_of(people=f"{SEATED}arm_reach = 700\n", wall=wall))
    assert on_panel(measured, measured.surface()).usual.band.highest_mm > most


def test_what_all_take_hangs_within_the_reach_of_who_sits(tmp_path: Path) -> None:
    """A freezer before all that is lower than 1250 mm leaves no place that both reach."""
    both = SEATED + '\n[[other_person]]\nname = "Bo"\nstature = 1900\n'
    freezer = '\n[[wall.obstacle]]\nname = "freezer"\nx = 0\nz = 0\nwidth = 1200\nheight = 950\n'
    with pytest.raises(CleatwrightError, match="hangs where Ann reaches it, up to 1220 mm"):
        job_of(tmp_path, a_can("Can"), freezer, people=both)
    job = job_of(tmp_path, a_can("Can", 'taken_by = ["Bo"]'), freezer, people=both)
    assert hands_mm(job)["Can"] > 1250.0
    job = job_of(tmp_path, a_can("Can"), people=both)
    assert hands_mm(job)["Can"] <= 1220.0


def test_a_heavy_tool_of_who_sits_has_a_caution(tmp_path: Path) -> None:
    anvil = can("Anvil", diameter=90, height=140, mass="4 kg")
    job = job_of(tmp_path, anvil, people=SEATED)
    told = report_of(job, files=()).cautions
    assert any("Anvil (4.0 kg) is taken by somebody who sits" in one for one in told)


def test_one_person_is_as_before(tmp_path: Path) -> None:
    job = job_of(tmp_path, a_can("Can"), people='\n[person]\nname = "Ann"\nstature = 1600\n')
    (panel,) = job.panels
    assert elevation_view(panel, Run()).people == ()
    assert panel.problem.items[0].taken is None
    report = report_of(job, files=())
    assert report.panels[0].people == ()
    assert report.holders[0].seats[0].taken_by == ()
