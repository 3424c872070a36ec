"""Tools over the interface: what is written, what is read, what is wrong and what may mend it."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Generator
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from cleatwright.base.stages.store import Store
from cleatwright.tools.nominal.sizes import NOMINAL_SIZES
from cleatwright.tools.registry import KINDS
from cleatwright.web.app import make_api
from cleatwright.web.session import Session


@pytest.fixture
def client(folder: Path) -> Generator[TestClient]:
    session = Session(folder, store=Store())
    with TestClient(make_api(session)) as found:
        yield found
    session.close()


def row(client: TestClient, name: str) -> dict[str, Any]:
    sheets = client.get("/api/tools").json()["sheets"]
    return next(one for sheet in sheets for one in sheet["rows"] if one["name"] == name)


def change(client: TestClient, **given: Any) -> Any:
    return client.post("/api/changes", json={"changes": [given], "label": "a change"})


def test_a_sheet_for_each_kind_in_the_order_of_the_document(client: TestClient) -> None:
    found = client.get("/api/tools").json()
    assert [sheet["kind"] for sheet in found["sheets"]] == ["screwdriver", "pliers", "can"]
    assert found["tools"] == 3
    assert found["faults"] == []


def test_a_change_is_on_the_disk_with_its_comments(client: TestClient, folder: Path) -> None:
    """Oracle: the file read by the standard library, and its comments by eye."""
    path = ["tool", 1, "measures", "gap"]
    found = change(client, operation="set", path=path, value=10, was=9.5, name="Combination pliers")
    assert found.status_code == 200
    text = (folder / "workshop.toml").read_text(encoding="utf-8")
    assert tomllib.loads(text)["tool"][1]["measures"]["gap"] == 10
    assert "# The daily ones." in text
    assert row(client, "Combination pliers")["cells"]["gap"]["mm"] == 10.0
    assert client.get("/api/state").json()["undoes"] == "a change"


def test_a_change_of_what_somebody_else_changed_is_refused(
    client: TestClient, folder: Path
) -> None:
    """The value that was typed elsewhere stays; nothing else is lost either."""
    file = folder / "workshop.toml"
    file.write_text(file.read_text(encoding="utf-8").replace("gap = 9.5", "gap = 9.9"))
    path = ["tool", 1, "measures", "gap"]
    found = change(client, operation="set", path=path, value=10, was=9.5)
    assert found.status_code == 409
    assert "9.9" in found.json()["sentence"]
    other = ["tool", 1, "measures", "length"]
    assert change(client, operation="set", path=other, value=181, was=180).status_code == 200
    kept = tomllib.loads(file.read_text(encoding="utf-8"))["tool"][1]["measures"]
    assert (kept["gap"], kept["length"]) == (9.9, 181)


def test_a_tool_is_found_by_its_name_when_its_number_changed(client: TestClient) -> None:
    change(client, operation="insert", path=["tool", 0], value={"name": "New", "kind": "box"})
    path = ["tool", 1, "measures", "gap"]
    found = change(client, operation="set", path=path, value=10, was=9.5, name="Combination pliers")
    assert found.status_code == 200
    assert row(client, "Combination pliers")["cells"]["gap"]["mm"] == 10.0


def test_a_fault_leaves_the_typed_value_and_offers_the_likely_mending(client: TestClient) -> None:
    """76 where the legs are 7.6 apart: the point was forgotten."""
    path = ["tool", 1, "measures", "gap"]
    change(client, operation="set", path=path, value=76, was=9.5, name="Combination pliers")
    (fault,) = client.get("/api/tools").json()["faults"]
    assert fault["paths"] == [path]
    assert fault["mend"]["value"] == 7.6
    assert fault["mend"]["words"] == "Make it 7.6"
    cell = row(client, "Combination pliers")["cells"]["gap"]
    assert (cell["given"], cell["raw"]) == ("76", 76)
    assert row(client, "Awl")["cells"]["shank"]["mm"] == 3.5
    mend = fault["mend"]
    change(client, operation="set", **{key: mend[key] for key in ("path", "value", "was", "name")})
    assert client.get("/api/tools").json()["faults"] == []


def test_undo_and_redo_go_through_every_state(client: TestClient, folder: Path) -> None:
    file = folder / "workshop.toml"
    states = [file.read_text(encoding="utf-8")]
    for was, value in ((180, 181), (181, 182), (182, 183)):
        path = ["tool", 1, "measures", "length"]
        change(client, operation="set", path=path, value=value, was=was)
        states.append(file.read_text(encoding="utf-8"))
    for text in reversed(states[:-1]):
        client.post("/api/undo")
        assert file.read_text(encoding="utf-8") == text
    for text in states[1:]:
        client.post("/api/redo")
        assert file.read_text(encoding="utf-8") == text


def test_every_kind_is_there_with_its_picture_and_its_measures(client: TestClient) -> None:
    found = {one["name"]: one for one in client.get("/api/kinds").json()}
    assert set(found) == set(KINDS)
    for name, kind in found.items():
        assert [one["name"] for one in kind["columns"]] == [one.name for one in KINDS[name].card]
        assert kind["picture"], name
        assert min(kind["width_mm"], kind["height_mm"]) > 0, name


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_a_tool_is_drawn_to_what_is_known_of_it(client: TestClient, kind: str) -> None:
    """Every measure of the ordinary tool has a line, as long as the measure at the one scale."""
    example = dict(KINDS[kind].example)
    given = {"kind": kind, "measures": {name: f"{mm} mm" for name, mm in example.items()}}
    found = client.post("/api/drawing", json=given).json()
    assert found["true"]
    assert not found["ordinary"]
    drawn = {one["measure"] for view in found["views"] for one in view["dimensions"]}
    assert {name for name, mm in example.items() if mm} <= drawn
    empty = client.post("/api/drawing", json={"kind": kind, "measures": {}}).json()
    assert set(empty["ordinary"]) == set(example)


def test_a_pasted_table_is_looked_at_before_anything_is_written(
    client: TestClient, folder: Path
) -> None:
    before = (folder / "workshop.toml").read_text(encoding="utf-8")
    text = "name\tkind\tdiameter\theight\nFiller\tcan\t66\t200\nTall\tcan\t66\t9999\n"
    rows = client.post("/api/tables", json={"text": text}).json()["rows"]
    assert [bool(one["entry"]) for one in rows] == [True, False]
    assert rows[1]["words"]
    assert (folder / "workshop.toml").read_text(encoding="utf-8") == before
    change(client, operation="insert", path=["tool"], value=rows[0]["entry"])
    assert row(client, "Filler")["cells"]["height"]["mm"] == 200.0


def test_a_column_that_nothing_has_is_told_of_once_with_what_columns_may_be(
    client: TestClient,
) -> None:
    text = "name\tkind\tdiametre\theight\tprice\nOne\tcan\t60\t190\t3\nTwo\tcan\t61\t191\t4\n"
    found = client.post("/api/tables", json={"text": text}).json()
    assert len(found["left_out"]) == 2
    assert found["left_out"][0].startswith('The column "diametre" is left out: it is no measure')
    assert 'Did you mean "diameter"?' in found["left_out"][0]
    assert "A column can be name, kind, count" in found["left_out"][1]
    assert "height" in found["left_out"][1]
    # each row says what it lacks, and nothing of the columns
    assert all("diametre" not in row["words"] for row in found["rows"])
    assert all("diameter" in row["words"] for row in found["rows"])


def test_standard_sets_are_those_of_the_tables(client: TestClient) -> None:
    found = {one["kind"]: one["sizes"] for one in client.get("/api/standard-sets").json()}
    assert found == {kind: list(sizes.names) for kind, sizes in NOMINAL_SIZES.items()}


@pytest.mark.parametrize(
    "given",
    [
        {"operation": "set", "path": ["tool", 99, "measures", "gap"], "value": 1},
        {"operation": "set", "path": ["tool", 0], "value": 1},
        {"operation": "remove", "path": ["tool", 0], "was": "Somebody else"},
        {"operation": "remove", "path": ["nothing", 0], "guarded": False},
        {"operation": "move", "path": ["tool", 0], "was": "Awl", "value": 77},
    ],
)
def test_a_change_that_leads_nowhere_changes_nothing(
    client: TestClient, folder: Path, given: dict[str, Any]
) -> None:
    before = (folder / "workshop.toml").read_text(encoding="utf-8")
    assert change(client, **given).status_code in {409, 422}
    assert (folder / "workshop.toml").read_text(encoding="utf-8") == before
    assert client.get("/api/state").json()["number"] == 1


def test_what_of_a_tool_can_hurt_is_changed_and_given_back_to_its_kind(
    client: TestClient, folder: Path
) -> None:
    """The kind "can" says liquid and flammable; its owner says glass, and then nothing."""
    name = client.get("/api/tools").json()["sheets"][2]["rows"][0]["name"]
    before = row(client, name)
    assert before["properties"] == ["liquid", "flammable"]
    assert before["properties_raw"] is None
    assert "sparks" in before["cautions"]
    path = ["tool", before["number"], "properties"]
    said = {"path": path, "name": name, "guarded": True}
    done = change(client, operation="set", value=["glass"], was=None, **said)
    assert done.status_code == 200, done.text
    raw = tomllib.loads((folder / "workshop.toml").read_text("utf-8"))
    assert raw["tool"][before["number"]]["properties"] == ["glass"]
    after = row(client, name)
    assert after["properties"] == after["properties_raw"] == ["glass"]
    assert "sparks" not in after["cautions"]
    assert "glass" in after["cautions"].lower()
    assert change(client, operation="unset", was=["glass"], **said).status_code == 200
    assert row(client, name) == before


def test_the_words_for_what_can_hurt_come_in_one_order(client: TestClient) -> None:
    assert client.get("/api/tools").json()["properties"][:3] == ["sharp", "hot", "heavy"]


def test_who_takes_a_tool_is_written_by_name(client: TestClient, folder: Path) -> None:
    """Nobody is asked while one person is alone."""
    assert client.get("/api/tools").json()["people"] == []
    first = client.get("/api/tools").json()["sheets"][0]["rows"][0]
    assert (first["taken_by"], first["taken_by_raw"]) == ([], None)
    ben = {"name": "Ben", "stature": 1900}
    assert change(client, operation="insert", path=["other_person"], value=ben).status_code == 200
    assert client.get("/api/tools").json()["people"] == ["owner", "Ben"]
    path = ["tool", first["number"], "taken_by"]
    said = {"path": path, "name": first["name"], "guarded": True}
    done = change(client, operation="set", value=["Ben"], was=None, **said)
    assert done.status_code == 200, done.text
    raw = tomllib.loads((folder / "workshop.toml").read_text("utf-8"))
    assert raw["tool"][first["number"]]["taken_by"] == ["Ben"]
    assert row(client, first["name"])["taken_by"] == ["Ben"]


def test_all_that_may_be_written_of_a_tool_has_a_field(client: TestClient, folder: Path) -> None:
    """Oracle: the keys of a tool in the manual, and the file read by the standard library."""
    page = (Path(__file__).parents[2] / "docs" / "workshop.md").read_text("utf-8")
    told = page.split("\n## `[[tool]]`")[1].split("\n## ")[0]
    keys = set(re.findall(r"^\| `(\w+)` \|", told, re.MULTILINE))
    more = client.get("/api/tools/0/more").json()
    shown = {one["path"][-1] for one in more}
    assert {"lowest_height", "highest_height", "height_reason", "keep_cool"} <= shown <= keys
    own = "name kind measures count sizes nominal_sizes mass outline use group fit panel properties"
    assert keys - shown == {*own.split(), "taken_by", "notes"}
    path = ["tool", 0, "highest_height"]
    made = client.post("/api/settings/typed", json={"path": path, "text": "1.6 m", "was": None})
    assert made.status_code == 200, made.text
    assert client.post("/api/changes", json=made.json()).status_code == 200
    tool = tomllib.loads((folder / "workshop.toml").read_text("utf-8"))["tool"][0]
    assert tool["highest_height"] == "1.6 m"
    assert row(client, tool["name"])["more"] == ["highest height 1.6 m"]
    wrong = client.post("/api/settings/typed", json={"path": path, "text": "9 m", "was": "1.6 m"})
    assert wrong.status_code == 422
    assert client.get("/api/tools/99/more").status_code == 422
