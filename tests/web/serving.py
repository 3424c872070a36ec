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
# what one test computed is found by the next: a result is kept by all that it depends on
STORE = Store()
LOOKS = tuple(
    (width, height, dark)
    for width, height in ((1440, 900), (1024, 768), (390, 844))
    for dark in (False, True)
)
TWO_FRAMES = "() => new Promise(go => requestAnimationFrame(() => requestAnimationFrame(go)))"
AXE = Path(__file__).parents[2] / "web" / "node_modules" / "axe-core" / "axe.min.js"
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
# what the library still calls a trial, though it is a rule of WCAG 2.1: 2.5.3 Label in Name
MORE_RULES = {"label-content-name-mismatch": {"enabled": True}}


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
    session = Session(folder, store=STORE)
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


def seen_as(page: Page) -> Generator[tuple[str, int]]:
    """Show a page on screens of three widths, light and dark: what that is, and how wide."""
    for width, height, dark in LOOKS:
        page.set_viewport_size({"width": width, "height": height})
        page.emulate_media(color_scheme="dark" if dark else "light", reduced_motion="reduce")
        page.evaluate(TWO_FRAMES)
        yield f"{width}, {'dark' if dark else 'light'}", width


def shut_out(page: Page) -> dict[str, list[str]]:
    """Return the rules of WCAG 2.0 to 2.2, levels A and AA, that a page breaks, and where.

    Oracle: axe-core.
    """
    if not page.evaluate("'axe' in window"):
        page.evaluate(AXE.read_text(encoding="utf-8"))
    # of what is no violation it need not write down every place
    result = page.evaluate(
        "([values, rules]) => axe.run({runOnly: {type: 'tag', values}, rules,"
        " resultTypes: ['violations']})",
        [RULES, MORE_RULES],
    )
    return {
        one["id"]: [node["html"][:200] for node in one["nodes"]] for one in result["violations"]
    }
