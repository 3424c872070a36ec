"""The sheet Make in a browser: made, found again by a mark, hung, and open to everybody.

Oracles: the folder on the disk, the ledger, and axe-core (WCAG 2.0 to 2.2, levels A and AA).
"""

from __future__ import annotations

import re
from pathlib import Path

from playwright.sync_api import APIResponse, Browser, Page, Route, expect
from tests.a_move_needed import CAN, WALL
from tests.web.serving import TWO_FRAMES, Served, opened, seen_as, served, shut_out

from cleatwright.jobs.hung import hung_now
from cleatwright.jobs.making import make_workshop
from cleatwright.jobs.part_states import parts_now
from cleatwright.jobs.since_made import last_report

SOON = 180_000


def worked_out(page: Page) -> None:
    """Go to the sheet, and wait for beds and for what is new."""
    page.evaluate("location.hash = 'make'")
    expect(page.locator("article.bed").first).to_be_visible(timeout=SOON)
    expect(page.get_by_role("progressbar")).to_have_count(0, timeout=SOON)


def written(page: Page) -> None:
    page.keyboard.press("p")
    expect(page.get_by_text("Nothing changed.")).to_be_visible(timeout=SOON)


def test_all_is_made_and_said_to_hang_by_keys_and_a_click(page: Page, live: Served) -> None:
    worked_out(page)
    expect(page.get_by_role("button", name="Make all files P")).to_be_visible()
    assert not (live.folder / "out").exists()
    written(page)
    assert (live.folder / "out" / "manifest.json").is_file()
    expect(page.get_by_role("link", name="Make 1 bed")).to_contain_text("made")
    page.keyboard.press("h")
    # what hangs is seen before the page has the revision that this made
    held = [True]
    late: list[Route] = []

    def keep(route: Route) -> None:
        if held:
            late.append(route)
        else:
            route.continue_()

    page.route("**/api/state", keep)
    with page.expect_request("**/api/state", timeout=SOON):
        page.get_by_role("button", name="All of it hangs").click()
    expect(page.get_by_text("3 of 3", exact=True)).to_be_visible(timeout=SOON)
    assert len(hung_now(live.folder).hung.holders) == 3
    page.keyboard.press("Control+z")
    held.clear()
    for one in late:
        one.continue_()
    expect(page.get_by_text("0 of 3", exact=True)).to_be_visible(timeout=SOON)
    assert not hung_now(live.folder).hung


def test_a_bed_is_printed_a_part_hangs_breaks_and_is_printed_again(
    page: Page, live: Served
) -> None:
    worked_out(page)
    expect(page.get_by_role("button", name="It is printed")).to_have_count(0)
    written(page)
    page.get_by_role("button", name="It is printed").click()
    expect(page.get_by_text("Nothing is to be printed")).to_be_visible(timeout=SOON)
    page.get_by_role("button", name="Rail by rail, one by one").click()
    page.get_by_role("button", name="Awl (1): It hangs").click()
    expect(page.locator("strong", has_text="1 of 3")).to_be_visible(timeout=SOON)
    page.get_by_role("button", name="Awl (1): It broke").click()
    expect(page.get_by_text("1 broke: take the tools off")).to_be_visible(timeout=SOON)
    expect(page.locator("article.bed button.balloon")).to_have_text(["1"], timeout=SOON)
    parts = {one.label: one.state for one in parts_now(live.folder).parts}
    assert parts.pop("1") == "broken"
    # its hangers and its bolt are as good as before
    assert {parts.pop(label) for label in list(parts) if label.startswith("1.")} == {"hanging"}
    assert {"2", "3"} < set(parts)
    assert set(parts.values()) == {"printed"}
    page.get_by_role("button", name="Awl (1): A new one is printed").click()
    expect(page.get_by_text("Nothing is to be printed")).to_be_visible(timeout=SOON)
    page.get_by_role("status").get_by_role("button", name="Undo").click()
    expect(page.locator("article.bed button.balloon")).to_have_text(["1"], timeout=SOON)


def test_an_answer_that_comes_late_takes_no_newer_one_away(page: Page, live: Served) -> None:
    worked_out(page)
    held: list[tuple[Route, APIResponse]] = []

    def late(route: Route) -> None:
        if route.request.method == "POST" and not held:
            held.append((route, route.fetch()))
        else:
            route.continue_()

    page.route(re.compile(r"/api/make(\?again=\w+)?$"), late)
    page.keyboard.press("p")
    # the work that the answer tells of as begun is done, and the page has what came of it
    expect(page.get_by_text("Nothing changed.")).to_be_visible(timeout=SOON)
    printed = page.get_by_role("button", name="It is printed")
    expect(printed).to_have_count(1, timeout=SOON)
    assert held
    with page.expect_response(re.compile(r"/api/make\?again=false$"), timeout=SOON):
        held[0][0].fulfill(response=held[0][1])
    page.evaluate(TWO_FRAMES)
    expect(printed).to_have_count(1)
    expect(page.get_by_role("progressbar")).to_have_count(0)


