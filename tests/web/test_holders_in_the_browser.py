"""The sheet Holders, and what every sheet says: chosen by hand and left to the program again.

The oracle is the document on the disk, and what stands on the page.
"""

from __future__ import annotations

import re
import tomllib

import pytest
from playwright.sync_api import Browser, Page, expect
from tests.web.serving import Served, opened

from cleatwright.base.units import length_mm

SOON = 60_000
# what two families can hold
SQUARE = """
[[tool]]
name = "Try square"
kind = "square"

[tool.measures]
blade_length = 150
blade_width = 38
blade_thickness = 1.8
stock_length = 115
stock_width = 24
stock_thickness = 18
"""


def holders_of(live: Served) -> list[dict[str, object]]:
    """Return the wishes for holders as they stand on the disk."""
    found: list[dict[str, object]] = tomllib.loads(live.text).get("holder", [])
    return found


def test_a_family_is_chosen_and_left_to_the_program_in_one_step(page: Page, live: Served) -> None:
    before = live.text + SQUARE
    live.session.workshop.replace_text(before, label="a square")
    live.session.tell_revision()
    page.evaluate("location.hash = 'holders'")
    page.get_by_role("button", name="Try square").click()
    expect(page.get_by_role("heading", name="Try square")).to_be_visible(timeout=SOON)
    expect(page.get_by_role("button", name="Let the program choose")).to_have_count(0)
    page.get_by_role("button", name="Use it").first.click()
    expect(page.get_by_text("chosen by the owner")).to_be_visible(timeout=SOON)
    assert holders_of(live)
    page.get_by_role("button", name="Let the program choose").click()
    expect(page.get_by_text("chosen by the owner")).to_have_count(0, timeout=SOON)
    assert live.text.strip() == before.strip()
    page.get_by_role("status").get_by_role("button", name="Undo").click()
    expect(page.get_by_text("chosen by the owner")).to_be_visible(timeout=SOON)


def test_no_page_shows_the_notation_of_the_document(page: Page, live: Served) -> None:
    """A form has a place for what the command line says as lines to write."""
    text = live.text.replace('name = "Oil spray"\nkind = "can"', 'name = "Oil spray"\nkind = "cam"')
    (live.folder / "workshop.toml").write_text(
        text + '\n[[holder]]\ntools = ["Awl"]\ncarrier = "none"\n', encoding="utf-8"
    )
    for sheet in ("tools", "holders", "wall", "make"):
        page.evaluate(f"location.hash = '{sheet}'")
        expect(page.get_by_role("heading", name=sheet.capitalize(), exact=True)).to_be_visible()
        page.wait_for_load_state("networkidle")
        assert "[[" not in page.locator("main").inner_text(), sheet
    page.get_by_role("button", name="settings").click()
    panel = page.get_by_role("complementary", name="Settings")
    expect(panel.get_by_role("heading", name="Obstacle")).to_be_visible(timeout=SOON)
    assert "[[" not in panel.inner_text()


def test_all_measures_of_a_tool_are_seen_on_a_tablet_and_no_key_is_cut(
    chromium: Browser, live: Served
) -> None:
    for page in opened(chromium, live, width=1024, height=768):
        page.get_by_role("button", name="Combination pliers", exact=True).click()
        for title in ("length", "head width", "gap", "thickness"):
            cell = page.locator("th", has_text=title).first
            expect(cell).to_be_visible()
        inside = """() => {
            const cell = document.querySelector('footer .keys');
            const box = cell.getBoundingClientRect();
            return [...cell.querySelectorAll('.key')].every((one) => {
                const own = one.getBoundingClientRect();
                const seen = own.top < box.bottom - 1;
                return !seen || own.right <= box.right + 1;
            });
        }"""
        assert page.evaluate(inside)
        assert page.evaluate("document.querySelector('main').scrollWidth") <= 1024


