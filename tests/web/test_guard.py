"""Attacks on the server: every way in but that of the person's own page is shut.

Sources: OWASP, Cross-Site Request Forgery Prevention and DNS rebinding (from memory); W3C, Fetch
Metadata Request Headers (from memory); RFC 9110, 15.5.20: 421 for a host that is not served.
"""

from __future__ import annotations

from collections.abc import Generator
from pathlib import Path

import pytest
from starlette.testclient import TestClient
from starlette.websockets import WebSocketDisconnect

from cleatwright.base.stages.store import Store
from cleatwright.web.app import make_app
from cleatwright.web.guard import MOST_BODY_BYTES, cookie_name
from cleatwright.web.session import Session

TOKEN = "the-token"  # noqa: S105 - of no use elsewhere
HOST = "127.0.0.1:8123"
OWN = f"http://{HOST}"
COOKIE = cookie_name(HOST)


@pytest.fixture
def client(folder: Path) -> Generator[TestClient]:
    """A client that has no token yet."""
    session = Session(folder, store=Store())
    app = make_app(session, hosts=(HOST, "localhost:8123"), token=TOKEN)
    with TestClient(app, base_url=OWN, follow_redirects=False) as found:
        yield found
    session.close()


@pytest.fixture
def let_in(client: TestClient) -> TestClient:
    """A client that came by the whole address."""
    client.get(f"/?k={TOKEN}")
    return client


def test_the_token_is_taken_out_of_the_address(client: TestClient) -> None:
    """It goes into a cookie that no script reads and no other site sends."""
    found = client.get(f"/?k={TOKEN}")
    assert found.status_code == 303
    assert found.headers["location"] == "/"
    cookie = found.headers["set-cookie"]
    assert f"{COOKIE}={TOKEN}" in cookie
    assert "HttpOnly" in cookie
    assert "SameSite=Strict" in cookie
    assert client.get("/api/state").status_code == 200


@pytest.mark.parametrize("path", ["/", "/api/state", "/api/tools", "/?k=wrong", "/assets/x.js"])
def test_nothing_is_given_without_the_token(client: TestClient, path: str) -> None:
    assert client.get(path).status_code == 401


def test_a_wrong_cookie_is_refused(client: TestClient) -> None:
    assert client.get("/api/state", headers={"cookie": f"{COOKIE}={TOKEN}x"}).status_code == 401


def test_two_workshops_are_open_beside_each_other(let_in: TestClient) -> None:
    """Cookies are those of the host, whatever the port (RFC 6265, 8.5, from memory)."""
    theirs = f"{cookie_name('127.0.0.1:9000')}=another; cleatwright-theme=dark"
    odd = '{"a": 1}; x=[1, "2"; =; b'
    for cookies, status in (
        (f"{theirs}; {odd}; {COOKIE}={TOKEN}", 200),
        (f"{COOKIE}={TOKEN}; {odd}; {theirs}", 200),
        (f"{odd}; {theirs}", 401),
        (f"{cookie_name('127.0.0.1:9000')}={TOKEN}", 401),
    ):
        let_in.cookies.clear()
        assert let_in.get("/api/state", headers={"cookie": cookies}).status_code == status, cookies


@pytest.mark.parametrize(
    "host", ["evil.example:8123", "127.0.0.1", "127.0.0.1:80", "", "[::1]:8123"]
)
def test_another_host_is_refused(let_in: TestClient, host: str) -> None:
    """A name that somebody else's server gives this address gets nothing (DNS rebinding)."""
    assert let_in.get("/api/state", headers={"host": host}).status_code == 421


@pytest.mark.parametrize("origin", ["http://evil.example", "null", "https://127.0.0.1:8123"])
def test_a_page_of_another_origin_is_refused(let_in: TestClient, origin: str) -> None:
    body = {"changes": [], "label": "x"}
    assert let_in.post("/api/changes", json=body, headers={"origin": origin}).status_code == 403


@pytest.mark.parametrize("site", ["cross-site", "same-site"])
def test_a_request_from_another_site_is_refused(let_in: TestClient, site: str) -> None:
    headers = {"sec-fetch-site": site}
    assert let_in.get("/api/state", headers=headers).status_code == 403
    assert let_in.post("/api/undo", headers=headers).status_code == 403


def test_a_link_from_another_page_may_open_the_page_itself(let_in: TestClient) -> None:
    """The address may be clicked in a mail; what it opens still needs the token."""
    assert let_in.get("/", headers={"sec-fetch-site": "cross-site"}).status_code == 200


def test_the_socket_is_shut_to_others(let_in: TestClient) -> None:
    evil = {"origin": "http://evil.example"}
    cookie = {"cookie": f"{COOKIE}={TOKEN}"}
    for strange in ({"host": HOST}, {**evil, "host": HOST}, {"origin": OWN, "host": "evil:1"}):
        headers = {**cookie, **strange}
        with (
            pytest.raises(WebSocketDisconnect),
            let_in.websocket_connect("/api/live", headers=headers),
        ):
            pass


def test_the_socket_is_shut_without_the_token(client: TestClient) -> None:
    with (
        pytest.raises(WebSocketDisconnect),
        client.websocket_connect("/api/live", headers={"origin": OWN, "host": HOST}),
    ):
        pass


def test_the_socket_is_open_to_the_own_page(let_in: TestClient) -> None:
    """It is told of the revision that a change makes."""
    headers = {"origin": OWN, "host": HOST, "cookie": f"{COOKIE}={TOKEN}"}
    with let_in.websocket_connect("/api/live", headers=headers) as socket:
        change = {"operation": "set", "path": ["name"], "value": "Hut", "was": "Shed"}
        let_in.post("/api/changes", json={"changes": [change], "label": "name"})
        assert socket.receive_json()["event"] == "revision"


def test_every_answer_has_a_strict_policy(let_in: TestClient) -> None:
    """No script from elsewhere, none written into the page, none made of text."""
    for path in ("/", "/api/state"):
        policy = let_in.get(path).headers["content-security-policy"]
        assert "default-src 'none'" in policy
        assert "script-src 'self';" in policy
        assert "unsafe-eval" not in policy
        assert "frame-ancestors 'self'" in policy


@pytest.mark.parametrize(
    "path",
    [
        "/../app.py",
        "/%2e%2e/app.py",
        "/..%2f..%2fpyproject.toml",
        "/assets/../../app.py",
        "/assets/%2e%2e/%2e%2e/guard.py",
        "//etc/passwd",
    ],
)
def test_no_path_leads_out_of_the_pages(let_in: TestClient, path: str) -> None:
    found = let_in.get(path)
    assert found.status_code in {403, 404}
    assert "import" not in found.text


def test_a_body_beyond_the_limit_is_refused(let_in: TestClient) -> None:
    headers = {"content-length": str(MOST_BODY_BYTES + 1)}
    assert let_in.put("/api/text", content=b"{}", headers=headers).status_code == 413


def test_nobody_is_told_how_the_interface_is_made(let_in: TestClient) -> None:
    for path in ("/docs", "/redoc", "/openapi.json"):
        assert let_in.get(path).status_code == 404
