"""Names that look alike, and so many tools that planning would never end."""

import time
from pathlib import Path

import pytest

from cleatwright.base.errors import DocumentError, ImportTableError
from cleatwright.workshop.document.entries import MOST_SINGLE_TOOLS
from cleatwright.workshop.document.store import checked
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
