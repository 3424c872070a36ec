"""After an edit only what depends on it is computed again, and it comes to what a new run finds.

The oracle is the same computation in a run that knows nothing.
"""

import random
import re
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from cleatwright.base.errors import UnknownNameError
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.pack.front_view import FRONT_VIEW, FrontView
from cleatwright.pack.job import Job
from cleatwright.project.computing import compute
from cleatwright.project.revision import read_revision
from cleatwright.project.shelf import DiskShelf
from cleatwright.project.walls import panel_found

CARRIED = '\n[defaults]\njoint = "dovetail"\n'
# another document is read, and what is known is put together
ALWAYS = {
    "document",
    "what was asked to hang",
    "families that find a place",
    "what shall hang",
    "walls",
    "whole project",
}
ARRANGING = {
    "searched panel",
    "arranged panel",
    "settled panel",
    "assessed panel",
    "loaded rails",
}
PROVING = {"ways out of a panel", "way among things"}
PLATE = "\n[[wall.obstacle]]\n" + 'name = "Socket"\nx = 400\nz = 100\nwidth = 80\nheight = 80\n'


@dataclass
class Edited:
    """A workshop that is edited, with a store that lasts."""

    folder: Path
    store: Store
    text: str

    def computed(self) -> tuple[Job, Run]:
        """Return the job of the document as it is, and the run that found it."""
        (self.folder / "workshop.toml").write_text(self.text, "utf-8")
        run = Run(self.store)
        return compute(self.folder, run=run), run

    def replace(self, old: str, new: str) -> None:
        """Change the document."""
        assert self.text.count(old) == 1, old
        self.text = self.text.replace(old, new)


@pytest.fixture
def edited(shed: Path, shed_text: str) -> Edited:
    return Edited(shed, Store(), shed_text + CARRIED + PLATE)


def test_an_unchanged_document_computes_nothing(edited: Edited) -> None:
    edited.computed()
    _, run = edited.computed()
    assert run.computed == {}


def test_one_measure_builds_at_most_its_own_holder_and_carrier(edited: Edited) -> None:
    before, _ = edited.computed()
    edited.replace("head_width = 26.5", "head_width = 27.5")
    after, run = edited.computed()
    assert run.computed["tool body"] == 1
    # its table is read, and its family and its neighbours in the holder are chosen, no others
    for stage in ("table of a tool", "family of like tools", "groups of tools", "recipe"):
        assert run.computed[stage] == 1, stage
    assert run.computed["recipe of a carrier"] <= 1
    assert 1 <= run.computed["part"] <= 2
    changed = {name: made.key for name, made in after.parts.values()}
    same = {name: made.key for name, made in before.parts.values()}
    assert sum(changed[name] != same[name] for name in changed) == run.computed["part"]
    # of each new part one side is looked at to the end: the one that is put down
    assert run.computed["side that is put down"] <= run.computed["part"]
    assert run.computed["what hangs in the air"] <= run.computed["part"]


def test_a_moved_obstacle_builds_no_part(edited: Edited) -> None:
    edited.computed()
    edited.replace("x = 400", "x = 420")
    _, run = edited.computed()
    assert run.computed["arranged panel"] >= 1
    assert set(run.computed) <= {*ALWAYS, *ARRANGING, *PROVING}


def test_what_changes_on_one_panel_settles_no_other(edited: Edited) -> None:
    edited.text += '\n[[panel]]\nname = "Lid"\nwidth = 900\nheight = 700\nrail_layout = "pieces"\n'
    edited.replace('name = "Patch tin"', 'name = "Patch tin"\npanel = "Lid"')
    before, _ = edited.computed()
    edited.replace("width = 900", "width = 800")
    after, run = edited.computed()
    assert [run.computed[name] for name in sorted(ARRANGING)] == [1] * len(ARRANGING)
    # the tin stays where it is, and so does the proof
    assert not PROVING & set(run.computed)
    (wall, lid), (same, narrower) = before.panels, after.panels
    assert same.content_key == wall.content_key
    assert narrower.content_key != lid.content_key


def test_one_panel_is_found_alone_and_as_with_all_others(edited: Edited) -> None:
    edited.text += '\n[[panel]]\nname = "Lid"\nwidth = 900\nheight = 700\nrail_layout = "pieces"\n'
    edited.replace('name = "Patch tin"', 'name = "Patch tin"\npanel = "Lid"')
    (edited.folder / "workshop.toml").write_text(edited.text, "utf-8")
    run = Run(edited.store)
    revision = read_revision(edited.folder, run)
    alone = panel_found("wall", revision, run=run)
    assert run.computed["settled panel"] == 1
    assert "whole project" not in run.computed
    whole = compute(edited.folder, run=Run())
    assert alone.panel.content_key == whole.panels[0].content_key
    assert alone.found == whole.found[0]
    assert [one.rail for one in alone.loads] == list(whole.panels[0].arrangement.rails)
    with pytest.raises(UnknownNameError, match="Lid"):
        panel_found("Roof", revision, run=run)


