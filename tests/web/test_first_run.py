"""The first run and what changes beside it, as a person meets them in a browser."""

from __future__ import annotations

import tomllib
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from playwright.sync_api import Browser, Page, Route, expect
from tests.web.serving import TOKEN, served

from cleatwright.workshop.document.store import load

if TYPE_CHECKING:
    from tests.web.conftest import Served


def test_a_workshop_is_set_out_with_the_keyboard_alone(first_page: Page, place: Path) -> None:
    page = first_page
    width = page.get_by_role("textbox", name="width")
    width.focus()
    for text in ("2600", "1500", "700", "left door frame", ""):
        page.keyboard.type(text)
        page.keyboard.press("Enter")
    expect(page.get_by_role("textbox", name="thickness")).to_be_focused()
    for _ in range(3):
        page.keyboard.press("Enter")
    expect(page.get_by_role("textbox", name="bed")).to_be_focused()
    page.keyboard.type("220 x 220 x 240")
    page.keyboard.press("Enter")
    page.keyboard.press("Enter")
    hammer = page.get_by_role("button", name="Hammer").first
    hammer.focus()
    page.keyboard.press("Enter")
    assert not place.exists()
    page.locator("header").get_by_role("button", name="Start the workshop").focus()
    page.keyboard.press("Enter")
    # the first measure of the first tool is in hand
    expect(page.locator("[data-cell-field]")).to_be_focused()
    workshop = load(place)
    assert (workshop.wall.width_mm, workshop.wall.height_mm) == (2600, 1500)
    assert [tool.kind for tool in workshop.tools] == ["hammer"]


def test_a_size_that_cannot_be_stays_and_says_what_can(first_page: Page, place: Path) -> None:
    width = first_page.get_by_role("textbox", name="width")
    width.fill("26")
    width.press("Enter")
    expect(first_page.get_by_text("26 mm is out of bounds. It can be from 100 mm")).to_be_visible()
    expect(width).to_have_value("26")
    first_page.get_by_role("button", name="Next: the rail").click()
    expect(width).to_be_focused()
    assert not place.exists()


def test_inches_are_a_switch_and_what_was_typed_keeps_its_unit(first_page: Page) -> None:
    width = first_page.get_by_role("textbox", name="width")
    width.fill("2600")
    first_page.get_by_role("button", name="In inches").click()
    expect(width).to_have_value("2600 mm")
    # 2600 mm over 25.4
    expect(first_page.locator("figure").get_by_text("102.362")).to_be_visible()


def test_an_example_opens_as_a_copy_in_a_folder_that_is_named(
    first_page: Page, tmp_path: Path
) -> None:
    first_page.get_by_role("button", name="Open a copy").first.click()
    first_page.get_by_label("Into the folder").fill(str(tmp_path / "look"))
    first_page.get_by_role("button", name="Copy it and open it").click()
    expect(first_page.get_by_role("heading", name="Tools", level=1)).to_be_visible()
    assert (tmp_path / "look" / "workshop.toml").is_file()


def test_a_folder_without_a_workshop_is_refused_beside_its_field(first_page: Page) -> None:
    first_page.get_by_role("textbox", name="The folder of a workshop").fill("/nowhere/at/all")
    first_page.get_by_role("button", name="Open it").click()
    expect(first_page.get_by_role("alert")).to_contain_text("There is no such file")


def test_keep_mine_and_keep_theirs_where_both_wrote(page: Page, live: Served) -> None:
    path = live.folder / "workshop.toml"

    def wall() -> dict[str, object]:
        return tomllib.loads(path.read_text("utf-8"))["wall"]

    page.get_by_role("button", name="settings").click()
    box = page.get_by_role("textbox", name="height", exact=True).first
    expect(box).not_to_have_value("")

    def between(route: Route, *, height: int) -> None:
        # both write while neither knows of the other: the page hears of it too late
        text = path.read_text("utf-8")
        path.write_text(text.replace(f"height = {wall()['height']}", f"height = {height}"), "utf-8")
        route.continue_()

    for keep, mine, theirs in (("Keep mine", 1111, 1222), ("Keep theirs", 1333, 1444)):
        page.route("**/api/settings/typed", partial(between, height=theirs))
        box.fill(str(mine))
        box.press("Enter")
        both = page.get_by_role("alert", name="Changed meanwhile")
        expect(both).to_contain_text(str(mine))
        expect(both).to_contain_text(str(theirs))
        page.unroute("**/api/settings/typed")
        both.get_by_role("button", name=keep).click()
        expect(both).to_have_count(0)
        wanted = mine if keep == "Keep mine" else theirs
        last = "wall height" if keep == "Keep mine" else "a change outside"
        expect(page.get_by_role("button", name=f"Undo: {last}")).to_be_visible()
        expect(box).to_have_value(str(wanted))
        assert wall()["height"] == wanted


def test_what_is_typed_stays_when_the_program_does_not_answer(page: Page) -> None:
    page.get_by_role("button", name="settings").click()
    box = page.get_by_role("textbox", name="height", exact=True).first
    page.route("**/api/settings/typed", lambda route: route.abort())
    box.fill("1234")
    box.press("Enter")
    expect(page.get_by_text("What you type is kept here").first).to_be_visible()
    expect(box).to_have_value("1234")
    page.unroute("**/api/settings/typed")
    box.press("Enter")
    expect(page.get_by_role("button", name="Undo: wall height")).to_be_visible()


def test_light_dark_and_large_are_kept_on_this_screen(page: Page) -> None:
    page.keyboard.press("?")
    page.get_by_role("radio", name="dark").check()
    page.get_by_role("checkbox", name="large").check()
    page.reload()
    root = page.locator("html")
    expect(root).to_have_attribute("data-theme", "dark")
    expect(root).to_have_attribute("data-large", "")


def test_light_dark_and_large_are_one_choice_for_every_port(
    chromium: Browser, live: Served, shed: Path
) -> None:
    """Another workshop beside has a port of its own; what is chosen there holds here too."""
    context = chromium.new_context(color_scheme="light")
    page = context.new_page()
    page.goto(f"{live.address}/?k={TOKEN}")
    page.keyboard.press("?")
    page.get_by_role("radio", name="dark").check()
    page.get_by_role("checkbox", name="large").check()
    for other in served(shed):
        assert other.address != live.address
        beside = context.new_page()
        beside.goto(f"{other.address}/?k={TOKEN}")
        root = beside.locator("html")
        expect(root).to_have_attribute("data-theme", "dark")
        expect(root).to_have_attribute("data-large", "")
        beside.keyboard.press("?")
        beside.get_by_role("radio", name="light").check()
        page.reload()
        expect(page.locator("html")).to_have_attribute("data-theme", "light")
    context.close()
