"""Nozzle, line and layer of a printer are held against each other."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import DocumentError
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.store import checked

TEXT = """schema = 1
name = "Shed"
[wall]
width = 2400
height = 1200
[printer.desk]
bed = [200, 200, 200]
"""


def with_settings(nozzle: float, line: float, layer: float) -> Workshop:
    return checked(TEXT + f"nozzle = {nozzle}\nline = {line}\nlayer = {layer}\n")


@pytest.mark.parametrize(
    ("nozzle", "line", "layer"),
    [(0.4, 0.45, 0.2), (0.4, 0.4, 0.3), (0.6, 0.65, 0.3), (0.25, 0.3, 0.1), (0.8, 0.9, 0.4)],
)
def test_common_settings_are_taken(nozzle: float, line: float, layer: float) -> None:
    """Common practice, no source: a line a little wider than the nozzle, a layer of half of it."""
    printer = with_settings(nozzle, line, layer).printer()
    assert (printer.nozzle_mm, printer.line_mm, printer.layer_mm) == (nozzle, line, layer)


@pytest.mark.parametrize(
    ("nozzle", "line", "layer", "said"),
    [
        (0.8, 0.45, 0.2, "from 0.6 mm to 1.6 mm"),
        (0.2, 0.45, 0.1, "from 0.15 mm to 0.4 mm"),
        (0.4, 3.0, 0.2, "from 0.3 mm to 0.8 mm"),
        (0.4, 0.1, 0.1, "from 0.3 mm to 0.8 mm"),
        (0.4, 0.32, 0.36, "layer of 0.36 mm is higher than its line of 0.32 mm"),
        (0.4, 0.45, 0.42, "0.4 mm nozzle"),
    ],
)
def test_settings_that_contradict_each_other_are_refused(
    nozzle: float, line: float, layer: float, said: str
) -> None:
    with pytest.raises(DocumentError, match=r'printer "desk"') as caught:
        with_settings(nozzle, line, layer)
    assert said in caught.value.sentence


def test_a_nozzle_alone_is_held_against_the_line_that_counts_without_being_written() -> None:
    with pytest.raises(DocumentError, match=r"line of 0\.45 mm"):
        checked(TEXT + "nozzle = 1.0\n")


@given(st.floats(0.1, 2.0), st.floats(0.1, 3.0), st.floats(0.04, 1.5))
@settings(deadline=None, max_examples=100)
def test_what_is_taken_is_a_bead_that_can_be(nozzle: float, line: float, layer: float) -> None:
    """A bead with half-round edges, w wide and h high, has the area (w - h) h + pi h^2 / 4.

    Its flat middle, w - h, is never negative: closed form of the stadium.
    """
    try:
        printer = with_settings(round(nozzle, 3), round(line, 3), round(layer, 3)).printer()
    except DocumentError:
        return
    width, height = printer.line_mm, printer.layer_mm
    area = (width - height) * height + math.pi * height**2 / 4
    assert area >= math.pi * height**2 / 4 - 1e-9
    assert height <= printer.nozzle_mm
