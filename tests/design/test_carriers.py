"""Holders on carriers, from the document to the files."""

from pathlib import Path

import pytest

from cleatwright.base.errors import BedError, DesignError, MeasureError, UnknownNameError
from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import part_names
from cleatwright.jobs.making import all_files_of, make_workshop
from cleatwright.jobs.remaking import remake_part
from cleatwright.pack.front_view import front_view
from cleatwright.pack.job import Job
from cleatwright.pack.reporting import report_of
from cleatwright.project.computing import compute

STRIP = """
[defaults]
joint = "bolted"

[joint.dovetail]
play = 0.4

[[carrier]]
name = "Strip"
joint = "dovetail"
params = { screw_count = 2 }

[[holder]]
tools = ["Oil spray"]
carrier = "Strip"

[[holder]]
tools = ["Hammer"]
carrier = "Strip"
"""


def shed_with(shed_text: str, folder: Path, more: str = STRIP) -> Path:
    """Return a folder with the small workshop, its own wishes replaced."""
    kept = shed_text.split("[[holder]]", maxsplit=1)[0]
    folder.mkdir(parents=True)
    (folder / "workshop.toml").write_text(kept + more, "utf-8")
    return folder


@pytest.fixture(scope="module")
def carried(tmp_path_factory: pytest.TempPathFactory, shed_text: str) -> tuple[Path, Job]:
    folder = shed_with(shed_text, tmp_path_factory.mktemp("carried") / "shed")
    make_workshop(folder)
    return folder, compute(folder)


def test_every_holder_hangs_on_a_carrier_and_every_check_holds(carried: tuple[Path, Job]) -> None:
    _, job = carried
    strip = next(unit for unit in job.units if unit.planned.name == "Strip")
    assert [one.name for one in strip.planned.holders] == ["Oil spray", "Hammer"]
    assert all(unit.carrier is not None for unit in job.units)
    for name, made in part_names(job.units).values():
        assert made.holds, (name, [check for check in made.checks if not check.holds])


def test_holders_lie_on_their_carrier_in_the_order_of_the_document(
    carried: tuple[Path, Job],
) -> None:
    """The silhouettes on the wall are those of the solids, so no arithmetic of ours is trusted."""
    _, job = carried
    for unit in job.units:
        at = job.spots[unit.planned.key].place
        board = [p for loop in front_view(unit.outer, at, Run()).part for p in loop]
        left, right = min(x for x, _ in board), max(x for x, _ in board)
        assert left == pytest.approx(at.x_mm, abs=1e-6)
        before = left
        for planned, made in zip(unit.planned.holders, unit.holders, strict=True):
            place = job.spots[planned.key].place
            plate = [x for loop in front_view(made, place, Run()).part for x, _ in loop]
            assert before - 1e-6 <= min(plate)
            assert max(plate) <= right + 1e-6
            before = min(plate)
            # the top of the plate is level with the groove's mouth, or a bolt row below the top,
            # or the board reaches up until the bolt of the rail passes between its holes
            assert 0.0 <= max(z for _, z in board) - place.z_mm <= 25.0 + 80.0, planned.name


def test_the_carrier_is_printed_listed_reported_and_made_again(carried: tuple[Path, Job]) -> None:
    folder, job = carried
    files = all_files_of(job)
    strip = next(unit for unit in job.units if unit.planned.name == "Strip")
    assert strip.carrier is not None
    mark = strip.carrier.mark
    printing = files["lists/printing.csv"].decode("utf-8-sig")
    assert mark in printing
    assert "carrier of" in printing
    hardware = files["lists/hardware.csv"].decode("utf-8-sig")
    assert "countersunk wood screw 4 x" in hardware
    assert "hexagon nut M4" in hardware
    report = report_of(job, files=tuple(sorted(files)))
    row = next(one for one in report.carriers if one.mark == mark)
    assert row.holders == tuple(one.mark for one in strip.holders)
    assert {one.carrier for one in report.holders if one.mark in row.holders} == {mark}
    assert row.load_kg == pytest.approx(sum(one.part.load_kg for one in strip.holders))
    (made, _) = remake_part(folder, mark, out=folder / "again")
    assert made.read_bytes() == files[f"parts/{made.name}"]


@pytest.mark.parametrize(
    ("old", "new", "error", "words"),
    [
        ("screw_count = 2", "screw_count = 99", MeasureError, "screw_count from 0 to 12"),
        ("screw_count = 2", "width = 20", DesignError, "does not take its holders"),
        ("screw_count = 2", "width = 400", BedError, "at most"),
        ('joint = "dovetail"', 'joint = "dovetale"', UnknownNameError, "one-piece"),
        ('joint = "dovetail"', 'joint = "one-piece"', DesignError, "bolted, dovetail"),
        ("play = 0.4", "play = 4", MeasureError, "play from 0.1 to 0.8"),
        ("[joint.dovetail]", "[joint.one-piece]", MeasureError, "Delete the table"),
        ("[joint.dovetail]", "[mount.dovetail]", UnknownNameError, "french-cleat"),
    ],
)
def test_a_wrong_wish_is_told_with_what_is_allowed(
    tmp_path: Path, shed_text: str, old: str, new: str, error: type[Exception], words: str
) -> None:
    assert old in STRIP
    folder = shed_with(shed_text, tmp_path / "shed", STRIP.replace(old, new))
    with pytest.raises(error) as told:
        compute(folder)
    assert words in str(told.value)
