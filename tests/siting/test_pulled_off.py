"""Tools that must be pulled off springs or magnets, on walls of every sort.

Source of the caution: equilibrium of a hook without friction; a hook on a bevel of 45 degrees
keeps hold against no more than the weight that hangs on it, however deep its back. A bolt under the
rail keeps what is printed there; a carrier of wood has none.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from tests.small import document

from cleatwright.base.errors import DesignError
from cleatwright.base.said import in_mm
from cleatwright.pack.job import Job
from cleatwright.project.computing import compute

TORCH = """
[[tool]]
name = "Torch"
kind = "torch"
measures = { diameter = 26, length = 150, head = 36, head_length = 35 }
"""
HEAD = document("Clips", TORCH, width=1200, height=900, studs=(300, 700))
WISH = '\n[[holder]]\ntools = ["Torch"]\nfamily = "spring-clip"\n'
LOCKED = """
[[carrier]]
name = "Strip"
joint = "{joint}"
params = {{ screw_count = {screws} }}

[[holder]]
tools = ["Torch"]
carrier = "Strip"
"""


def job_of(folder: Path, more: str) -> Job:
    folder.mkdir()
    (folder / "workshop.toml").write_text(HEAD + more, "utf-8")
    return compute(folder)


def test_on_a_rail_a_bolt_bears_the_pull_off_springs(tmp_path: Path) -> None:
    """The clip needs the least wall; what opposes the hand is more than the usual tug or not."""
    (made,) = job_of(tmp_path / "free", WISH).built
    assert made.part.hanging.on_rail
    (seat,) = made.part.seats
    assert seat.spring is not None
    assert made.part.hanging.hold is not None
    assert made.holds


def test_a_carrier_of_wood_without_screws_does_not_take_it(tmp_path: Path) -> None:
    more = LOCKED.format(joint="dovetail", screws=0) + 'family = "spring-clip"\n'
    more = more.replace("params", 'made_of = "wood"\nparams')
    with pytest.raises(DesignError) as told:
        job_of(tmp_path / "loose", more)
    text = str(told.value)
    for word in ("comes off its springs", "N", 'mount = "wall-screws"', "screw_count = 2"):
        assert word in text


def test_screwed_to_the_wall_it_may_be_pulled(tmp_path: Path) -> None:
    place = "place = { x = 280, z = 500 }\n"
    (made,) = job_of(tmp_path / "screwed", WISH + 'mount = "wall-screws"\n' + place).built
    assert made.part.seats[0].spring is not None
    assert made.holds


@pytest.mark.parametrize("joint", ["dovetail", "bolted"])
def test_a_screw_through_its_carrier_bears_the_pull(tmp_path: Path, joint: str) -> None:
    """A clip by wish; 18 mm behind it and 12.5 mm of lining before a stud."""
    more = LOCKED.format(joint=joint, screws=2) + 'family = "spring-clip"\n'
    job = job_of(tmp_path / "locked", more)
    (unit,) = job.units
    assert unit.holders[0].part.seats[0].spring is not None
    assert unit.outer.part.hanging.lock is not None
    checks = {one.name: one for one in unit.outer.checks}
    locked = checks["stays on its rail when a hand pulls or lifts"]
    assert locked.holds
    assert locked.demand > 4.0
    # no bolt where screws go through the carrier into the wall
    assert unit.outer.part.hanging.hold is not None
    assert unit.outer.part.hanging.hold.bolts_mm == ()
    (screw,) = [one for one in unit.outer.part.hardware if one.stud_mm]
    length = float(in_mm(screw.name).split(" x ")[1].removesuffix(" mm"))
    # NDS 2018, 12.1.5.6: six diameters in the stud, the tip included
    plate = unit.outer.hung_as.settings.plate_mm
    assert length - plate - 18.0 - 12.5 >= 6 * 4.0


def test_the_lining_of_the_wall_lengthens_the_screw_of_a_carrier(tmp_path: Path) -> None:
    lengths = {}
    for lining in (0, 25):
        more = LOCKED.format(joint="dovetail", screws=1)
        folder = tmp_path / f"lining {lining}"
        folder.mkdir()
        text = (HEAD + more).replace("height = 900", f"height = 900\nlining = {lining}")
        (folder / "workshop.toml").write_text(text, "utf-8")
        (unit,) = compute(folder).units
        (screw,) = [one for one in unit.outer.part.hardware if one.stud_mm]
        lengths[lining] = float(in_mm(screw.name).split(" x ")[1].removesuffix(" mm"))
    # 5 mm of plate, 18 mm of rail and 24 mm of stud: 47 and 72 mm, as sold
    assert lengths == {0: 50.0, 25: 80.0}


def test_the_report_tells_how_high_and_how_hard(tmp_path: Path) -> None:
    (made,) = job_of(tmp_path / "told", "").built
    (told,) = [one for one in made.standing if "takes it off its rail" in one.name]
    assert re.search(r"(above|below) the top of the rail", told.note)
    assert told.unit == "N at the tool"


@pytest.mark.parametrize("made_of", ["plastic", "wood"])
@pytest.mark.parametrize(("off_mm", "met"), [(0.0, True), (6.0, True), (7.0, False), (60.0, False)])
def test_the_screw_that_locks_a_carrier_is_told_by_what_is_behind_it(
    tmp_path: Path, off_mm: float, met: bool, made_of: str
) -> None:
    """Half a stud of 38 mm less 12.5 mm leaves 6.5 mm aside; the screw is in the middle."""
    more = LOCKED.format(joint="dovetail", screws=1)
    more = more.replace("params", f'made_of = "{made_of}"\nparams')
    (unit,) = job_of(tmp_path / "free", more).units
    x_mm = 300.0 + off_mm - unit.outer.part.bounds_mm[1][0] / 2
    place = f'place = {{ x = {x_mm:.2f}, z = 500 }}\nmade_of = "{made_of}"'
    job = job_of(tmp_path / "placed", more.replace(f'made_of = "{made_of}"', place))
    (screw,) = [one for one in job.hardware(in_use=False) if one.stud_mm]
    assert ("at least 24 mm into studs" in in_mm(screw.note)) is met
    # at 7 mm it is in the stud, 12 mm from its face; at 60 mm it is beside it
    in_stud = off_mm < 38.0 / 2
    assert ("it is too near the edge of a stud" in screw.note) is (in_stud and not met)
    assert ("no stud is behind it" in screw.note) is not in_stud
    warned = [one for one in job.failing if "kept down on its rail" in one]
    assert bool(warned) is not met


def test_where_no_stud_is_known_the_screw_of_a_carrier_says_what_is_taken_for_granted(
    tmp_path: Path,
) -> None:
    text = HEAD.replace("stud = [{ x = 300 }, { x = 700 }]\n", "")
    (tmp_path / "workshop.toml").write_text(text + LOCKED.format(joint="dovetail", screws=1))
    job = compute(tmp_path)
    (screw,) = [one for one in job.hardware(in_use=False) if one.stud_mm]
    assert "takes for granted 24 mm" in in_mm(screw.note)
    assert any("for which no stud is given" in one for one in job.found[0].cautions)
