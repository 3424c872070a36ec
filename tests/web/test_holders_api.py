"""Holders over the interface: solids, sums, families and files, held against what is made.

Oracles: the mesh library over the bytes that a page gets, and the files of the command line.
"""

from __future__ import annotations

import json
from collections.abc import Generator
from pathlib import Path
from typing import Any

import manifold3d
import numpy as np
import pytest
import trimesh
from starlette.testclient import TestClient
from tests.web.serving import STORE

from cleatwright.design.wall_lines import check_sections
from cleatwright.holders.registry import FAMILIES
from cleatwright.jobs.hung import record_hung
from cleatwright.jobs.making import make_workshop
from cleatwright.printing.walls.deciding import Walls
from cleatwright.project.computing import compute
from cleatwright.web.app import make_api
from cleatwright.web.rows import holders as rows
from cleatwright.web.session import Session

# what two families can hold
SQUARE = """
[[tool]]
name = "Try square"
kind = "square"

[tool.measures]
blade_length = 150
blade_width = 38
blade_thickness = 1.8
stock_length = 115
stock_width = 24
stock_thickness = 18
"""


@pytest.fixture
def client(folder: Path) -> Generator[TestClient]:
    session = Session(folder, store=STORE)
    with TestClient(make_api(session)) as found:
        yield found
    session.close()


def manifold(mesh: trimesh.Trimesh) -> manifold3d.Manifold:
    return manifold3d.Manifold(
        manifold3d.Mesh(mesh.vertices.astype(np.float32), mesh.faces.astype(np.uint32))
    )


def solids(client: TestClient, number: int) -> list[tuple[dict[str, Any], trimesh.Trimesh]]:
    """Return what a page gets, read by the layout that is written down."""
    data = client.get(f"/api/holders/{number}/solids").content
    length = int.from_bytes(data[:4], "little")
    header, at = json.loads(data[4 : 4 + length]), 4 + length
    found: list[tuple[dict[str, Any], trimesh.Trimesh]] = []
    for piece in header["pieces"]:
        corners = np.frombuffer(data, "<f4", piece["corners"] * 3, at).reshape(-1, 3)
        at += corners.nbytes
        faces = np.frombuffer(data, "<u4", piece["triangles"] * 3, at).reshape(-1, 3)
        at += faces.nbytes
        found.append((piece, trimesh.Trimesh(corners, faces, process=False)))
    assert at == len(data)
    return found


def test_every_solid_is_closed_and_turned_outwards(client: TestClient) -> None:
    for line in client.get("/api/holders").json()["holders"]:
        for piece, mesh in solids(client, line["number"]):
            assert mesh.is_watertight, (line["name"], piece["role"])
            assert mesh.volume > 0, (line["name"], piece["role"])


def test_a_holder_is_found_by_its_tool_when_its_number_changes(client: TestClient) -> None:
    """A holder that is written in the document goes before those that are not."""
    lines = client.get("/api/holders").json()["holders"]
    last = lines[-1]
    row = client.get(f"/api/holders/{last['number']}").json()
    size = row["params"][0]
    entry = {**row["new_entry"], "family": row["family"], "params": {size["name"]: size["value"]}}
    change = {"operation": "insert", "path": ["holder"], "value": entry, "guarded": True}
    answer = client.post("/api/changes", json={"changes": [change], "label": "size"})
    assert answer.status_code == 200, answer.text
    asked = f"/api/holders/{last['number']}"
    assert client.get(asked).json()["name"] != last["name"]
    found = client.get(asked, params={"tool": last["tools"][0]}).json()
    assert (found["name"], found["number"]) == (last["name"], 1)
    # a tool that is not there any more leaves the number
    gone = client.get(asked, params={"tool": "gone"}).json()
    assert gone["number"] == last["number"]


