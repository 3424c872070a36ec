"""What other programs write beside the page: it is taken over, told, and can be put back."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from cleatwright.base.stages.store import Store
from cleatwright.web.app import make_api
from cleatwright.web.session import Session


@pytest.fixture
def session(shed: Path) -> Iterator[Session]:
    found = Session(shed, store=Store())
    yield found
    found.close()


@pytest.fixture
def page(session: Session) -> Iterator[TestClient]:
    with TestClient(make_api(session)) as found:
        yield found


def edit(session: Session, *pairs: tuple[str, str]) -> None:
    """Write to the document as an editor does, and let the session look."""
    path = session.workshop.path
    text = path.read_text("utf-8")
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new, 1)
    path.write_text(text, "utf-8")
    session.workshop.look()


def test_a_change_outside_is_told_in_one_line_until_it_is_seen(
    page: TestClient, session: Session
) -> None:
    assert page.get("/api/state").json()["outside"] == ""
    first = tomllib.loads(session.workshop.now.text)["tool"][0]["name"]
    edit(session, (f'name = "{first}"', 'name = "Renamed"'))
    # one tool is gone and another there
    assert page.get("/api/state").json()["outside"] == "2 tools"
    assert len(page.get("/api/outside").json()["rows"]) == 2
    assert page.post("/api/outside/seen").json()["outside"] == ""
    assert page.get("/api/outside").json()["rows"] == []


def test_both_are_shown_and_each_can_be_put_back(page: TestClient, session: Session) -> None:
    before = tomllib.loads(session.workshop.now.text)
    width = before["wall"]["width"]
    edit(session, (f"width = {width}", "width = 2222"), ("name = ", "# a word\nname = "))
    (row,) = page.get("/api/outside").json()["rows"]
    assert (row["words"], row["before"], row["after"], row["still"]) == (
        "wall width",
        str(width),
        "2222",
        True,
    )
    body = {"changes": [row["back"]], "label": "put back"}
    assert page.post("/api/changes", json=body).status_code == 200
    assert tomllib.loads(session.workshop.now.text) == before
    assert "# a word" in session.workshop.now.text
    assert not page.get("/api/outside").json()["rows"][0]["still"]
    # it is one step of undo
    page.post("/api/undo")
    assert tomllib.loads(session.workshop.now.text)["wall"]["width"] == 2222


def test_a_tool_that_was_deleted_outside_comes_back_where_it_stood(
    page: TestClient, session: Session
) -> None:
    before = tomllib.loads(session.workshop.now.text)
    text = session.workshop.now.text
    starts = [at for at in range(len(text)) if text.startswith("[[tool]]", at)]
    session.workshop.path.write_text(text[: starts[1]] + text[starts[2] :], "utf-8")
    session.workshop.look()
    (row,) = page.get("/api/outside").json()["rows"]
    assert (row["words"], row["after"]) == (f"tool {before['tool'][1]['name']}", "")
    page.post("/api/changes", json={"changes": [row["back"]], "label": "put back"})
    assert tomllib.loads(session.workshop.now.text) == before


def test_comments_alone_are_told_as_such(page: TestClient, session: Session) -> None:
    edit(session, ("schema = 1", "schema = 1 # edition"))
    assert page.get("/api/state").json()["outside"] == "comments or order alone"


def test_a_file_that_is_no_toml_keeps_the_page_and_says_where(
    page: TestClient, session: Session
) -> None:
    kept = session.workshop.now.text
    tools = page.get("/api/tools").json()
    edit(session, ("schema = 1", "schema = = 1"))
    state = page.get("/api/state").json()
    line = kept[: kept.index("schema = 1")].count("\n") + 1
    assert not state["readable"]
    assert f"line {line}, column 10" in state["fault"]["sentence"]
    assert page.get("/api/tools").json() == tools
    change = {"operation": "set", "path": ["name"], "value": "x", "guarded": False}
    refused = page.post("/api/changes", json={"changes": [change], "label": "name"})
    assert refused.status_code == 422
    assert "schema = = 1" in session.workshop.path.read_text("utf-8")
    assert page.post("/api/outside/put-back").json()["readable"]
    assert session.workshop.path.read_text("utf-8") == kept


def test_every_page_is_told_of_what_happens_outside(page: TestClient, session: Session) -> None:
    with page.websocket_connect("/api/live") as socket:
        number = session.workshop.now.number
        path = session.workshop.path
        path.write_text(path.read_text("utf-8") + "# one word more\n", "utf-8")
        event = socket.receive_json()
        assert event["event"] == "revision"
        assert event["number"] > number
