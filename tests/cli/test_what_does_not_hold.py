"""What does not hold is neither kept as hanging nor told to be hung, and the papers say so.

Facts: a rail between two uprights meets no stud, and plasterboard alone carries nothing (common
practice, no source).
"""

from __future__ import annotations

import csv
import io
import re
from pathlib import Path
from typing import Any

import pdfplumber
import pytest
from tests.cli.folders import write

HEAD = """schema = 1
name = "Half held"

[wall]
width = 2000
height = 900
floor_gap = 700
stud = [{ x = 300 }, { x = 700 }]

[[wall.obstacle]]
name = "pipe"
x = 1100
z = 0
width = 40
height = 900

[printer.bench]
bed = [220, 220, 200]

[filament.plain]
material = "PETG"
density = 1270
"""


def box(name: str, x_mm: float, mass_kg: float) -> str:
    return f"""
[[tool]]
name = "{name}"
kind = "box"
measures = {{ width = 90, depth = 60, height = 50 }}
mass = {mass_kg}

[[holder]]
tools = ["{name}"]
place = {{ x = {x_mm}, z = 500 }}
"""


GOOD, BAD = box("Tin", 450, 0.3), box("Anvil", 1700, 3.0)


def pdf_words(path: Path) -> str:
    with pdfplumber.open(path) as pdf:
        return " ".join(" ".join(page.extract_text().split()) for page in pdf.pages)


def test_what_does_not_hold_is_kept_only_when_the_person_says_so(cli: Any, tmp_path: Path) -> None:
    lower = box("Vice", 1700, 3.0).replace("z = 500", "z = 200")
    folder = write(tmp_path / "shed", HEAD + GOOD + BAD + lower)
    made = cli("make", folder, "--json")
    assert made.code == 3
    first, second = made.json["failing"]
    ran = cli("hung", folder, "--json")
    assert (ran.code, ran.out) == (3, "")
    assert "screws of rail R" in first
    assert ran.error["given"].endswith(f": {first}; {second}")
    assert "--anyway" in ran.error["todo"]
    assert cli("hung", folder, "--show", "--json").json == {"hung": [], "rails": []}
    kept = cli("hung", folder, "--anyway")
    assert kept.code == 0
    assert "Warning: it hangs, but does not hold: " in kept.out
    assert len(cli("hung", folder, "--show", "--json").json["hung"]) == 3


def test_why_tells_what_of_a_holder_does_not_hold_as_make_does(cli: Any, tmp_path: Path) -> None:
    """50 kg on two prongs of plastic."""
    anvil = """
[[tool]]
name = "Anvil"
kind = "thing-with-neck"
mass = "50 kg"
measures = { length = 320, head_width = 120, head_depth = 100, head_height = 60, neck = 34 }

[[holder]]
tools = ["Anvil"]
mount = "wall-screws"
"""
    folder = write(tmp_path / "shed", HEAD + anvil)
    failing = cli("make", folder, "--json").json["failing"]
    (sentence,) = [one for one in failing if one.startswith("Anvil (")]
    assert f"Does not hold: {sentence}" in cli("why", folder, "Anvil", "--json").json["sentences"]


@pytest.fixture
def weak(cli: Any, tmp_path: Path) -> Path:
    """Return a workshop of which a part hangs, made with one more thing on a rail that fails."""
    folder = write(tmp_path / "shed", HEAD + GOOD)
    assert cli("make", folder, "--json").code == 0
    assert cli("hung", folder, "--json").code == 0
    write(folder, HEAD + GOOD + BAD)
    assert cli("make", folder, "--json").code == 3
    return folder


def test_the_papers_for_the_wall_say_what_does_not_hold(cli: Any, weak: Path) -> None:
    (sentence,) = cli("make", weak, "--json").json["failing"]
    steps = pdf_words(weak / "out" / "lists" / "steps.pdf")
    first = steps.index("This does not hold: mend it")
    assert first < steps.index('Do not hang "Anvil" yet: rail R')
    assert "Do not screw on rail R" in steps
    assert 'Hang "Anvil"' not in steps
    assert "Screw on rail" not in steps
    cautions = pdf_words(weak / "out" / "lists" / "cautions.pdf")
    assert sentence.partition(":")[0] in cautions
    for warning in cli("make", weak, "--json").json["warnings"]:
        assert " ".join(warning.split()) in cautions
    template = pdf_words(weak / "out" / "wall" / "drilling-template.pdf")
    assert "Do not drill for rail R" in template
    elevation = pdf_words(weak / "out" / "wall" / "elevation.pdf")
    assert re.search(r"R\d DOES NOT HOLD: screws of rail R", elevation)
    told = cli("why", weak, "Anvil").out
    assert "Warning: Rail R" in told
    assert "Does not hold: " in told


CAN = """
[[tool]]
name = "Oil spray"
kind = "can"
measures = { diameter = 65.5, height = 180 }
mass = "390 g"

[[holder]]
tools = ["Oil spray"]
mount = "wall-screws"
place = { x = PLACE, z = 400 }
"""


@pytest.mark.parametrize(
    ("x_mm", "studs", "said"),
    [
        (1000, True, "no stud is behind it where it hangs"),
        (262, True, "at least 24 mm into studs"),
        (1000, False, "so that no point comes through"),
    ],
)
def test_the_hardware_list_tells_screws_by_what_is_behind_them(
    cli: Any, tmp_path: Path, x_mm: int, studs: bool, said: str
) -> None:
    """The holder is 75.9 mm wide with one column of screws in its middle."""
    head = HEAD if studs else HEAD.replace("stud = [{ x = 300 }, { x = 700 }]\n", "")
    folder = write(tmp_path / "shed", head + CAN.replace("PLACE", str(x_mm)))
    ran = cli("make", folder, "--json")
    data = (folder / "out" / "lists" / "hardware.csv").read_text("utf-8-sig")
    (row,) = [one for one in csv.DictReader(io.StringIO(data)) if "screw" in one["item"]]
    assert said in row["for"]
    assert ("at least" in row["for"]) == (said.startswith("at least"))
    assert any("no point comes through" in one for one in ran.json["cautions"]) == (not studs)
    assert not any("rails" in one and "Fix" in one for one in ran.json["cautions"])
