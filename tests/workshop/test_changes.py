"""Changes of a document and what differs between two, against plain dictionaries.

The oracle is the standard library: ``tomllib`` reads what stands in the text, and the same change
is made in plain dictionaries and lists.
"""

from __future__ import annotations

import copy
import tomllib
from typing import Any, cast

import pytest
import tomlkit
from hypothesis import given
from hypothesis import strategies as st

from cleatwright.base.errors import ChangedMeanwhileError, DocumentError
from cleatwright.workshop.document.changes import DocumentChange, Plain, apply_changes
from cleatwright.workshop.document.differences import differences, summary

TEXT = """# first words
schema = 1
name = "Shed"   # what it is called

# the wall
[wall]
width = 2400
height = 1200 # measured twice

[[wall.stud]]
x = 300 # left

[[wall.stud]]
x = 900

[rail]
thickness = 18

[[rail.stock]]
name = "board"
length = 2400

[printer.bench]
bed = [220, 220, 240] # all three

# ------ tools
[[tool]]
name = "Long nose"
kind = "pliers"
measures = { length = 170, neck = 9.5 } # calliper

[[tool]]
name = "Hammer"
kind = "hammer"
sizes = [
  { label = "300", mass = "420 g" }, # small
  { label = "500", mass = "690 g" },
]

[[tool]]
name = "Awl"
"""
COMMENTS = (
    "# first words",
    "# what it is called",
    "# the wall",
    "# measured twice",
    "# left",
    "# all three",
    "# ------ tools",
    "# calliper",
    "# small",
)


def changed(text: str, *changes: DocumentChange) -> str:
    """Return a text after changes, read by the library that keeps comments."""
    document = tomlkit.parse(text)
    apply_changes(document, changes)
    return tomlkit.dumps(document)


def test_setting_a_key_changes_that_line_alone() -> None:
    after = changed(TEXT, DocumentChange("set", ("wall", "height"), 1300, was=1200))
    assert after == TEXT.replace("1200 #", "1300 #")


def test_a_new_key_stands_in_its_own_table_and_not_above_the_next_heading() -> None:
    document = tomlkit.parse(TEXT)
    places: tuple[tuple[str | int, ...], ...] = (
        ("units",),
        ("wall", "datum"),
        ("wall", "stud", 1, "width"),
        ("tool", 0, "near"),
    )
    apply_changes(document, [DocumentChange("set", path, "new") for path in places])
    lines = document.as_string().splitlines()
    before = [lines[at - 1] for at, line in enumerate(lines) if line.endswith('= "new"')]
    assert before == [
        'name = "Shed"   # what it is called',
        "height = 1200 # measured twice",
        "x = 900",
        "measures = { length = 170, neck = 9.5 } # calliper",
    ]


@pytest.mark.parametrize(
    ("path", "was"),
    [
        (("tool", 0, "measures", "neck"), 9.5),
        (("tool", 1, "sizes", 0, "mass"), "420 g"),
        (("printer", "bench", "bed"), [220, 220, 240]),
        (("rail", "stock", 0, "length"), 2400),
    ],
)
def test_a_key_is_taken_away_and_comes_back(path: tuple[str | int, ...], was: Plain) -> None:
    without = changed(TEXT, DocumentChange("unset", path, was=was))
    assert _at(tomllib.loads(without), path[:-1]).get(path[-1]) is None
    again = changed(without, DocumentChange("set", path, was))
    assert tomllib.loads(again) == tomllib.loads(TEXT)


def test_a_table_that_is_not_there_is_made_for_its_first_key() -> None:
    after = changed(TEXT, DocumentChange("set", ("person", "stature"), 1820))
    assert tomllib.loads(after) == tomllib.loads(TEXT) | {"person": {"stature": 1820}}
    printer = changed(TEXT, DocumentChange("set", ("printer", "attic", "bed"), [100, 100, 100]))
    assert tomllib.loads(printer)["printer"]["attic"] == {"bed": [100, 100, 100]}


def test_taking_away_what_is_not_there_leaves_nothing_behind() -> None:
    after = changed(TEXT, DocumentChange("unset", ("person", "stature")))
    assert after == TEXT


