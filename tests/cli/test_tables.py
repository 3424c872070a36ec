"""Tools from tables and back."""

from pathlib import Path
from typing import Any

import pytest

from cleatwright.workshop.document.store import load

GOOD = "name,kind,diameter (mm),height (mm),mass (g)\nPaint,can,60,120,400\n"


@pytest.fixture
def table(tmp_path: Path) -> Path:
    path = tmp_path / "tools.csv"
    path.write_text(GOOD + "Glue,can,7,120,\nWax,can,=60+1,120,\n", "utf-8")
    return path


def test_a_table_is_only_reported_until_it_shall_be_written(
    cli: Any, shed: Path, shed_text: str, table: Path
) -> None:
    told = cli("import", shed, table, "--json").json
    assert (told["written"], told["accepted"], told["refused"]) == (False, 1, 2)
    results = {row["tool"]: row["result"] for row in told["rows"]}
    assert results["Paint"] == "would be added"
    assert "diameter is 7 mm" in results["Glue"]
    assert "=60+1" in results["Wax"]
    assert {row["kind"] for row in told["rows"]} == {"can"}
    assert "--write" in cli("import", shed, table).out
    assert (shed / "workshop.toml").read_text("utf-8") == shed_text


def test_good_rows_join_the_document_and_its_comments_stay(
    cli: Any, shed: Path, shed_text: str, table: Path
) -> None:
    # two rows are refused, and the good one is added all the same
    ran = cli("import", shed, table, "--write")
    assert ran.code == 2
    assert "The good rows were added" in ran.out
    text = (shed / "workshop.toml").read_text("utf-8")
    kept = [line for line in shed_text.splitlines() if line.strip()]
    lines = iter(text.splitlines())
    assert all(line in lines for line in kept)
    assert "# The owner's own words stay in the file." in text
    tools = {tool.name: tool for tool in load(shed).tools}
    assert len(tools) == 6
    assert tools["Paint"].mass_kg == pytest.approx(0.4)
    again = cli("import", shed, table, "--write", "--json").json
    assert (again["written"], again["accepted"]) == (False, 0)


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (GOOD.replace("Paint", "Färg").encode("latin-1"), "encoding"),
        (b"", "empty"),
        (b"name,diameter\nPaint,60\n", "no column kind"),
        (b"kind;height\ncan;60\n", "no column name"),
        (b"name,kind,diameter (kg)\nPaint,can,60\n", "not a unit"),
    ],
)
def test_a_table_that_cannot_be_read_is_told(
    cli: Any, shed: Path, shed_text: str, tmp_path: Path, data: bytes, said: str
) -> None:
    path = tmp_path / "bad.csv"
    path.write_bytes(data)
    ran = cli("import", shed, path, "--write")
    assert ran.code == 2
    assert said in ran.err
    assert "bad.csv" in ran.err
    assert (shed / "workshop.toml").read_text("utf-8") == shed_text


def test_a_table_that_is_not_there_or_a_folder_is_told(cli: Any, shed: Path) -> None:
    assert cli("import", shed, shed / "none.csv").code == 2
    assert cli("import", shed, shed).code == 2


def test_an_export_into_an_empty_workshop_gives_the_same_tools(
    cli: Any, shed: Path, shed_text: str, tmp_path: Path
) -> None:
    assert cli("export", shed, tmp_path / "out.csv", "--json").json["tools"] == 6
    empty = tmp_path / "empty"
    empty.mkdir()
    (empty / "workshop.toml").write_text(shed_text[: shed_text.index("[[tool]]")], "utf-8")
    assert cli("import", empty, tmp_path / "out.csv", "--write").code == 0

    def tools(folder: Path) -> list[Any]:
        return [
            (i.name, i.kind, i.measures.as_dict(), i.mass_kg, i.use, i.group, i.fit)
            for i in load(folder).items()
        ]

    assert tools(empty) == tools(shed)
    assert cli("check", empty).code == 0


def test_an_export_never_writes_over_a_file(cli: Any, shed: Path, shed_text: str) -> None:
    ran = cli("export", shed, shed / "workshop.toml")
    assert ran.code == 5
    assert ".csv" in ran.err
    assert (shed / "workshop.toml").read_text("utf-8") == shed_text
    (shed / "old.csv").write_text("mine")
    assert cli("export", shed, shed / "old.csv").code == 5
    assert (shed / "old.csv").read_text() == "mine"
    assert cli("export", shed, shed / "no folder" / "new.csv").code == 5
