"""A family that does not do is passed over for the next one, and whoever reads it is told why."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.small import document

from cleatwright.base.errors import WallError
from cleatwright.base.said import in_mm
from cleatwright.base.stages.run import Run
from cleatwright.design import held
from cleatwright.design.building import BuiltPart
from cleatwright.jobs.making import make_workshop
from cleatwright.pack.reporting import report_of
from cleatwright.project.computing import compute
from cleatwright.project.walls import NO_PLACE
from cleatwright.workshop.document.sections import Printer

pytestmark = pytest.mark.usefixtures("shared_runs")

# it lies in an edge-comb as wide as it is long, stands in a thin slot, or hangs from magnets
RULE = """
[[tool]]
name = "Steel rule"
kind = "rule"
measures = { length = 300, width = 28, thickness = 1.0 }
"""
NAMED = '\n[[holder]]\ntools = ["Steel rule"]\nfamily = "edge-comb"\n'
WIDE_MM, NARROW_MM = 600.0, 260.0


def written(folder: Path, *parts: str, width_mm: float) -> Path:
    text = document("Shed", *parts, width=width_mm, height=900.0, studs=(30.0, width_mm - 30.0))
    (folder / "workshop.toml").write_text(text, "utf-8")
    return folder


def test_what_finds_no_place_is_of_the_next_family_with_the_reason(tmp_path: Path) -> None:
    """300 mm of rule lie on no wall of 260 mm; upright it takes the width of a slot."""
    (wide,) = compute(written(tmp_path, RULE, width_mm=WIDE_MM)).planned
    assert wide.recipe.family == "edge-comb"
    job = compute(written(tmp_path, RULE, width_mm=NARROW_MM))
    (one,) = job.planned
    assert one.recipe.family == wide.why.rated[1].name
    assert f"edge-comb was passed over: {NO_PLACE} on the wall" in in_mm(one.why.words)
    (row,) = report_of(job, files=()).holders
    passed = {family.name: family.words for family in row.families if family.state != "weighed"}
    assert passed["edge-comb"].startswith(NO_PLACE)


def test_a_family_that_the_owner_named_is_never_replaced(tmp_path: Path) -> None:
    with pytest.raises(WallError, match="Steel rule"):
        compute(written(tmp_path, RULE, NAMED, width_mm=NARROW_MM))


def test_what_was_made_so_stays_so_when_there_is_room_again(tmp_path: Path) -> None:
    narrow = written(tmp_path, RULE, width_mm=NARROW_MM)
    make_workshop(narrow)
    (one,) = compute(written(tmp_path, RULE, width_mm=WIDE_MM)).planned
    assert one.recipe.family == "thin-slot"
    assert one.why.ground == "made"
    assert "cheaper edge-comb" in in_mm(one.why.words)


@pytest.mark.parametrize(
    ("failing", "taken"),
    [
        ({"edge-comb"}, "thin-slot"),
        ({"edge-comb", "thin-slot"}, "magnet-bar"),
        # one that does not do is still better than none, and its check says so
        ({"edge-comb", "thin-slot", "magnet-bar"}, "edge-comb"),
    ],
)
def test_a_holder_that_does_not_hold_is_of_the_next_family(
    failing: set[str], taken: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(made: BuiltPart, _printer: Printer, _run: Run) -> str:
        return "it breaks" if made.part.family in failing else ""

    monkeypatch.setattr(held, "why_it_fails", fails)
    (one,) = compute(written(tmp_path, RULE, width_mm=WIDE_MM)).planned
    assert one.recipe.family == taken
    if len(failing) < 3:
        assert {(p.name, p.why) for p in one.why.passed} == {(n, "it breaks") for n in failing}


def test_what_is_made_stays_of_its_family_though_a_check_fails_it_now(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A part that is made is said not to hold; it is not made anew behind its owner's back."""
    shed = written(tmp_path, RULE, width_mm=WIDE_MM)
    make_workshop(shed)

    def fails(made: BuiltPart, _printer: Printer, _run: Run) -> str:
        return "it breaks" if made.part.family == "edge-comb" else ""

    monkeypatch.setattr(held, "why_it_fails", fails)
    (one,) = compute(shed).planned
    assert one.recipe.family == "edge-comb"