def test_a_mark_is_typed_and_its_part_found_or_what_is_allowed(page: Page) -> None:
    worked_out(page)
    written(page)
    mark = page.locator("article.bed button.balloon").first.get_attribute("title") or ""
    page.keyboard.press("/")
    page.keyboard.type(mark.rsplit("(", 1)[1].rstrip(")").lower())
    page.keyboard.press("Enter")
    expect(page.get_by_text("The same bytes as when it was made.")).to_be_visible(timeout=SOON)
    with page.expect_download() as saved:
        page.locator(".found").get_by_role("link", name="3MF").click()
    assert saved.value.suggested_filename.endswith(".3mf")
    page.fill("#mark", "ABC")
    page.keyboard.press("Enter")
    expect(page.locator("#mark-fault")).to_contain_text("seven letters and digits, as on the part")


def test_what_is_shown_stays_while_it_is_done_again(page: Page, live: Served) -> None:
    worked_out(page)
    written(page)
    live.session.workshop.replace_text(live.text.replace("gap = 9.5", "gap = 8"), label="gap")
    live.session.tell_revision()
    expect(page.locator(".work.stale article.bed").first).to_be_visible(timeout=SOON)
    expect(page.get_by_text("1 to make again")).to_be_visible(timeout=SOON)
    expect(page.locator(".stale")).to_have_count(0, timeout=SOON)


def test_papers_are_shown_in_place(page: Page) -> None:
    worked_out(page)
    papers = page.get_by_role("region", name="Papers")
    first = re.compile(r"^Elevation of the wall(, sheet 1 of \d)?( SVG)?$")
    papers.get_by_role("button", name=first).click()
    image = papers.get_by_role("img", name=first)
    expect(image).to_be_visible()
    # decoded: a picture that cannot be drawn is a fault of the page
    image.evaluate("one => one.decode()")
    assert image.evaluate("one => one.naturalWidth") > 100
    papers.get_by_role("button", name="What to buy CSV").click()
    expect(papers.get_by_role("columnheader", name="count")).to_be_visible()


def test_what_is_made_shuts_nobody_out(page: Page) -> None:
    worked_out(page)
    written(page)
    page.get_by_role("button", name="Its parts").first.click()
    page.get_by_role("button", name="Rail by rail, one by one").click()
    page.wait_for_load_state("networkidle")
    found: dict[str, object] = {}
    for look, width in seen_as(page):
        assert page.evaluate("document.querySelector('main').scrollWidth") <= width, look
        if broken := shut_out(page):
            found[look] = broken
    assert not found, found


def test_whoever_hangs_ticks_off_steps_on_a_phone(chromium: Browser, live: Served) -> None:
    """Oracle: the report, and the ledger; a touch takes 44 px (WCAG 2.5.5)."""
    made = make_workshop(live.folder)
    assert made.holds
    report, _ = last_report(live.folder / "out")
    assert report is not None
    first = min(report.holders, key=lambda one: one.number)
    for page in opened(chromium, live, width=390, height=844):
        worked_out(page)
        page.get_by_role("button", name="At the wall, step by step").click()
        wall = page.get_by_role("region", name="At the wall")
        expect(wall.get_by_role("heading", name="Rail R1")).to_be_visible()
        expect(wall.locator("dd").first).to_contain_text(f"{report.rails[0].z_top_mm:g}")
        expect(wall.get_by_role("list", name="Before you drill and hang")).to_be_visible()
        wall.get_by_role("button", name="It is screwed on").click()
        expect(wall.get_by_text(first.mark)).to_be_visible()
        expect(wall.locator("dd")).to_have_text(f"{first.place.x_mm:g} mm")
        for button in wall.get_by_role("button").all():
            box = button.bounding_box()
            assert box is not None
            assert box["height"] >= 44, button.inner_text()
        assert page.evaluate("document.querySelector('main').scrollWidth") <= 390
        assert shut_out(page) == {}
        wall.get_by_role("button", name="It hangs").click()
        expect(wall.get_by_text("2 of 4 done")).to_be_visible(timeout=SOON)
        assert [one.mark for one in hung_now(live.folder).hung.holders] == [first.mark]
        wall.get_by_role("button", name="Undo:").click()
        expect(wall.get_by_text("0 of 4 done")).to_be_visible(timeout=SOON)
        assert not hung_now(live.folder).hung


def test_anchors_that_hold_nothing_are_the_next_step_on_wall_and_make(
    chromium: Browser, tmp_path: Path
) -> None:
    """Nobody says what the anchors carry: the command line says of every rail that it fails."""
    text = WALL.replace("tension_n = 3000\nshear_n = 2000\n", "") + CAN
    (tmp_path / "workshop.toml").write_text(text, "utf-8")
    for live in served(tmp_path):
        for page in opened(chromium, live):
            page.evaluate("location.hash = 'wall'")
            expect(page.get_by_role("button", name="Read what")).to_be_visible(timeout=SOON)
            expect(page.get_by_text("1 thing does not hold")).to_be_visible()
            expect(page.get_by_role("link", name="Wall")).to_contain_text("not all holds")
            expect(page.get_by_text("worst anchor, of what it may")).to_be_visible()
            expect(page.get_by_text("everything comes out")).to_have_count(0)
            page.evaluate("location.hash = 'make'")
            page.get_by_role("button", name="To the wall").click(timeout=SOON)
            expect(page.get_by_role("heading", name="Wall", exact=True)).to_be_visible()