def test_the_rail_stands_behind_the_holder_as_it_is_cut(client: TestClient) -> None:
    """A board 70 by 18 mm with a bevel of 45 degrees: 70 x 18 - 18 x 18 / 2 mm2 in section."""
    shown = solids(client, 1)
    (rail,) = [mesh for piece, mesh in shown if piece["role"] == "wood"]
    low, high = rail.bounds
    assert rail.volume / (high[0] - low[0]) == pytest.approx(70 * 18 - 18 * 18 / 2)
    assert (low[1], high[1]) == pytest.approx((-18.0, 0.0))
    parts = {piece["name"]: mesh for piece, mesh in shown if piece["role"] == "part"}
    assert {"hanger", "bolt"} < set(parts)
    board = manifold(rail)
    assert board.volume() > 0
    for name, mesh in parts.items():
        assert manifold(mesh).volume() > 0
        assert (board ^ manifold(mesh)).volume() < 1.0, name
    # a hanger hooks behind the bevel, and a bolt reaches under the board
    assert parts["hanger"].bounds[0][1] < -1.0
    assert parts["bolt"].bounds[0][1] < -1.0
    assert parts["bolt"].bounds[1][2] < high[2] - 18.0


def test_tools_leave_along_the_way_out_that_is_shown(client: TestClient) -> None:
    """Past its last move nothing of a tool is above, below or beside its holder any more."""
    for line in client.get("/api/holders").json()["holders"]:
        pieces = solids(client, line["number"])
        part = next(mesh for piece, mesh in pieces if piece["role"] == "part")
        for piece, mesh in pieces:
            if piece["role"] == "tool":
                gone = mesh.bounds + np.sum(piece["way_out_mm"], axis=0)
                assert gone[0][1] >= part.bounds[1][1] - 1e-3, piece["name"]


def test_a_size_is_the_sum_of_what_it_is_made_up_of(client: TestClient) -> None:
    for line in client.get("/api/holders").json()["holders"]:
        shown = client.get(f"/api/holders/{line['number']}").json()
        for seat in shown["seats"]:
            for one in seat["sums"]:
                parts = (float(one[name]) for name in ("measured", "play", "correction"))
                assert sum(parts) == pytest.approx(float(one["made"]), abs=0.02)


def test_what_was_chosen_by_hand_is_left_to_the_program_again(client: TestClient) -> None:
    """Oracle: the document and the holder as they were before anything was chosen."""
    before = client.get("/api/text").json()["text"] + SQUARE
    client.put("/api/text", json={"text": before})
    lines = client.get("/api/holders").json()["holders"]
    rows = [client.get(f"/api/holders/{one['number']}").json() for one in lines]
    assert [row["given"] for row in rows] == [[]] * len(rows)
    assert client.post("/api/holders/2/free").status_code == 422
    row, other = next(
        (row, one["name"]) for row in rows for one in row["families"] if one["state"] == "can"
    )
    tool = row["seats"][0]["tool"]
    table = {"tools": [tool], "family": other, "place": {"x": 200, "z": 300}}
    change = {"operation": "insert", "path": ["holder"], "value": table, "guarded": True}
    client.post("/api/changes", json={"changes": [change], "label": "by hand"})
    chosen = client.get("/api/holders/1", params={"tool": tool}).json()
    assert (chosen["family"], chosen["why"]) == (other, "chosen by the owner")
    assert chosen["given"] == ["its family", "its place"]
    freed = client.post("/api/holders/1/free", params={"tool": tool}).json()
    assert freed["undoes"] == f"{row['name']} left to the program"
    assert client.get("/api/text").json()["text"].strip() == before.strip()
    again = client.get("/api/holders/1", params={"tool": tool}).json()
    assert (again["family"], again["why"], again["given"]) == (row["family"], row["why"], [])
    assert client.post("/api/undo").json()["undoes"] == "by hand"


def test_what_else_a_wish_says_stays(client: TestClient) -> None:
    row = client.get("/api/holders/2").json()
    tool = row["seats"][0]["tool"]
    table = {"tools": [tool], "family": row["family"], "mount": "wall-screws", "params": {}}
    change = {"operation": "insert", "path": ["holder"], "value": table, "guarded": True}
    client.post("/api/changes", json={"changes": [change], "label": "by hand"})
    client.post("/api/holders/1/free", params={"tool": tool})
    assert client.get("/api/entries/holder/0").json() == {"tools": [tool], "mount": "wall-screws"}


