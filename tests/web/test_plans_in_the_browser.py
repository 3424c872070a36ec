"""Another arrangement in a browser: looked for, seen beside, taken; room made for what is dropped.

Oracles: the document on the disk, read by the standard library, and axe-core (WCAG 2.0 to 2.2,
levels A and AA).
"""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Generator
from itertools import combinations
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect
from tests.web.serving import Served, opened, seen_as, served, shut_out

SOON = 180_000


@pytest.fixture
def bicycles(bicycle_room: Path) -> Generator[Served]:
    """A server with the bicycle room."""
    yield from served(bicycle_room)


def wall(page: Page) -> None:
    """Go to the wall, and wait for it."""
    page.evaluate("location.hash = 'wall'")
    expect(page.locator(".balloon").first).to_be_visible(timeout=SOON)


def look_for(page: Page, wanted: str, tries: str) -> None:
    """Begin to look for another arrangement, and wait for the first."""
    page.get_by_role("button", name="Arrange again").click()
    page.get_by_role("radio", name=wanted).check()
    page.get_by_role("radio", name=tries).check()
    page.get_by_role("button", name="Begin").click()
    expect(page.get_by_role("button", name="Show both")).to_be_visible(timeout=SOON)


def until(page: Page, holds: Callable[[], bool]) -> None:
    """Wait until something holds outside the page."""
    for _ in range(300):
        if holds():
            return
        page.wait_for_timeout(100)
    assert holds()


def places(live: Served) -> list[object]:
    """Return the places that the document gives."""
    holders = tomllib.loads(live.text).get("holder", [])
    return [one["place"] for one in holders if "place" in one]


def all_shut_out(page: Page) -> dict[str, object]:
    """Return what shuts anybody out in any look of a page, none of which scrolls sideways."""
    found: dict[str, object] = {}
    for look, width in seen_as(page):
        assert page.evaluate("document.querySelector('main').scrollWidth") <= width, look
        if broken := shut_out(page):
            found[look] = broken
    return found


def test_the_best_so_far_is_kept_seen_beside_by_everybody_and_taken(
    chromium: Browser, bicycles: Served
) -> None:
    """While it goes on another sheet is looked at; it is stopped, taken as one step, and undone.

    It is looked for and taken on a wide screen, and seen beside on all.
    """
    first, given = bicycles.text, len(places(bicycles))
    for page in opened(chromium, bicycles):
        wall(page)
        look_for(page, "The least timber", "a long while")
        expect(page.get_by_text("You can go on working.")).to_be_visible()
        page.keyboard.press("Alt+1")
        expect(page.get_by_role("heading", name="Tools", exact=True)).to_be_visible()
        page.keyboard.press("Alt+3")
        page.get_by_role("button", name="Stop, keep the best").click()
        expect(page.get_by_text("of 40 tries.")).to_be_visible(timeout=SOON)
        assert bicycles.text == first
        page.get_by_role("button", name="Show both").click()
        expect(page.get_by_role("img", name="The wall as it is")).to_be_visible()
        expect(page.get_by_role("img", name="The other arrangement")).to_be_visible()
        rows = page.get_by_role("row")
        expect(rows.filter(has_text="points, fewer is better")).to_be_visible()
        now, other = (
            float(
                rows.filter(has=page.get_by_role("rowheader", name="rails", exact=True))
                .get_by_role("cell")
                .nth(n)
                .inner_text()
                .removesuffix(" m")
            )
            for n in (0, 1)
        )
        assert other < now
        assert not all_shut_out(page)
        page.get_by_role("main").get_by_role("button", name="Take the other").click()
        until(page, lambda: len(places(bicycles)) > given)
        expect(page.locator(".board")).to_be_visible()
        page.keyboard.press("Control+z")
        until(page, lambda: bicycles.text == first)


def test_room_is_made_for_what_is_dropped_on_another(page: Page, live: Served) -> None:
    """The drawing stays where it is while that is refused and offered; one step takes it back."""
    first = live.text
    wall(page)
    boxes = {}
    for name in ("Awl", "Oil spray"):
        box = page.get_by_role("button", name=f"{name}, ").first.locator(".ring").bounding_box()
        assert box is not None
        boxes[name] = (box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    board = page.locator(".board svg").first.bounding_box()
    page.mouse.move(*boxes["Awl"])
    page.mouse.down()
    page.mouse.move(boxes["Oil spray"][0] - 30, boxes["Oil spray"][1], steps=6)
    page.mouse.move(*boxes["Oil spray"], steps=4)
    page.mouse.up()
    offered = page.get_by_role("button", name="Put it here and move")
    expect(offered).to_be_visible(timeout=SOON)
    assert page.locator(".board svg").first.bounding_box() == board
    assert live.text == first
    offered.click()
    until(page, lambda: len(places(live)) == 3)
    expect(page.get_by_text("given, kept")).to_be_visible(timeout=SOON)
    page.keyboard.press("Control+z")
    until(page, lambda: live.text == first)


def test_what_is_refused_can_be_left(page: Page, live: Served) -> None:
    first = live.text
    wall(page)
    page.get_by_role("button", name="Oil spray, ").first.focus()
    field = page.get_by_role("textbox", name="from the left")
    field.fill("20000")
    field.press("Enter")
    expect(page.get_by_text("No room can be made for it there.")).to_be_visible(timeout=SOON)
    page.keyboard.press("Escape")
    expect(page.get_by_text("No room can be made")).to_have_count(0)
    assert live.text == first


def test_balloons_of_a_full_wall_lie_beside_each_other_on_a_phone(
    chromium: Browser, bicycles: Served
) -> None:
    for page in opened(chromium, bicycles, width=390, height=844):
        wall(page)
        boxes = [one.bounding_box() for one in page.locator(".board .balloon .ring").all()]
        found = [(b["x"], b["y"], b["width"], b["height"]) for b in boxes if b]
        assert len(found) == 20
        for (x0, y0, w0, h0), (x1, y1, w1, h1) in combinations(found, 2):
            apart = max(
                abs(x0 + w0 / 2 - x1 - w1 / 2) - (w0 + w1) / 2,
                abs(y0 + h0 / 2 - y1 - h1 / 2) - (h0 + h1) / 2,
            )
            # their outlines are 1.3 px wide
            assert apart > -1.4