@pytest.mark.parametrize("comment", COMMENTS)
def test_comments_elsewhere_are_kept(comment: str) -> None:
    after = changed(
        TEXT,
        DocumentChange("insert", ("tool",), {"name": "Saw", "kind": "saw"}),
        DocumentChange("set", ("rail", "thickness"), 21, was=18),
        DocumentChange("remove", ("tool", 2), was="Awl"),
    )
    assert comment in after


def test_what_stands_otherwise_is_not_written_over() -> None:
    with pytest.raises(ChangedMeanwhileError, match="1200 stands there now"):
        changed(TEXT, DocumentChange("set", ("wall", "height"), 1300, was=1100))
    with pytest.raises(ChangedMeanwhileError):
        changed(TEXT, DocumentChange("set", ("wall", "depth"), 1300, was=1100))
    with pytest.raises(ChangedMeanwhileError):
        changed(TEXT, DocumentChange("remove", ("tool", 1), was="Long nose"))
    after = changed(TEXT, DocumentChange("set", ("wall", "height"), 1300, was=1100, guarded=False))
    assert tomllib.loads(after)["wall"]["height"] == 1300


def test_a_tool_is_found_by_its_name_when_its_number_changed() -> None:
    change = DocumentChange("set", ("tool", 0, "use"), "daily", name="Hammer")
    assert tomllib.loads(changed(TEXT, change))["tool"][1]["use"] == "daily"
    gone = DocumentChange("remove", ("tool", 0), was="Awl", name="Awl")
    assert [row["name"] for row in tomllib.loads(changed(TEXT, gone))["tool"]] == [
        "Long nose",
        "Hammer",
    ]
    with pytest.raises(ChangedMeanwhileError):
        changed(TEXT, DocumentChange("set", ("tool", 0, "use"), "daily", name="Plane"))


@pytest.mark.parametrize(
    "change",
    [
        DocumentChange("remove", ("tool", 9), was="Awl"),
        DocumentChange("move", ("tool", 0), 7, was="Long nose"),
        DocumentChange("remove", ("wall", "stud"), guarded=False),
        DocumentChange("set", ("wall", 0), 3),
        DocumentChange("set", ("name", "first"), 3),
        DocumentChange("insert", ("name",), {"name": "x"}),
        DocumentChange("insert", ("tool",), 3),
        DocumentChange("insert", (3,), {"name": "x"}),
        DocumentChange("move", ("tool", 0), "up", was="Long nose"),
        DocumentChange("set", ("wall", "note"), None),
        DocumentChange("set", ("wall", "note"), [{"a": None}]),
    ],
)
def test_a_path_that_leads_nowhere_is_refused(change: DocumentChange) -> None:
    with pytest.raises(DocumentError):
        changed(TEXT, change)


def test_a_row_of_tables_is_set_as_a_whole() -> None:
    rows: Plain = [{"x": 100}, {"x": 500, "doubled": True}]
    after = changed(TEXT, DocumentChange("set", ("wall", "stud"), rows, guarded=False))
    wanted = tomllib.loads(TEXT)
    wanted["wall"]["stud"] = rows
    assert tomllib.loads(after) == wanted


NUMBERS = st.integers(-9, 9) | st.floats(-9, 9, allow_nan=False).map(lambda x: round(x, 3))
VALUES = NUMBERS | st.booleans() | st.sampled_from(["8 in", "ü ñ", 'a "b"', "# none"])
KEYS = st.sampled_from(["width", "height", "depth", "note"])
NAMES = ["Long nose", "Hammer", "Awl", "Saw"]


@st.composite
def operations(draw: st.DrawFn) -> list[tuple[Any, ...]]:
    return draw(
        st.lists(
            st.one_of(
                st.tuples(st.just("set"), st.sampled_from(["wall", "rail", "new"]), KEYS, VALUES),
                st.tuples(st.just("unset"), st.sampled_from(["wall", "rail"]), KEYS),
                st.tuples(st.just("insert"), st.integers(0, 5), st.sampled_from(NAMES), VALUES),
                st.tuples(st.just("remove"), st.integers(0, 5)),
                st.tuples(st.just("move"), st.integers(0, 5), st.integers(0, 5)),
                st.tuples(st.just("measure"), st.integers(0, 5), VALUES),
            ),
            min_size=1,
            max_size=8,
        )
    )