def test_every_family_is_named_with_a_reason(client: TestClient) -> None:
    shown = client.get("/api/holders/2").json()
    assert {one["name"] for one in shown["families"]} == set(FAMILIES)
    assert [one["state"] for one in shown["families"]].count("used") == 1
    assert all(one["words"] for one in shown["families"] if one["state"] == "cannot")


def test_a_print_file_is_that_of_the_command_line(client: TestClient, folder: Path) -> None:
    made = make_workshop(folder, only=["parts"])
    for line in client.get("/api/holders").json()["holders"]:
        for kind in ("3mf", "stl"):
            found = client.get(f"/api/holders/{line['number']}/file", params={"kind": kind})
            name = found.headers["content-disposition"].split('"')[1]
            assert (made.folder / "parts" / name).read_bytes() == found.content


SECTION = "most loaded section of its plastic"


def test_the_sections_of_a_holder_are_checked_as_they_are_made(
    client: TestClient, folder: Path
) -> None:
    """Oracle: what the report of the command line says of each part."""
    job = compute(folder)
    marks = {made.mark: key for key, (_, made) in job.parts.items()}
    for line in client.get("/api/holders").json()["holders"]:
        shown = client.get(f"/api/holders/{line['number']}").json()
        (check,) = [one for one in shown["checks"] if one["name"] == SECTION]
        printed = job.production.by_key[marks[line["mark"]]]
        assert check["share"] == pytest.approx(printed.walls.share)
        assert check["note"] == f"with {printed.walls.count} lines a wall"


def test_what_the_program_made_just_right_makes_no_holder_tight(client: TestClient) -> None:
    """The least wall is 0.95 of 1 mm by design; a badge that every holder has says nothing."""
    lines = client.get("/api/holders").json()["holders"]
    checks = client.get("/api/holders/1").json()["checks"]
    (wall,) = [one for one in checks if one["name"] == "thinnest wall"]
    assert wall["share"] > 0.9
    assert wall["state"] == "holds"
    assert sum(one["state"] == "tight" for one in lines) < len(lines) / 2
    # what is asked by a load or a fit comes before what holds by design
    assert checks.index(wall) > [one["name"] for one in checks].index("carried")


def test_a_holder_whose_sections_bear_too_much_fails_in_the_list(
    client: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nothing else than the share of the section changes."""
    before = client.get("/api/holders").json()["holders"]
    assert {one["state"] for one in before} <= {"holds", "tight"}
    over = check_sections(Walls(3, 1.28))
    monkeypatch.setattr(rows, "sections_of", lambda *_: over)
    after = client.get("/api/holders").json()["holders"]
    assert {one["state"] for one in after} == {"fails"}
    first = client.get("/api/holders/1").json()["checks"][0]
    assert (first["name"], first["state"]) == (SECTION, "fails")
    assert "give its printer more walls" in first["note"]


def test_a_holder_that_is_not_there_is_refused(client: TestClient) -> None:
    found = client.get("/api/holders/99")
    assert found.status_code == 422
    assert "1, 2, 3" in found.json()["allowed"]


def test_a_holder_tells_that_it_hangs_and_what_hangs_where_it_changed(
    client: TestClient, folder: Path
) -> None:
    """Oracle: the ledger, and the marks of the parts."""
    first = client.get("/api/holders/1").json()
    assert first["hangs"] == ""
    make_workshop(folder)
    record_hung(folder)
    now = client.get("/api/holders/1").json()
    assert now["hangs"].startswith("It hangs so since ")
    path = folder / "workshop.toml"
    text = path.read_text(encoding="utf-8")
    client.put("/api/text", json={"text": text.replace("handle = 27,", "handle = 33,")})
    changed = client.get("/api/holders/1").json()
    assert changed["mark"] != first["mark"]
    assert changed["hangs"].startswith(f"Part {first['mark']} hangs in its place")
