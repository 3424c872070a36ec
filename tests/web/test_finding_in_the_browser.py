"""Everything is found by keys alone: tools, holders by number, mark and family, papers.

The oracle is which sheet is shown, and with what in hand.
"""

from __future__ import annotations

from playwright.sync_api import Locator, Page, expect
from tests.web.serving import Served

SOON = 180_000


def begin(page: Page) -> Locator:
    """Open the search by its keys, and return its field."""
    page.keyboard.press("Control+k")
    field = page.get_by_role("combobox", name="Find a tool")
    expect(field).to_be_focused(timeout=SOON)
    return field


def find(page: Page, text: str) -> None:
    field = begin(page)
    page.keyboard.type(text)
    expect(page.locator("#found-all").get_by_role("option").first).to_be_visible(timeout=SOON)
    page.keyboard.press("Enter")
    expect(field).to_have_count(0)


def test_all_is_found_by_keys_alone(page: Page, live: Served) -> None:
    heading = page.get_by_role("heading", level=1)
    expect(page.get_by_role("link", name="Holders 3")).to_be_visible(timeout=SOON)
    find(page, "ring floor")
    expect(heading).to_have_text("Holders", timeout=SOON)
    expect(page.get_by_role("heading", name="Oil spray")).to_be_visible(timeout=SOON)
    find(page, "comb pli")
    expect(page.get_by_role("heading", name="Combination pliers")).to_be_visible(timeout=SOON)
    page.evaluate("location.hash = 'tools'")
    begin(page)
    page.keyboard.type("awl")
    options = page.locator("#found-all").get_by_role("option")
    expect(options).to_have_count(2, timeout=SOON)
    page.keyboard.press("ArrowDown")
    expect(options.nth(1)).to_have_attribute("aria-selected", "true")
    page.keyboard.press("Enter")
    expect(page.get_by_label("A shank of Awl")).to_be_focused(timeout=SOON)
    page.evaluate("location.hash = 'make'")
    expect(page.locator("article.bed").first).to_be_visible(timeout=SOON)
    find(page, "what to buy")
    papers = page.get_by_role("region", name="Papers")
    expect(papers.get_by_role("columnheader", name="count")).to_be_visible(timeout=SOON)
    begin(page)
    page.keyboard.type("no such thing")
    expect(page.get_by_text('Nothing has "no such thing"')).to_be_visible(timeout=SOON)
    page.keyboard.press("Escape")
    expect(page.get_by_role("combobox", name="Find a tool")).to_have_count(0)
