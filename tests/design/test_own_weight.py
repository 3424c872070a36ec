"""What a holder weighs before it carries anything."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cleatwright.design.building import own_weight
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


def test_a_printed_part_counts_as_two_fifths_of_the_lightest_common_plastic() -> None:
    """100 cm3 of ABS (1.04 g/cm3, makers' data sheets, from memory), two fifths of it filled."""
    weight = own_weight(PRINTED, MeshKernel().evaluate(SOLID))
    assert weight.mass_kg == pytest.approx(0.1 * 1.04 * 0.4)
    assert weight.distance_mm == pytest.approx(30.0)


def test_a_part_of_wood_counts_as_solid_softwood() -> None:
    """100 cm3 of spruce or pine: 0.35 to 0.55 g/cm3 in any handbook of timber (from memory)."""
    wooden = replace(PRINTED, joinery=Joinery(100.0, 0.0, 20.0, 50.0))
    weight = own_weight(wooden, MeshKernel().evaluate(SOLID))
    assert 0.035 <= weight.mass_kg <= 0.055
    assert weight.distance_mm == pytest.approx(30.0)