def test_sizes_are_typed_and_stepped_in_the_unit_of_the_workshop(
    chromium: Browser, live: Served
) -> None:
    """Oracle: the document, in which a bare number counts in inches; 1 in = 25.4 mm."""
    inches = live.text.replace('name = "Shed"', 'name = "Shed"\nunits = "in"')
    head, tools = inches.split("[wall]")
    plain = re.sub(r"(?<=[=\[,] )(\d+(?:\.\d+)?)(?=[,\s}\]])", r'"\1 mm"', tools)
    plain = plain.replace("[220", '["220 mm"').replace('"1270 mm"', "1270")
    inches = f"{head}[wall]{plain}".replace('"45 mm"\n\n[printer', "45\n\n[printer")
    live.session.workshop.replace_text(inches, label="inches")
    live.session.tell_revision()
    for page in opened(chromium, live):
        page.evaluate("location.hash = 'holders'")
        field = page.get_by_role("complementary").get_by_role("textbox").first
        expect(field).to_be_visible(timeout=SOON)
        low, high = (field.get_attribute("aria-label") or "").split(", ")[1].split(" to ")
        number = (float(low) + float(high)) / 2
        field.fill(f"{number:.3f}")
        field.press("Enter")
        expect(page.get_by_role("button", name="Back to the family's sizes")).to_be_visible(
            timeout=SOON
        )
        (wish,) = (one for one in holders_of(live) if "params" in one)
        params = wish["params"]
        assert isinstance(params, dict)
        (value,) = params.values()
        assert value == pytest.approx(number, abs=0.0006)
        expect(page.get_by_text("Allowed:")).to_have_count(0)
        page.evaluate("location.hash = 'wall'")
        expect(page.locator("footer .keys")).to_contain_text("1/16 in", timeout=SOON)
        expect(page.locator("footer .keys")).to_contain_text("1/2 in")
        thing = page.get_by_role("button", name="Combination pliers, ").first
        expect(thing).to_be_visible(timeout=SOON)
        thing.focus()
        thing.press("Shift+ArrowRight")
        thing.press("ArrowRight")
        given = page.get_by_text("given, kept")
        expect(given.first).to_be_visible(timeout=SOON)
        (place,) = (
            one["place"] for one in holders_of(live) if one.get("tools") == ["Combination pliers"]
        )
        assert isinstance(place, dict)
        sixteenths = 16 * length_mm(place["x"], unit="in") / 25.4
        assert sixteenths == pytest.approx(round(sixteenths), abs=1e-6)


def test_a_long_name_makes_no_page_wider_than_a_phone(chromium: Browser, live: Served) -> None:
    name = "Awl of my grandfather with a round handle of beech that was turned by hand"
    text = live.text.replace('name = "Awl"', f'name = "{name}"')
    live.session.workshop.replace_text(text, label="a long name")
    live.session.tell_revision()
    for page in opened(chromium, live, width=390, height=844):
        for sheet, there in (
            ("holders", "select"),
            ("wall", ".board .balloon"),
            ("tools", "tbody th"),
        ):
            page.evaluate(f"location.hash = '{sheet}'")
            expect(page.locator(there).first).to_be_visible(timeout=SOON)
            page.wait_for_load_state("networkidle")
            assert page.evaluate("document.querySelector('main').scrollWidth") <= 390, sheet


BLOCKED = """
[[holder]]
tools = ["Awl"]
family = "spring-clip"
"""
BRUSH = """
[[tool]]
name = "Glue brush"
kind = "paint-brush"

[tool.measures]
length = 230
handle_width = 20
handle_thickness = 9
width = 35
thickness = 12
hole = 6
hole_rim = 8
bristle_length = 45
ferrule_length = 30
"""


def shown_with(page: Page, live: Served, more: str) -> None:
    """Show the holders of a workshop to which something was added."""
    live.session.workshop.replace_text(live.text + more, label="more")
    live.session.tell_revision()
    page.evaluate("location.hash = 'holders'")


def test_a_family_that_holds_its_tool_no_more_is_left_to_the_program(
    page: Page, live: Served
) -> None:
    before = live.text
    shown_with(page, live, BLOCKED)
    fault = page.locator(".plate-bad", has_text='cannot hold "Awl"')
    expect(fault).to_be_visible(timeout=SOON)
    expect(page.get_by_role("navigation").get_by_text("2, 1 to mend")).to_be_visible(timeout=SOON)
    fault.get_by_role("button", name="Let the program choose").click()
    expect(fault).to_have_count(0, timeout=SOON)
    assert live.text.strip() == before.strip()
    expect(page.get_by_role("navigation").get_by_text("3, all hold")).to_be_visible(timeout=SOON)


def test_a_tool_that_nothing_can_hold_is_found_by_a_key_on_both_sheets(
    page: Page, live: Served
) -> None:
    shown_with(page, live, BRUSH)
    expect(page.locator(".plate-bad", has_text="no holder can take")).to_be_visible(timeout=SOON)
    page.keyboard.press("F8")
    field = page.get_by_label("A length of Glue brush")
    expect(field).to_be_focused(timeout=SOON)
    expect(page.locator("tr.fault", has_text="no holder can take")).to_be_visible()
    page.get_by_role("button", name="Awl", exact=True).click()
    page.keyboard.press("F8")
    expect(field).to_be_focused()


def test_a_mount_of_its_own_leaves_the_family_to_the_program(page: Page, live: Served) -> None:
    page.evaluate("location.hash = 'holders'")
    page.get_by_role("button", name="Awl").click()
    page.get_by_label("mount Hangers").select_option("wall-screws")
    expect(page.get_by_text("saved, revision 2")).to_be_visible(timeout=SOON)
    expect(page.get_by_text("chosen by the owner")).to_have_count(0)
    (wish,) = holders_of(live)
    assert wish == {"tools": ["Awl"], "mount": "wall-screws"}
