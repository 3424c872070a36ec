"""A tool that finds no place as all hangs, in a browser: plans are seen, one is chosen and made.

Oracles: the ledger and the files on the disk, and axe-core (WCAG 2.0 to 2.2, levels A and AA).
"""

from __future__ import annotations

import json
from collections.abc import Generator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect
from tests.a_move_needed import hung_store
from tests.web.serving import STORE, Served, opened, seen_as, served, shut_out

from cleatwright.base.stages.run import Run

SOON = 60_000


@pytest.fixture
def hanging(tmp_path: Path) -> Generator[Served]:
    """A server with the workshop of which the can hangs, with the rule in its document."""
    yield from served(hung_store(tmp_path / "store", Run(STORE)))


def plans(page: Page, sheet: str) -> None:
    """Go to a sheet, and wait for the plans."""
    page.evaluate(f"location.hash = '{sheet}'")
    expect(page.get_by_role("listitem", name="Plan moves")).to_be_visible(timeout=SOON)


def test_a_plan_is_seen_chosen_and_made(chromium: Browser, hanging: Served) -> None:
    for page in opened(chromium, hanging):
        plans(page, "make")
        fault = page.locator(".states .plate-bad").first
        expect(fault).to_contain_text('"Steel rule" finds no free place')
        expect(page.get_by_text("None of them is made unless it is chosen")).to_be_visible()
        for name in ("moves", "afresh"):
            expect(page.get_by_role("img", name=f"by the plan {name}")).to_be_visible()
        card = page.get_by_role("listitem", name="Plan moves")
        expect(card.get_by_text("Hangs elsewhere: Oil spray.")).to_be_visible()
        # the can as it hangs now, and the arrow to where it would be
        expect(card.locator("path.was.moves")).to_have_count(1)
        expect(card.locator("path.arrow")).to_have_count(1)
        expect(card.locator(".balloon.fresh")).to_have_text(["+2"])
        card.get_by_role("button", name="Choose the plan moves").click()
        expect(page.locator("article.bed").first).to_be_visible(timeout=SOON)
        expect(fault).to_have_count(0)
        page.evaluate("location.hash = 'wall'")
        expect(page.locator(".board .balloon")).to_have_count(2, timeout=SOON)
        page.evaluate("location.hash = 'make'")
        expect(page.locator("article.bed").first).to_be_visible(timeout=SOON)
        page.keyboard.press("p")
        expect(page.get_by_text("You see the plan")).to_have_count(0, timeout=SOON)
        expect(page.get_by_role("button", name="Show the plans")).to_be_visible(timeout=SOON)
        report: Any = json.loads((hanging.folder / "out" / "report.json").read_text("utf-8"))
        told = {one["name"]: one["what"] for one in report["moves"]}
        assert told == {"Oil spray": "moves", "Steel rule": "is new"}


def test_the_wall_shows_the_plans_too_and_nobody_is_shut_out(
    chromium: Browser, hanging: Served
) -> None:
    found: dict[str, object] = {}
    for page in opened(chromium, hanging):
        plans(page, "wall")
        page.get_by_role("button", name="Choose a plan", exact=True).click()
        expect(page.get_by_role("region", name="Plans to choose from")).to_be_focused()
        page.get_by_role("button", name="Choose the plan afresh").click()
        expect(page.locator(".board .balloon")).to_have_count(2, timeout=SOON)
        expect(page.get_by_text("You see the plan afresh")).to_be_visible()
        for look, width in seen_as(page):
            assert page.evaluate("document.querySelector('main').scrollWidth") <= width, look
            if broken := shut_out(page):
                found[look] = broken
        page.get_by_role("button", name="Leave it").click()
        expect(page.get_by_text("You see the plan")).to_have_count(0)
    assert not found, found
