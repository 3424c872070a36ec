"""Tools share a holder that is screwed to the wall only where its screws may meet studs.

By hand: two cans of 65.5 mm stand on a plate of about 150 mm with three columns. Screws keep
12.5 mm to each face of a stud, so that one 40 mm wide leaves them 15 mm. The last stud may be off
by that, less 2 mm on each side, so that they lie well inside.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from cleatwright.jobs.hung import record_hung
from cleatwright.jobs.making import make_workshop
from cleatwright.project.computing import compute

HEAD = """schema = 1
name = "Narrow"
units = "mm"

[wall]
width = 1600
height = 900
{studs}
[printer.bench]
bed = [240, 240, 200]

[filament.plain]
material = "PETG"
density = 1270

[defaults]
mount = "wall-screws"
{cans}{more}
"""
CAN = """
[[tool]]
name = "{name}"
kind = "can"
measures = {{ diameter = 65.5, height = 180 }}
mass = "390 g"
"""
NAMES = ("Glue", "Oil")
OWN = '\n[[holder]]\ntools = ["Glue", "Oil"]\n'


def shared(folder: Path, studs_mm: tuple[float, ...], *, more: str = "") -> list[tuple[str, ...]]:
    """Return the tools of each holder."""
    studs = "".join(f"\n[[wall.stud]]\nx = {x:g}\nwidth = 40\n" for x in studs_mm)
    cans = "".join(CAN.format(name=name) for name in NAMES)
    (folder / "workshop.toml").write_text(HEAD.format(studs=studs, cans=cans, more=more), "utf-8")
    job = compute(folder)
    assert all("studs" not in one for one in job.failing) or more
    return sorted(tuple(tool.name for tool in one.tools) for one in job.planned)


@pytest.fixture(scope="module")
def columns_mm(tmp_path_factory: pytest.TempPathFactory) -> tuple[float, ...]:
    """Return where its columns are where nobody says where studs are."""
    folder = tmp_path_factory.mktemp("no-studs")
    assert shared(folder, ()) == [NAMES]
    (panel,) = compute(folder).panels
    (unit,) = panel.units
    screws = unit.outer.part.hanging.screws
    assert screws is not None
    return screws.columns_mm


def test_single_studs_far_apart_take_one_can_each(tmp_path: Path) -> None:
    assert shared(tmp_path, (200.0, 600.0, 1000.0)) == [("Glue",), ("Oil",)]


@pytest.mark.parametrize(
    ("off_mm", "together"), [(0.0, True), (10.5, True), (11.5, False), (16.0, False)]
)
def test_studs_as_far_apart_as_its_screws_take_both(
    tmp_path: Path, columns_mm: tuple[float, ...], off_mm: float, *, together: bool
) -> None:
    *studs, last = (400.0 + x for x in columns_mm)
    found = shared(tmp_path, (*studs, last + off_mm))
    assert (found == [NAMES]) is together


def test_a_holder_of_your_own_stays_as_you_have_it(tmp_path: Path) -> None:
    assert shared(tmp_path, (200.0, 600.0, 1000.0), more=OWN) == [NAMES]


def test_what_hangs_stays_together_when_studs_are_told_after(tmp_path: Path) -> None:
    """You fixed it otherwise, and no new one is printed in its place."""
    assert shared(tmp_path, ()) == [NAMES]
    make_workshop(tmp_path)
    record_hung(tmp_path, anyway=True)
    assert shared(tmp_path, (200.0, 600.0, 1000.0), more="\n# studs told later\n") == [NAMES]
