"""The same can on the same bare wall hangs elsewhere for another person."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.small import can, document

from cleatwright.pack.job import Job
from cleatwright.project.computing import compute

FLOOR_GAP_MM = 700.0
WALL = document(
    "Bare",
    can("Oil spray", 'use = "daily"', diameter=65.5, height=190, mass="390 g"),
    width=2000,
    height=1100,
    studs=(200, 600, 1000, 1400, 1800),
    wall=f"floor_gap = {FLOOR_GAP_MM:g}\n",
)


def job_for(folder: Path, person: str) -> Job:
    folder.mkdir()
    (folder / "workshop.toml").write_text(f"{WALL}\n[person]\n{person}\n", "utf-8")
    return compute(folder)


def test_daily_tools_hang_on_the_side_of_the_better_hand(tmp_path: Path) -> None:
    """Half the breadth of the shoulders beside x 1000: 203.7 mm (ANSUR II) at 1750 mm."""
    middles: dict[str, float] = {}
    for hand in ("left", "right"):
        job = job_for(tmp_path / hand, f'hand = "{hand}"\nstature = 1750')
        (spot,), (made,) = job.spots.values(), job.built
        middles[hand] = spot.place.x_mm + made.part.bounds_mm[1][0] / 2
    assert middles["left"] < 1000.0 < middles["right"]
    for hand, easy_mm in (("left", 796.3), ("right", 1203.7)):
        # a rail from stud to stud passes both places, and nothing else is on the wall
        assert abs(middles[hand] - easy_mm) <= 50.0


@pytest.mark.parametrize("stature", [1550, 1750, 2000])
def test_rails_are_between_the_elbow_and_the_shoulder_of_the_person(
    tmp_path: Path, stature: int
) -> None:
    """Drillis and Contini: elbow at 0.630 and shoulder at 0.818 of the stature."""
    job = job_for(tmp_path / "reach", f"stature = {stature}")
    (rail,), (panel,) = job.rails, job.panels
    hands = [FLOOR_GAP_MM + rail.z_top_mm + item.hand_up_mm for item in panel.problem.items]
    # heights are tried at each 50 mm
    for hand in hands:
        assert 0.630 * stature - 25.0 <= hand <= 0.818 * stature + 25.0
    assert panel.problem.band.low_mm == pytest.approx(0.630 * stature)
    assert panel.problem.band.high_mm == pytest.approx(0.818 * stature)


def test_the_taller_the_person_the_higher_the_rail(tmp_path: Path) -> None:
    heights = [
        job_for(tmp_path / str(stature), f"stature = {stature}").rails[0].z_top_mm
        for stature in (1500, 1700, 1900, 2100)
    ]
    assert heights == sorted(set(heights))
