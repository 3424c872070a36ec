"""Hexagonal pockets in steps; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import strategies as st
from tests.holders.trial import HalfPlay, Trial

from cleatwright.holders.families.hex_pocket_block.family import FAMILY, MOST_ROWS
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.grips import HexShank
from cleatwright.parts.tool import Fit, ToolBody
from cleatwright.shapes.outline import hexagon
from cleatwright.shapes.solid import Solid, block, prism


def bit(flats_mm: float, length_mm: float = 25.0, *, head_mm: float = 0.0) -> ToolBody:
    """Return a bit whose lower 12 mm at least are hexagonal, with a square head if it has one."""
    shank = max(12.0, 0.5 * length_mm)
    envelope: tuple[Solid, ...] = (prism(hexagon(flats_mm).turned(90.0), length_mm),)
    if head_mm > 0.0:
        h = head_mm / 2
        envelope = (*envelope, block(-h, -h, shank, h, h, length_mm))
    grip = HexShank(0.0, flats_mm, shank)
    return ToolBody("bit", "x", envelope, 0.01, (0.0, 0.0, length_mm / 2), (grip,), length_mm)


TRIAL = Trial(
    FAMILY,
    st.builds(
        bit,
        st.floats(3.0, 20.0),
        st.floats(18.0, 160.0),
        head_mm=st.one_of(st.just(0.0), st.floats(3.0, 30.0)),
    ),
    groups=(
        (bit(6.35),),
        tuple(bit(f, 25.0 + 5.0 * k) for k, f in enumerate((3.0, 20.0, 6.35, 4.0, 10.0, 6.35))),
        tuple(bit(6.35, 25.0 + k) for k in range(40)),
    ),
    guided=(HalfPlay(bit(6.35), raised_mm=5.0),),
    held=(bit(3.0, 18.0), bit(20.0, 160.0)),
    refused=((bit(21.0), "21 mm across flats"), (bit(6.35, 170.0), "length of 170 mm")),
)


def test_forty_bits_stand_in_four_rows_of_ten_each_higher_than_the_one_in_front() -> None:
    part = TRIAL.part(*[bit(6.35, 40.0)] * 40)
    places = [seat.pose.apply((0.0, 0.0, 0.0)) for seat in part.seats]
    for k in range(MOST_ROWS):
        rows = places[10 * k : 10 * k + 10]
        assert len({(round(y, 6), round(z, 6)) for _, y, z in rows}) == 1
        assert [x for x, _, _ in rows] == sorted(x for x, _, _ in rows)
    fronts = [places[10 * k] for k in range(MOST_ROWS)]
    assert [round(b[2] - a[2], 6) for a, b in pairwise(fronts)] == [6.0] * 3
    assert all(a[1] > b[1] for a, b in pairwise(fronts))


def test_a_pocket_takes_away_a_hexagon_and_its_lead_in(kernel: MeshKernel) -> None:
    """Volume of a hexagonal prism and of the frustum of its chamfer, in closed form."""
    least, most = (
        kernel.evaluate(
            TRIAL.front(bit(flats, 40.0, head_mm=16.0), fit=Fit(0.5)).solid
        ).facts.volume_mm3
        for flats in (10.0, 6.0)
    )

    def area(flats: float) -> float:
        return math.sqrt(3.0) / 2 * flats**2

    def pocket(flats: float) -> float:
        low, high = area(flats), area(flats + 1.2)
        return low * (10.0 - 0.6) + 0.6 / 3 * (low + high + math.sqrt(low * high))

    assert most - least == pytest.approx(pocket(10.5) - pocket(6.5), rel=1e-6)


def test_six_bits_make_a_front_of_less_than_twenty_cubic_centimetres(kernel: MeshKernel) -> None:
    six = TRIAL.front(*[bit(6.35)] * 6)
    assert kernel.evaluate(six.solid).facts.volume_mm3 < 20e3
