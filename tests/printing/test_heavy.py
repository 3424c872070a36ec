"""Where the plastic of a heavy part goes, on solids whose faces are known."""

from __future__ import annotations

import pytest

from cleatwright.kernels.mesh import MeshKernel
from cleatwright.printing.heavy import ASIDE, LEVEL, PLATE, heavy_words, mass_shares
from cleatwright.shapes.solid import block, joined


def test_a_plate_with_a_shelf_has_the_shares_of_its_faces() -> None:
    """By hand: a plate 100 x 5 x 80 and a shelf 100 wide, 60 out and 4 high on it.

    Plate: 2 x 8000 less the root of 400, and its edges of 2 x 500 + 2 x 400: 17,400. Shelf: above
    and below 6000 each, ends 240 each, front 400: 12,880. All 30,280.
    """
    solid = joined(block(0, 0, 0, 100, 5, 80), block(0, 1, 20, 100, 65, 24))
    shares = mass_shares(MeshKernel().evaluate(solid).corners_mm, plate_mm=5.0)
    found = {one.piece: one.share for one in shares}
    assert list(found) == [PLATE, LEVEL]
    assert found[PLATE] == pytest.approx(17_400 / 30_280, rel=1e-3)
    assert found[LEVEL] == pytest.approx(12_000 / 30_280, rel=1e-3)
    words = heavy_words(100.0, shares)
    assert words == f"about 57 g in {PLATE}, 40 g in {LEVEL}"


def test_webs_count_as_what_stands_along_the_way_out() -> None:
    solid = joined(block(0, 0, 0, 40, 5, 80), block(18, 1, 0, 22, 105, 80))
    first = mass_shares(MeshKernel().evaluate(solid).corners_mm, plate_mm=5.0)[0]
    assert first.piece == ASIDE


def test_a_light_part_needs_no_reason() -> None:
    solid = block(0, 0, 0, 100, 5, 80)
    assert (
        heavy_words(60.0, mass_shares(MeshKernel().evaluate(solid).corners_mm, plate_mm=5.0)) == ""
    )
