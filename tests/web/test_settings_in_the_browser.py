"""The settings in a browser: rows that are alike stand in a table, and are changed there.

Oracles: the document on the disk, read by the standard library, and axe-core (WCAG 2.0 to 2.2,
levels A and AA).
"""

from __future__ import annotations

import tomllib
from typing import Any

from playwright.sync_api import Page, expect
from tests.web.serving import Served, shut_out

SOON = 60_000


def studs(live: Served) -> list[dict[str, Any]]:
    """Return the studs as they stand on the disk."""
    found: list[dict[str, Any]] = tomllib.loads(live.text)["wall"]["stud"]
    return found


def test_studs_are_lines_of_a_table_that_are_changed_added_and_taken_away(
    page: Page, live: Served
) -> None:
    page.get_by_role("button", name="settings").click()
    table = page.get_by_role("table", name="stud", exact=True)
    expect(table.get_by_role("row")).to_have_count(4, timeout=SOON)
    first = table.get_by_label("x of stud 1")
    first.fill("12 cm")
    first.press("Enter")
    expect(table.get_by_label("width of stud 1")).to_be_focused()
    expect(page.get_by_text("saved, revision 2")).to_be_visible(timeout=SOON)
    assert studs(live)[0] == {"x": "12 cm", "width": 45}
    first.fill("wide")
    first.press("Enter")
    expect(table.get_by_text("cannot be read as a length")).to_be_visible(timeout=SOON)
    first.press("Escape")
    table.get_by_role("button", name="Duplicate stud 3").click()
    new = table.get_by_label("x of the new stud")
    expect(new).to_be_focused()
    expect(new).to_have_value("1300")
    new.fill("1500")
    assert shut_out(page) == {}
    table.get_by_role("button", name="Add it").click()
    expect(table.get_by_label("x of stud 4")).to_have_value("1500", timeout=SOON)
    assert studs(live)[3] == {"x": 1500, "width": 45}
    table.get_by_role("button", name="Take away stud 4").click()
    expect(table.get_by_label("x of stud 4")).to_have_count(0, timeout=SOON)
    assert len(studs(live)) == 3
    page.keyboard.press("Control+z")
    expect(table.get_by_label("x of stud 4")).to_have_value("1500", timeout=SOON)


def test_a_row_that_was_typed_is_added_when_the_settings_are_closed(
    page: Page, live: Served
) -> None:
    page.get_by_role("button", name="settings").click()
    table = page.get_by_role("table", name="stud", exact=True)
    page.get_by_role("button", name="Add: stud").click(timeout=SOON)
    new = table.get_by_label("x of the new stud")
    table.get_by_label("width of the new stud").fill("60")
    close = page.get_by_role("button", name="Close Esc")
    close.click()
    # what is missing is said, and nothing is lost
    expect(table.get_by_role("alert")).to_contain_text("needed", timeout=SOON)
    assert len(studs(live)) == 3
    new.fill("1500")
    close.click()
    expect(close).to_have_count(0, timeout=SOON)
    assert studs(live)[3] == {"x": 1500, "width": 60}
    page.get_by_role("button", name="settings").click()
    page.get_by_role("button", name="Add: stud").click(timeout=SOON)
    new.fill("900.5")
    for field in (new, table.get_by_label("width of the new stud")):
        field.press("Enter")
    # its last field is a choice, and Enter in it adds the row as well
    page.keyboard.press("Enter")
    expect(table.get_by_label("x of stud 5")).to_have_value("900.5", timeout=SOON)
