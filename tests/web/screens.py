"""A picture of every screen of the browser application, for its page in the docs.

The shared workshop is shown as a person would have it in front of them; the first run is that of a
folder that is not there yet.
"""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from playwright.sync_api import Browser, Page, expect
from tests.web.serving import Served, opened, served

EXAMPLE = Path(__file__).parents[2] / "examples" / "shared-workshop" / "workshop.toml"
PATIENCE_MS = 180_000
# what is drawn after the last answer: a solid turned once, a number counted up
REST_MS = 1_500


@dataclass(frozen=True)
class Screen:
    """One picture: its file, how a person comes there, and on which screen.

    Args:
        name: The name of the file without its ending.
        show: What is done on the page after the sheet is open.
        sheet: The sheet on which it begins; none for the first run.
        size_px: Width and height of the screen.
        dark: Whether the computer has it dark.
    """

    name: str
    show: Callable[[Page], None]
    sheet: str = ""
    size_px: tuple[int, int] = (1440, 900)
    dark: bool = False

    @property
    def file(self) -> str:
        """Return the name of its file."""
        return f"browser-{self.name}.png"


def _first_run(page: Page) -> None:
    """Set out a wall as far as its size."""
    for name, text in (("width", "2600"), ("height", "1500")):
        field = page.get_by_role("textbox", name=name, exact=True)
        field.fill(text)
        field.press("Enter")


def _tools(page: Page) -> None:
    """Take a measure in hand."""
    page.get_by_role("button", name="Combination pliers", exact=True).click()
    for _ in range(5):
        page.keyboard.press("Enter")


def _holders(page: Page) -> None:
    """Choose a holder whose tools are half-way out."""
    page.get_by_role("button", name="pliers", exact=False).first.click(timeout=PATIENCE_MS)
    expect(page.locator("main canvas").first).to_be_visible(timeout=PATIENCE_MS)
    page.get_by_role("slider", name="How far the tool is on its way out").fill("0.5")


def _wall(page: Page) -> None:
    """Choose something on the wall."""
    page.locator("g.balloon").nth(2).click(timeout=PATIENCE_MS)


def _beside(page: Page) -> None:
    """Look for another arrangement, and see both."""
    expect(page.locator("g.balloon").first).to_be_visible(timeout=PATIENCE_MS)
    page.get_by_role("button", name="Arrange again").click()
    page.get_by_role("radio", name="The least timber").check()
    page.get_by_role("radio", name="a short while").check()
    page.get_by_role("button", name="Begin").click()
    page.get_by_role("button", name="Show both").wait_for(timeout=PATIENCE_MS)
    page.get_by_role("button", name="Stop, keep the best").click()
    page.get_by_text("of 4 tries.").wait_for(timeout=PATIENCE_MS)
    page.get_by_role("button", name="Show both").click()
    expect(page.get_by_role("img", name="The other arrangement")).to_be_visible()


def _make(page: Page) -> None:
    """Wait for the beds, whose pictures are asked for one after another."""
    page.get_by_role("heading", name="Batch 01").wait_for(timeout=PATIENCE_MS)
    last = page.locator("article.bed").last.locator("image")
    last.wait_for(state="attached", timeout=PATIENCE_MS)


def _at_the_wall(page: Page) -> None:
    """Make all files, and go to the steps at the wall."""
    _make(page)
    page.get_by_role("region", name="Papers").get_by_role("button", name="Make all files").click()
    page.get_by_role("button", name="At the wall, step by step").click(timeout=PATIENCE_MS)
    expect(page.get_by_role("region", name="At the wall")).to_be_visible()


def _settings(page: Page) -> None:
    """Open the settings beside the wall."""
    expect(page.locator("g.balloon").first).to_be_visible(timeout=PATIENCE_MS)
    page.get_by_role("button", name="settings").click()
    expect(page.get_by_role("textbox", name="height", exact=True).first).to_be_visible()


# in this order: a search stays on the wall, and what was made stays on the disk
SCREENS = (
    Screen("first-run", _first_run),
    Screen("tools", _tools, "tools"),
    Screen("holders", _holders, "holders"),
    Screen("wall", _wall, "wall"),
    Screen("wall-dark", _wall, "wall", dark=True),
    Screen("settings", _settings, "wall", dark=True),
    Screen("make", _make, "make"),
    Screen("two-arrangements", _beside, "wall"),
    Screen("at-the-wall", _at_the_wall, "make", size_px=(390, 844)),
)


def take_screens(
    browser: Browser, folder: Path, pictures: Path, *, workshop: Path = EXAMPLE
) -> None:
    """Take a picture of every screen.

    Args:
        browser: The browser.
        folder: An empty folder for the workshop; the settings show its name.
        pictures: The folder of the pictures.
        workshop: The document of what is shown.
    """
    at_work = folder / "shared-workshop"
    at_work.mkdir()
    shutil.copy(workshop, at_work / "workshop.toml")
    for place in (folder / "new-workshop", at_work):
        for live in served(place):
            for screen in SCREENS:
                if bool(screen.sheet) == place.is_dir():
                    _take(browser, live, screen, pictures=pictures)


def _take(browser: Browser, live: Served, screen: Screen, *, pictures: Path) -> None:
    for page in _on(browser, live, screen):
        if screen.sheet:
            page.evaluate(f"location.hash = '{screen.sheet}'")
            title = screen.sheet.capitalize()
            expect(page.get_by_role("heading", name=title, exact=True)).to_be_visible()
        screen.show(page)
        page.wait_for_timeout(REST_MS)
        page.screenshot(path=pictures / screen.file)


def _on(browser: Browser, live: Served, screen: Screen) -> Iterator[Page]:
    width, height = screen.size_px
    yield from opened(browser, live, width=width, height=height, dark=screen.dark)
