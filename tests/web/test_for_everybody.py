"""The pages for people who see, hear or move otherwise, on every width.

Oracle: axe-core, rules of WCAG 2.0 to 2.2 at the levels A and AA.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, expect
from tests.web.serving import Served, opened

AXE = Path(__file__).parents[2] / "web" / "node_modules" / "axe-core" / "axe.min.js"
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
SHEETS = {"tools": "Tools", "holders": "Holders", "wall": "Wall", "make": "Make"}
# what comes last on a sheet: before it is there, there is little to look at
LAST = {"tools": "table", "holders": "canvas", "wall": "g.balloon", "make": "article"}
# what the library still calls a trial, though it is a rule of WCAG 2.1: 2.5.3 Label in Name
MORE = {"label-content-name-mismatch": {"enabled": True}}


@pytest.mark.parametrize(("width", "height"), [(1440, 900), (1024, 768), (390, 844)])
@pytest.mark.parametrize("dark", [False, True])
def test_no_sheet_shuts_anybody_out(
    chromium: Browser, live: Served, width: int, height: int, dark: bool
) -> None:
    found: dict[str, Any] = {}
    for page in opened(chromium, live, width=width, height=height, dark=dark):
        for sheet, title in SHEETS.items():
            page.evaluate(f"location.hash = '{sheet}'")
            expect(page.get_by_role("heading", name=title, exact=True)).to_be_visible()
            expect(page.locator(f"main {LAST[sheet]}").first).to_be_attached(timeout=60_000)
            page.wait_for_timeout(700)
            page.evaluate(AXE.read_text(encoding="utf-8"))
            result = page.evaluate(
                "([values, rules]) => axe.run({runOnly: {type: 'tag', values}, rules})",
                [RULES, MORE],
            )
            for one in result["violations"]:
                nodes = [node["html"][:160] for node in one["nodes"]]
                found[f"{sheet}: {one['id']}"] = nodes
    assert not found, found


def test_no_sheet_scrolls_sideways_on_a_phone(chromium: Browser, live: Served) -> None:
    for page in opened(chromium, live, width=390, height=844):
        for sheet in SHEETS:
            page.evaluate(f"location.hash = '{sheet}'")
            page.wait_for_timeout(300)
            wide = page.evaluate("document.querySelector('main').scrollWidth")
            assert wide <= 390, (sheet, wide)
