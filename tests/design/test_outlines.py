"""A flat tool goes from its drawing to its holder, and is made again without the drawing."""

from __future__ import annotations

from pathlib import Path

import pytest

from cleatwright.base.errors import DocumentError, InputError, MeasureError
from cleatwright.design.equipment import all_owned
from cleatwright.design.planning import plan
from cleatwright.design.recipe import SeatRecipe, outline_rows, recipe_from_json
from cleatwright.shapes.outline import Outline, circle
from cleatwright.tools.registry import tool_body
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.store import checked

HEAD = """\
schema = 1
name = "Shed"
units = "mm"
[wall]
width = 1200
height = 900
[printer.bench]
bed = [220, 220, 200]
[filament.plain]
material = "PETG"
density = 1270
[[tool]]
name = "Gauge"
kind = "{kind}"
measures = {{ {measures} }}
"""
FLAT = HEAD.format(kind="flat-thing", measures="thickness = 14") + 'outline = "shapes/gauge.svg"\n'
DRAWING = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="90mm" viewBox="0 0 60 90">'
    '<path d="M0 0 H60 V20 H20 V90 H0 Z"/></svg>'
)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "shapes").mkdir()
    (tmp_path / "shapes" / "gauge.svg").write_text(DRAWING, "utf-8")
    return tmp_path


def workshop(text: str) -> Workshop:
    return checked(text, file="workshop.toml")


def test_a_drawing_becomes_a_holder_that_needs_it_no_more(folder: Path) -> None:
    """60 by 90 mm drawn, with the short arm up and to the left of the person."""
    (holder,) = plan(workshop(FLAT), folder=folder)
    recipe = recipe_from_json(holder.recipe.to_json(), where="w")
    assert recipe == holder.recipe
    assert recipe.key == holder.recipe.key
    seat = holder.recipe.seats[0]
    shape = seat.shape
    assert shape is not None
    assert shape.area_mm2 == pytest.approx(60 * 20 + 20 * 70)
    again = tool_body(seat.kind, seat.measures, outline=shape)
    assert again == holder.tools[0].body


def test_arcs_of_an_outline_survive_in_a_recipe() -> None:
    rows = outline_rows(circle(30.0))
    seat = SeatRecipe(
        kind="flat-thing", measures={}, mass_kg=None, play_mm=0.4, correction_mm=0.0, outline=rows
    )
    read = SeatRecipe.model_validate_json(seat.to_json()).shape
    assert isinstance(read, Outline)
    assert read == circle(30.0)


def test_a_missing_or_an_unwanted_outline_is_refused(folder: Path) -> None:
    plain = HEAD.format(kind="flat-thing", measures="thickness = 14")
    with pytest.raises(MeasureError, match="needs an outline"):
        all_owned(workshop(plain), folder=folder)
    can = HEAD.format(kind="can", measures="diameter = 60, height = 190")
    with pytest.raises(MeasureError, match="no use for an outline"):
        all_owned(workshop(can + 'outline = "shapes/gauge.svg"\n'), folder=folder)


@pytest.mark.parametrize(
    "path", ["../a.svg", "/a.svg", "a/../b.svg", "C:/a.svg", "a\\b.svg", "a.png", "./a.svg"]
)
def test_only_a_drawing_below_the_folder_may_be_named(path: str) -> None:
    text = HEAD.format(kind="flat-thing", measures="thickness = 14")
    with pytest.raises(DocumentError):
        workshop(text + f"outline = '{path}'\n")


def test_a_drawing_that_is_not_there_is_named(folder: Path) -> None:
    (folder / "shapes" / "gauge.svg").unlink()
    with pytest.raises(InputError, match=r"Gauge.*shapes/gauge\.svg.*cannot be read"):
        plan(workshop(FLAT), folder=folder)