def test_another_colour_of_the_filament_computes_nothing(edited: Edited) -> None:
    edited.computed()
    edited.replace("density = 1270", 'density = 1270\ncolour = "#112233"')
    _, run = edited.computed()
    assert set(run.computed) == ALWAYS


def test_another_name_of_a_tool_builds_no_part(edited: Edited) -> None:
    edited.computed()
    edited.replace('name = "Patch tin"', 'name = "Tin of patches"')
    _, run = edited.computed()
    assert run.computed["part"] == run.computed["front"] == 0


def test_the_next_run_of_the_program_proves_and_tries_nothing_again(edited: Edited) -> None:
    """What was proven comes from the disk, and is what was proven."""
    kept = {"ways out of a panel", "trial of a seat", "part from the front"}
    found: list[tuple[Job, list[FrontView]]] = []
    computed: list[set[str]] = []
    for _ in range(2):
        edited.store = Store(shelf=DiskShelf(edited.folder / "found.db"))
        job, run = edited.computed()
        found.append((job, [run.need(FRONT_VIEW, one) for one in job.built]))
        computed.append(set(run.computed))
    assert kept <= computed[0]
    assert not {*kept, *PROVING, "seated tool"} & computed[1]
    assert "part" in computed[1]
    (first, views), (again, seen) = found
    assert [one.ways for one in again.panels] == [one.ways for one in first.panels]
    assert [one.checks for one in again.built] == [one.checks for one in first.built]
    assert seen == views


Edit = Callable[[str, random.Random], str]


def measured(text: str, chance: random.Random) -> str:
    """Change one number of one tool by up to a tenth."""
    numbers = list(re.finditer(r"(?<=width = )\d+(?:\.\d+)?(?=[,} ])", text))
    one = chance.choice(numbers)
    value = float(one.group()) * chance.uniform(0.9, 1.05)
    return f"{text[: one.start()]}{value:.1f}{text[one.end() :]}"


def renamed(text: str, chance: random.Random) -> str:
    """Rename one tool that no holder names."""
    name = chance.choice(["Pliers", "Hammer", "Patch tin"])
    return re.sub(rf'name = "{name}[^"]*"', f'name = "{name} {chance.randrange(99)}"', text)


def added(text: str, chance: random.Random) -> str:
    """Add a small box."""
    number = 1 + max([0, *map(int, re.findall(r'name = "Box (\d+)"', text))])
    sides = f"width = {chance.randrange(40, 90)}, depth = 40, height = 30"
    return f'{text}\n[[tool]]\nname = "Box {number}"\nkind = "box"\nmeasures = {{ {sides} }}\n'


def reordered(text: str, _: random.Random) -> str:
    """Put the last tool before all others."""
    whole = re.findall(r"\n\[\[tool\]\]\n(?:[^\[\n].*\n|\n(?!\[))*", text)
    last = whole[-1]
    cut = text.replace(last, "", 1)
    at = cut.index("\n[[tool]]")
    return cut[:at] + last + cut[at:]


def moved(text: str, chance: random.Random) -> str:
    """Move the socket."""
    return re.sub(r'(name = "Socket"\nx = )\d+', rf"\g<1>{chance.randrange(350, 500)}", text)


def fitted(text: str, chance: random.Random) -> str:
    """Take another correction of holes, which changes every part."""
    return re.sub(
        r"hole_correction = [\d.]+", f"hole_correction = {chance.choice([0.1, 0.15, 0.2])}", text
    )


EDITS: tuple[Edit, ...] = (measured, renamed, added, reordered, moved, fitted)


def seen(job: Job) -> object:
    """Return what a person would see of a job: shapes, places, rails, ways, beds."""
    return (
        [(key, name, made.mark, made.body.facts) for key, (name, made) in job.parts.items()],
        {key: spot.place for key, spot in job.spots.items()},
        job.rails,
        [panel.ways for panel in job.panels],
        [(one.name, one.marks) for one in job.production.batches],
        job.production.by_key,
    )


@pytest.mark.parametrize("seed", range(2))
def test_edits_one_after_the_other_come_to_what_a_new_run_finds(edited: Edited, seed: int) -> None:
    chance = random.Random(seed)  # noqa: S311 - edits, no secret
    past: list[str] = []
    for _ in range(5):
        if past and chance.random() < 0.2:
            edited.text = past.pop()
        else:
            past.append(edited.text)
            edited.text = chance.choice(EDITS)(edited.text, chance)
        job, _run = edited.computed()
        assert seen(job) == seen(compute(edited.folder, run=Run()))
