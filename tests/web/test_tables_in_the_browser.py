"""A table from a file in the browser: chosen, looked at, taken as one step.

Oracle: the document on the disk, read by the standard library.
"""

from __future__ import annotations

import tomllib
from pathlib import Path

import openpyxl
from playwright.sync_api import Page, expect
from tests.web.serving import Served

SOON = 180_000


def names(live: Served) -> list[str]:
    return [one["name"] for one in tomllib.loads(live.text)["tool"]]


def test_a_sheet_is_chosen_looked_at_and_taken(page: Page, live: Served, tmp_path: Path) -> None:
    made = openpyxl.Workbook()
    for row in (
        ("name", "kind", "diameter", "height"),
        ("Filler", "can", 66, 200),
        ("Tall", "can", 66, 9999),
    ):
        made.worksheets[0].append(row)
    file = tmp_path / "tools.xlsx"
    made.save(file)
    first = names(live)
    page.get_by_role("button", name="Paste a table").first.click()
    chosen = page.get_by_label("Choose a file")
    chosen.set_input_files({"name": "t.xlsx", "mimeType": "", "buffer": b"no sheet"})
    expect(page.get_by_role("alert")).to_contain_text("not a sound XLSX file", timeout=SOON)
    chosen.set_input_files(file)
    expect(page.get_by_role("listitem").filter(has_text="Tall")).to_contain_text("9999")
    assert names(live) == first
    expect(page.get_by_role("alert")).to_have_count(0)
    page.get_by_role("button", name="Add 1 tool").click()
    expect(page.get_by_role("button", name="Filler", exact=True)).to_be_visible(timeout=SOON)
    assert names(live) == [*first, "Filler"]
    # the line with a fault stays for mending
    kept = page.get_by_role("textbox", name="The table")
    expect(kept).to_have_value("name\tkind\tdiameter\theight\nTall\tcan\t66\t9999\n")
    expect(page.get_by_role("listitem").filter(has_text="Tall")).to_contain_text("9999")
    page.keyboard.press("Control+z")
    expect(page.get_by_role("button", name="Filler", exact=True)).to_have_count(0, timeout=SOON)
    assert names(live) == first


def test_the_page_explains_the_columns_that_the_program_takes(page: Page, live: Served) -> None:
    page.get_by_role("button", name="Paste a table").first.click()
    page.get_by_text("The kinds, each by").click()
    expect(page.get_by_role("term").filter(has_text="screwdriver")).to_be_visible()
    page.get_by_text("The kinds, each by").click()
    page.get_by_text("Its columns: name (needed), kind (needed), count").click()
    expect(page.get_by_role("definition").first).to_be_visible()
    expect(page.get_by_role("definition")).to_have_count(9)


def test_how_high_a_tool_may_hang_is_written_in_its_form(page: Page, live: Served) -> None:
    page.get_by_role("button", name="Awl", exact=True).click()
    page.get_by_text("More of it").click()
    field = page.get_by_role("textbox", name="highest height")
    field.fill("1.6 m")
    field.press("Enter")
    expect(page.get_by_text("More of it: highest height 1.6 m")).to_be_visible(timeout=SOON)
    assert tomllib.loads(live.text)["tool"][0]["highest_height"] == "1.6 m"
    field.fill("9 m")
    field.press("Enter")
    expect(page.get_by_text("0 mm to 4000 mm").first).to_be_visible(timeout=SOON)
    assert tomllib.loads(live.text)["tool"][0]["highest_height"] == "1.6 m"


def test_what_a_tool_cannot_be_is_refused_at_its_field(page: Page, live: Served) -> None:
    page.get_by_role("button", name="Awl", exact=True).click()
    before = live.text
    for label, text, told in (
        ("equal ones", "-4", "from 1 to 200"),
        ("equal ones", "1e9", "no whole number"),
        ("name", "", "It is needed"),
        ("name", "Oil spray", "used twice"),
    ):
        field = page.get_by_role("textbox", name=label, exact=False)
        field.fill(text)
        field.press("Enter")
        expect(page.get_by_role("alert")).to_contain_text(told, timeout=SOON)
        assert live.text == before
        field.press("Escape")
    field = page.get_by_role("textbox", name="equal ones")
    field.fill("3")
    field.press("Enter")
    expect(page.get_by_text("3 equal")).to_be_visible(timeout=SOON)
    assert tomllib.loads(live.text)["tool"][0]["count"] == 3
