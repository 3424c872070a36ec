"""The browser application on this machine: how soon a page answers a hand.

Run it: ``python benchmarks/bench_web.py``. Chromium draws in software here, so that frames are
counted as processor time of the page's main thread, and not per second.

Of a changed size about 13 ms of the processor go to writing the change, 38 to planning and building
the holder, 10 to the page until the solid is in its scene, and 18 to drawing 718 by 414 pixels in
software, which a graphics card does not take. That is 61 ms until the solid is in its scene; most
of what is measured beyond it is time for which others had the processor.
"""

from __future__ import annotations

import re
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from playwright.sync_api import Browser, CDPSession, Page, sync_playwright
from rich.console import Console
from rich.table import Table

ROOT = Path(__file__).parents[1]
sys.path.insert(0, str(ROOT))

from tests.web.serving import ARGUMENTS  # noqa: E402 - found by the line above

PORT = 8471
# a server that rests uses less than 2 % of one core
REST_S, RESTING_TICKS = 2.0, 4
SEEN = """() => new Promise(
    seen => requestAnimationFrame(() => setTimeout(() => seen(performance.now())))
)"""

# when the last arrow key was pressed, its solid stood in the scene, and its frame was drawn
TIMED = """() => {
    window.timed = [0, 0, 0]
    addEventListener("keydown", event => {
        if (event.key === "ArrowUp") timed[0] = event.timeStamp
    }, true)
    const drawn = new MessageChannel()
    drawn.port1.onmessage = () => (timed[2] = performance.now())
    new MutationObserver(() => {
        timed[1] = performance.now()
        // a task that is posted from a frame goes on when that frame is drawn
        requestAnimationFrame(() => drawn.port2.postMessage(0))
    }).observe(document.querySelector("canvas"), { attributeFilter: ["data-shown"] })
}"""


def started(folder: Path) -> tuple[subprocess.Popen[str], str, float]:
    """Start the server; return it with its address, and how long it took."""
    begin = time.perf_counter()
    command = [sys.executable, "-m", "cleatwright", "open", str(folder), "--port", str(PORT)]
    server = subprocess.Popen(  # noqa: S603 - our own program
        [*command, "--no-browser"], stdout=subprocess.PIPE, text=True
    )
    assert server.stdout is not None
    found = None
    while found is None:
        found = re.search(r"http://\S+", server.stdout.readline())
    return server, found.group(), time.perf_counter() - begin


def memory_mb(pid: int) -> float:
    """Return the memory that a process holds."""
    text = Path(f"/proc/{pid}/status").read_text(encoding="utf-8")
    found = re.search(r"VmRSS:\s+(\d+)", text)
    return int(found.group(1)) / 1024 if found else 0.0


def rests(pid: int) -> None:
    """Wait until all that a person sees first is computed: a process that does no more."""
    stat, last = Path(f"/proc/{pid}/stat"), -1
    while True:
        # fields 14 and 15 of proc(5): time in the program and in the kernel, in ticks
        used = sum(map(int, stat.read_text(encoding="utf-8").rpartition(")")[2].split()[11:13]))
        if used - last < RESTING_TICKS:
            return
        last = used
        time.sleep(REST_S)


def busy_s(client: CDPSession) -> float:
    """Return the processor time of the page's main thread since it was asked to count."""
    metrics = client.send("Performance.getMetrics")["metrics"]
    return next(one["value"] for one in metrics if one["name"] == "TaskDuration")


def first_page(browser: Browser, address: str) -> tuple[Page, float, float]:
    """Return the page, the seconds to its first tool, and the bytes that came."""
    context = browser.new_context(viewport={"width": 1440, "height": 900})
    page = context.new_page()
    sizes: list[int] = []
    page.on(
        "response",
        lambda answer: (
            sizes.append(int(answer.headers.get("content-length") or 0))
            if "/api/" not in answer.url
            else None
        ),
    )
    begin = time.perf_counter()
    page.goto(address)
    page.locator("td button").first.wait_for()
    return page, time.perf_counter() - begin, sum(sizes) / 1000


def typing_ms(page: Page) -> list[float]:
    """Return how long it takes from a key to what it paints, in the largest grid."""
    closed = page.locator("button[aria-expanded=false].open")
    while closed.count():
        closed.first.click()
    page.locator("td button").nth(30).click()
    page.wait_for_timeout(500)
    found: list[float] = []
    for key in "1234567890":
        begin = page.evaluate("performance.now()")
        page.keyboard.press(key)
        found.append(page.evaluate(SEEN) - begin)
    page.keyboard.press("Escape")
    return found


