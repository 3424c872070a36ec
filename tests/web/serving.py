"""A server on a free port with a workshop of its own, and a browser that may reach nothing else."""

from __future__ import annotations

import threading
import time
from collections.abc import Generator
from dataclasses import dataclass
from pathlib import Path

import uvicorn
from playwright.sync_api import Browser, Page

from cleatwright.base.stages.store import Store
from cleatwright.web.app import PAGES, make_app
from cleatwright.web.serving import listening_on
from cleatwright.web.session import Session

TOKEN = "the-token-of-this-test"  # noqa: S105 - of no use elsewhere
ARGUMENTS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--use-gl=angle",
    "--use-angle=swiftshader",
    "--enable-unsafe-swiftshader",
    "--hide-scrollbars",
)
SHED = Path(__file__).parent / "shed.toml"


@dataclass(frozen=True)
class Served:
    """A running server."""

    address: str
    folder: Path
    session: Session

    @property
    def text(self) -> str:
        """Return the document as it stands on the disk."""
        return (self.folder / "workshop.toml").read_text(encoding="utf-8")


def served(folder: Path | None) -> Generator[Served]:
    """Serve a workshop until the block is left."""
    assert (PAGES / "index.html").is_file(), "the pages are not built: run make"
    listening = listening_on(0)
    port = listening.getsockname()[1]
    session = Session(folder, store=Store())
    app = make_app(session, hosts=(f"127.0.0.1:{port}",), token=TOKEN)
    config = uvicorn.Config(app, log_level="warning", timeout_graceful_shutdown=1)
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.01)
    try:
        yield Served(f"http://127.0.0.1:{port}", folder or Path(), session)
    finally:
        session.close()
        server.should_exit = True
        thread.join(5)


def opened(
    browser: Browser, live: Served, *, width: int = 1440, height: int = 900, dark: bool = False
) -> Generator[Page]:
    """Open the page of a server; whatever goes wrong in it fails the test."""
    context = browser.new_context(
        viewport={"width": width, "height": height},
        base_url=live.address,
        reduced_motion="reduce",
        color_scheme="dark" if dark else "light",
    )
    strange: list[str] = []

    def own(route) -> None:  # noqa: ANN001 - a type of the library that it does not export
        url = route.request.url
        if url.startswith((live.address, "data:", "blob:")):
            route.continue_()
        else:
            strange.append(f"asked for {url}")
            route.abort()

    context.route("**/*", own)
    page = context.new_page()
    page.on("pageerror", lambda error: strange.append(str(error)))
    page.goto(f"/?k={TOKEN}")
    yield page
    context.close()
    assert not strange, strange
