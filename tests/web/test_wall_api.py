"""The wall over the interface: its plan, places that are given, and work that is stopped."""

from __future__ import annotations

import shutil
import time
import tomllib
from collections.abc import Generator
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient
from tests.a_move_needed import CAN, WALL
from tests.web.serving import STORE

from cleatwright.base.stages.store import Store
from cleatwright.jobs.wall_answers import arrange_walls
from cleatwright.web.app import make_api
from cleatwright.web.session import Session


@pytest.fixture
def client(folder: Path) -> Generator[TestClient]:
    session = Session(folder, store=STORE)
    with TestClient(make_api(session)) as found:
        yield found
    session.close()


def arranged(client: TestClient) -> dict[str, Any]:
    """Arrange the walls, wait, and return the main one."""
    work = ended(client)
    assert work["state"] == "done", work
    panel: dict[str, Any] = client.get("/api/walls").json()["panels"][0]
    return panel


def ended(client: TestClient) -> dict[str, Any]:
    """Arrange the walls, wait, and return how that ended."""
    begun = client.post("/api/walls", json={})
    assert begun.status_code == 200, begun.text
    # the first search of all waits for a compiler, half a minute on an idle machine
    until = time.monotonic() + 180.0
    while (work := client.get("/api/work/wall").json())["state"] == "running":
        assert time.monotonic() < until
        time.sleep(0.05)
    found: dict[str, Any] = work
    return found


def test_the_plan_is_that_of_the_command_line(client: TestClient, folder: Path) -> None:
    panel = arranged(client)
    (answer,) = arrange_walls(folder).panels
    assert panel["total"] == pytest.approx(answer.scores.total)
    by_name = {one.name: one.spot for one in answer.places}
    for one in panel["hung"]:
        spot = by_name[one["name"]]
        assert (one["x_mm"], one["z_mm"]) == pytest.approx((spot.x_mm, spot.z_mm))


def test_a_given_place_keeps_all_others_and_their_parts(client: TestClient, folder: Path) -> None:
    """Nothing is made anew because it was moved: the marks stay, and so do all other places."""
    before = arranged(client)
    marks = {one["name"]: one["mark"] for one in client.get("/api/holders").json()["holders"]}
    moved = next(one for one in before["hung"] if one["name"] == "Oil spray")
    free = max(one["box_mm"][1] for one in before["hung"]) + 60.0
    spot = {"key": moved["key"], "x_mm": free, "z_mm": moved["z_mm"]}
    found = client.post("/api/places", json={"places": [spot]})
    assert found.status_code == 200, found.text
    after = {one["name"]: one for one in arranged(client)["hung"]}
    for one in before["hung"]:
        now = after[one["name"]]
        at = free if one["name"] == "Oil spray" else one["x_mm"]
        assert (now["x_mm"], now["z_mm"]) == pytest.approx((at, one["z_mm"]), abs=0.01)
        assert now["given"]
    holders = client.get("/api/holders").json()["holders"]
    assert {one["name"]: one["mark"] for one in holders} == marks
    text = (folder / "workshop.toml").read_text(encoding="utf-8")
    assert "# The daily ones." in text
    client.post("/api/places/free", json={})
    kept = tomllib.loads((folder / "workshop.toml").read_text(encoding="utf-8"))
    assert not [one for one in kept["holder"] if "place" in one]


@pytest.mark.parametrize("example", ["bicycle-room", "joiners-bench"])
def test_keeping_a_whole_wall_as_it_is_makes_no_part_anew(
    tmp_path: Path, examples: Path, example: str
) -> None:
    """Every place of the plan written into the document gives the same wall from the same parts."""
    shutil.copy(examples / example / "workshop.toml", tmp_path)
    session = Session(tmp_path, store=STORE)
    with TestClient(make_api(session)) as client:
        before = arranged(client)
        holders = client.get("/api/holders").json()["holders"]
        marks = {one["name"]: one["mark"] for one in holders}
        one = next(one for one in before["hung"] if one["movable"])
        spot = {"key": one["key"], "x_mm": one["x_mm"], "z_mm": one["z_mm"]}
        assert client.post("/api/places", json={"places": [spot]}).status_code == 200
        after = arranged(client)
        now = {one["name"]: one["mark"] for one in client.get("/api/holders").json()["holders"]}
    session.close()
    assert now == marks
    assert after["total"] == pytest.approx(before["total"], abs=1.0)