@dataclass(frozen=True)
class NewSolid:
    """One changed size, in ms from the key that changed it.

    Args:
        change_ms: How long the program takes to write the change and to answer.
        solid_ms: How long it takes to answer with the new solid.
        in_scene_ms: When the new solid is in the scene.
        painted_ms: When the frame that shows it is drawn; in software here.
    """

    change_ms: float
    solid_ms: float
    in_scene_ms: float
    painted_ms: float


def new_solids(page: Page, holder: str) -> list[NewSolid]:
    """Return how long it takes from a changed size of a holder to the new solid in the scene.

    The page itself takes the times: asking it again and again would take the processor from it.
    """
    page.evaluate("location.hash = 'tools'")
    page.evaluate("location.hash = 'holders'")
    page.get_by_role("button", name=holder).first.click()
    # asked through the debugger: the pages let nobody evaluate text
    while not page.evaluate("document.querySelector('canvas')?.dataset.shown"):
        page.wait_for_timeout(20)
    page.evaluate(TIMED)
    page.wait_for_timeout(3000)
    page.locator(".gauge input").first.click()
    found: list[NewSolid] = []
    for _ in range(15):
        page.evaluate("performance.clearResourceTimings()")
        page.keyboard.press("ArrowUp")
        page.wait_for_timeout(1000)
        key, scene, painted = page.evaluate("timed")
        assert key < scene <= painted
        found.append(
            NewSolid(
                answered(page, "/changes"), answered(page, "/solids"), scene - key, painted - key
            )
        )
    return found


def answered(page: Page, what: str) -> float:
    """Return how long the program took to answer what was asked for since the last clearing."""
    (took,) = page.evaluate(
        """what => performance.getEntriesByType("resource").filter(one => one.name.includes(what))
            .map(one => one.responseEnd - one.requestStart)""",
        what,
    )
    return took


def drag_ms(page: Page) -> float:
    """Return the processor time of the main thread for each step of a drag on the wall."""
    page.evaluate("location.hash = 'wall'")
    balloon = page.locator("g.balloon .ring").nth(4)
    balloon.wait_for(timeout=120_000)
    page.wait_for_timeout(1000)
    box = balloon.bounding_box()
    assert box is not None
    x, y = box["x"] + 8, box["y"] + 8
    page.mouse.move(x, y)
    page.mouse.down()
    client = page.context.new_cdp_session(page)
    client.send("Performance.enable", {"timeDomain": "threadTicks"})
    before, frames = busy_s(client), 60
    for step in range(frames):
        page.mouse.move(x + 3 * step, y)
    after = busy_s(client)
    page.keyboard.press("Escape")
    page.mouse.move(x, y)
    page.mouse.up()
    return (after - before) / frames * 1000


def middle(solids: Sequence[NewSolid], name: str) -> float:
    """Return the median of one of their times."""
    return statistics.median(getattr(one, name) for one in solids)


def main() -> None:
    """Measure everything on the shared workshop, and print it beside the goals."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name) / "shared-workshop"
        folder.mkdir()
        shutil.copy(ROOT / "examples" / "shared-workshop" / "workshop.toml", folder)
        server, address, start = started(folder)
        try:
            with sync_playwright() as driver:
                browser = driver.chromium.launch(
                    executable_path=shutil.which("chromium"), args=list(ARGUMENTS)
                )
                page, first, kilobytes = first_page(browser, address)
                rests(server.pid)
                idle = memory_mb(server.pid)
                page.context.set_default_timeout(120_000)
                typed, solids = typing_ms(page), new_solids(page, "pliers")
                # 5300 triangles; no holder of any family comes to more than 7000
                largest = new_solids(page, "drills (12)")
                rows = (
                    ("server starts, s", start, 2.5),
                    ("its memory when idle, MB", idle, 150.0),
                    ("first page with its tools, s", first, 1.0),
                    ("its files, kB", kilobytes, 250.0),
                    ("key to paint, median ms", statistics.median(typed), 50.0),
                    (
                        "size to new solid in the scene, median ms",
                        middle(solids, "in_scene_ms"),
                        100.0,
                    ),
                    ("  of it to write the change", middle(solids, "change_ms"), None),
                    ("  of it to compute the solid", middle(solids, "solid_ms"), None),
                    ("  and drawn by software, median ms", middle(solids, "painted_ms"), None),
                    (
                        "  of the largest holder, median ms",
                        middle(largest, "in_scene_ms"),
                        150.0,
                    ),
                    ("drag, main thread a step, ms", drag_ms(page), 6.0),
                )
                browser.close()
        finally:
            server.terminate()
            server.wait(10)
    table = Table("shared-workshop, 89 tools", "measured", "goal")
    for what, value, goal in rows:
        table.add_row(what, f"{value:.2f}", "" if goal is None else f"{goal:g}")
    Console().print(table)


if __name__ == "__main__":
    main()
