"""Tables from files over the interface: looked at like pasted ones, refused without harm.

Oracles: the pasted table, the document on the disk, and the clock.
"""

from __future__ import annotations

import io
import time
import zipfile
from collections.abc import Generator, Iterator
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from starlette.testclient import TestClient

from cleatwright.base.stages.store import Store
from cleatwright.web.app import make_api
from cleatwright.web.session import Session
from cleatwright.workshop.tables.cells import LARGEST_FILE_BYTES, LARGEST_UNPACKED_BYTES

ROWS = (
    ("name", "kind", "diameter", "height", "price"),
    ("Filler", "can", 66, 200, 3),
    ("Tall", "can", 66, 9999, 4),
)


@pytest.fixture
def client(folder: Path) -> Generator[TestClient]:
    session = Session(folder, store=Store())
    with TestClient(make_api(session)) as found:
        yield found
    session.close()


def xlsx() -> bytes:
    made = openpyxl.Workbook()
    for row in ROWS:
        made.worksheets[0].append(row)
    data = io.BytesIO()
    made.save(data)
    return data.getvalue()


def sent(client: TestClient, name: str, data: bytes | Iterator[bytes]) -> tuple[int, Any]:
    found = client.post("/api/tables/file", params={"name": name}, content=data)
    return found.status_code, found.json()


def test_a_sheet_is_looked_at_like_a_pasted_table(client: TestClient, folder: Path) -> None:
    before = (folder / "workshop.toml").read_text(encoding="utf-8")
    text = "\n".join("\t".join(str(cell) for cell in row) for row in ROWS)
    pasted = client.post("/api/tables", json={"text": text}).json()
    assert [bool(one["entry"]) for one in pasted["rows"]] == [True, False]
    assert len(pasted["left_out"]) == 1
    for name, data in (
        ("Tools.XLSX", xlsx()),
        ("tools.csv", text.encode("utf-16")),
        ("tools.tsv", text.encode()),
    ):
        assert sent(client, name, data) == (200, pasted)
    assert (folder / "workshop.toml").read_text(encoding="utf-8") == before


def test_a_bomb_is_refused_before_it_is_unpacked(client: TestClient) -> None:
    """Some hundred kB that would become 105 MB, in one member or in a thousand."""
    for members in (1, 1000):
        data = io.BytesIO(xlsx())
        with zipfile.ZipFile(data, "a", zipfile.ZIP_DEFLATED) as archive:
            for number in range(members):
                size = (LARGEST_UNPACKED_BYTES + 5_000_000) // members
                archive.writestr(f"xl/{number}.xml", b" " * size)
        assert len(data.getvalue()) < LARGEST_FILE_BYTES
        began = time.monotonic()
        status, fault = sent(client, "tools.xlsx", data.getvalue())
        assert status == 422
        assert "too large" in fault["sentence"]
        assert time.monotonic() - began < 20
    assert client.get("/api/tools").status_code == 200


def test_a_wrong_file_is_refused_with_what_can_be_read(client: TestClient) -> None:
    for name, data, words in (
        ("tools.ods", xlsx(), ".csv, .txt, .tsv, .xlsx"),
        ("tools", b"", ".csv, .txt, .tsv, .xlsx"),
        ("../../tools.\x00", b"", ".csv, .txt, .tsv, .xlsx"),
        ("picture.xlsx", b"\x89PNG\r\n\x1a\n", "not a sound XLSX file"),
        ("cut.xlsx", xlsx()[:2000], "not a sound XLSX file"),
        ("tools.csv", b"", "The table is empty"),
    ):
        status, fault = sent(client, name, data)
        assert (status, fault["code"]) == (422, "import-table")
        assert words in fault["sentence"]
        # the folder in which it was read is nothing to the person
        assert "/tmp" not in fault["sentence"]  # noqa: S108 - it is looked for, and not used


def test_a_too_large_file_is_refused_while_it_comes(client: TestClient) -> None:
    """Also where nobody says before how large it will be: what comes later is not asked for."""
    status, fault = sent(client, "tools.xlsx", b" " * (LARGEST_FILE_BYTES + 1))
    assert (status, fault["allowed"]) == (422, "up to 5 MB")
    parts = (b" " * 1_000_000 for _ in range(40))
    status, fault = sent(client, "tools.xlsx", parts)
    assert (status, fault["allowed"]) == (422, "up to 5 MB")


def test_every_column_is_explained_and_taken(client: TestClient) -> None:
    """A table with all the columns that are told of, and one of a measure, is read whole."""
    told = client.get("/api/tables/columns").json()
    columns = told["columns"]
    assert [one["name"] for one in columns if one["needed"]] == ["name", "kind"]
    assert all(one["words"] for one in columns)
    values = {"name": "Tin", "kind": "can", "count": "2", "use": "daily", "mass": "300 g"}
    values |= {"fit": "easy", "panel": "wall", "group": "tins", "notes": "blue"}
    heads = [one["name"] for one in columns]
    text = "\t".join([*heads, "diameter", "height"])
    text += "\n" + "\t".join([*(values[head] for head in heads), "66", "150"])
    (row,) = client.post("/api/tables", json={"text": text}).json()["rows"]
    assert row["entry"] is not None, row["words"]
    assert values.keys() <= row["entry"].keys() | {"panel"}


def test_a_kind_is_named_by_its_title_and_its_own_bounds_are_told(client: TestClient) -> None:
    text = (
        "name\tkind\tlength\twidth\tthickness\n"
        "Folder\tAnything flat with  straight edges\t150\t24\t4\n"
        "Thick\tflat-plate\t150\t24\t99999\n"
    )
    found = client.post("/api/tables", json={"text": text}).json()
    folder, thick = found["rows"]
    assert folder["entry"]["kind"] == "flat-plate"
    kinds = {one["name"]: one for one in client.get("/api/kinds").json()}
    (column,) = (one for one in kinds["flat-plate"]["columns"] if one["name"] == "thickness")
    least, _, most = column["bounds"].partition(" to ")
    assert f"{least} to {most}" in thick["words"]
    assert thick["words"].count("thickness") == 1
    assert found["rest"].splitlines() == [text.splitlines()[0], text.splitlines()[2]]
