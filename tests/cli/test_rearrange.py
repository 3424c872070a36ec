"""The command rearrange: two arrangements in numbers, drawn, and one of them taken.

Oracles: the command ``arrange`` of the document before and after, and another reader of PDF.
"""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pdfplumber
import pytest
from tests.cli.folders import places, write

from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.project.computing import compute

TEXT = Path(__file__).with_name("small.toml").read_text("utf-8")
PT_PER_MM = 72.0 / 25.4


@pytest.fixture
def small(tmp_path: Path) -> Path:
    return write(tmp_path / "small", TEXT)


def test_nothing_is_written_until_the_other_is_taken(cli: Any, small: Path) -> None:
    before = cli("arrange", small, "--json").json
    found = cli("rearrange", small, "--wanted", "rails", "--tries", 2, "--json")
    assert (found.code, found.err) == (0, "")
    assert found.json["now"]["points"] == before["panels"][0]["points"]
    assert [path.name for path in small.iterdir()] == ["workshop.toml"]
    assert (small / "workshop.toml").read_text("utf-8") == TEXT
    taken = cli("rearrange", small, "--wanted", "rails", "--tries", 2, "--take", "--json").json
    assert taken["taken"]
    after = cli("arrange", small, "--json").json
    assert after["panels"][0]["points"] == pytest.approx(taken["other"]["points"])
    document = tomllib.loads((small / "workshop.toml").read_text("utf-8"))
    assert len([one for one in document["holder"] if "place" in one]) == len(places(after))
    now, then = places(before), places(after)
    assert {one["name"] for one in taken["moved"]} == {
        name
        for name, at in now.items()
        if max(abs(a - b) for a, b in zip(at, then[name], strict=True)) > 0.5
    }


def test_differences_are_those_of_the_numbers_that_are_told(cli: Any, small: Path) -> None:
    ran = cli("rearrange", small, "--wanted", "heights", "--tries", 1)
    assert ran.code == 0
    rows = [line.split() for line in ran.out.splitlines() if line.strip().startswith("points,")]
    _, _, _, _, now, other, *more = rows[0]
    by = int(other) - int(now)
    assert " ".join(more) == (
        "the same" if by == 0 else f"{abs(by)} {'fewer' if by < 0 else 'more'}"
    )
    assert "--take writes its places into the document" in ran.out


def test_both_walls_are_drawn_true_to_one_scale(cli: Any, small: Path, tmp_path: Path) -> None:
    """The two outlines are as large as the wall at the scale that stands on the sheet."""
    out = tmp_path / "two.pdf"
    assert cli("rearrange", small, "--tries", 1, "--out", out).code == 0
    wall = tomllib.loads(TEXT)["wall"]
    with pdfplumber.open(out) as pdf:
        page = pdf.pages[0]
        sides = sorted((float(page.width) / PT_PER_MM, float(page.height) / PT_PER_MM))
        # A3 by ISO 216
        assert sides == pytest.approx((297, 420), abs=0.1)
        scale = int(page.extract_text().split("1:")[1].split()[0])
        wanted = (wall["width"] / scale, wall["height"] / scale)
        shapes = [(o["width"] / PT_PER_MM, o["height"] / PT_PER_MM) for o in page.rects]
        assert len([one for one in shapes if one == pytest.approx(wanted, abs=0.05)]) == 2
        assert "points, fewer is better" in page.extract_text()
    again = cli("rearrange", small, "--tries", 1, "--out", out)
    assert again.code == 5
    assert "already a file" in again.err
    assert cli("rearrange", small, "--tries", 1, "--out", tmp_path / "two.svg").code == 0


def test_an_unknown_preference_or_wall_is_named(cli: Any, small: Path) -> None:
    ran = cli("rearrange", small, "--wanted", "timbre")
    assert ran.code == 2
    assert "timber" in ran.err
    ran = cli("rearrange", small, "--wall", "door")
    assert ran.code == 2
    assert "door" in ran.err


def test_rows_and_the_least_timber_are_priced_side_by_side_and_either_is_taken(
    cli: Any, small: Path, known: Store
) -> None:
    """Oracle: the ends of the rails that are planned from each document."""

    def laid() -> list[tuple[float, float]]:
        return [(rail.x0_mm, rail.x1_mm) for rail in compute(small, run=Run(known)).rails]

    wide = float(tomllib.loads(TEXT)["wall"]["width"])
    rows = laid()
    assert all(ends == (0.0, wide) for ends in rows)
    taken = cli("rearrange", small, "--wanted", "timber", "--tries", 1, "--take", "--json").json
    pieces = laid()
    length = [sum(b - a for a, b in rails) for rails in (rows, pieces)]
    assert length[1] < length[0]
    assert [taken[side]["rail_mm"] for side in ("now", "other")] == pytest.approx(length)
    document = tomllib.loads((small / "workshop.toml").read_text("utf-8"))
    assert document["wall"]["rail_layout"] == "pieces"
    cli("rearrange", small, "--wanted", "rails", "--tries", 1, "--take", "--json")
    document = tomllib.loads((small / "workshop.toml").read_text("utf-8"))
    assert document["wall"]["rail_layout"] == "rows"
    assert all(ends == (0.0, wide) for ends in laid())
