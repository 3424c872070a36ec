"""Plans over the interface: found, seen, chosen and made.

Oracle: the command line's ``plans`` and ``make --plan`` in another copy of the folder.
"""

from __future__ import annotations

import json
import shutil
import time
from collections.abc import Generator
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient
from tests.a_move_needed import CAN, MIDDLE, WALL, hung_store
from tests.web.serving import STORE

from cleatwright.base.stages.run import Run
from cleatwright.jobs.making import make_workshop
from cleatwright.jobs.plans import plans
from cleatwright.project.going import Going
from cleatwright.web.app import make_api
from cleatwright.web.session import Session


@pytest.fixture
def store(tmp_path: Path) -> Path:
    """A workshop of which the can hangs, with the rule in its document."""
    return hung_store(tmp_path / "store", Run(STORE))


@pytest.fixture
def client(store: Path) -> Generator[TestClient]:
    session = Session(store, store=STORE)
    with TestClient(make_api(session)) as found:
        yield found
    session.close()


def settled(client: TestClient, path: str, name: str) -> Any:
    """Begin work, and return the row once it has ended."""
    assert client.post(path).status_code == 200
    until = time.monotonic() + 120.0
    while time.monotonic() < until:
        if client.get(f"/api/work/{name}").json()["state"] != "running":
            return client.get(path).json()
        time.sleep(0.02)
    raise AssertionError(name)


def test_the_plans_are_those_of_the_command_line_with_their_walls(
    client: TestClient, store: Path
) -> None:
    failed = settled(client, "/api/make", "make")
    assert failed["work"]["state"] == "failed"
    before = client.get("/api/choices").json()
    assert (before["offered"], before["due"], before["plans"]) == (True, True, [])
    shown = settled(client, "/api/choices", "plans")
    known = plans(store, run=Run(STORE))
    assert [one["name"] for one in shown["plans"]] == [one.far for one in known.plans]
    assert "None of them is made unless it is chosen" in shown["words"]
    for at, one in enumerate(shown["plans"]):
        told = [(line["what"], line["value"]) for line in one["lines"]]
        assert told == [(cells[0], cells[at + 1]) for cells in known.cells]
        ((wall,),) = (one["walls"],)
        by_name = {thing["name"]: thing for thing in wall["things"]}
        can, rule = by_name["Oil spray"], by_name["Steel rule"]
        assert (can["what"], rule["what"], rule["at_mm"]) == ("moves", "is new", None)
        (hung,) = (each for each in wall["panel"]["hung"] if each["name"] == "Oil spray")
        moved = (can["to_mm"][0] - can["at_mm"][0], can["to_mm"][1] - can["at_mm"][1])
        assert moved == pytest.approx((hung["x_mm"] - 290, hung["z_mm"] - 150))
        assert min(x for ring in can["was"] for x, _ in ring) == pytest.approx(290, abs=0.5)


def test_what_is_chosen_is_seen_and_made(client: TestClient, store: Path, tmp_path: Path) -> None:
    settled(client, "/api/choices", "plans")
    folder = Path(shutil.copytree(store, tmp_path / "by-command"))
    make_workshop(folder, going=Going(plan="afresh"), run=Run(STORE))
    wanted = json.loads((folder / "out" / "report.json").read_text("utf-8"))
    places = {one["name"]: one["place"]["x_mm"] for one in wanted["holders"]}
    chosen = client.post("/api/choices/choose", json={"plan": "afresh"}).json()
    assert chosen["chosen"] == "afresh"
    sheet = settled(client, "/api/make", "make")
    assert (sheet["plan"], sheet["stale"], sheet["work"]["state"]) == ("afresh", False, "done")
    walls = settled(client, "/api/walls", "wall")
    assert walls["plan"] == "afresh"
    (panel,) = walls["panels"]
    assert {one["name"]: one["x_mm"] for one in panel["hung"]} == places
    settled(client, "/api/make/files", "files")
    made = store / "out" / "wall" / "elevation.svg"
    assert made.read_bytes() == (folder / "out" / "wall" / "elevation.svg").read_bytes()
    # what was made is the usual plan from now on, and nothing is chosen any more
    after = settled(client, "/api/make", "make")
    assert (after["plan"], after["work"]["state"]) == (None, "done")
    since = after["sheet"]["since"]
    assert since["placed"]
    assert {one["what"] for one in since["parts"]} == {"as it was"}
    left = client.get("/api/choices").json()
    # it moves what hangs, but that is chosen already
    assert (left["chosen"], left["offered"], left["due"]) == (None, True, False)


def test_only_what_was_found_is_chosen_and_a_change_leaves_it(
    client: TestClient, store: Path
) -> None:
    assert client.post("/api/choices/choose", json={"plan": "moves"}).status_code == 422
    settled(client, "/api/choices", "plans")
    refused = client.post("/api/choices/choose", json={"plan": "little"})
    assert (refused.status_code, refused.json()["code"]) == (422, "unknown-name")
    assert client.post("/api/choices/choose", json={"plan": "moves"}).json()["chosen"] == "moves"
    settled(client, "/api/walls", "wall")
    assert client.post("/api/choices/choose", json={"plan": None}).json()["chosen"] is None
    assert client.post("/api/choices/choose", json={"plan": "moves"}).json()["chosen"] == "moves"
    change = {"operation": "set", "path": ["name"], "value": "Other", "guarded": False}
    answer = client.post("/api/changes", json={"changes": [change], "label": "the name"})
    assert answer.status_code == 200
    found = client.get("/api/choices").json()
    assert (found["chosen"], found["plans"]) == (None, [])


def test_where_there_is_just_one_way_it_is_said(client: TestClient, store: Path) -> None:
    (store / "workshop.toml").write_text(WALL + CAN + MIDDLE, "utf-8")
    session = Session(store, store=STORE)
    with TestClient(make_api(session)) as alone:
        shown = settled(alone, "/api/choices", "plans")
    session.close()
    assert [one["name"] for one in shown["plans"]] == ["little"]
    assert shown["words"] == "There is just one way; every other plan comes to the same."
    assert (shown["due"], shown["plans"][0]["walls"][0]["things"]) == (False, [])
