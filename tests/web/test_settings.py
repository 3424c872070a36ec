"""Settings in the browser: every key of the models has a field, and each edit is one change."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from cleatwright.base.stages.store import Store
from cleatwright.jobs.settings import ELSEWHERE
from cleatwright.web.app import make_api
from cleatwright.web.session import Session
from cleatwright.workshop.document.described import described, tables_of
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.sections import Sizes
from cleatwright.workshop.document.store import load


@pytest.fixture
def page(shed: Path) -> Iterator[TestClient]:
    session = Session(shed, store=Store())
    with TestClient(make_api(session)) as found:
        yield found
    session.close()


def fields(page: TestClient) -> dict[tuple[str | int, ...], dict[str, Any]]:
    tables = page.get("/api/settings").json()["tables"]
    return {tuple(one["path"]): one for table in tables for one in table["fields"]}


def take(page: TestClient, what: str, body: dict[str, Any]) -> dict[str, Any]:
    """Let the program make changes of what was typed, and make them; or return the refusal."""
    answer = page.post(f"/api/settings/{what}", json=body)
    if answer.status_code != 200:
        return answer.json()
    return page.post("/api/changes", json=answer.json()).json()


def type_in(
    page: TestClient, path: tuple[str | int, ...], text: str, **more: Any
) -> dict[str, Any]:
    was = fields(page).get(path, {}).get("raw")
    return take(page, "typed", {"path": path, "text": text, "was": was, **more})


def test_every_key_of_the_models_has_words() -> None:
    for model in {*tables_of(Workshop)}:
        for one in described(model):
            assert one.words, f"{model.__name__}.{one.key}"


def test_every_key_that_has_no_sheet_of_its_own_has_a_field(page: TestClient) -> None:
    shown = set(fields(page))
    for one in described(Workshop):
        if one.key in ELSEWHERE or one.inner is Sizes:
            continue
        if one.inner is None:
            assert (one.key,) in shown
        elif one.takes == "table":
            keys = {field.key for field in described(one.inner) if field.inner is None}
            assert {path[-1] for path in shown if path[0] == one.key and len(path) == 2} >= keys


def test_bounds_reasons_and_choices_come_from_the_models(page: TestClient) -> None:
    found = fields(page)
    thickness = found["rail", "thickness"]
    assert thickness["bounds"] == "9 to 50 mm"
    assert "splits" in thickness["why"]
    assert found["person", "hand"]["choices"] == ["right", "left", "either"]
    assert "french-cleat" in found["defaults", "mount"]["choices"]
    assert "dovetail" in found["defaults", "joint"]["choices"]


@pytest.mark.parametrize(
    ("path", "text", "value"),
    [
        (("wall", "width"), "8 ft", "8 ft"),
        (("wall", "width"), "2 700,5", "2 700,5"),
        (("wall", "width"), "2700,5", 2700.5),
        (("rail", "thickness"), "3/4 in", "3/4 in"),
        (("person", "stature"), "1,8 m", "1,8 m"),
        (("fit", "default"), "loose", "loose"),
        (("name",), "Barn", "Barn"),
        (("units",), "in", "in"),
    ],
)
def test_an_edit_is_one_change_and_one_step_of_undo(
    page: TestClient, shed: Path, path: tuple[str, ...], text: str, value: Any
) -> None:
    before = (shed / "workshop.toml").read_text("utf-8")
    answer = type_in(page, path, text)
    if text == "2 700,5":
        assert "cannot be read as a length" in answer["sentence"]
        return
    raw: Any = tomllib.loads((shed / "workshop.toml").read_text("utf-8"))
    for step in path:
        raw = raw[step]
    assert raw == value
    page.post("/api/undo")
    assert (shed / "workshop.toml").read_text("utf-8") == before


@pytest.mark.parametrize(
    ("path", "text", "words"),
    [
        (("wall", "width"), "26", "26 mm is out of bounds"),
        (("wall", "width"), "wide", "cannot be read as a length"),
        (("wall", "width"), "", "It is needed"),
        (("defaults", "mount"), "frensh-cleat", 'Did you mean "french-cleat"'),
        (("fit", "default"), "tight", "tight"),
        (("mount", "t-slot", "slot"), "900", "900 mm is out of bounds"),
        (("wall", "colour"), "red", "no such key"),
        (("tool", 0, "measures"), "x", "no such key"),
        (("tool", 0, "name"), "", "It is needed"),
        (("tool", 0, "count"), "-4", "from 1 to 200"),
        (("tool", 0, "count"), "1e9", "no whole number"),
    ],
)
def test_what_cannot_be_is_refused_and_nothing_is_written(
    page: TestClient, shed: Path, path: tuple[str | int, ...], text: str, words: str
) -> None:
    before = (shed / "workshop.toml").read_bytes()
    refused = page.post("/api/settings/typed", json={"path": path, "text": text})
    assert refused.status_code == 422
    assert words in refused.json()["sentence"]
    assert (shed / "workshop.toml").read_bytes() == before


def test_what_two_keys_are_at_odds_over_is_written_and_told_at_both(page: TestClient) -> None:
    assert "number" in type_in(page, ("fit", "snug"), "2")
    faults = page.get("/api/settings").json()["faults"]
    assert {tuple(path) for one in faults for path in one["paths"]} == {
        ("fit", "snug"),
        ("fit", "easy"),
        ("fit", "loose"),
    }
    type_in(page, ("fit", "snug"), "0,1")
    assert not page.get("/api/settings").json()["faults"]


def test_an_empty_field_takes_the_key_away_and_its_usual_value_holds(page: TestClient) -> None:
    type_in(page, ("person", "stature"), "1800")
    assert fields(page)["person", "stature"]["shown"] == "1800"
    type_in(page, ("person", "stature"), "")
    field = fields(page)["person", "stature"]
    assert (field["shown"], field["usual"]) == ("", "1750")


def test_rows_are_added_and_taken_away(page: TestClient, shed: Path) -> None:
    def raw() -> Any:
        return tomllib.loads((shed / "workshop.toml").read_text("utf-8"))

    before = raw()
    typed = {"path": ["printer"], "name": "attic", "typed": {"bed": "220 x 220 x 9 in"}}
    take(page, "added", typed)
    assert raw()["printer"]["attic"] == {"bed": [220, 220, "9 in"]}
    assert "attic" in fields(page)["defaults", "printer"]["choices"]
    again = take(page, "added", typed)
    assert "already" in again["sentence"]
    short = take(page, "added", typed | {"name": "b", "typed": {"bed": "220 x 220"}})
    assert "2 values and not 3" in short["sentence"]
    small = take(page, "added", typed | {"name": "b", "typed": {"bed": "220 x 220 x 9"}})
    assert "9 mm is out of bounds" in small["sentence"]
    board = {"path": ["rail", "stock"], "typed": {"name": "off-cut", "length": "2,4 m"}}
    take(page, "added", board)
    assert raw()["rail"]["stock"][-1] == {"name": "off-cut", "length": "2,4 m"}
    tom = {"name": "Tom", "child": "yes", "age": "6"}
    take(page, "added", {"path": ["other_person"], "typed": tom})
    assert raw()["other_person"] == [{"name": "Tom", "child": True, "age": 6}]
    assert "other_person Tom" in [
        one["title"] for one in page.get("/api/settings").json()["tables"]
    ]
    take(page, "removed", {"path": ["other_person", 0], "title": "other_person Tom"})
    number = len(raw()["rail"]["stock"]) - 1
    take(page, "removed", {"path": ["rail", "stock", number], "title": "off-cut"})
    take(page, "removed", {"path": ["printer", "attic"], "title": "attic"})
    assert raw() == before
    gone = page.post("/api/settings/removed", json={"path": ["wall", "width"], "title": "x"})
    assert gone.status_code == 422


def test_a_setting_that_changed_outside_is_not_written_over(page: TestClient, shed: Path) -> None:
    path = shed / "workshop.toml"
    was = fields(page)["wall", "width"]["raw"]
    made = page.post(
        "/api/settings/typed", json={"path": ["wall", "width"], "text": "2500", "was": was}
    ).json()
    text = path.read_text("utf-8")
    path.write_text(text.replace(f"width = {was}", "width = 2450", 1), "utf-8")
    refused = page.post("/api/changes", json=made)
    assert (refused.status_code, refused.json()["code"]) == (409, "changed-meanwhile")
    standing = page.post("/api/standing", json=made).json()
    assert standing == [{"raw": 2450, "shown": "2450"}]
    # "keep mine": the same change on the ground of what stands there
    made["changes"][0]["was"] = standing[0]["raw"]
    assert page.post("/api/changes", json=made).status_code == 200
    assert tomllib.loads(path.read_text("utf-8"))["wall"]["width"] == 2500


def test_what_was_measured_stays_what_it_is_in_another_unit(page: TestClient, shed: Path) -> None:
    before = load(shed)
    type_in(page, ("units",), "in")
    after = load(shed)
    assert (before.units, after.units) == ("mm", "in")
    assert after.wall.width_mm == before.wall.width_mm
    assert [one.measures.values for one in after.tools] == [
        one.measures.values for one in before.tools
    ]
    assert page.get("/api/state").json()["undoes"] == "counting in inches from now on"


def test_in_inches_bounds_and_usual_values_are_in_inches(page: TestClient) -> None:
    type_in(page, ("units",), "in")
    field = fields(page)["person", "stature"]
    # 700 and 2500 mm over 25.4 are 27.559 and 98.425 in; to 1/32 within: 27-9/16 and 98-13/32
    assert field["bounds"] == "27-9/16 to 98-13/32 in"
    assert field["unit"] == "in"
