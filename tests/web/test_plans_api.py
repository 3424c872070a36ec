"""Another arrangement over the interface: looked for, stopped, seen beside, taken, left.

The oracle of what is shown is the plan that comes of taking it; that of the timber is the sum of
the rails of that plan.
"""

from __future__ import annotations

import time
import tomllib
from collections.abc import Generator
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient
from tests.web.serving import STORE

from cleatwright.jobs.making import make_workshop
from cleatwright.project.computing import compute
from cleatwright.web.app import make_api
from cleatwright.web.session import Session


@pytest.fixture
def client(folder: Path) -> Generator[TestClient]:
    session = Session(folder, store=STORE)
    with TestClient(make_api(session)) as found:
        yield found
    session.close()


def settled(client: TestClient, name: str) -> dict[str, Any]:
    """Wait until work has ended."""
    until = time.monotonic() + 120.0
    while (work := client.get(f"/api/work/{name}").json())["state"] == "running":
        assert time.monotonic() < until
        time.sleep(0.05)
    found: dict[str, Any] = work
    return found


def arranged(client: TestClient) -> dict[str, Any]:
    """Arrange the walls and return the main one."""
    assert client.post("/api/walls", json={}).status_code == 200
    assert settled(client, "wall")["state"] == "done"
    panel: dict[str, Any] = client.get("/api/walls").json()["panels"][0]
    return panel


def spots(panel: dict[str, Any]) -> dict[str, tuple[float, float]]:
    """Return where everything hangs, by name."""
    return {one["name"]: (one["x_mm"], one["z_mm"]) for one in panel["hung"]}


def test_what_is_shown_beside_is_what_comes_of_taking_it(client: TestClient) -> None:
    """Places, points and rails are those of the plan afterwards, and it is one step of undo."""
    before = arranged(client)
    text = client.app.state.session.workshop.now.text  # type: ignore[attr-defined]
    asked = {"wanted": "timber", "tries": 2}
    assert client.post("/api/again", json=asked).status_code == 200
    assert settled(client, "again")["state"] == "done"
    row = client.get("/api/again").json()
    two = row["two"]
    assert (row["tried"], row["asked"]["wanted"]) == (2, "timber")
    assert spots(two["now"]["panel"]) == spots(before)
    assert {one["name"] for one in two["moved"]} == {
        name
        for name, (x, z) in spots(two["other"]["panel"]).items()
        if max(abs(x - spots(before)[name][0]), abs(z - spots(before)[name][1])) > 0.5
    }
    assert two["other"]["rail_mm"] < two["now"]["rail_mm"]
    assert two["renewed"] == []
    taken = client.post("/api/again/take")
    assert taken.status_code == 200, taken.text
    after = arranged(client)
    shown = spots(two["other"]["panel"])
    for name, (x, z) in spots(after).items():
        assert (x, z) == pytest.approx(shown[name], abs=0.01)
    assert after["total"] == pytest.approx(two["other"]["panel"]["total"], abs=1e-6)
    lengths = sum(one["length_mm"] for one in after["rails"])
    assert lengths == pytest.approx(two["other"]["rail_mm"], abs=0.01)
    assert client.get("/api/again").json() is None
    client.post("/api/undo")
    assert client.app.state.session.workshop.now.text == text  # type: ignore[attr-defined]


def test_numbers_beside_are_those_of_now(client: TestClient) -> None:
    """A holder that gets a table of its own gets another number; beside it keeps the one of now."""
    before = arranged(client)
    client.post("/api/again", json={"wanted": "timber", "tries": 1})
    settled(client, "again")
    two = client.get("/api/again").json()["two"]
    for one in two["other"]["panel"]["hung"]:
        now = next(old for old in before["hung"] if old["name"] == one["name"])
        assert (one["key"], one["numbers"]) == (now["key"], now["numbers"])


def test_a_search_that_is_stopped_keeps_the_best_so_far(client: TestClient) -> None:
    arranged(client)
    client.post("/api/again", json={"tries": 40})
    until = time.monotonic() + 60.0
    while not (row := client.get("/api/again").json()) or row["two"] is None:
        assert time.monotonic() < until
        time.sleep(0.1)
    assert row["state"] == "running"
    assert client.get("/api/tools").status_code == 200
    client.post("/api/work/again/stop")
    assert settled(client, "again")["state"] == "stopped"
    kept = client.get("/api/again").json()
    assert kept["two"] is not None
    assert kept["tried"] < 40
    assert client.post("/api/again/take").status_code == 200


