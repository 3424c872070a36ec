"""A tool that goes back hot hangs off cans and cells, and shares a holder with neither.

Common practice, no source: 300 mm, as with the cautions on spray cans and cells.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from tests.small import can, document

from cleatwright.jobs.making import all_files_of
from cleatwright.pack.job import Job
from cleatwright.project.computing import compute

TEXT = document(
    "Warm",
    can(
        "Glue pot",
        *('group = "pots"', 'properties = ["hot"]', "keep_cool = false"),
        diameter=66,
        height=120,
        mass="400 g",
    ),
    can(
        "Spray",
        *('group = "pots"', 'properties = ["flammable"]'),
        diameter=66,
        height=120,
        mass="400 g",
    ),
    width=1600,
    height=900,
    studs=(60, 660, 1260, 1540),
)
PLACES = """
[[holder]]
tools = ["Glue pot"]
place = {{ x = 200, z = 500 }}

[[holder]]
tools = ["Spray"]
place = {{ x = {x}, z = 500 }}
"""


def job_of(folder: Path, text: str) -> Job:
    (folder / "workshop.toml").write_text(text, "utf-8")
    return compute(folder)


def warned(job: Job) -> list[str]:
    report = json.loads(all_files_of(job)["report.json"])
    return [one for one in report["warnings"] if "goes back hot" in one]


def test_hot_and_cold_of_one_group_share_no_holder(tmp_path: Path) -> None:
    job = job_of(tmp_path, TEXT)
    assert sorted(len(one.tools) for one in job.planned) == [1, 1]
    cold = job_of(tmp_path, TEXT.replace('["hot"]', "[]"))
    assert [len(one.tools) for one in cold.planned] == [2]


@pytest.mark.parametrize(("x", "told"), [(320, 1), (800, 0)])
def test_what_goes_back_hot_beside_a_spray_can_is_told(tmp_path: Path, x: int, told: int) -> None:
    found = warned(job_of(tmp_path, TEXT + PLACES.format(x=x)))
    assert len(found) == told
    assert all("Glue pot" in one and "Spray" in one for one in found)


def test_without_heat_nothing_is_told(tmp_path: Path) -> None:
    cold = TEXT.replace('["hot"]', "[]") + PLACES.format(x=320)
    assert warned(job_of(tmp_path, cold)) == []