@pytest.mark.parametrize("keep_others", [True, False])
def test_a_place_for_what_is_not_there_is_refused(client: TestClient, *, keep_others: bool) -> None:
    row = {"key": "nobody", "x_mm": 0.0, "z_mm": 0.0}
    got = client.post("/api/places", json={"places": [row], "keep_others": keep_others})
    assert 400 <= got.status_code < 500


def test_a_place_that_cannot_be_kept_changes_nothing(client: TestClient, folder: Path) -> None:
    panel = arranged(client)
    before = (folder / "workshop.toml").read_text(encoding="utf-8")
    one, other = panel["hung"][:2]
    spot = {"key": one["key"], "x_mm": other["x_mm"], "z_mm": other["z_mm"]}
    found = client.post("/api/places", json={"places": [spot]})
    assert found.status_code == 422
    assert one["name"] in found.json()["sentence"]
    strange = {"places": [spot | {"key": "nothing"}], "keep_others": False}
    assert client.post("/api/places", json=strange).status_code == 422
    assert (folder / "workshop.toml").read_text(encoding="utf-8") == before
    assert client.get("/api/state").json()["number"] == 1


def test_a_place_is_refused_beside_a_rail_that_stays_as_it_is_anywhere_else(
    client: TestClient, folder: Path
) -> None:
    """The plan would stop with it: nothing hangs on another thing, or beyond the wall."""
    path = folder / "workshop.toml"
    rail = "[[wall.rail]]\nx = 60\nz_top = 500\nlength = 1300\n\n[rail]\n"
    client.put("/api/text", json={"text": path.read_text("utf-8").replace("[rail]\n", rail)})
    one, other = arranged(client)["hung"][:2]
    before = path.read_text("utf-8")
    on = {"key": one["key"], "x_mm": other["x_mm"], "z_mm": other["z_mm"]}
    for spot, told in ((on, other["name"]), (on | {"x_mm": 99_999.0}, "edge of the wall")):
        found = client.post("/api/places", json={"places": [spot]})
        assert found.status_code == 422
        assert one["name"] in found.json()["sentence"]
        assert told in found.json()["sentence"]
    assert path.read_text("utf-8") == before


def test_what_cannot_be_read_is_refused_in_words(client: TestClient) -> None:
    found = client.post("/api/places", json={"places": [{"key": "1", "x_mm": None, "z_mm": 1}]})
    assert found.status_code == 422
    assert "x_mm" in found.json()["sentence"].replace(" ", "_")


def test_work_that_is_stopped_leaves_the_last_plan(tmp_path: Path, examples: Path) -> None:
    shutil.copy(examples / "bicycle-room" / "workshop.toml", tmp_path)
    # where nothing was computed before, there is something to stop
    session = Session(tmp_path, store=Store())
    with TestClient(make_api(session)) as client:
        client.post("/api/walls")
        begin = time.monotonic()
        while not client.get("/api/work/wall").json()["total"]:
            assert time.monotonic() - begin < 60.0
            time.sleep(0.02)
        begin = time.monotonic()
        client.post("/api/work/wall/stop")
        while client.get("/api/work/wall").json()["state"] == "running":
            assert time.monotonic() - begin < 10.0
            time.sleep(0.02)
        assert client.get("/api/work/wall").json()["state"] == "stopped"
        assert client.get("/api/walls").json() is None
        assert client.get("/api/tools").status_code == 200
    session.close()


def test_places_can_be_left_to_the_plan_where_they_cannot_be_kept(
    client: TestClient, folder: Path
) -> None:
    """Two holders in one place stop the plan, and are freed without one."""
    file = folder / "workshop.toml"
    place = 'family = "shoulder-rack"\nplace = { x = 300, z = 500 }\n'
    other = 'family = "straddle-bar"\nplace = { x = 300, z = 500 }\n'
    text = file.read_text(encoding="utf-8")
    text += f'\n[[holder]]\ntools = ["Awl"]\n{place}'
    text += f'\n[[holder]]\ntools = ["Combination pliers"]\n{other}'
    file.write_text(text, encoding="utf-8")
    client.get("/api/state")
    client.app.state.session.workshop.look()  # type: ignore[attr-defined]
    refused = client.post("/api/walls", json={})
    assert refused.status_code == 422
    assert "overlap" in refused.json()["sentence"]
    freed = client.post("/api/places/free", json={})
    assert freed.status_code == 200
    assert arranged(client)["hung"]


