"""What the letters of the mark leave of the wall behind them, by subtraction."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cleatwright.checks.part import LEAST_MARKED_WALL_MM, check_marked_wall
from cleatwright.design.marking import DEPTH_MM, engraved
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import wall_screws
from cleatwright.parts.holder import Front, HolderPart, front_mark
from cleatwright.shapes.solid import Difference, Solid, block

PLATE_MM = 5.0


def plate(*hollows: Solid) -> HolderPart:
    """Return a plate that is marked in front, with hollows in it."""
    front = Front(
        solid=block(0.0, 0.0, -8.0, 80.0, 40.0, 0.0),
        width_mm=80.0,
        plate_low_mm=-40.0,
        plate_high_mm=0.0,
        reach_mm=40.0,
        low_mm=-8.0,
        high_mm=0.0,
        seats=(),
        genus=0,
        min_wall_mm=4.0,
        mark_place=front_mark(0.0, 80.0, z0=-40.0, z1=-8.0, y_mm=PLATE_MM),
        leading="x",
    )
    part = wall_screws.attach("test", front, MountSettings(plate_mm=PLATE_MM))
    return replace(part, solid=Difference(part.solid, hollows)) if hollows else part


def behind_mm(part: HolderPart) -> float:
    solid, marking = engraved(part, "0000000")
    body = MeshKernel().evaluate(solid)
    return body.wall_behind_mm(marking.outward, offset_mm=marking.floor_mm, within_mm=20.0)


def test_the_letters_leave_the_plate_less_their_depth() -> None:
    """Closed form: 5 - 0.6 mm."""
    assert behind_mm(plate()) == pytest.approx(PLATE_MM - DEPTH_MM, abs=1e-5)


@pytest.mark.parametrize("hollow_mm", [1.0, 2.5, 3.5])
def test_a_hollow_behind_the_letters_is_found(hollow_mm: float) -> None:
    """Closed form: 5 - 0.6 mm less a flat hollow cut into the back, wherever the letters are."""
    hollow = block(2.0, -1.0, -38.0, 78.0, hollow_mm, -10.0)
    left = behind_mm(plate(hollow))
    assert left == pytest.approx(PLATE_MM - DEPTH_MM - hollow_mm, abs=1e-5)
    part = replace(plate(), min_wall_mm=1.0)
    (check,) = check_marked_wall(part, depth_mm=DEPTH_MM, behind_mm=left)
    assert check.holds == (left >= LEAST_MARKED_WALL_MM)


def test_a_mark_may_take_its_depth_off_the_thinnest_wall_and_no_more() -> None:
    part = replace(plate(), min_wall_mm=2.7)
    for behind, holds in ((2.1, True), (2.0, False)):
        (check,) = check_marked_wall(part, depth_mm=DEPTH_MM, behind_mm=behind)
        assert check.holds == holds
        assert check.name == "wall behind the mark"
