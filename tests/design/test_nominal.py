"""Sets in one line: dimensions from the standard, and what was measured goes before them."""

from pathlib import Path

import pytest

from cleatwright.base.errors import DocumentError, InputError
from cleatwright.design.equipment import all_owned
from cleatwright.pack.reporting import report_of
from cleatwright.project.computing import compute
from cleatwright.workshop.document.store import checked

HEAD = """
schema = 1
name = "Shed"
[wall]
width = 2000
height = 1000
[[wall.stud]]
x = 300
[[wall.stud]]
x = 900
[printer.bench]
bed = [220, 220, 240]
[filament.grey]
material = "PLA"
density = 1240
"""
KEYS = """
[[tool]]
name = "Key"
kind = "hex-key"
nominal_sizes = [3, "4", 5.0, "6 (1983)"]
sizes = [{ label = "5", long_arm = 91, mass = "30 g" }]
"""


def test_dimensions_come_from_the_standard_and_a_measured_one_wins() -> None:
    """ISO 2936:2014, long / short arm: 3 66 / 23, 4 74 / 29, 5 85 / 33; 1983: 6 90 / 32."""
    tools = {one.name: one for one in all_owned(checked(HEAD + KEYS))}
    arms = {
        name: (dict(one.measures)["long_arm"], dict(one.measures)["short_arm"])
        for name, one in tools.items()
    }
    assert arms == {
        "Key 3": (66.0, 23.0),
        "Key 4": (74.0, 29.0),
        "Key 5": (91.0, 33.0),
        "Key 6 (1983)": (90.0, 32.0),
    }
    assert tools["Key 5"].weighed_kg == pytest.approx(0.03)
    assert "ISO 2936" in tools["Key 3"].guessed
    assert "long_arm" in tools["Key 3"].guessed
    assert "long_arm" not in tools["Key 5"].guessed


def test_a_measure_given_for_all_sizes_goes_before_the_table() -> None:
    text = KEYS.replace("nominal_sizes", "measures = { short_arm = 31 }\nnominal_sizes")
    tools = all_owned(checked(HEAD + text))
    assert {dict(one.measures)["short_arm"] for one in tools} == {31.0}


def test_the_report_says_which_measures_nobody_took(tmp_path: Path) -> None:
    (tmp_path / "workshop.toml").write_text(HEAD + KEYS, "utf-8")
    report = report_of(compute(tmp_path), files=())
    told = {seat.tool: seat.guessed for holder in report.holders for seat in holder.seats}
    assert "ISO 2936" in told["Key 4"]


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("[3, ", "[3.3, ", "3.3"),
        ('kind = "hex-key"', 'kind = "hammer"', "hammer"),
        ("[3, ", "[4, ", "named twice"),
        ("sizes = [{", "count = 2\nsizes = [{", "either a count or sizes"),
        ('label = "5"', 'label = "7"', "none of nominal_sizes"),
        ("[3, ", "[true, ", "nominal_sizes"),
    ],
)
def test_a_wrong_set_is_told_with_what_is_allowed(old: str, new: str, words: str) -> None:
    assert old in KEYS
    with pytest.raises((DocumentError, InputError)) as told:
        all_owned(checked(HEAD + KEYS.replace(old, new)))
    assert words in str(told.value)
