"""Takes the pictures of the browser application for docs/browser.md; it needs Chromium.

Run it after a change of the pages: ``python docs/screens.py``.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

ROOT = Path(__file__).parents[1]
sys.path.insert(0, str(ROOT))

from tests.web.serving import ARGUMENTS, TOKEN, served  # noqa: E402 - found by the line above

PICTURES = ROOT / "docs" / "pictures"
PATIENCE_MS = 120_000


def tools(page: Page) -> None:
    """Show a measure in hand."""
    page.get_by_role("button", name="Combination pliers", exact=True).click()
    for _ in range(5):
        page.keyboard.press("Enter")


def holders(page: Page) -> None:
    """Show a holder with its tools half-way out."""
    page.get_by_role("button", name="pliers", exact=False).first.click()
    page.keyboard.press("Space")


def wall(page: Page) -> None:
    """Show the wall with something chosen."""
    page.locator("g.balloon").nth(4).click(timeout=PATIENCE_MS)


def make(page: Page) -> None:
    """Show the beds."""
    page.get_by_role("heading", name="Batch 01").wait_for(timeout=PATIENCE_MS)


def main() -> None:
    """Take a picture of each sheet."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name) / "shared-workshop"
        folder.mkdir()
        shutil.copy(ROOT / "examples" / "shared-workshop" / "workshop.toml", folder)
        with sync_playwright() as started:
            browser = started.chromium.launch(
                executable_path=shutil.which("chromium"), args=list(ARGUMENTS)
            )
            for live in served(folder):
                context = browser.new_context(
                    viewport={"width": 1440, "height": 900}, reduced_motion="reduce"
                )
                page = context.new_page()
                page.goto(f"{live.address}/?k={TOKEN}")
                for show in (tools, holders, wall, make):
                    page.evaluate(f"location.hash = '{show.__name__}'")
                    page.wait_for_timeout(2500)
                    show(page)
                    page.wait_for_timeout(2500)
                    page.screenshot(path=PICTURES / f"browser-{show.__name__}.png")
            browser.close()


if __name__ == "__main__":
    main()
