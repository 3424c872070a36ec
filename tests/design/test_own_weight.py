"""What a holder weighs before it carries anything."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cleatwright.design.shaping import heavy_weight, own_weight
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.holder import Hanging, HolderPart, front_mark
from cleatwright.parts.joinery import Joinery
from cleatwright.shapes.solid import block

# 100 x 50 x 20 mm, its middle 30 mm out of the wall
SOLID = block(0.0, 5.0, 0.0, 100.0, 55.0, 20.0)
PRINTED = HolderPart(
    family="test",
    leading="1",
    solid=SOLID,
    seats=(),
    genus=0,
    bounds_mm=((0.0, 5.0, 0.0), (100.0, 55.0, 20.0)),
    min_wall_mm=20.0,
    mark_places=(front_mark(0.0, 100.0, z0=0.0, z1=20.0, y_mm=55.0),),
    hanging=Hanging("french-cleat", True, -12.0, 60.0, 45.0, 18.0),  # noqa: FBT003 - a record
    hardware=(),
)


@pytest.mark.parametrize("density", [500.0, 1040.0, 1270.0, 3900.0])
def test_a_printed_part_counts_as_two_fifths_filled_on_the_light_side(density: float) -> None:
    """M = rho V of 100 cm3, by hand; on the heavy side it counts without a void."""
    weight = own_weight(PRINTED, MeshKernel().evaluate(SOLID), density_kg_m3=density)
    assert weight.mass_kg == pytest.approx(density * 1e-4 * 0.4)
    assert heavy_weight(PRINTED, weight).mass_kg == pytest.approx(density * 1e-4)
    assert weight.distance_mm == pytest.approx(30.0)


def test_a_part_of_wood_counts_as_solid_softwood() -> None:
    """100 cm3 of spruce or pine: 0.35 to 0.55 g/cm3 in any handbook of timber (from memory)."""
    wooden = replace(PRINTED, joinery=Joinery(100.0, 0.0, 20.0, 50.0))
    weight = own_weight(wooden, MeshKernel().evaluate(SOLID), density_kg_m3=3900.0)
    assert 0.035 <= weight.mass_kg <= 0.055
    assert weight.distance_mm == pytest.approx(30.0)
