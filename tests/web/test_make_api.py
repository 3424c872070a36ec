"""The sheet Make over the interface: what is made, written and hung, against the command line.

The oracle of every file is the set that ``jobs.making`` publishes in another copy of the folder.
"""

from __future__ import annotations

import io
import json
import shutil
import time
import zipfile
from collections.abc import Generator
from pathlib import Path
from typing import Any

import pytest
from PIL import Image
from starlette.testclient import TestClient
from tests.web.serving import STORE

from cleatwright.base.stages.store import Store
from cleatwright.jobs.hung import hung_now
from cleatwright.jobs.making import make_workshop
from cleatwright.jobs.part_states import parts_now
from cleatwright.web.app import make_api
from cleatwright.web.session import Session
from cleatwright.workshop.ledger.reading import has_ledger

BOARDS = """
[[rail.stock]]
name = "board"
length = 1500

[[rail.stock]]
name = "short board"
length = 900
count = 3
"""
PATIENCE_SECONDS = 120


@pytest.fixture
def folder(folder: Path) -> Path:
    """The shed with boards in stock."""
    path = folder / "workshop.toml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("[printer.bench]", f"{BOARDS}\n[printer.bench]"), "utf-8")
    return folder


@pytest.fixture
def client(folder: Path) -> Generator[TestClient]:
    session = Session(folder, store=STORE)
    with TestClient(make_api(session)) as found:
        yield found
    session.close()


@pytest.fixture
def cold(folder: Path) -> Generator[TestClient]:
    """A program that has computed nothing before, so that there is something to stop."""
    session = Session(folder, store=Store())
    with TestClient(make_api(session)) as found:
        yield found
    session.close()


def ended(client: TestClient, path: str) -> dict[str, Any]:
    """Return the row of a sort of work once nothing goes on any more."""
    until = time.monotonic() + PATIENCE_SECONDS
    while time.monotonic() < until:
        row = client.get(path).json()
        if row["work"] is not None and row["work"]["state"] != "running":
            return row
        time.sleep(0.02)
    raise AssertionError(f"{path} does not come to an end")


def computed(client: TestClient) -> dict[str, Any]:
    """Return the sheet of what stands in the document now."""
    client.post("/api/make")
    return ended(client, "/api/make")


def written(client: TestClient) -> dict[str, Any]:
    assert client.post("/api/make/files").status_code == 200
    return ended(client, "/api/make/files")


def set_gap(client: TestClient, value: Any) -> None:
    path = ["tool", 1, "measures", "gap"]
    change = {"operation": "set", "path": path, "value": value, "guarded": False}
    given = {"changes": [change], "label": "gap"}
    assert client.post("/api/changes", json=given).status_code == 200


def files_in(folder: Path) -> dict[str, bytes]:
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


