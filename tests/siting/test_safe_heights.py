"""Heavy, sharp, hot, glass and wet things hang where hands take them safely.

A person of 1750 mm: shoulder 0.818, eyes 0.936 of the stature (Drillis and Contini; the eyes agree
with 0.935 of ANSUR II). Lifting: the equation of NIOSH 94-110 by hand, in its metric form.
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from tests.small import can, document

from cleatwright.base.errors import CleatwrightError
from cleatwright.jobs.checking import check_workshop
from cleatwright.jobs.making import all_files_of
from cleatwright.pack.job import Job
from cleatwright.project.computing import compute
from cleatwright.siting.assessing import lift_tasks

SHOULDER_MM = 0.818 * 1750
EYES_MM = 0.936 * 1750
FLOOR_GAP_MM = 300.0
FREEZER = """
[[wall.obstacle]]
name = "freezer"
x = 0
z = 0
width = 700
height = {low:g}
"""


def text_of(properties: str, *, low: float = 20, more: str = "", mass: str = "400 g") -> str:
    """Return a tall wall with a can, and a freezer before all that is lower than ``low``."""
    return document(
        "Tall",
        can("Can", f"properties = {properties}", more, diameter=66, height=150, mass=mass),
        width=700,
        height=1900,
        studs=(60, 350, 640),
        wall=f"floor_gap = {FLOOR_GAP_MM:g}\n{FREEZER.format(low=low)}",
    )


def job_of(folder: Path, properties: str, **said: Any) -> Job:
    (folder / "workshop.toml").write_text(text_of(properties, **said), "utf-8")
    return compute(folder)


def hand_mm(job: Job) -> float:
    """Return the height of the middle of the hand on the can, above the floor."""
    (panel,) = job.panels
    (made,), (spot,) = panel.built, panel.spots.values()
    (seat,) = made.part.seats
    tops = [z for body in seat.envelope() for z in (_top(body),)]
    hang = FLOOR_GAP_MM + spot.place.z_mm - made.part.hanging.contact_z_mm
    # a hand is about 85 mm wide (ANSUR II), so that its middle is some 40 mm below the top
    return hang + max(tops) - 42.5


def _top(body: object) -> float:
    from cleatwright.shapes.extent import extent  # noqa: PLC0415 - one use

    return extent(body)[1][2]  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("properties", "most_mm"),
    [
        ('["sharp"]', SHOULDER_MM),
        ('["hot"]', SHOULDER_MM),
        ('["heavy"]', SHOULDER_MM),
        ('["glass"]', EYES_MM),
        ('["liquid"]', EYES_MM),
        ('["glass", "sharp"]', SHOULDER_MM),
    ],
)
def test_what_can_hurt_finds_no_place_above_where_it_is_safe(
    tmp_path: Path, properties: str, most_mm: float
) -> None:
    """The freezer leaves a strip of the wall: just below the bound it hangs, just above not."""
    free = most_mm - FLOOR_GAP_MM
    assert hand_mm(job_of(tmp_path, properties, low=free - 300)) <= most_mm + 5.0
    with pytest.raises(CleatwrightError, match="at a safe height") as caught:
        job_of(tmp_path, properties, low=free + 30)
    assert "is taken no higher than the" in str(caught.value)
    assert hand_mm(job_of(tmp_path, "[]", low=free + 30)) > most_mm


@pytest.mark.parametrize("carried", [True, False])
def test_the_bound_of_what_hangs_is_that_of_its_hand(tmp_path: Path, *, carried: bool) -> None:
    """As much as the hand could still rise, so much could the holder, or its carrier."""
    carrier = '\n[[carrier]]\nname = "board"\njoint = "dovetail"\n'
    holder = '\n[[holder]]\ntools = ["Can"]\ncarrier = "board"\n'
    job = job_of(tmp_path, '["sharp"]', more=f"{carrier}{holder}" if carried else "")
    (panel,) = job.panels
    (item,), (made,), (planned,) = panel.problem.items, panel.built, panel.planned
    (place,) = panel.arrangement.places
    top = max(_top(body) for seat in made.part.seats for body in seat.envelope())
    own = panel.spots[planned.key].place.z_mm - made.part.hanging.contact_z_mm
    hand = FLOOR_GAP_MM + own + top - 42.5
    rise = item.bounds.highest_mm - place.z_mm
    # hands in gloves are wider
    assert rise == pytest.approx(SHOULDER_MM - hand, abs=10.0)


def test_a_reason_lifts_the_bound_and_stands_with_the_cautions(tmp_path: Path) -> None:
    low = SHOULDER_MM - FLOOR_GAP_MM + 30
    wish = 'highest_height = 1900\nheight_reason = "only grown-ups come here"'
    job = job_of(tmp_path, '["sharp"]', low=low, more=wish)
    assert SHOULDER_MM < hand_mm(job) <= 1900.0
    report = json.loads(all_files_of(job)["report.json"])
    (told,) = [one for one in report["cautions"] if "grown-ups" in one]
    assert told.startswith("Can is taken from higher than the 1432 mm above the floor")


def test_a_reason_is_told_only_where_it_hangs_so_high(tmp_path: Path) -> None:
    wish = 'highest_height = 1900\nheight_reason = "only grown-ups come here"'
    job = job_of(tmp_path, '["sharp"]', more=wish)
    assert hand_mm(job) < SHOULDER_MM
    report = json.loads(all_files_of(job)["report.json"])
    assert not any("grown-ups" in one for one in report["cautions"])


def test_without_a_reason_it_is_refused_at_its_place(tmp_path: Path) -> None:
    with pytest.raises(CleatwrightError) as caught:
        job_of(tmp_path, '["sharp"]', more="highest_height = 1900")
    told = str(caught.value)
    assert 'tool "Can"' in told
    assert "highest_height" in told
    assert "height_reason" in told


@pytest.mark.parametrize(
    ("wish", "key"),
    [("highest_height = 1900", "highest_height"), ("lowest_height = 1500", "lowest_height")],
)
def test_check_finds_wished_heights_that_cannot_be(tmp_path: Path, wish: str, key: str) -> None:
    """Before anything is arranged."""
    (tmp_path / "workshop.toml").write_text(text_of('["sharp"]', more=wish), "utf-8")
    with pytest.raises(CleatwrightError) as caught:
        check_workshop(tmp_path)
    assert key in str(caught.value)


def test_a_lower_bound_keeps_it_from_children(tmp_path: Path) -> None:
    """ADA advisory 308.1: children of 9 to 12 years reach up to 1120 mm."""
    assert hand_mm(job_of(tmp_path, "[]", more="lowest_height = 1500")) >= 1500.0 - 5.0


def test_bounds_that_leave_nothing_are_refused(tmp_path: Path) -> None:
    with pytest.raises(CleatwrightError, match="no lower than its highest"):
        job_of(tmp_path, "[]", more="lowest_height = 1500\nhighest_height = 1200")


def recommended_kg(height_mm: float, horizontal_mm: float, travel_mm: float) -> float:
    """The equation: 23 kg times HM, VM, DM and a poor coupling of 0.90; nothing above 1750 mm."""
    if height_mm > 1750.0:
        return 0.0
    vertical = 1.0 - 0.003 * abs(height_mm / 10.0 - 75.0)
    distance = min(1.0, 0.82 + 4.5 / max(travel_mm / 10.0, 25.0))
    return 23.0 * (25.0 / (horizontal_mm / 10.0)) * vertical * distance * 0.90


def test_a_heavy_tool_hangs_where_the_lifting_equation_lets_it(tmp_path: Path) -> None:
    """11 kg leave little: with the hands at the floor, or at the shoulder, it is too much."""
    job = job_of(tmp_path, "[]", mass="11 kg")
    (task,) = lift_tasks(job.panels[0])
    most = recommended_kg(
        task.grip_height_mm,
        max(250.0, 125.0 - task.grip_out_mm),
        abs(task.grip_height_mm - 0.630 * 1750),
    )
    assert most >= 11.0
    (item,) = job.panels[0].problem.items
    found = re.search(r"between ⟦mm:([\d.]+).* and ⟦mm:([\d.]+)", item.bounds.low_why)
    assert found is not None
    # the hands of the equation are at the middle of its weight, those of the person on its top
    off = task.grip_height_mm - hand_mm(job)
    good = [
        hand
        for hand in range(0, 3000, 10)
        if hand + off >= 0.0
        and recommended_kg(hand + off, 250.0, abs(hand + off - 0.630 * 1750)) >= 11.0
    ]
    assert float(found[1]) == pytest.approx(good[0], abs=10.5)
    assert float(found[2]) == pytest.approx(good[-1], abs=10.5)


def test_a_given_place_that_is_too_high_is_kept_and_told(tmp_path: Path) -> None:
    place = '\n[[holder]]\ntools = ["Can"]\nplace = { x = 200, z = 1500 }\n'
    job = job_of(tmp_path, '["sharp"]', more=place)
    warnings = json.loads(all_files_of(job)["report.json"])["warnings"]
    assert any("hangs at a height that is not safe" in one for one in warnings)


def test_tools_that_their_owner_wants_at_other_heights_share_no_holder(tmp_path: Path) -> None:
    """Two cans that would share one: one at 1300 mm at the least, the other at 1000 at the most."""

    def made(*wishes: str) -> Job:
        cans = [
            can(f"Can {k}", wish, diameter=50, height=120, mass="200 g")
            for k, wish in enumerate(wishes)
        ]
        text = document(
            "Tall",
            *cans,
            width=700,
            height=1900,
            studs=(60, 350, 640),
            wall=f"floor_gap = {FLOOR_GAP_MM:g}\n",
        )
        (tmp_path / "workshop.toml").write_text(text, "utf-8")
        return compute(tmp_path)

    assert [len(one.tools) for one in made("", "").planned] == [2]
    job = made("lowest_height = 1300", "highest_height = 1000")
    assert sorted(one.name for one in job.planned) == ["Can 0", "Can 1"]
