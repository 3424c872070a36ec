"""The pages for people who see, hear or move otherwise, on every width, light and dark.

Oracle: axe-core, rules of WCAG 2.0 to 2.2 at the levels A and AA.
"""

from __future__ import annotations

from playwright.sync_api import Page, expect
from tests.web.serving import seen_as, shut_out

SHEETS = {"tools": "Tools", "holders": "Holders", "wall": "Wall", "make": "Make"}
# what comes last on a sheet: before it is there, there is little to look at
LAST = {"tools": "table", "holders": "canvas", "wall": "g.balloon", "make": "article"}


def test_no_sheet_shuts_anybody_out_or_scrolls_sideways(page: Page) -> None:
    found: dict[str, object] = {}
    for sheet, title in SHEETS.items():
        page.evaluate(f"location.hash = '{sheet}'")
        expect(page.get_by_role("heading", name=title, exact=True)).to_be_visible()
        expect(page.locator(f"main {LAST[sheet]}").first).to_be_attached(timeout=180_000)
        expect(page.get_by_role("progressbar")).to_have_count(0, timeout=180_000)
        page.wait_for_load_state("networkidle")
        for look, width in seen_as(page):
            if broken := shut_out(page):
                found[f"{sheet}, {look}"] = broken
            wide = page.evaluate("document.querySelector('main').scrollWidth")
            if wide > width:
                found[f"{sheet}, {look}: sideways"] = wide
    assert not found, found
