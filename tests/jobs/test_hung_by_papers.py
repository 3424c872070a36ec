"""What hangs is said one by one as the papers have it, and is then what all at once would be.

Oracle: ``record_hung``, which keeps everything of a plan that was computed again. That a rail in
plasterboard alone carries nothing is common practice, no source.
"""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from cleatwright.base.errors import DesignError, OutputError, UnknownNameError
from cleatwright.jobs.hung import forget_hung, hung_now, record_hung
from cleatwright.jobs.hung_by_papers import record_some
from cleatwright.jobs.making import make_workshop

DAY, LATER = date(2024, 5, 1), date(2024, 6, 1)
HEAD = """schema = 1
name = "Half held"

[wall]
width = 2000
height = 900
floor_gap = 700
stud = [{ x = 100 }, { x = 500 }, { x = 900 }]

[[wall.obstacle]]
name = "pipe"
x = 1100
z = 0
width = 40
height = 900

[printer.bench]
bed = [220, 220, 200]

[filament.plain]
material = "PETG"
density = 1270
"""


def box(name: str, place: str = "", mass_kg: float = 0.3) -> str:
    tool = f"""
[[tool]]
name = "{name}"
kind = "box"
measures = {{ width = 90, depth = 60, height = 50 }}
mass = {mass_kg}
"""
    return tool + (f'\n[[holder]]\ntools = ["{name}"]\n{place}\n' if place else "")


def made(folder: Path, text: str) -> Path:
    (folder / "workshop.toml").write_text(HEAD + text, "utf-8")
    make_workshop(folder)
    return folder


@pytest.fixture
def carriers(tmp_path: Path) -> Path:
    """Two carriers of one mark, each with two holders of one mark."""
    pairs = {"A": "One", "B": "Two", "C": "One", "D": "Two"}
    tools = "".join(box(name, f'carrier = "{carrier}"') for name, carrier in pairs.items())
    tables = "".join(
        f'\n[[carrier]]\nname = "{one}"\njoint = "dovetail"\n' for one in ("One", "Two")
    )
    return made(tmp_path, tools + tables)


def test_said_in_parts_it_is_what_all_at_once_would_be(carriers: Path) -> None:
    whole = record_hung(carriers, on=DAY).hung
    forget_hung(carriers)
    first = record_some(carriers, [1], on=DAY).hung
    assert len(first.holders) == 1
    assert first.holders[0] in whole.holders
    assert record_some(carriers, [3], on=DAY).hung == whole
    # nothing of it is newer for being said again
    assert record_some(carriers, [1, 2, 3, 4], on=LATER).hung == whole


def test_what_hangs_on_a_rail_that_fails_is_kept_only_when_the_person_says_so(
    tmp_path: Path,
) -> None:
    good, bad = (f"place = {{ x = {x}, z = 500 }}" for x in (450, 1700))
    folder = made(tmp_path, box("Tin", good) + box("Anvil", bad, 3.0))
    with pytest.raises(DesignError, match="screws of rail R2"):
        record_some(folder, [2])
    assert not hung_now(folder).hung
    # the other rail is sound
    assert [one.name for one in record_some(folder, [1]).hung.holders] == ["Tin"]
    kept = record_some(folder, [2], anyway=True)
    assert len(kept.hung.holders) == 2
    assert "screws of rail R2" in kept.failing[0]


def test_the_papers_count_whatever_the_document_says_by_now(carriers: Path) -> None:
    """Who is at the wall hangs by the papers in the hand, though somebody went on typing."""
    before = record_hung(carriers, on=DAY).hung
    forget_hung(carriers)
    path = carriers / "workshop.toml"
    path.write_text(path.read_text("utf-8").replace("width = 90", "width = 95"), "utf-8")
    assert record_some(carriers, [1, 3], on=DAY).hung == before


def test_nothing_is_kept_of_what_is_not_on_the_papers(carriers: Path) -> None:
    with pytest.raises(UnknownNameError, match="7"):
        record_some(carriers, [1, 7])
    (carriers / "out" / "report.json").write_text("{}", "utf-8")
    with pytest.raises(OutputError, match="no report"):
        record_some(carriers, [1])
    assert not hung_now(carriers).hung
