"""Starting the server on a port of this computer, and opening the page."""

from __future__ import annotations

import contextlib
import secrets
import socket
import webbrowser
from collections.abc import Callable
from pathlib import Path

import uvicorn

from cleatwright.base.errors import OutputError
from cleatwright.jobs.recent import usual_recent
from cleatwright.project.shelf import usual_store
from cleatwright.web.app import PAGES, make_app
from cleatwright.web.arenas import share_arenas
from cleatwright.web.session import Session

HOST = "127.0.0.1"
NAMES = ("127.0.0.1", "localhost")
STOP_SECONDS = 2


def serve(
    folder: Path | None,
    *,
    port: int = 0,
    lan: str = "",
    show: bool = True,
    say: Callable[[str], None],
) -> None:
    """Serve the application until the person stops it.

    Args:
        folder: The workshop to open, one to start in, or None to choose in the browser.
        port: The port; any free one when 0.
        lan: The name or address of this computer in its network, to be asked by others in it
            who know the token; "" for this computer only.
        show: Whether to open the page in the browser.
        say: Says the address to the person.

    Raises:
        CleatwrightError: The workshop cannot be opened, or the port is taken.
    """
    if not PAGES.is_dir():
        raise OutputError(
            "the pages of the application are missing from this installation",
            todo="Install the program again; from a checkout, run make",
        )
    share_arenas()
    with listening_on(port, lan=lan) as listening:
        session = Session(folder, store=usual_store(), recent=usual_recent())
        number = listening.getsockname()[1]
        token = secrets.token_urlsafe(24)
        names = (*NAMES, lan) if lan else NAMES
        app = make_app(session, hosts=tuple(f"{name}:{number}" for name in names), token=token)
        config = uvicorn.Config(
            app,
            log_level="warning",
            timeout_graceful_shutdown=STOP_SECONDS,
            access_log=False,
            server_header=False,
        )
        address = f"http://{lan or HOST}:{number}/?k={token}"
        say(address)
        if show:
            webbrowser.open(address)
        try:
            # Ctrl-C is how it ends
            with contextlib.suppress(KeyboardInterrupt):
                uvicorn.Server(config).run(sockets=[listening])
        finally:
            session.close()


def listening_on(port: int, *, lan: str = "") -> socket.socket:
    """Return a socket on which the application may be asked; see ``serve``.

    Raises:
        OutputError: The port is taken.
    """
    # only where the protocol is named is an answer sent at once: otherwise its body waits 40 ms
    # for the page to say that it has the head
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind(("0.0.0.0" if lan else HOST, port))  # noqa: S104 - only when asked for
    except OSError as error:
        listening.close()
        raise OutputError(
            f"the port {port} cannot be used: {error.strerror}",
            todo="Name another one with --port, or none",
        ) from error
    return listening
