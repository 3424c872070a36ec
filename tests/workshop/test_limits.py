"""Names that look alike, and so many tools that planning would never end."""

import time
from pathlib import Path
from typing import Any

import pytest

from cleatwright.base.errors import DocumentError, ImportTableError
from cleatwright.workshop.document.entries import MOST_SINGLE_TOOLS
from cleatwright.workshop.document.store import checked, load, parse
from cleatwright.workshop.document.toml_text import MOST_ROWS, toml_tables
from cleatwright.workshop.tables.importing import import_tools

HEAD = "schema = 1\nname = 'Shed'\n[wall]\nwidth = 1200\nheight = 900\n"
MOST_S = 20.0


def tools(rows: int, count: int, *, more: str = "") -> str:
    return HEAD + "".join(
        f"[[tool]]\nname = 'T{i}'\nkind = 'can'\ncount = {count}\n{more}" for i in range(rows)
    )


def test_so_many_single_tools_are_taken_and_no_more() -> None:
    assert len(checked(tools(MOST_SINGLE_TOOLS // 200, 200)).items()) == MOST_SINGLE_TOOLS
    with pytest.raises(DocumentError, match=r"180200 in all\. Allowed: up to 2000 single tools"):
        checked(tools(901, 200))


def test_sizes_count_as_often_as_there_are_sizes() -> None:
    sizes = (
        "[[tool.sizes]]\nlabel = '1'\ndiameter = 60\n[[tool.sizes]]\nlabel = '2'\ndiameter = 70\n"
    )
    with pytest.raises(DocumentError, match="2002 in all"):
        checked(tools(1001, 1, more=sizes))
    named = "nominal_sizes = ['1', '2', '3']\n"
    with pytest.raises(DocumentError, match="2001 in all"):
        checked(tools(667, 1, more=named))


@pytest.mark.parametrize(("rows", "count", "there"), [(901, 200, 0), (3, 1, 1998), (2001, 1, 0)])
def test_a_table_that_brings_too_many_is_refused_with_the_row_and_the_limit(
    tmp_path: Path, rows: int, count: int, there: int
) -> None:
    path = tmp_path / "many.csv"
    lines = "".join(f"T{i},can,{count},60,120\n" for i in range(rows))
    path.write_text(f"name,kind,count,diameter,height\n{lines}", "utf-8")
    with pytest.raises(ImportTableError, match="up to 2000 in a workshop") as told:
        import_tools(path, check=lambda *_: None, there=there)
    # the first row that goes beyond, behind the row of headings
    last = -(-(MOST_SINGLE_TOOLS + 1 - there) // count) + 1
    assert f"With row {last} " in str(told.value)


def test_a_document_with_everything_wrong_is_told_in_short_and_soon() -> None:
    wrong = "".join(f"[[holder]]\ntools = ['X{i} a', 'X{i} b']\n" for i in range(900))
    start = time.monotonic()
    with pytest.raises(DocumentError) as told:
        checked(tools(900, 1) + wrong)
    assert time.monotonic() - start < MOST_S
    assert "1800 entries cannot be used" in str(told.value)
    assert "and 1750 more" in str(told.value)
    assert len(str(told.value)) < 20_000


@pytest.mark.parametrize("space", ["\u00a0", "\u202f", "\u2007", "\u3000", "\t"])
def test_a_no_break_space_in_a_name_counts_as_a_space(space: str) -> None:
    """Unicode Standard, table 6-2: U+00A0, U+2007 and U+202F are spaces (from memory)."""
    shed = checked(HEAD.replace("Shed", f"Our{space}shed"))
    assert shed.name == "Our shed"
    notes = f"[[tool]]\nname = 'A'\nkind = 'can'\nnotes = 'a{space}b'\n"
    assert checked(HEAD + notes).tools[0].notes == f"a{space}b"


@pytest.mark.parametrize(
    ("sign", "words"),
    [
        ("\u200d", "U+200D (zero width joiner)"),
        ("\u200c", "U+200C (zero width non-joiner)"),
        ("\u2060", "U+2060 (word joiner)"),
        ("\u00ad", "U+00AD (soft hyphen)"),
        ("\ufeff", "U+FEFF (zero width no-break space)"),
        ("\u202e", "U+202E (right-to-left override)"),
    ],
)
def test_a_sign_that_cannot_be_seen_is_named_by_its_code_point(sign: str, words: str) -> None:
    with pytest.raises(DocumentError) as told:
        checked(HEAD.replace("Shed", f"Sh{sign}ed"))
    assert words in str(told.value)
    assert sign not in str(told.value)
    outline = f"[[tool]]\nname = 'A'\nkind = 'flat-thing'\noutline = 'a{sign}.svg'\n"
    with pytest.raises(DocumentError) as told:
        checked(HEAD + outline)
    assert words in str(told.value)


def test_joiners_are_taken_in_notes_where_some_scripts_need_them() -> None:
    notes = "[[tool]]\nname = 'A'\nkind = 'can'\nnotes = 'می\u200cخواهم'\n"
    assert checked(HEAD + notes).tools[0].notes == "می\u200cخواهم"
    with pytest.raises(DocumentError, match=r"U\+001B \(a control character\)"):
        checked(HEAD + notes.replace("'می\u200cخواهم'", '"a\\u001bb"'))


SOON_S = 5.0
TOO_MUCH = {
    "heads": "".join(f"[{'.'.join(f'a{j}' for j in range(60))}.x{i}]\n" for i in range(3000)),
    "one head": f"[{'a.' * 100_000}a]\n",
    "quoted parts": "[" + "\"a\" . 'b' ." * 60_000 + "a]\n",
    "an inline key": "x = { y = 1, " + "a ." * 9000 + "b = 1 }",
    "a dotted key": "a." * 3000 + "b = 1\n",
    "a list": f"x = [{'1,' * 440_000}]\n",
    "lists in a list": f"x = [{('[' + '1,' * 400 + '],') * 1000}]\n",
    "entries": "".join(f"k{i} = 1\n" for i in range(90_000)),
    "lists in lists": "a = " + "[" * 100_000 + "]" * 100_000,
    "tables in tables": "a = " + "{a = " * 900 + "1" + "}" * 900,
    "tools": "".join(f"[[tool]]\nname = 'c{i}'\nzz = 1\n" for i in range(20_000)),
    "a word": "a" * 900_000,
    "quotes": '"' * 900_001,
    "dots": "a . " * 39 + "b = " + "'a.b' " * 100_000,
}


@pytest.mark.parametrize("name", sorted(TOO_MUCH))
@pytest.mark.parametrize("units", ["mm", "in"])
def test_a_document_that_is_far_too_much_is_refused_soon(name: str, units: str) -> None:
    text = f"schema = 1\nname = 'Shed'\nunits = '{units}'\n{TOO_MUCH[name]}"
    start = time.process_time()
    for read in (checked, parse):
        with pytest.raises(DocumentError) as told:
            read(text)
    assert time.process_time() - start < SOON_S
    assert len(str(told.value)) < 1_000


def test_many_faulty_tools_are_told_soon() -> None:
    wrong = "".join(f"[[tool]]\nname = 'c{i}'\nzz = 1\n" for i in range(MOST_ROWS - 1))
    start = time.process_time()
    with pytest.raises(DocumentError) as told:
        checked(HEAD + wrong)
    assert time.process_time() - start < SOON_S
    assert "and " in str(told.value)


def test_a_document_at_the_bounds_is_read() -> None:
    notes = "'''" + "One. Two. Three. " * 30 + "'''"
    assert checked(HEAD + f"[[tool]]\nname = 'A'\nkind = 'can'\nnotes = {notes}\n").tools
    raw = toml_tables(f"x = [{'1,' * MOST_ROWS}]\n{'a.' * 38}b = 1\n", file="here")
    assert len(raw["x"]) == MOST_ROWS


def test_several_faults_are_told_one_by_one_for_programs() -> None:
    with pytest.raises(DocumentError) as told:
        checked(HEAD.replace("1200", "'x'").replace("900", "'2 kg'"))
    answer: Any = told.value.as_dict()
    assert [one["path"] for one in answer["faults"]] == [["wall", "width"], ["wall", "height"]]
    assert all(str(one["given"]) in answer["given"] for one in answer["faults"])
    assert {one["exit_code"] for one in answer["faults"]} == {2}
    with pytest.raises(DocumentError) as told:
        checked(HEAD.replace("1200", "'x'"))
    assert "faults" not in told.value.as_dict()


def test_what_is_allowed_is_of_the_kind_that_is_wanted() -> None:
    mass = f"{HEAD}[[tool]]\nname = 'A'\nkind = 'can'\nmass = 'heavy'\n"
    with pytest.raises(DocumentError, match=r"such as 0\.35, 350 g, 12 oz") as told:
        checked(mass)
    assert "in, ft" not in str(told.value)
    for key, allowed in (("printer", "[printer.name]"), ("tool", "each under [[tool]]")):
        with pytest.raises(DocumentError) as told:
            checked(HEAD.replace("[wall]", f"{key} = 07:32:00\n[wall]"))
        assert allowed in str(told.value)
        assert "square brackets" not in str(told.value)


def test_a_folder_in_the_place_of_the_document_is_told(tmp_path: Path) -> None:
    (tmp_path / "workshop.toml").mkdir()
    with pytest.raises(DocumentError, match=r"This is a folder, and no file\. Rename it"):
        load(tmp_path)


def test_a_text_that_was_cut_off_is_told_with_its_last_line() -> None:
    with pytest.raises(DocumentError) as found:
        toml_tables('schema = 1\nname = "Shed"\n[wall]\nwidth =', file="workshop.toml")
    assert "The file ends in the middle of an entry (Invalid value)" in found.value.sentence
    assert "line 4" in found.value.where
    assert "cut off" in found.value.todo
