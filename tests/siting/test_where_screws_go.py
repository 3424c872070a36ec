"""Where the screws into the wall itself are told to go: where the holes of the parts are."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.small import document

from cleatwright.base.stages.run import Run
from cleatwright.pack.drawing import elevation_view
from cleatwright.pack.front_view import front_view
from cleatwright.pack.job import Job
from cleatwright.pack.reporting import report_of
from cleatwright.papers.elevation.drawing import elevation_pages
from cleatwright.papers.report_model import ScrewedRow
from cleatwright.project.computing import compute

CAN = """
[[tool]]
name = "Oil spray"
kind = "can"
measures = { diameter = 65.5, height = 180 }
mass = "390 g"
"""
TORCH = """
[[tool]]
name = "Torch"
kind = "torch"
measures = { diameter = 26, length = 150, head = 36, head_length = 35 }
"""
LOCKED = """
[[carrier]]
name = "Strip"
joint = "dovetail"
params = {{ screw_count = 2 }}
{made_of}

[[holder]]
tools = ["Torch"]
carrier = "Strip"
"""
# the widest clear hole of a screw of 6 mm with its countersunk head, and some more
WIDEST_HOLE_MM = 16.0


def job_of(folder: Path, tool: str, more: str) -> Job:
    text = document("Narrow", tool, width=1200, height=900, studs=(300, 700), wall="floor_gap = 50")
    (folder / "workshop.toml").write_text(text + more, "utf-8")
    return compute(folder)


def told(job: Job) -> tuple[ScrewedRow, ...]:
    report = report_of(job, files=())
    return tuple(screw for row in (*report.holders, *report.carriers) for screw in row.wall_screws)


def holes_mm(job: Job) -> set[tuple[float, float]]:
    """Return the middles of the small holes through all that one unit puts on the wall."""
    (unit,) = job.units
    (panel,) = job.panels
    seen = front_view(unit.outer, panel.spots[unit.planned.key].place, Run())
    boxes = [
        (min(xs), max(xs), min(zs), max(zs))
        for xs, zs in (zip(*loop, strict=True) for loop in seen.part)
    ]
    return {
        (round((x0 + x1) / 2, 1), round((z0 + z1) / 2, 1))
        for x0, x1, z0, z1 in boxes
        if x1 - x0 < WIDEST_HOLE_MM and z1 - z0 < WIDEST_HOLE_MM
    }


def near(found: set[tuple[float, float]], x_mm: float, z_mm: float) -> bool:
    return any(abs(x - x_mm) < 0.2 and abs(z - z_mm) < 0.2 for x, z in found)


@pytest.mark.parametrize(
    ("tool", "more"),
    [
        (
            CAN,
            f'\n[[holder]]\ntools = ["Oil spray"]\nmount = "wall-screws"\njoint = "{j}"\n',
        )
        for j in ("one-piece", "grooves")
    ]
    + [(TORCH, LOCKED.format(made_of="")), (TORCH, LOCKED.format(made_of='made_of = "wood"'))],
    ids=["one piece", "plates in grooves", "carrier", "carrier of wood"],
)
def test_each_screw_goes_through_a_hole(tmp_path: Path, tool: str, more: str) -> None:
    """The holes are those of the mesh, or of the board of wood, as it is seen from the front."""
    job = job_of(tmp_path, tool, more)
    found, holes = told(job), holes_mm(job)
    (bought,) = [one for one in job.units[0].outer.part.hardware if one.stud_mm]
    assert len(found) == bought.count
    assert len({(one.x_mm, one.z_mm) for one in found}) == bought.count
    assert all(near(holes, one.x_mm, one.z_mm) for one in found), (found, holes)


def test_screws_beside_the_studs_are_told_with_their_places(tmp_path: Path) -> None:
    """By hand: the holder is 76.4 mm wide and hangs at x = 400; studs are at 300 and 700.

    The head of a screw of 4 mm is 8.4 mm wide in its hole, with 3 mm round it: the upper one is
    7.2 mm below the top edge.
    """
    place = "place = { x = 400, z = 500 }\n"
    more = f'\n[[holder]]\ntools = ["Oil spray"]\nmount = "wall-screws"\n{place}'
    job = job_of(tmp_path, CAN, more)
    (made,) = job.built
    upper, lower = told(job)
    width = made.part.bounds_mm[1][0]
    assert (upper.x_mm, upper.z_mm) == pytest.approx((400.0 + width / 2, 492.8))
    assert lower.x_mm == upper.x_mm
    assert lower.z_mm < upper.z_mm
    assert upper.behind == lower.behind == "none"
    (panel,) = job.panels
    page = b"".join(elevation_pages(elevation_view(panel, Run()))).decode()
    assert "Screws of what is screwed to the wall itself" in page
    assert "NO STUD" in page
    assert "not far enough inside a stud, it does not hold" in page


@pytest.mark.parametrize(("off_mm", "behind"), [(0.0, "stud"), (15.0, "edge")])
def test_a_screw_at_the_edge_of_its_stud_is_told_as_that(
    tmp_path: Path, off_mm: float, behind: str
) -> None:
    """A stud of 38 mm has its face 19 mm from its middle: 4 mm are left of 12.5 mm."""
    place = f"place = {{ x = {300.0 + off_mm - 76.4 / 2}, z = 500 }}\n"
    more = f'\n[[holder]]\ntools = ["Oil spray"]\nmount = "wall-screws"\n{place}'
    assert {one.behind for one in told(job_of(tmp_path, CAN, more))} == {behind}


def test_where_no_stud_is_named_the_papers_say_so(tmp_path: Path) -> None:
    more = '\n[[holder]]\ntools = ["Oil spray"]\nmount = "wall-screws"\n'
    (tmp_path / "workshop.toml").write_text(
        document("Bare", CAN, width=1200, height=900, studs=()) + more, "utf-8"
    )
    job = compute(tmp_path)
    assert [one.behind for one in told(job)] == ["unknown"] * 2
    (panel,) = job.panels
    page = b"".join(elevation_pages(elevation_view(panel, Run()))).decode()
    assert "stud not known" in page
    assert "NO STUD" not in page
