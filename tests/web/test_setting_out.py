"""Setting out in the browser: from nothing to an open workshop, checked by the program."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader
from starlette.testclient import TestClient

from cleatwright.base.stages.store import Store
from cleatwright.jobs.checking import check_workshop
from cleatwright.jobs.examples import example_folders
from cleatwright.jobs.recent import RecentFolders
from cleatwright.web.app import make_api
from cleatwright.web.session import Session
from cleatwright.workshop.document.store import load

WALL = {
    ("wall", "width"): "2600",
    ("wall", "height"): "1500",
    ("wall", "floor_gap"): "700",
    ("wall", "datum"): "left door frame",
}
REST = {
    ("rail", "thickness"): "18",
    ("rail", "height"): "70",
    ("rail", "bevel"): "45",
    ("printer", "first", "bed"): "220 x 220 x 240",
    ("filament", "first", "material"): "PETG",
}


@contextmanager
def client(folder: Path | None, recent: RecentFolders | None = None) -> Iterator[TestClient]:
    session = Session(folder, store=Store(), recent=recent)
    try:
        with TestClient(make_api(session)) as found:
            yield found
    finally:
        session.close()


def started(typed: dict[tuple[str, ...], str], **more: Any) -> dict[str, Any]:
    rows = [{"path": path, "text": text} for path, text in typed.items()]
    return {"name": "Shed", "unit": "mm", "typed": rows, **more}


def paths(answer: dict[str, Any]) -> set[tuple[str, ...]]:
    return {tuple(path) for fault in answer["faults"] for path in fault["paths"]}


def test_a_folder_without_a_workshop_is_offered_and_nothing_is_made(tmp_path: Path) -> None:
    place = tmp_path / "new" / "shed"
    with client(place) as page:
        assert page.get("/api/state").json() is None
        begin = page.get("/api/setting-out").json()
        assert begin["folder"] == str(place)
        assert "made when you start" in begin["words"]
    assert not place.parent.exists()


def test_the_four_steps_ask_for_what_a_first_print_needs(tmp_path: Path) -> None:
    with client(tmp_path) as page:
        steps = page.get("/api/setting-out?unit=in").json()["steps"]
    assert [one["name"] for one in steps] == ["wall", "rail", "printer"]
    wall = {one["path"][-1]: one for one in steps[0]["fields"]}
    assert [wall[key]["needed"] for key in ("width", "height", "floor_gap", "datum")] == [
        True,
        True,
        True,
        False,
    ]
    # 18 mm is 22.7 thirty-seconds of an inch, by arithmetic
    assert {one["path"][-1]: one["usual"] for one in steps[1]["fields"]}["thickness"] == "23/32"


def test_each_step_is_checked_by_the_program(tmp_path: Path) -> None:
    with client(tmp_path) as page:
        empty = page.post("/api/setting-out/check", json=started({})).json()
        assert ("wall", "width") in paths(empty)
        done = page.post("/api/setting-out/check", json=started(WALL)).json()
        assert not any(path[0] == "wall" for path in paths(done))
        wrong = WALL | REST | {("wall", "width"): "26000000", ("rail", "bevel"): "80"}
        told = page.post("/api/setting-out/check", json=started(wrong)).json()
        assert paths(told) == {("wall", "width"), ("rail", "bevel")}
        whole = page.post("/api/setting-out/check", json=started(WALL | REST)).json()
        assert not whole["faults"]


def test_the_wall_and_easy_reach_are_drawn_to_what_is_typed(tmp_path: Path) -> None:
    typed = {("wall", "width"): "8 ft", ("wall", "height"): "", ("person", "stature"): "1,8 m"}
    with client(tmp_path) as page:
        seen = page.post("/api/setting-out/check", json=started(typed)).json()["seen"]
    assert seen["width_mm"] == pytest.approx(8 * 304.8)
    assert seen["height_mm"] is None
    # Drillis and Contini, elbow and shoulder as shares of the stature (from memory)
    assert seen["easy_low_mm"] == pytest.approx(0.630 * 1800)
    assert seen["easy_high_mm"] == pytest.approx(0.818 * 1800)


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_what_was_set_out_is_written_opened_and_clean(tmp_path: Path, unit: str) -> None:
    typed = WALL | REST
    if unit == "in":
        inches = {"width": "8 ft 6", "height": "60", "floor_gap": "27 1/2"}
        typed = typed | {("wall", key): text for key, text in inches.items()}
        typed |= {("rail", "thickness"): "3/4", ("rail", "height"): "2 3/4"}
        typed |= {("printer", "first", "bed"): "8.5 x 8.5 x 9"}
        typed[("wall", "width")] = "102"
    place = tmp_path / "new" / "shed"
    with client(None) as page:
        body = {"folder": str(place), "started": started(typed, unit=unit, kind="hammer")}
        state = page.post("/api/setting-out/own", json=body).json()
        assert (state["name"], state["unit"], state["folder"]) == ("Shed", unit, str(place))
        assert page.get("/api/tools").json()["tools"] == 1
    text = (place / "workshop.toml").read_text("utf-8")
    raw = tomllib.loads(text)
    assert raw["schema"] == 1
    assert raw["tool"] == [{"name": "Hammer", "kind": "hammer"}]
    workshop = load(place)
    wanted = 2600 if unit == "mm" else 102 * 25.4
    assert workshop.wall.width_mm == pytest.approx(wanted)
    assert workshop.wall.datum == "left door frame"
    # every table is told what it is for
    assert text.count("\n# ") >= 8


def test_a_workshop_that_was_set_out_checks_clean_once_its_tool_is_measured(
    tmp_path: Path,
) -> None:
    with client(None) as page:
        body = {"folder": str(tmp_path / "shed"), "started": started(WALL | REST)}
        page.post("/api/setting-out/own", json=body)
        tool = {
            "name": "Screwdriver",
            "kind": "screwdriver",
            "measures": {"shank": 6, "shank_length": 100, "handle": 30, "handle_length": 105},
        }
        studs = [{"x": 300}, {"x": 900}, {"x": 1500}, {"x": 2100}]
        changes = [
            {"operation": "insert", "path": ["tool"], "value": tool},
            *({"operation": "insert", "path": ["wall", "stud"], "value": one} for one in studs),
        ]
        answer = page.post("/api/changes", json={"changes": changes, "label": "first tool"})
        assert answer.status_code == 200
    # a fault would be raised
    assert [one.tools for one in check_workshop(tmp_path / "shed").holders] == [1]


def test_nothing_is_written_over_and_nothing_is_half_started(tmp_path: Path) -> None:
    place = tmp_path / "shed"
    place.mkdir()
    with client(place) as page:
        body = {"folder": str(place), "started": started(WALL)}
        refused = page.post("/api/setting-out/own", json=body)
        assert refused.status_code == 422
        assert not list(place.iterdir())
        (place / "workshop.toml").write_text("# mine\n")
        body["started"] = started(WALL | REST)
        refused = page.post("/api/setting-out/own", json=body)
        assert "already a workshop" in refused.json()["sentence"]
        assert (place / "workshop.toml").read_text() == "# mine\n"


@pytest.mark.parametrize(
    ("folder", "words"),
    [
        ("", "No folder"),
        ("shed", "does not say where the folder is"),
        ("/no such place/at all", "There is no such file"),
    ],
)
def test_a_path_that_leads_to_no_workshop_is_refused_in_words(folder: str, words: str) -> None:
    with client(None) as page:
        refused = page.post("/api/setting-out/open", json={"folder": folder})
        assert refused.status_code == 422
        assert words in refused.json()["sentence"]
        assert page.get("/api/state").json() is None


def test_a_folder_is_looked_at_before_it_is_taken(tmp_path: Path, shed: Path) -> None:
    (tmp_path / "file").write_text("x")
    with client(None) as page:

        def look(folder: Path) -> tuple[bool, str]:
            told = page.post("/api/setting-out/folder", json={"folder": str(folder)}).json()
            return told["opens"], told["words"]

        assert look(shed) == (
            True,
            "A workshop stands in this folder already: open it, or name another folder.",
        )
        assert look(shed / "workshop.toml")[0]
        assert look(tmp_path) == (False, "The folder is there, and gets one file: workshop.toml.")
        assert look(tmp_path / "file") == (False, "This is a file, and no folder.")
        assert look(tmp_path / "x")[1].endswith("it is made when you start.")


@pytest.mark.parametrize("name", sorted(example_folders()))
def test_an_example_opens_as_a_copy(tmp_path: Path, examples: Path, name: str) -> None:
    place = tmp_path / "look round"
    with client(None) as page:
        listed = {one["name"]: one for one in page.get("/api/setting-out").json()["examples"]}
        raw = tomllib.loads((examples / name / "workshop.toml").read_text("utf-8"))
        assert listed[name]["title"] == raw["name"]
        assert len(listed[name]["studs_mm"]) == len(raw["wall"]["stud"])
        body = {"folder": str(place), "example": name}
        state = page.post("/api/setting-out/example", json=body).json()
        assert (state["name"], state["folder"]) == (raw["name"], str(place))
        again = page.post("/api/setting-out/example", json=body)
        assert "already a workshop" in again.json()["sentence"]
    written = (place / "workshop.toml").read_bytes()
    assert written == (examples / name / "workshop.toml").read_bytes()


def test_folders_that_were_opened_are_offered_again_the_last_one_first(
    tmp_path: Path, shed: Path
) -> None:
    recent = RecentFolders(tmp_path / "kept" / "recent.json")
    with client(shed, recent) as page:
        body = {"folder": str(tmp_path / "copy"), "example": "bicycle-room"}
        page.post("/api/setting-out/example", json=body)
        assert page.get("/api/setting-out").json()["recent"] == [str(tmp_path / "copy"), str(shed)]
        page.post("/api/setting-out/open", json={"folder": str(shed)})
    (tmp_path / "copy" / "workshop.toml").unlink()
    assert recent.folders() == (shed,)
    recent.file.write_text("{")  # type: ignore[union-attr] - it was given above
    assert recent.folders() == ()


def test_measuring_cards_come_as_pages_to_print(tmp_path: Path) -> None:
    with client(None) as page:
        answer = page.get("/api/setting-out/cards.pdf?kinds=hammer,chisel&unit=in")
        assert answer.headers["content-type"] == "application/pdf"
        file = tmp_path / "cards.pdf"
        file.write_bytes(answer.content)
        refused = page.get("/api/setting-out/cards.pdf?kinds=hamer")
        assert "hammer" in refused.json()["sentence"]
    pages = PdfReader(file).pages
    # ANSI/ASME Y14.1, size A: 8.5 x 11 in at 72 points (from memory)
    assert [round(float(side)) for side in pages[0].mediabox[2:]] == [612, 792]