def test_a_wall_that_is_searched_longer_is_that_of_the_command_line(
    client: TestClient, folder: Path
) -> None:
    """How long is searched stands in the document, so that every reader comes to one plan."""
    arranged(client)
    assert client.post("/api/walls/longer").status_code == 200
    document = tomllib.loads((folder / "workshop.toml").read_text(encoding="utf-8"))
    assert document["defaults"]["effort"] == 2
    panel = arranged(client)
    (answer,) = arrange_walls(folder).panels
    assert panel["total"] == pytest.approx(answer.scores.total)
    spot = {key: panel["hung"][0][key] for key in ("key", "x_mm", "z_mm")}
    assert client.post("/api/places", json={"places": [spot]}).status_code == 200


def test_the_plan_of_another_workshop_is_not_shown(
    client: TestClient, tmp_path: Path, examples: Path
) -> None:
    arranged(client)
    other = tmp_path / "other"
    other.mkdir()
    shutil.copy(examples / "joiners-bench" / "workshop.toml", other)
    assert client.post("/api/setting-out/open", json={"folder": str(other)}).status_code == 200
    assert client.get("/api/walls").json() is None


def test_masonry_is_held_by_anchors_and_what_they_do_not_hold_is_said(
    folder: Path,
) -> None:
    """Oracles: bed joints by hand, 20 + 75 k below 380 mm, and the command line."""
    text = WALL.replace("tension_n = 3000\nshear_n = 2000\n", "").replace(
        'made_of = "brick"', 'made_of = "brick"\ncourse = 75\njoint_z = 95'
    )
    (folder / "workshop.toml").write_text(text + CAN, "utf-8")
    session = Session(folder, store=STORE)
    with TestClient(make_api(session)) as client:
        panel = arranged(client)
        made = client.post("/api/make").json()
        until = time.monotonic() + 60.0
        while made["work"]["state"] == "running":
            assert time.monotonic() < until
            time.sleep(0.05)
            made = client.get("/api/make").json()
    session.close()
    assert panel["joints_mm"] == [20.0, 95.0, 170.0, 245.0, 320.0]
    assert panel["fixed_by"] == "anchor"
    assert [one["holds"] for one in panel["rails"]] == [False]
    answer = arrange_walls(folder)
    assert len(panel["failing"]) == len(answer.failing) == 1
    sheet = made["sheet"]
    assert sheet["weak"] == "wall"
    assert sheet["failing"]
    anchors = sum(one["studs"] for one in panel["rails"])
    assert sheet["fixings"] == f"{anchors} anchors"


def test_a_wall_that_cannot_be_finished_is_shown_as_far_as_it_goes(
    client: TestClient, folder: Path
) -> None:
    """Beside the fault stands what found a place; when there is room again, all of it does."""
    path = folder / "workshop.toml"
    text = path.read_text("utf-8")
    small = text.replace("width = 1600\nheight = 1000", "width = 180\nheight = 400")
    for x in (700, 1300):
        small = small.replace(f"[[wall.stud]]\nx = {x}\nwidth = 45\n", "")
    small = small.replace("x = 100\nwidth = 45", "x = 32\nwidth = 20")
    small = small.replace("[[wall.stud]]", "[[wall.stud]]\nx = 148\nwidth = 20\n\n[[wall.stud]]", 1)
    all_of_it = {one["name"] for one in arranged(client)["hung"]}
    assert client.put("/api/text", json={"text": small}).status_code == 200
    work = ended(client)
    assert work["state"] == "failed"
    (fault,) = work["faults"]
    hung = {one["name"] for one in client.get("/api/walls").json()["panels"][0]["hung"]}
    assert hung
    left = {name for name in all_of_it if f'"{name}" finds no' in fault["sentence"]}
    assert left
    assert hung.isdisjoint(left)
    assert client.put("/api/text", json={"text": text}).status_code == 200
    assert {one["name"] for one in arranged(client)["hung"]} == all_of_it
