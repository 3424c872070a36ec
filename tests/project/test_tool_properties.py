"""Cautions follow what of a tool can hurt: its kind says so, its mass, or its owner."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from cleatwright.base.errors import CleatwrightError
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.jobs.making import all_files_of
from cleatwright.project.computing import compute
from cleatwright.standards.tool_properties import CAUTIONS, HEAVY_KG, PROPERTIES
from cleatwright.tools.registry import KINDS
from cleatwright.workshop.document.store import checked

DOCUMENT = """schema = 1
name = "Shed"
units = "mm"

[wall]
width = 1600
height = 1000
floor_gap = 800

[[wall.stud]]
x = 100

[[wall.stud]]
x = 700

[[wall.stud]]
x = 1300

[rail]
thickness = 18
height = 70

[[rail.stock]]
name = "board"
length = 2400

[printer.bench]
bed = [220, 220, 200]

[filament.plain]
material = "PETG"
density = 1270
"""
CHISEL = """
[[tool]]
name = "Chisel"
kind = "screwdriver"
measures = { shank = 12, shank_length = 130, handle = 30, handle_length = 110 }
"""
BOX = """
[[tool]]
name = "Box"
kind = "box"
measures = { width = 110, depth = 75, height = 60 }
"""


def told(text: str, folder: Path, known: Store) -> tuple[dict[str, list[str]], list[str]]:
    """Return the properties by tool, and the cautions of the report."""
    folder.joinpath("workshop.toml").write_text(text, "utf-8")
    files = all_files_of(compute(folder, run=Run(known)))
    report = json.loads(files["report.json"])
    seats = [seat for holder in report["holders"] for seat in holder["seats"]]
    return {seat["tool"]: seat["properties"] for seat in seats}, report["cautions"]


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("", []),
        ("properties = []\n", []),
        ('properties = ["sharp"]\n', ["sharp"]),
        ('properties = ["glass", "hot", "hot"]\n', ["hot", "glass"]),
        ('mass = "2.9 kg"\n', []),
        ('mass = "3.0 kg"\n', ["heavy"]),
        ('mass = "3.0 kg"\nproperties = []\n', []),
    ],
)
def test_what_an_owner_says_of_a_tool_decides_on_its_cautions(
    tmp_path: Path, known: Store, line: str, expected: list[str]
) -> None:
    """HSE INDG143 (from memory): the least figure of its lifting filter is 3 kg."""
    properties, cautions = told(DOCUMENT + CHISEL + line, tmp_path, known)
    assert properties == {"Chisel": expected}
    for one in PROPERTIES:
        assert (CAUTIONS[one] in cautions) == (one in expected)


def test_a_kind_decides_where_the_owner_says_nothing(tmp_path: Path, known: Store) -> None:
    can = '\n[[tool]]\nname = "Can"\nkind = "can"\nmeasures = { diameter = 65, height = 190 }\n'
    properties, cautions = told(DOCUMENT + BOX + can, tmp_path, known)
    assert properties == {"Box": [], "Can": ["liquid", "flammable"]}
    assert CAUTIONS["flammable"] in cautions
    _, cautions = told(DOCUMENT + BOX + can + 'properties = ["glass"]\n', tmp_path, known)
    assert CAUTIONS["flammable"] not in cautions
    assert CAUTIONS["glass"] in cautions


@pytest.mark.parametrize("name", ["Sharp knife", "Hot gun", "Glass bottle"])
def test_a_name_decides_on_nothing(tmp_path: Path, known: Store, name: str) -> None:
    text = DOCUMENT + CHISEL.replace('"Chisel"', f'"{name}"')
    properties, _ = told(text, tmp_path, known)
    assert properties == {name: []}


def test_a_word_that_is_no_property_is_refused_with_those_that_are(tmp_path: Path) -> None:
    file = tmp_path / "workshop.toml"
    with pytest.raises(CleatwrightError, match=r"'sharp', 'hot', 'heavy'.* or 'glass'"):
        checked(DOCUMENT + CHISEL + 'properties = ["sharpe"]\n', file=str(file))


def test_every_property_has_its_caution_and_some_kind() -> None:
    assert set(CAUTIONS) == set(PROPERTIES)
    set_by_kinds = {one for kind in KINDS.values() for one in kind.properties}
    # glass depends on what a thing is made of, which no shape tells
    assert set_by_kinds == set(PROPERTIES) - {"glass"}
    assert HEAVY_KG == 3.0
