"""Cuts across x through blocks: what is left of a plate, and the stiffest piece before it."""

from __future__ import annotations

import pytest

from cleatwright.kernels.mesh import MeshKernel
from cleatwright.kernels.mesh.plate_cut import PlateCut, Rectangle, plate_cuts
from cleatwright.kernels.mesh.shell_cut import Shell
from cleatwright.shapes.solid import Difference, Solid, Union, block

KERNEL = MeshKernel()
PLATE = block(0.0, 0.0, -40.0, 100.0, 5.0, 20.0)
SHELL = Shell("y", 1.35, 0.9)


def cut(solid: Solid, at_mm: float = 50.0) -> PlateCut:
    (found,) = plate_cuts(KERNEL.evaluate(solid), [at_mm], thick_mm=5.0, shell=SHELL)
    return found


def near(one: Rectangle, y: tuple[float, float], z: tuple[float, float]) -> bool:
    got = (*one.low_mm, *one.high_mm)
    return got == pytest.approx((y[0], z[0], y[1], z[1]), abs=0.02)


def test_a_plain_plate_is_one_rectangle_that_bends_as_hollow() -> None:
    found = cut(PLATE)
    (plate,) = found.plate
    assert near(plate, (0.0, 5.0), (-40.0, 20.0))
    assert found.front is None
    (piece,) = found.pieces
    hollow = (60.0 * 5.0**3 - (60.0 - 2.7) * (5.0 - 1.8) ** 3) / 12.0
    assert piece.about_x_mm4 == pytest.approx(hollow, rel=1e-3)
    assert (piece.low_mm, piece.high_mm) == (
        pytest.approx((-40.0, 0.0)),
        pytest.approx((20.0, 5.0)),
    )


def test_an_opening_leaves_two_and_a_groove_what_lies_before_it() -> None:
    hole = block(40.0, -1.0, -20.0, 60.0, 6.0, -10.0)
    groove = block(-1.0, -1.0, 0.0, 101.0, 3.0, 12.0)
    below, between, before, above = cut(Difference(PLATE, (hole, groove))).plate
    assert near(below, (0.0, 5.0), (-40.0, -20.0))
    assert near(between, (0.0, 5.0), (-10.0, 0.0))
    assert near(before, (3.0, 5.0), (0.0, 12.0))
    assert near(above, (0.0, 5.0), (12.0, 20.0))


def test_letters_make_a_plate_as_thin_as_they_are_deep() -> None:
    """Three strokes of a mark 0.6 mm deep: one rectangle of 4.4 mm, not four of 5 mm."""
    strokes = tuple(block(49.0, 4.4, z, 51.0, 6.0, z + 1.0) for z in (-20.0, -16.0, -12.0))
    (plate, *_) = sorted(
        cut(Difference(PLATE, strokes)).plate, key=lambda one: one.low_mm[1] - one.high_mm[1]
    )
    assert near(plate, (0.0, 4.4), (-40.0, 20.0))


def test_a_shelf_before_a_plate_counts_once_and_only_where_it_is_whole() -> None:
    shelf = block(0.0, 0.0, -8.0, 100.0, 45.0, 0.0)
    bore = block(45.0, 20.0, -20.0, 55.0, 30.0, 20.0)
    whole, bored = cut(Union((PLATE, shelf))), cut(Difference(Union((PLATE, shelf)), (bore,)))
    assert whole.front is not None
    assert near(whole.front, (5.0, 45.0), (-8.0, 0.0))
    assert bored.front is not None
    assert near(bored.front, (5.0, 20.0), (-8.0, 0.0)) or near(
        bored.front, (30.0, 45.0), (-8.0, 0.0)
    )


def test_a_cut_beside_a_body_is_none() -> None:
    assert not list(plate_cuts(KERNEL.evaluate(PLATE), [120.0], thick_mm=5.0, shell=SHELL))
