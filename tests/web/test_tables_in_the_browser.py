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
    page.keyboard.press("Control+z")
    expect(page.get_by_role("button", name="Filler", exact=True)).to_have_count(0, timeout=SOON)
    assert names(live) == first


def test_the_page_explains_the_columns_that_the_program_takes(page: Page, live: Served) -> None:
    page.get_by_role("button", name="Paste a table").first.click()
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
    expect(page.get_by_text("0 to 4000")).to_be_visible(timeout=SOON)
    assert tomllib.loads(live.text)["tool"][0]["highest_height"] == "1.6 m"
