"""Takes the pictures of the browser application for docs/browser.md; it needs Chromium.

Run it after a change of the pages: ``python docs/screens.py``. A test takes the same pictures and
holds them against the page.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import sync_playwright

ROOT = Path(__file__).parents[1]
sys.path.insert(0, str(ROOT))

from tests.web.screens import take_screens  # noqa: E402 - found by the line above
from tests.web.serving import ARGUMENTS  # noqa: E402

PICTURES = ROOT / "docs" / "pictures"
# the settings show it
FOLDER = Path(tempfile.gettempdir()) / "workshops"


def main() -> None:
    """Take a picture of each screen."""
    FOLDER.mkdir()
    try:
        with sync_playwright() as started:
            browser = started.chromium.launch(
                executable_path=shutil.which("chromium"), args=list(ARGUMENTS)
            )
            take_screens(browser, FOLDER, PICTURES)
            browser.close()
    finally:
        shutil.rmtree(FOLDER)


if __name__ == "__main__":
    main()