def made(model: dict[str, Any], one: tuple[Any, ...]) -> DocumentChange | None:
    """Make an operation in plain tables, and return the change that should do the same."""
    match one:
        case ("set", table, key, value):
            inner = model.setdefault(table, {})
            was, inner[key] = inner.get(key), value
            return DocumentChange("set", (table, key), value, was=was)
        case ("unset", table, key):
            was = model[table].pop(key, None)
            return DocumentChange("unset", (table, key), was=was)
        case _:
            return made_in_row(model, one)


def made_in_row(model: dict[str, Any], one: tuple[Any, ...]) -> DocumentChange | None:
    rows: list[Any] = model.get("tool", [])
    match one:
        case ("insert", number, name, value):
            at, entry = min(number, len(rows)), {"name": name, "note": value}
            model["tool"] = [*rows[:at], entry, *rows[at:]]
            return DocumentChange("insert", ("tool", at), cast("Plain", entry))
        case ("remove", number) if number < len(rows):
            name = rows.pop(number)["name"]
            if not rows:
                del model["tool"]
            return DocumentChange("remove", ("tool", number), was=name)
        case ("move", number, to) if max(number, to) < len(rows):
            rows.insert(to, rows.pop(number))
            return DocumentChange("move", ("tool", number), to, was=rows[to]["name"])
        case ("measure", number, value) if number < len(rows):
            table = rows[number].setdefault("measures", {})
            was, table["neck"] = table.get("neck"), value
            return DocumentChange("set", ("tool", number, "measures", "neck"), value, was=was)
        case _:
            return None


@given(operations())
def test_any_changes_do_what_the_same_do_to_plain_tables(given_: list[tuple[Any, ...]]) -> None:
    text, model = TEXT, tomllib.loads(TEXT)
    for one in given_:
        change = made(model, one)
        if change is not None:
            text = changed(text, change)
            assert tomllib.loads(text) == model
    # the head of the file is touched by none of them
    assert text.startswith("# first words\nschema = 1\n")


@given(operations())
def test_what_differs_can_be_taken_back_from_the_last_to_the_first(
    given_: list[tuple[Any, ...]],
) -> None:
    before, text = tomllib.loads(TEXT), TEXT
    model = copy.deepcopy(before)
    for one in given_:
        change = made(model, one)
        if change is not None:
            text = changed(text, change)
    found = differences(before, tomllib.loads(text))
    assert bool(found) == (repr(before) != repr(tomllib.loads(text)))
    back = changed(text, *(one.back for one in reversed(found)))
    again = tomllib.loads(back)
    again = {key: one for key, one in again.items() if one != {} or key in before}
    assert again == before


def test_a_summary_counts_rows_and_names_tables() -> None:
    after = changed(
        TEXT,
        DocumentChange("set", ("tool", 0, "use"), "daily"),
        DocumentChange("set", ("tool", 0, "fit"), "snug"),
        DocumentChange("remove", ("tool", 2), was="Awl"),
        DocumentChange("set", ("wall", "height"), 1300, was=1200),
    )
    found = differences(tomllib.loads(TEXT), tomllib.loads(after))
    assert summary(found) == "2 tools and the wall"


def test_a_size_and_a_stud_are_told_by_their_numbers() -> None:
    after = changed(
        TEXT,
        DocumentChange("set", ("wall", "stud", 1, "x"), 950, was=900),
        DocumentChange("set", ("tool", 1, "sizes", 1, "mass"), "700 g", was="690 g"),
    )
    found = differences(tomllib.loads(TEXT), tomllib.loads(after))
    assert [(one.path, one.before, one.after) for one in found] == [
        (("wall", "stud", 1, "x"), 900, 950),
        (("tool", 1, "sizes", 1, "mass"), "690 g", "700 g"),
    ]
    assert changed(after, *(one.back for one in found)) == TEXT


def _at(table: Any, path: tuple[str | int, ...]) -> Any:
    for step in path:
        table = table[step]
    return table