def test_a_search_that_is_dropped_leaves_everything(client: TestClient, folder: Path) -> None:
    arranged(client)
    before = (folder / "workshop.toml").read_bytes()
    client.post("/api/again", json={"tries": 2})
    assert client.post("/api/again/drop").status_code == 200
    assert client.get("/api/again").json() is None
    assert client.post("/api/again/take").status_code == 422
    assert (folder / "workshop.toml").read_bytes() == before


def test_a_given_place_stays_when_it_shall(client: TestClient, folder: Path) -> None:
    text = (folder / "workshop.toml").read_text(encoding="utf-8")
    text += '\n[[holder]]\ntools = ["Awl"]\nfamily = "shoulder-rack"\nplace = {x = 900, z = 500}\n'
    (folder / "workshop.toml").write_text(text, encoding="utf-8")
    client.app.state.session.workshop.look()  # type: ignore[attr-defined]
    arranged(client)
    client.post("/api/again", json={"tries": 1, "given_stays": True})
    settled(client, "again")
    two = client.get("/api/again").json()["two"]
    assert spots(two["other"]["panel"])["Awl"] == (900.0, 500.0)


def test_what_is_dropped_on_another_moves_only_what_it_must(
    client: TestClient, folder: Path
) -> None:
    """The place that was refused is taken, the one below goes elsewhere, the third stays."""
    panel = arranged(client)
    one, other, third = panel["hung"]
    spot = {"key": one["key"], "x_mm": other["x_mm"], "z_mm": other["z_mm"]}
    assert client.post("/api/places", json={"places": [spot]}).status_code == 422
    before = (folder / "workshop.toml").read_bytes()
    assert client.post("/api/room", json=spot).status_code == 200
    assert settled(client, "room")["state"] == "done"
    two = client.get("/api/room").json()["two"]
    assert (folder / "workshop.toml").read_bytes() == before
    assert third["name"] not in {moved["name"] for moved in two["moved"]}
    assert spots(two["other"]["panel"])[one["name"]] == pytest.approx(
        (other["x_mm"], other["z_mm"]), abs=0.01
    )
    assert two["other"]["failing"] == []
    assert client.post("/api/room/take").status_code == 200
    after = spots(arranged(client))
    assert after[one["name"]] == pytest.approx((other["x_mm"], other["z_mm"]), abs=0.01)
    assert after[third["name"]] == pytest.approx((third["x_mm"], third["z_mm"]), abs=0.01)
    assert "place" in str(tomllib.loads((folder / "workshop.toml").read_text("utf-8"))["holder"])
    client.post("/api/undo")
    assert (folder / "workshop.toml").read_bytes() == before


def test_where_nothing_can_be_made_room_the_reason_is_said(client: TestClient) -> None:
    panel = arranged(client)
    one = panel["hung"][0]
    spot = {"key": one["key"], "x_mm": 20_000.0, "z_mm": one["z_mm"]}
    client.post("/api/room", json=spot)
    work = settled(client, "room")
    assert work["state"] == "failed"
    assert "reaches beyond the edge of its wall" in work["faults"][0]["sentence"]
    assert client.post("/api/room/take").status_code == 422


def test_rails_that_hang_keep_their_names_beside_a_new_one(bicycle_room: Path) -> None:
    """Said to hang while the page is open: the plan of the page has the names of the papers.

    Oracle: the rails that ``compute`` gives to the papers.
    """
    session = Session(bicycle_room, store=STORE)
    with TestClient(make_api(session)) as client:
        before = arranged(client)
        make_workshop(bicycle_room, run=session.run())
        assert client.post("/api/hung", json={}).status_code == 200
        after = arranged(client)
        assert [one["name"] for one in after["rails"]] == [one["name"] for one in before["rails"]]
        assert all(one["hangs"] for one in after["rails"])
        one = next(one for one in after["hung"] if one["movable"] and one["rail"])
        there = {"key": one["key"], "x_mm": 1400.0, "z_mm": 1000.0}
        moved = client.post("/api/places", json={"places": [there]})
        assert moved.status_code == 200, moved.text
        shown = arranged(client)
        job = compute(bicycle_room)
        assert [(r["name"], r["hangs"]) for r in shown["rails"]] == [
            (rail.name, rail.stays) for rail in job.rails
        ]
        assert {r["name"] for r in shown["rails"] if r["hangs"]} == {
            r["name"] for r in before["rails"]
        }
        moved = next(hung for hung in shown["hung"] if hung["name"] == one["name"])
        assert moved["hangs_mm"] == pytest.approx([one["x_mm"], one["z_mm"]])
        assert "mm" in moved["way"]
        walls = client.get("/api/walls").json()
        steps = tuple(step.sentence for step in job.change_plan.steps)
        assert walls["change"]["steps"] == list(job.words.all(steps))
    session.close()
