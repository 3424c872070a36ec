"""The checked document."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from pydantic import ValidationError

from cleatwright.base.errors import DocumentError, UnknownNameError
from cleatwright.base.lengths import Wording
from cleatwright.workshop.document.entries import Holder, Tool
from cleatwright.workshop.document.fields import Within
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.sections import FitRules
from cleatwright.workshop.document.store import checked, load
from cleatwright.workshop.document.surfaces import Wall

HEAD = 'schema = 1\nname = "Shed"\n'
WALL = "[wall]\nwidth = 2400\nheight = 1200\n"
TOOL = WALL + "[[tool]]\nname = 'A'\nkind = 'x'\n"


def wrong(text: str) -> DocumentError:
    with pytest.raises(DocumentError) as caught:
        checked(text)
    return caught.value


def test_measures_are_read_in_their_own_units(folder: Path) -> None:
    shed = load(folder)
    assert shed.wall.width_mm == 2400.0
    assert shed.wall.obstacles[0].height_mm == 76.2
    assert shed.printer("big").bed_mm == (304.8, 300.0, 300.0)
    assert shed.rail.bevel_deg == 45.0
    assert shed.tools[0].mass_kg == 0.18
    assert shed.tools[0].measures.as_dict() == {"neck": 19.05, "taper_deg": 5, "jaw_count": 2}
    assert dict(shed.tools[0].measures.given)["neck"] == "3/4 in"
    assert shed.holders[0].params.as_dict() == {"web": 4, "rows_count": 2, "tilt_deg": 10}


def test_what_is_not_written_has_its_default(folder: Path) -> None:
    shed = load(folder)
    assert (shed.rail.thickness_mm, shed.rail.height_mm, shed.rail.kerf_mm) == (18, 70, 3)
    assert (shed.defaults.plate_mm, shed.defaults.hand_room_mm) == (5, 12)
    assert (shed.defaults.stability_margin, shed.defaults.drag) == (1.5, 0.1)
    assert (shed.fit.play_mm("snug"), shed.fit.play_mm(), shed.fit.play_mm("loose")) == (
        0.2,
        0.45,
        0.7,
    )
    assert shed.wall.studs[0].width_mm == 38
    assert (shed.printer().name, shed.filament().name) == ("desk", "black")
    assert shed.tools[1].mass_kg is None


def test_bare_lengths_count_in_the_units_of_the_document() -> None:
    shed = checked(
        f'{HEAD}units = "in"\n[wall]\nwidth = 96\nheight = "1200 mm"\n[fit]\nsnug = 0.01'
    )
    assert shed.wall.width_mm == pytest.approx(2438.4)
    assert shed.wall.height_mm == 1200
    assert shed.fit.snug_mm == pytest.approx(0.254)


def test_the_last_word_of_a_name_tells_what_is_not_a_length() -> None:
    measures = "measures = { d = 1, share = 0.4, tilt_deg = 5, count = 2 }"
    tool = f'[[tool]]\nname = "A"\nkind = "x"\n{measures}'
    (only,) = checked(f'{HEAD}units = "in"\n[wall]\nwidth = 96\nheight = 48\n{tool}').tools
    assert only.measures.as_dict() == {"d": 25.4, "share": 0.4, "tilt_deg": 5, "count": 2}


def test_a_bare_mass_in_a_document_of_inches_is_not_guessed() -> None:
    tool = '[[tool]]\nname = "A"\nkind = "hammer"\nmass = 2\n'
    assert (
        "does not say in which unit"
        in wrong(
            f'{HEAD}units = "in"\n{WALL}{tool}'.replace("2400", "96").replace("1200", "48")
        ).given
    )
    assert checked(HEAD + WALL + tool).tools[0].mass_kg == 2


def test_count_and_sizes_become_single_tools(folder: Path) -> None:
    items = load(folder).items()
    assert [item.name for item in items] == [
        "Long nose",
        "Combination wrench 8 #1",
        "Combination wrench 8 #2",
        "Combination wrench 8 #3",
        "Hex keys 4",
        "Hex keys 5",
    ]
    assert items[4].measures.as_dict() == {"length": 90, "flats": 4}
    assert items[5].measures.as_dict() == {"length": 100, "flats": 5}
    assert (items[4].mass_kg, items[5].mass_kg) == (None, 0.03)


def test_a_holder_takes_a_group_an_entry_or_one_single_tool(folder: Path) -> None:
    shed = load(folder)
    assert [item.name for item in shed.items_of(shed.holders[0])] == ["Long nose"]
    assert [item.name for item in shed.items_of(shed.holders[1])] == [
        "Combination wrench 8 #2",
        "Hex keys 4",
        "Hex keys 5",
    ]
    assert [item.name for item in shed.free_items()] == [
        "Combination wrench 8 #1",
        "Combination wrench 8 #3",
    ]


def test_a_workshop_is_frozen_and_hashable(folder: Path) -> None:
    shed = load(folder)
    assert hash(shed) == hash(load(folder))
    with pytest.raises(ValidationError):
        shed.name = "Other"  # pyright: ignore[reportAttributeAccessIssue] - frozen on purpose


def test_built_from_python_numbers_are_inner_units() -> None:
    shed = Workshop(name="Shed", units="in", wall=Wall(width_mm=2400, height_mm=1200))
    assert shed.wall.width_mm == 2400


def test_a_missing_printer_or_filament_is_named(folder: Path) -> None:
    with pytest.raises(UnknownNameError, match="desk"):
        load(folder).printer("dask")
    with pytest.raises(UnknownNameError, match="black"):
        load(folder).filament("blakc")
    bare = checked(HEAD + WALL)
    with pytest.raises(DocumentError, match=r"\[printer\.NAME\]"):
        bare.printer()
    with pytest.raises(DocumentError, match=r"\[filament\.NAME\]"):
        bare.filament()


@pytest.mark.parametrize(
    ("text", "where", "said"),
    [
        ("[wall]\nwidht = 3\nwidth = 2400\nheight = 1200", 'wall, key "widht"', '"width"'),
        ("[wall]\nwidth = 2400", "wall", '"height" is missing'),
        ("[wall]\nwidth = 2400\nheight = 9000", 'wall, key "height"', "out of reach"),
        ("[wall]\nwidth = 2400\nheight = true", 'wall, key "height"', "true is not a length"),
        ("[wall]\nwidth = 2400\nheight = inf", 'wall, key "height"', "finite"),
        ("[wall]\nwidth = 2400\nheight = '5 kg'", 'wall, key "height"', "not a unit of length"),
        (WALL + "[rail]\nbevel = 20", 'rail, key "bevel"', "from 30 deg to 60 deg"),
        (WALL + "[rail]\nheight = 30\nbevel = 60", "rail", "used up by its bevel"),
        (WALL + "[printer.a]\nbed = [200, 200]", 'printer "a", key "bed"', "number 3 is missing"),
        (WALL + "[printer.a]\nbed = [200, 200, 200]\nlayer = 0.6", 'printer "a"', "0.4 mm nozzle"),
        (WALL + "[filament.a]\nmaterial = 'PLA'", 'filament "a"', '"density" is missing'),
        (
            WALL + "[filament.a]\nmaterial = 'PLA'\ndensity = '1.2 kg'",
            'filament "a", key "density"',
            "without quotation marks",
        ),
        (
            WALL + "[filament.a]\nmaterial = 'PLA'\ndensity = 1240\ncolour = 'red'",
            'filament "a", key "colour"',
            "#3060c0",
        ),
        (WALL + "[fit]\nsnug = 1", "fit", "out of order"),
        (WALL + "[defaults]\nprinter = 'desk'", 'defaults, key "printer"', 'no printer "desk"'),
        (WALL + "[[wall.stud]]\nx = 2500", "wall, stud number 1", "outside the wall"),
        (WALL + "[[tool]]\nname = 'A'", 'tool "A" (number 1)', '"kind" is missing'),
        (TOOL + "neck = 3", 'tool "A" (number 1), key "neck"', 'in its table "measures"'),
        (
            TOOL + "measures = { neck = 'wide' }",
            'tool "A" (number 1), measures, key "neck"',
            '"wide" cannot be read',
        ),
        (TOOL + "measures = { neck_mm = 3 }", 'measures, key "neck_mm"', "without a unit"),
        (TOOL + "measures = { jaw_count = 1.5 }", 'measures, key "jaw_count"', "a whole number"),
        (TOOL + "count = 201", 'key "count"', "from 1 to 200"),
        (TOOL + "count = '2'", 'key "count"', "whole number"),
        (TOOL + "use = 'often'", 'key "use"', "'daily'"),
        (TOOL + "mass = '500 kg'", 'key "mass"', "at most 100 kg"),
        (TOOL + "count = 2\nsizes = [{ d = 3 }]", 'tool "A" (number 1)', "either a count or sizes"),
        (
            TOOL + "sizes = [{ d = 3 }, { d = 'wide' }]",
            'tool "A" (number 1), sizes number 2, key "d"',
            '"wide" cannot be read',
        ),
        (
            TOOL + "[[tool]]\nname = 'A'\nkind = 'x'",
            'tool "A" (number 2), key "name"',
            "used twice",
        ),
        (
            TOOL + "count = 2\n[[tool]]\nname = 'A #2'\nkind = 'x'",
            'tool "A #2" (number 2), key "name"',
            "used twice",
        ),
        (WALL + "[[holder]]\nfamily = 'rack'", "holder number 1", "which tools it takes"),
        (WALL + "[[holder]]\ntools = ['B']", "holder number 1, tools", 'no tool "B"'),
        (WALL + "[[holder]]\ngroup = 'B'", "holder number 1", 'no group "B"'),
        (WALL + "[[holder]]\ntools = ['A']\nplace = { x = 3 }", "place", '"z" is missing'),
        (
            WALL + "[[holder]]\ntools = ['A']\ncarrier = 'Strip'\njoint = 'bolted'",
            "holder number 1",
            "A holder on a carrier must not have its own joint",
        ),
        (TOOL + "[[holder]]\ntools = ['A']\ncarrier = 'B'", "holder number 1", 'no carrier "B"'),
        (WALL + "[[carrier]]\nname = 'Strip'", "carrier", 'No holder hangs on the carrier "Strip"'),
        (TOOL + "[[holder]]\ntools = ['A', 'A']", "holder number 1", "already in holder number 1"),
        ("tool = 3\n" + WALL, 'key "tool"', "tables, each under [[tool]]"),
        ("printer = 3\n" + WALL, 'key "printer"', "tables such as [printer.name]"),
    ],
)
def test_each_wrong_entry_is_named_with_what_is_allowed(text: str, where: str, said: str) -> None:
    error = wrong(HEAD + text)
    assert where in error.where
    assert said in error.sentence


def test_the_bounds_of_a_mass_are_in_pounds_beside_inches() -> None:
    """100 kg / 0.45359237 kg to the international pound = 220.462 lb."""
    words = Within("kg", 0, 100, above=True).allowed
    assert Wording("in")(words) == "more than 0 oz and at most 220.46 lb"


def test_several_wrong_entries_are_told_at_once_in_the_order_of_the_document() -> None:
    error = wrong(HEAD + "[wall]\nheight = 'tall'\nwidht = 5\n[rail]\nkerf = -1\n")
    lines = error.sentence.splitlines()
    assert "3 entries cannot be used" in lines[0]
    # the width is there, misspelt, and is not told as missing, too
    assert ['"tall"' in lines[1], '"width"?' in lines[2], "kerf" in lines[3]] == [True] * 3


def test_a_later_schema_is_refused() -> None:
    assert "schema = 2 is not known" in wrong(HEAD.replace("1", "2") + WALL).sentence
    assert '"schema" is missing' in wrong(WALL).sentence


def test_names_lose_stray_spaces_and_refuse_control_characters() -> None:
    assert Tool(name="  Long \u00a0 nose ", kind="pliers").name == "Long nose"
    with pytest.raises(ValidationError):
        Tool(name="Long\x00nose", kind="pliers")
    with pytest.raises(ValidationError):
        Tool(name="   ", kind="pliers")
    with pytest.raises(ValidationError):
        Holder(tools=("A",), group="b")


def test_plays_of_equal_size_are_in_order() -> None:
    assert FitRules(snug_mm=0.3, easy_mm=0.3, loose_mm=0.3).play_mm("easy") == 0.3


def test_reading_a_document_in_mm_loads_no_units_library() -> None:
    program = (
        "import sys, cleatwright.workshop.document.store as s;"
        "import cleatwright.workshop.tables.importing;"
        f"s.checked({HEAD + WALL!r}); assert 'pint' not in sys.modules;"
        "assert 'openpyxl' not in sys.modules"
    )
    subprocess.run([sys.executable, "-c", program], check=True)  # noqa: S603 - our own text
