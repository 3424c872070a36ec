"""Papers one by one: each is the file that is made, and only those are drawn on which it shows.

What is drawn is counted by the run, stage by stage.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path

import pytest

from cleatwright.base.errors import Cancelled, CleatwrightError, UnknownNameError
from cleatwright.base.stages.run import Run, RunProgress
from cleatwright.base.stages.store import Store
from cleatwright.jobs.card_lists import make_cards, workshop_cards
from cleatwright.jobs.making import make_workshop
from cleatwright.jobs.papers import panel, paper, papers
from cleatwright.pack.file_set import OUTPUTS
from cleatwright.project.shelf import DiskShelf

BOARD = """
[[wall.obstacle]]
name = "Socket"
x = 400
z = 100
width = 80
height = 80

[[carrier]]
name = "Board"
made_of = "wood"
joint = "dovetail"
mount = "french-cleat"

[[holder]]
tools = ["Pliers"]
carrier = "Board"

[[panel]]
name = "Lid"
width = 900
height = 700
"""
DRAWN = {
    "part as 3MF",
    "part as STL",
    "print file of a batch",
    "elevation",
    "elevation as DXF",
    "rail from the side",
    "load map",
    "drilling template",
    "drawing as PDF",
    "carrier of wood",
    "list",
    "sheet of words",
    "report",
}


@dataclass
class Shop:
    """A workshop that is edited, with a store that lasts."""

    folder: Path
    store: Store
    text: str

    def drawn(self, only: tuple[str, ...] = OUTPUTS) -> tuple[dict[str, bytes], Counter[str]]:
        """Return all papers, and how many were drawn for them, by stages."""
        (self.folder / "workshop.toml").write_text(self.text, "utf-8")
        run = Run(self.store)
        found = papers(self.folder, only=only, run=run)
        assert not found.faults
        files = {row.path: paper(self.folder, row.path, run=run) for row in found.papers}
        return files, Counter({name: run.computed[name] for name in DRAWN & set(run.computed)})

    def replace(self, old: str, new: str) -> None:
        """Change the document."""
        assert self.text.count(old) == 1, old
        self.text = self.text.replace(old, new)


@pytest.fixture
def shop(shed: Path, shed_text: str) -> Shop:
    text = shed_text + BOARD
    assert text.count('name = "Patch tin"') == 1
    return Shop(
        shed, Store(), text.replace('name = "Patch tin"', 'name = "Patch tin"\npanel = "Lid"')
    )


def test_each_paper_is_the_file_that_is_made_and_the_list_names_all(shop: Shop) -> None:
    files, drawn = shop.drawn()
    assert set(drawn) == DRAWN
    make_workshop(shop.folder)
    out = shop.folder / "out"
    made = {
        path.relative_to(out).as_posix(): path.read_bytes()
        for path in out.rglob("*")
        if path.is_file() and path.name != "manifest.json"
    }
    assert files == made
    rows = papers(shop.folder, run=Run(shop.store)).papers
    assert len({row.path for row in rows}) == len(rows)
    assert {row.kind for row in rows} == {"svg", "pdf", "dxf", "csv", "json", "3mf", "stl"}
    assert all(row.title for row in rows)


def test_a_list_of_the_papers_draws_none(shop: Shop) -> None:
    (shop.folder / "workshop.toml").write_text(shop.text, "utf-8")
    run = Run(shop.store)
    papers(shop.folder, run=run)
    assert not DRAWN & set(run.computed)


def test_nothing_changed_draws_nothing(shop: Shop) -> None:
    shop.drawn()
    again, drawn = shop.drawn()
    assert drawn == Counter()
    assert again == shop.drawn()[0]


def test_a_moved_obstacle_redraws_no_card_no_carrier_no_part_and_nothing_of_another_panel(
    shop: Shop,
) -> None:
    before, _ = shop.drawn()
    _, cards = workshop_cards(shop.folder)
    make_cards(cards, shop.folder / "cards", title="Shed", paper="a4", run=Run(shop.store))
    shop.replace("x = 400", "x = 402")
    after, drawn = shop.drawn()
    assert drawn["elevation"] == drawn["elevation as DXF"] == 1
    assert not {"carrier of wood", "part as 3MF", "part as STL", "beds"} & set(drawn)
    changed = {path for path in before | after if before.get(path) != after.get(path)}
    assert "wall/elevation.svg" in changed
    assert not [path for path in changed if path.startswith(("wall/2-lid/", "parts/", "batches/"))]
    run = Run(shop.store)
    _, cards = workshop_cards(shop.folder)
    make_cards(cards, shop.folder / "cards", title="Shed", paper="a4", run=run)
    assert run.computed == Counter()


def test_another_colour_of_the_filament_redraws_print_files_alone(shop: Shop) -> None:
    before, _ = shop.drawn()
    batches = sum(path.startswith("batches/") for path in before)
    shop.replace("density = 1270", 'density = 1270\ncolour = "#112233"')
    after, drawn = shop.drawn()
    # the report is written anew with every change, and says the same
    assert drawn == {"print file of a batch": batches, "report": 1}
    changed = {path for path in before if before[path] != after[path]}
    assert changed == {path for path in before if path.startswith("batches/")}


def test_another_name_of_a_tool_redraws_the_sheets_that_name_it(shop: Shop) -> None:
    before, _ = shop.drawn()
    shop.replace('name = "Patch tin"', 'name = "Tin of patches"')
    after, drawn = shop.drawn()
    named = {path for path in before if before[path] != after[path]}
    assert "wall/2-lid/elevation.svg" in named
    assert not [path for path in named if path.startswith(("wall/e", "wall/s", "wall/l", "wall/d"))]
    assert drawn["elevation"] == drawn["load map"] == drawn["rail from the side"] == 1
    assert not {"part as 3MF", "part as STL", "print file of a batch", "carrier of wood"} & set(
        drawn
    )
    assert drawn["drilling template"] == drawn["elevation as DXF"] == 0
    assert sum(drawn.values()) == len(named)


@pytest.mark.parametrize(
    ("path", "stages"),
    [
        ("wall/2-lid/elevation.svg", {"elevation"}),
        ("wood/cut-list.csv", {"list"}),
        ("wall/section-R1.svg", {"rail from the side"}),
        ("lists/cautions.pdf", {"sheet of words"}),
    ],
)
def test_one_paper_draws_no_other(shop: Shop, path: str, stages: set[str]) -> None:
    (shop.folder / "workshop.toml").write_text(shop.text, "utf-8")
    run = Run(shop.store)
    paper(shop.folder, path, run=run)
    assert DRAWN & set(run.computed) == stages
    assert [run.computed[name] for name in stages] == [1]
    if path.startswith("w"):
        assert not {"beds", "whole project", "advice"} & set(run.computed)


def test_a_panel_on_which_nothing_fits_keeps_no_paper_of_another_one_back(shop: Shop) -> None:
    shop.replace("width = 900\nheight = 700", "width = 100\nheight = 100")
    (shop.folder / "workshop.toml").write_text(shop.text, "utf-8")
    run = Run(shop.store)
    assert b"<svg" in paper(shop.folder, "wall/elevation.svg", run=run)
    with pytest.raises(CleatwrightError, match="mm wide with its tools"):
        paper(shop.folder, "wall/2-lid/elevation.svg", run=run)
    with pytest.raises(CleatwrightError, match="mm wide with its tools"):
        paper(shop.folder, "lists/holders.csv", run=run)
    found = papers(shop.folder, run=run)
    assert {row.output for row in found.papers} == {"parts", "batches", "wall"}
    assert not [row.path for row in found.papers if row.path.startswith("wall/2-lid")]
    (fault,) = found.faults
    assert "[[panel]]" in str(fault) or 'panel "Lid"' in str(fault)


def test_a_panel_is_asked_for_by_its_name_and_draws_nothing(shop: Shop) -> None:
    (shop.folder / "workshop.toml").write_text(shop.text, "utf-8")
    run = Run(shop.store)
    lid = panel(shop.folder, "Lid", run=run)
    assert [tool.name for one in lid.panel.planned for tool in one.tools] == ["Patch tin"]
    assert [way.tool for way in lid.found.ways] == ["Patch tin"]
    assert len(lid.loads) == 1
    assert not DRAWN & set(run.computed)
    assert "whole project" not in run.computed


def test_what_takes_long_to_draw_is_kept_from_one_run_of_the_program_to_the_next(
    shop: Shop, tmp_path: Path
) -> None:
    shop.store = Store(shelf=DiskShelf(tmp_path / "found.db"))
    first, drawn = shop.drawn()
    kept = {name for name in drawn if name.endswith(("PDF", "DXF", "3MF", "batch", "words"))}
    assert len(kept) == 5
    shop.store = Store(shelf=DiskShelf(tmp_path / "found.db"))
    again, drawn = shop.drawn()
    assert not kept & set(drawn)
    assert again == first


def test_what_is_no_paper_is_refused_with_those_that_are(shop: Shop) -> None:
    (shop.folder / "workshop.toml").write_text(shop.text, "utf-8")
    for path in ("wall/elevation-99.svg", "wall/9-roof/elevation.svg", "wood/saw.csv", "../x"):
        with pytest.raises(UnknownNameError):
            paper(shop.folder, path, run=Run(shop.store))


def test_a_stop_between_two_papers_keeps_what_was_drawn_and_the_rest_follows(shop: Shop) -> None:
    """Steps tell one run, never go back, and end with all done; after a stop none follows."""
    (shop.folder / "workshop.toml").write_text(shop.text, "utf-8")
    steps: list[RunProgress] = []

    def noted(step: RunProgress) -> None:
        steps.append(step)
        if step.stage == "drawing" and len([one for one in steps if one.stage == "drawing"]) == 30:
            run.cancel()

    run = Run(shop.store, report=noted)
    with pytest.raises(Cancelled):
        make_workshop(shop.folder, run=run)
    assert not (shop.folder / "out").exists()
    assert {one.run_id for one in steps} == {run.run_id}
    assert all(a.done <= b.done and a.total <= b.total for a, b in pairwise(steps))
    drawn = Counter({name: run.computed[name] for name in DRAWN})
    rest = Run(shop.store, report=steps.append)
    make_workshop(shop.folder, run=rest)
    assert steps[-1].done == steps[-1].total
    whole = Run()
    make_workshop(shop.folder, run=whole)
    # these may speak of what the ledger knows by then
    for name in DRAWN - {"report", "list", "sheet of words"}:
        assert drawn[name] + rest.computed[name] == whole.computed[name], name
    assert sum(drawn.values()) > 20


def test_boards_that_do_not_suffice_keep_only_those_papers_back_that_need_them(shop: Shop) -> None:
    shop.replace("count = 2", "count = 1")
    shop.replace("length = 2400", "length = 700")
    (shop.folder / "workshop.toml").write_text(shop.text, "utf-8")
    run = Run(shop.store)
    found = papers(shop.folder, run=run)
    assert {row.output for row in found.papers} == {"parts", "batches", "wall"}
    (fault,) = found.faults
    assert "board" in str(fault)
    assert b"<svg" in paper(shop.folder, "wall/elevation.svg", run=run)
