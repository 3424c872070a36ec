"""What a holder takes and needs before it is built, against what it takes when it is printed."""

from __future__ import annotations

import pytest

from cleatwright.design.figures import MEETING, plastic_mm3


def test_a_thin_plate_is_solid_and_a_thick_one_has_skins_and_infill() -> None:
    """By hand, a plate of 100 x 100: 1 mm is all wall; 10 mm has two skins, and 4 sides."""
    thin = plastic_mm3(1e4, 2e4 + 400.0, wall_mm=0.9, infill=0.15)
    assert thin == pytest.approx(1e4)
    area = 2e4 + 4 * 1e3
    closed = MEETING * area * 0.9
    thick = plastic_mm3(1e5, area, wall_mm=0.9, infill=0.15)
    assert thick == pytest.approx(closed + 0.15 * (1e5 - closed))
    # cut in layers: 2 skins of 0.9, and of the rest a rim of 0.9 around 100 x 100
    layers = 1e4 * 1.8 + 8.2 * (1e4 - 98.2**2)
    exact = layers + 0.15 * (1e5 - layers)
    assert thick == pytest.approx(exact, rel=0.03)
