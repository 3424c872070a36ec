"""The command that makes measuring cards."""

import re
from pathlib import Path
from typing import Any

import pypdf
import pytest

from cleatwright.tools.registry import KINDS
from cleatwright.workshop.document.store import load


def words_of(pdf: Path) -> str:
    return " ".join(page.extract_text() for page in pypdf.PdfReader(pdf).pages)


def test_cards_of_named_kinds_and_of_all(cli: Any, tmp_path: Path) -> None:
    told = cli("cards", "--kinds", "pliers, screwdriver", "--out", tmp_path / "some", "--json").json
    assert told["kinds"] == ["pliers", "screwdriver"]
    assert told["tools"] == 0
    paths = {one["path"] for one in told["files"]}
    assert {"cards.pdf", "cards/pliers.svg", "pages/page-001.svg"} <= paths
    assert all((tmp_path / "some" / path).is_file() for path in paths)
    assert len(pypdf.PdfReader(tmp_path / "some" / "cards.pdf").pages) == told["pages"]
    assert cli("cards", "--out", tmp_path / "all", "--json").json["kinds"] == list(KINDS)


def test_the_tools_of_a_workshop_have_their_measures_printed(
    cli: Any, shed: Path, tmp_path: Path
) -> None:
    ran = cli("cards", "--workshop", shed, "--out", tmp_path / "out", "--paper", "letter")
    assert ran.code == 0
    assert str(tmp_path / "out" / "cards.pdf") in ran.out.replace("\n", "")
    words = words_of(tmp_path / "out" / "cards.pdf")
    assert "what to measure" in words
    for tool in load(shed).tools:
        assert tool.name in words
        for value in tool.measures.as_dict().values():
            assert f"{value:g}" in words


def test_cards_of_a_workshop_in_inches_speak_inches(
    cli: Any, examples: Path, tmp_path: Path
) -> None:
    """Its measures as it wrote them, and bounds that no reading in inches oversteps."""
    bench = examples / "joiners-bench"
    assert cli("cards", "--workshop", bench, "--out", tmp_path / "out").code == 0
    words = words_of(tmp_path / "out" / "cards.pdf")
    assert re.search(r"\bmm\b", words) is None
    assert "Measure in inches" in words
    wrote = {
        str(value)
        for tool in load(bench).tools
        for _, value in tool.measures.given
        if re.fullmatch(r"(\d+-)?\d+/(2|4|8|16|32)", str(value))
    }
    assert len(wrote) > 10
    assert all(value in words for value in wrote)


def test_a_workshop_may_lack_measures(cli: Any, shed: Path, tmp_path: Path) -> None:
    document = shed / "workshop.toml"
    more = '\n[[tool]]\nname = "Not yet measured"\nkind = "pliers"\nmeasures = { length = 187 }\n'
    document.write_text(document.read_text("utf-8") + more, "utf-8")
    assert cli("cards", "--workshop", shed, "--out", tmp_path / "out").code == 0
    words = words_of(tmp_path / "out" / "cards.pdf")
    assert "Not yet measured" in words
    assert "187" in words


def test_a_list_of_names_and_kinds_gives_blank_fields(cli: Any, tmp_path: Path) -> None:
    table = tmp_path / "list.csv"
    table.write_text("name,kind,count\nLong one,hammer,2\nShort one,pliers,\n", "utf-8")
    told = cli("cards", "--tools", table, "--out", tmp_path / "out", "--json").json
    assert (told["kinds"], told["tools"]) == (["hammer", "pliers"], 2)
    words = words_of(tmp_path / "out" / "cards.pdf")
    assert "Long one (2 equal ones)" in words
    assert "Short one" in words


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--kinds", "plyers"), 'Did you mean "pliers"'),
        (("--kinds", "pliers", "--tools", "a.csv"), "one of --kinds and --tools"),
        (("--kinds", "pliers", "--paper", "a5"), "letter"),
        (("--workshop", "missing"), "There is no such file"),
        (("--tools", "missing.csv"), "cannot be read"),
    ],
)
def test_wrong_wishes_are_told_and_nothing_is_written(
    cli: Any, tmp_path: Path, arguments: tuple[str, ...], said: str
) -> None:
    ran = cli("cards", *arguments, "--out", tmp_path / "out")
    assert ran.code != 0
    assert said in ran.err.replace("\n", " ")
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    ("row", "said"), [("One,plyers,", "row 2"), ("One,pliers,5", 'no measure "shank"')]
)
def test_wrong_rows_of_a_list_are_named(cli: Any, tmp_path: Path, row: str, said: str) -> None:
    table = tmp_path / "list.csv"
    table.write_text(f"name,kind,shank (mm)\n{row}\n", "utf-8")
    ran = cli("cards", "--tools", table, "--out", tmp_path / "out")
    assert ran.code != 0
    assert said in ran.err.replace("\n", " ")


def test_cards_of_a_list_or_of_kinds_follow_the_unit_of_a_workshop(
    cli: Any, examples: Path, tmp_path: Path
) -> None:
    """A bare 1.5 of the list counts in inches then, as it does where the list is imported."""
    bench = examples / "joiners-bench"
    table = tmp_path / "list.csv"
    table.write_text("name,kind,length\nLong one,pliers,7 1/2\nShort one,pliers,1.5\n", "utf-8")
    for number, wish in enumerate((("--tools", table), ("--kinds", "pliers"))):
        out = tmp_path / f"out {number}"
        assert cli("cards", *wish, "--workshop", bench, "--out", out).code == 0
        words = words_of(out / "cards.pdf")
        assert "Measure in inches" in words
        assert re.search(r"\bmm\b", words) is None
    words = words_of(tmp_path / "out 0" / "cards.pdf")
    assert "7-1/2" in words
    assert "1-1/2" in words
    assert cli("cards", "--tools", table, "--out", tmp_path / "mm").code == 0
    assert "Measure in mm" in words_of(tmp_path / "mm" / "cards.pdf")
