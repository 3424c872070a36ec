"""What rails themselves weigh is borne by their screws."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from cleatwright.siting.rails.own_weight import own_loads, rail_kg_m3, rail_weight_n
from cleatwright.standards.materials.boards import BOARDS, board_named
from cleatwright.statics.rail import RailFixing, screw_loads, stud_loads
from cleatwright.wall.rail import Profile, Rail
from cleatwright.workshop.document.sections import RailRules

PROFILE = Profile(70.0, 18.0, 45.0)
RAIL = Rail(1, 1000.0, 0.0, 1300.0, PROFILE, studs_mm=(50.0, 650.0, 1250.0))
ROWS = (70.0 / 3, 140.0 / 3)


def test_a_rail_weighs_its_section_times_its_length() -> None:
    """By hand: 18 mm x (70 + 52) / 2 mm = 1098 mm2; x 1.3 m x 700 kg/m3 = 0.99918 kg; 9.799 N."""
    assert PROFILE.area_mm2 == pytest.approx(1098.0)
    assert rail_weight_n(RAIL, 700.0) == pytest.approx(9.7986, abs=1e-3)


def test_each_stud_bears_the_rail_from_the_middle_of_one_span_to_the_middle_of_the_next() -> None:
    """By hand, a beam in pieces: 350 of 1300 mm at the ends, 600 in the middle.

    But the ends beyond the outer studs lift at the next: 50^2 / (2 x 600) = 2.083 mm of length.
    """
    fixing = RailFixing(RAIL.studs_mm, 70.0, 18.0, ROWS)
    loads = own_loads(RAIL, 700.0)
    per_mm = rail_weight_n(RAIL, 700.0) / 1300.0
    left, middle, right = stud_loads(fixing, loads)
    assert left.weight_n == right.weight_n == pytest.approx(per_mm * (350.0 + 2.0833), rel=1e-5)
    assert middle.weight_n == pytest.approx(per_mm * (600.0 - 2 * 2.0833), rel=1e-5)
    # each of two screws bears half along the wall, and a little out of it
    top = screw_loads(fixing, loads)[0]
    assert top.shear_n == pytest.approx(left.weight_n / 2)
    assert 0.0 < top.withdrawal_n < top.shear_n


def test_a_rail_without_studs_weighs_the_same() -> None:
    bare = replace(RAIL, studs_mm=())
    total = math.fsum(one.weight_n for one in own_loads(bare, 420.0))
    assert total == pytest.approx(rail_weight_n(RAIL, 420.0))


@pytest.mark.parametrize(
    ("timber", "kg_m3"),
    [
        ("plywood", 700.0),
        ("Birch plywood", 700.0),
        ("spruce plywood", 500.0),
        ("pine", 420.0),
        ("white oak", 700.0),
        ("ash", 700.0),
        ("OSB/3", 700.0),
        ("MDF", 800.0),
        ("what lay about", 800.0),
    ],
)
def test_the_wood_that_is_named_has_its_density(timber: str, kg_m3: float) -> None:
    """EN 1991-1-1, Table A.3, from memory; what is not known is as heavy as the heaviest."""
    assert rail_kg_m3(RailRules(timber=timber)) == kg_m3
    assert kg_m3 <= max(numbers[0] for _, numbers in BOARDS.rows)
    assert board_named(timber) in BOARDS.keys


def test_what_the_owner_weighed_counts() -> None:
    assert rail_kg_m3(RailRules(timber="pine", density_kg_m3=530.0)) == 530.0
