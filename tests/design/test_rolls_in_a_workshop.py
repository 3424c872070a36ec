"""Rolls, bars and discs of a workshop, from the document to the list of what to buy."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pdfplumber
import pytest

from cleatwright.jobs.making import all_files_of
from cleatwright.pack.job import Job
from cleatwright.project.computing import compute

STOCK = """
[[tool]]
name = "Masking tape"
kind = "tape-roll"
measures = { outer = 110, bore = 76, width = 36 }

[[tool]]
name = "Solder"
kind = "tape-roll"
measures = { outer = 60, bore = 22, width = 40 }
mass = "500 g"

[[tool]]
name = "Level"
kind = "level"
measures = { length = 400, height = 50, thickness = 23 }

[[tool]]
name = "Saw blade"
kind = "sanding-disc"
measures = { diameter = 160, thickness = 2.6, bore = 20 }

[[holder]]
tools = ["Masking tape", "Solder"]
family = "roll-spindle"

[[holder]]
tools = ["Level"]
family = "bracket-pair"

[[holder]]
tools = ["Saw blade"]
family = "disc-file"
"""


@pytest.fixture(scope="module")
def job(tmp_path_factory: pytest.TempPathFactory, shed_text: str) -> Job:
    folder: Path = tmp_path_factory.mktemp("rolls") / "shed"
    folder.mkdir()
    head = shed_text.split("[[tool]]", maxsplit=1)[0]
    (folder / "workshop.toml").write_text(head + STOCK, "utf-8")
    return compute(folder)


def test_each_roll_is_found_again_in_its_seat_though_a_rod_goes_along(job: Job) -> None:
    rolls = next(one for one in job.planned if one.recipe.family == "roll-spindle")
    assert sorted(tool.name for tool in rolls.tools) == ["Masking tape", "Solder"]
    assert {tool.name: tool.body.mass_kg for tool in rolls.tools}["Solder"] == 0.5
    assert all(check.holds for built in job.built for check in built.checks)


def test_the_hardware_list_names_the_rod_of_each_roll(job: Job) -> None:
    """It is 14 mm longer than the roll and its play: 1.5 beside it and hooks of 6 less 0.5."""
    text = all_files_of(job)["lists/hardware.csv"].decode("utf-8-sig")
    names = [row[0] for row in csv.reader(io.StringIO(text)) if row and "round rod" in row[0]]
    kinds = [one.recipe.family for one in job.planned]
    seats = job.built[kinds.index("roll-spindle")].part.seats
    rooms = [size.made_mm for seat in seats for size in seat.sizes if "between" in size.label]
    assert len(rooms) == 2
    assert sorted(names) == sorted(f"round rod 12 mm, {r + 14.0:.0f} mm long" for r in rooms)


def test_what_can_hurt_is_said_on_the_lists(job: Job) -> None:
    with pdfplumber.open(io.BytesIO(all_files_of(job)["lists/cautions.pdf"])) as pdf:
        said = " ".join(page.extract_text() for page in pdf.pages)
    assert "round saw blades" in " ".join(said.split())
