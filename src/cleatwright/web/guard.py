"""Who may ask: only the person who started the program, from the page that it gave.

Every request must name this computer as its host, must not come from a page of somebody else, and
must bear the token of this start. The token comes once in the address, goes into a cookie that no
script can read, and is taken out of the address.
"""

from __future__ import annotations

import hmac
from collections.abc import Iterable, Sequence
from urllib.parse import parse_qs

from starlette.requests import cookie_parser
from starlette.types import ASGIApp, Message, Receive, Scope, Send

COOKIE = "cleatwright-token"
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; "
    "img-src 'self' data: blob:; "
    "font-src 'self'; connect-src 'self'; frame-src 'self'; object-src 'none'; base-uri 'none'; "
    "form-action 'none'; frame-ancestors 'self'"
)
HEADERS = (
    (b"content-security-policy", POLICY.encode()),
    (b"x-content-type-options", b"nosniff"),
    (b"referrer-policy", b"no-referrer"),
    (b"cross-origin-opener-policy", b"same-origin"),
    (b"cross-origin-resource-policy", b"same-origin"),
)
OWN_SITES = frozenset({"same-origin", "none"})
MOST_BODY_BYTES = 12_000_000


class Guard:
    """Refuses whatever does not come from the person's own page.

    Args:
        app: What answers those that may ask.
        hosts: The names under which it may be asked, each with its port.
        token: The token of this start.
    """

    def __init__(self, app: ASGIApp, *, hosts: Sequence[str], token: str) -> None:
        self._app = app
        self._hosts = frozenset(hosts)
        self._token = token

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request, or refuse it."""
        if scope["type"] == "lifespan":
            await self._app(scope, receive, send)
            return
        headers = {
            name.decode("latin-1"): value.decode("latin-1") for name, value in scope["headers"]
        }
        refused = self._refused(scope, headers)
        if refused is not None:
            await _refuse(scope, send, *refused)
            return
        given = parse_qs(scope["query_string"].decode("latin-1")).get("k", [])
        if scope["type"] == "http" and given and self._known(given):
            await _redirect(send, scope["path"], f"{cookie_name(headers['host'])}={self._token}")
            return
        # what another program on this computer keeps comes along, and may be written in any way
        cookies = cookie_parser(headers.get("cookie", ""))
        held = [cookies.get(cookie_name(headers["host"]), "")]
        if not self._known(held):
            words = "Open the address that the program printed; it bears the token of this start."
            await _refuse(scope, send, 401, words)
            return

        async def guarded(message: Message) -> None:
            if message["type"] == "http.response.start":
                message["headers"] = [*message.get("headers", []), *HEADERS]
            await send(message)

        await self._app(scope, receive, guarded)

    def _refused(self, scope: Scope, headers: dict[str, str]) -> tuple[int, str] | None:
        """Return why a request is refused whatever its token is."""
        if headers.get("host", "") not in self._hosts:
            return 421, "This address is not that of the program."
        origin = headers.get("origin")
        if origin is not None and origin not in {f"http://{host}" for host in self._hosts}:
            return 403, "Another page may not ask."
        if scope["type"] == "websocket" and origin is None:
            return 403, "A page must say where it comes from."
        arriving = scope["type"] == "http" and scope["method"] == "GET" and scope["path"] == "/"
        site = headers.get("sec-fetch-site", "same-origin")
        if site not in OWN_SITES and not arriving:
            return 403, "Another page may not ask."
        if int(headers.get("content-length") or 0) > MOST_BODY_BYTES:
            return 413, f"No more than {MOST_BODY_BYTES} bytes are taken."
        return None

    def _known(self, given: Iterable[str]) -> bool:
        return any(hmac.compare_digest(one.encode(), self._token.encode()) for one in given)


def cookie_name(host: str) -> str:
    """Return the name of the cookie of a server: all ports of a computer share their cookies.

    >>> cookie_name("127.0.0.1:8123")
    'cleatwright-token-8123'
    """
    return f"{COOKIE}-{host.rpartition(':')[2]}"


async def _redirect(send: Send, path: str, held: str) -> None:
    headers = [
        (b"location", path.encode()),
        (b"set-cookie", f"{held}; HttpOnly; SameSite=Strict; Path=/".encode()),
        (b"cache-control", b"no-store"),
        *HEADERS,
    ]
    await send({"type": "http.response.start", "status": 303, "headers": headers})
    await send({"type": "http.response.body", "body": b""})


async def _refuse(scope: Scope, send: Send, status: int, words: str) -> None:
    if scope["type"] == "websocket":
        await send({"type": "websocket.close", "code": 1008, "reason": words})
        return
    headers = [(b"content-type", b"text/plain; charset=utf-8"), *HEADERS]
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": words.encode()})