@pytest.fixture
def twin(folder: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """The files that the command line makes of a copy of the folder."""
    copy = tmp_path_factory.mktemp("twin") / "shed"
    shutil.copytree(folder, copy)
    make_workshop(copy)
    return files_in(copy / "out")


def test_every_file_has_the_bytes_of_the_command_line_and_none_is_written(
    client: TestClient, folder: Path, twin: dict[str, bytes]
) -> None:
    sheet = computed(client)["sheet"]
    paths = {one["path"] for one in sheet["papers"]}
    assert paths == set(twin) - {"manifest.json"}
    for path in sorted(paths):
        assert client.get("/api/make/file", params={"path": path}).content == twin[path], path
    assert not (folder / "out").exists()
    assert not has_ledger(folder)


def test_all_files_are_written_as_the_command_line_does(
    client: TestClient, folder: Path, twin: dict[str, bytes]
) -> None:
    computed(client)
    found = written(client)
    assert found["work"]["state"] == "done"
    assert files_in(folder / "out") == twin
    assert {one["what"] for one in found["changes"]} == {"new"}
    assert found["summary"][0].endswith(f"{len(twin) - 1} new, 0 changed, 0 same, 0 removed.")
    again = written(client)
    assert {one["what"] for one in again["changes"]} == {"same"}
    sheet = computed(client)["sheet"]
    assert sheet["since"]["same"]
    # hangers and bolts, too
    states = {(part["label"], part["state"]) for bed in sheet["beds"] for part in bed["parts"]}
    assert len(states) > sheet["holders"]
    assert {state for _, state in states} == {"as it was"}


def test_each_part_lies_once_on_a_bed_and_is_in_its_file(client: TestClient) -> None:
    """Oracle: the holders and their fittings in the report, and the names in the 3MF."""
    sheet = computed(client)["sheet"]
    parts = {one["label"]: one for bed in sheet["beds"] for one in bed["parts"]}
    report = client.get("/api/make/file", params={"path": "report.json"}).json()
    marks = {str(one["number"]): one["mark"] for one in report["holders"]}
    for one in report["holders"]:
        assert len(one["fittings"]) >= 2
        marks |= {f"{one['number']}.{n}": mark for n, mark in enumerate(one["fittings"], 1)}
    assert {label: one["mark"] for label, one in parts.items()} == marks
    assert sum(len(bed["parts"]) for bed in sheet["beds"]) == len(marks)
    assert all(str(one["number"]) == label.split(".")[0] for label, one in parts.items())
    assert {one["state"] for one in parts.values()} == {"new"}
    for bed in sheet["beds"]:
        assert bed["grams"] == pytest.approx(sum(one["grams"] for one in bed["parts"]))
        data = client.get("/api/make/file", params={"path": bed["file"]}).content
        model = zipfile.ZipFile(io.BytesIO(data)).read("3D/3dmodel.model").decode()
        assert all(one["mark"] in model for one in bed["parts"])


def test_a_picture_of_a_bed_shows_its_parts_and_is_clear_elsewhere(client: TestClient) -> None:
    """Each balloon lies on its part: there the picture is not clear, and its corners are."""
    for bed in computed(client)["sheet"]["beds"]:
        data = client.get(f"/api/make/beds/{bed['number']}/picture").content
        image = Image.open(io.BytesIO(data)).convert("RGBA")
        assert list(image.size) == bed["size"]
        width, height = image.size
        alpha = image.getchannel("A")
        assert [alpha.getpixel((x, y)) for x in (0, width - 1) for y in (0, height - 1)] == [0] * 4
        left, top, right, bottom = alpha.getbbox() or (0, 0, 0, 0)
        for part in bed["parts"]:
            x, y = part["at"]
            assert left - 1 <= x <= right + 1
            assert top - 1 <= y <= bottom + 1
        xs, ys = zip(*bed["outline"], strict=True)
        # nothing stands over the edge of the bed
        assert min(xs) <= left
        assert right <= max(xs)
        assert bottom <= max(ys)
    assert client.get("/api/make/beds/99/picture").status_code == 422


def test_pieces_kerfs_and_the_rest_make_up_each_board(client: TestClient) -> None:
    """Closed form: piece + kerf + piece + kerf + rest is the length of the board."""
    wood = computed(client)["sheet"]["wood"]
    assert wood["boards"]
    kerf = float(wood["kerf"].removesuffix(" mm"))
    for board in wood["boards"]:
        pieces = sum(one["length_mm"] for one in board["pieces"])
        cuts = len(board["pieces"]) * kerf
        assert pieces + cuts + board["rest_mm"] == pytest.approx(board["length_mm"])
        starts = [one["start_mm"] for one in board["pieces"]]
        assert starts == sorted(starts)
    for one in wood["lists"]:
        assert any("Local rules" in text for text in one["cautions"])


def test_a_list_is_shown_with_the_cells_of_its_file(
    client: TestClient, twin: dict[str, bytes]
) -> None:
    computed(client)
    found = client.get("/api/make/table", params={"path": "lists/hardware.csv"}).json()
    lines = twin["lists/hardware.csv"].decode("utf-8-sig").splitlines()
    assert ",".join(found["heading"]) == lines[0]
    assert len(found["rows"]) == len(lines) - 1
    assert client.get("/api/make/table", params={"path": "report.json"}).status_code == 422
    assert client.get("/api/make/file", params={"path": "../workshop.toml"}).status_code == 422


def test_what_is_shown_stays_while_a_newer_revision_is_worked_out(client: TestClient) -> None:
    before = computed(client)
    assert not before["stale"]
    set_gap(client, 9.0)
    stale = client.get("/api/make").json()
    assert stale["stale"]
    assert stale["revision"] == before["revision"]
    assert stale["sheet"] == before["sheet"]
    after = computed(client)
    assert not after["stale"]
    assert after["revision"] == before["revision"] + 1


def test_faults_are_told_with_their_places_and_the_last_sheet_stays(client: TestClient) -> None:
    before = computed(client)
    set_gap(client, 900)
    found = computed(client)
    assert found["work"]["state"] == "failed"
    assert [one["paths"] for one in found["work"]["faults"]] == [[["tool", 1, "measures", "gap"]]]
    assert found["stale"]
    assert found["sheet"] == before["sheet"]
    client.post("/api/undo")
    assert not computed(client)["stale"]


def test_without_a_tool_there_is_nothing_to_make(client: TestClient) -> None:
    removed = [{"operation": "remove", "path": ["tool", n], "guarded": False} for n in (2, 1, 0)]
    client.post("/api/changes", json={"changes": removed, "label": "no tools"})
    found = computed(client)
    assert (found["work"]["state"], found["sheet"], found["tools"]) == ("done", None, 0)
    assert client.get("/api/make/file", params={"path": "report.json"}).status_code == 422


def test_work_that_is_stopped_is_begun_again_only_when_asked(cold: TestClient) -> None:
    cold.post("/api/make")
    cold.post("/api/work/make/stop")
    found = ended(cold, "/api/make")
    assert found["work"]["state"] == "stopped"
    assert cold.get("/api/make").json()["work"]["state"] == "stopped"
    assert computed(cold)["work"]["state"] == "done"


def test_a_part_that_changed_says_what_was_and_what_is(client: TestClient) -> None:
    computed(client)
    written(client)
    marks = {one["number"]: one["mark"] for one in computed(client)["sheet"]["since"]["parts"]}
    set_gap(client, 8.0)
    since = computed(client)["sheet"]["since"]
    assert not since["same"]
    changed = [one for one in since["parts"] if one["what"] != "as it was"]
    assert [one["what"] for one in changed] == ["again"]
    assert changed[0]["before"] == marks[changed[0]["number"]]
    assert changed[0]["mark"] != changed[0]["before"]
    assert any("Combination pliers" in text for text in changed[0]["why"])


def test_what_hangs_is_said_one_by_one_as_the_papers_have_it(
    client: TestClient, folder: Path
) -> None:
    """Oracle: the ledger as the command ``hung`` reads it, and the places in the report."""
    nothing_made = client.post("/api/hung", json={"numbers": [1]})
    assert nothing_made.status_code == 422
    assert not has_ledger(folder)
    computed(client)
    written(client)
    papers = client.get("/api/hung").json()["papers"]
    one = next(piece for piece in papers if piece["rail"])
    found = client.post("/api/hung", json={"numbers": one["numbers"]}).json()
    assert [piece["hangs"] for piece in found["papers"]] == [piece is one for piece in papers]
    hung = hung_now(folder).hung
    assert [(entry.name, entry.mark) for entry in hung.holders] == [(one["name"], one["mark"])]
    assert [rail.name for rail in hung.rails] == [one["rail"]]
    assert client.post("/api/hung", json={"numbers": [99]}).status_code == 422
    everything = [number for piece in papers for number in piece["numbers"]]
    found = client.post("/api/hung", json={"numbers": everything}).json()
    assert all(piece["hangs"] for piece in found["papers"])
    # what is said in parts is what is said of all at once
    said = hung_now(folder).hung
    client.post("/api/hung/forget", json={})
    assert not hung_now(folder).hung
    computed(client)
    assert client.post("/api/hung", json={}).status_code == 200
    assert hung_now(folder).hung == said


def test_each_thing_that_is_said_of_parts_is_one_step_of_undo(
    client: TestClient, folder: Path
) -> None:
    """Oracle: the ledger as the commands read it."""
    computed(client)
    written(client)
    mark = client.get("/api/hung").json()["papers"][0]["parts"][0]["mark"]
    said = {"state": "printed", "parts": [mark], "label": "the awl is printed"}
    found = client.post("/api/parts", json=said).json()
    assert found["papers"][0]["parts"][0]["state"] == "printed"
    assert client.post("/api/hung", json={"label": "all hangs"}).status_code == 200
    everything = parts_now(folder).parts
    assert {one.state for one in everything} == {"hanging"}
    assert len(everything) > 3
    assert client.get("/api/state").json()["undoes"] == "all hangs"
    client.post("/api/undo")
    first, *rest = parts_now(folder).parts
    assert (first.mark, first.state) == (mark, "printed")
    assert {one.state for one in rest} == {"planned"}
    assert client.get("/api/state").json()["undoes"] == "the awl is printed"
    client.post("/api/undo")
    assert {one.state for one in parts_now(folder).parts} == {"planned"}
    assert client.post("/api/redo").json()["undoes"] == "the awl is printed"
    assert parts_now(folder).parts[0].state == "printed"
    beds = computed(client)["sheet"]["beds"]
    assert mark not in [part["mark"] for bed in beds for part in bed["parts"]]


def test_a_rail_with_something_on_it_is_not_forgotten(client: TestClient, folder: Path) -> None:
    computed(client)
    written(client)
    rails = client.post("/api/hung", json={}).json()["rails"]
    assert rails
    found = client.post("/api/hung/forget", json={"rails": [rails[0]["name"]]})
    assert found.status_code == 422
    assert "hangs on rail" in found.json()["sentence"]
    assert hung_now(folder).hung.rails


def test_files_that_were_replaced_are_not_what_hangs(client: TestClient, folder: Path) -> None:
    computed(client)
    written(client)
    (folder / "out/wall/elevation.svg").write_text("another", "utf-8")
    found = client.post("/api/hung", json={"numbers": [1]})
    assert found.status_code == 422
    assert "elevation.svg was changed" in found.json()["sentence"]
    assert not hung_now(folder).hung


def test_a_part_is_made_again_from_its_mark(client: TestClient, twin: dict[str, bytes]) -> None:
    part = computed(client)["sheet"]["beds"][0]["parts"][0]
    mark, path = part["mark"], part["files"][0]
    unknown = client.get(f"/api/marks/{mark}")
    assert unknown.status_code == 422
    assert "nothing was made here yet" in unknown.json()["sentence"]
    written(client)
    found = client.get(f"/api/marks/{mark.lower()}").json()
    assert found["mark"] == mark
    assert client.get(f"/api/marks/{mark}/file", params={"kind": "3mf"}).content == twin[path]
    wrong = mark[:-1] + ("0" if mark[-1] != "0" else "1")
    refused = client.get(f"/api/marks/{wrong}")
    assert refused.status_code == 422
    assert refused.json()["allowed"] == "seven letters and digits, as on the part"


def test_a_folder_between_two_sets_is_told_and_finished_by_making_again(
    client: TestClient, folder: Path
) -> None:
    """As when the power fails while files are moved: the manifest says that it is between."""
    computed(client)
    written(client)
    manifest = folder / "out" / "manifest.json"
    whole = manifest.read_text("utf-8")
    manifest.write_text(whole.replace("{", '{"between": true,', 1), "utf-8")
    found = client.get("/api/make").json()["sheet"]["since"]
    assert "some files are old and some are new" in found["fault"]["sentence"]
    assert client.get("/api/hung").status_code == 422
    assert written(client)["work"]["state"] == "done"
    assert computed(client)["sheet"]["since"]["fault"] is None
    assert manifest.read_text("utf-8") == whole


def test_beds_that_are_left_say_which_file_of_the_last_making_they_are(
    client: TestClient, folder: Path
) -> None:
    """Oracle: the marks of each bed in the report that was written."""
    path = folder / "workshop.toml"
    text = path.read_text(encoding="utf-8").replace(
        "bed = [220, 220, 220]", "bed = [110, 120, 220]"
    )
    client.put("/api/text", json={"text": text})
    computed(client)
    written(client)
    first, *others = json.loads((folder / "out" / "report.json").read_text("utf-8"))["batches"]
    assert others
    said = {"state": "printed", "parts": first["marks"], "label": "batch 01 is printed"}
    assert client.post("/api/parts", json=said).status_code == 200
    beds = computed(client)["sheet"]["beds"]
    made = {one["file"]: sorted(one["marks"]) for one in (first, *others)}
    for bed in beds:
        marks = sorted(part["mark"] for part in bed["parts"])
        assert made.get(bed["made_as"]) == (marks if bed["made_as"] else None)
        assert bed["made_as"] or marks not in made.values()
    # what is left is packed anew: its file is none of those that were made
    assert any(not bed["made_as"] for bed in beds)
    written(client)
    assert all(bed["made_as"] == bed["file"] for bed in computed(client)["sheet"]["beds"])
