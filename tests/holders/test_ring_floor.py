"""Every ring floor holds every row of round bodies that it accepts, and its sizes are right."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import strategies as st
from tests.holders.trial import HalfPlay, Trial

from cleatwright.holders.families.ring_floor.family import FAMILY
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.grips import RoundBody
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import circle
from cleatwright.shapes.solid import block, prism


def can(diameter_mm: float, height_mm: float, brim_mm: float = 0.0) -> ToolBody:
    """Return a can that stands at z = -3, with a trigger head wider by ``brim_mm`` on each side."""
    body = prism(circle(diameter_mm), height_mm).moved(0.0, 0.0, -3.0)
    half, top = diameter_mm / 2 + brim_mm, height_mm - 3.0
    head = (block(-half, -half, top, half, half, top + 40.0),) if brim_mm else ()
    return ToolBody(
        kind="test-can",
        leading=f"{diameter_mm:g}",
        envelope=(body, *head),
        mass_kg=1e-6 * math.pi / 4 * diameter_mm**2 * height_mm,
        com_mm=(0.0, 0.0, height_mm / 2 - 3.0),
        grips=(RoundBody(-3.0, diameter_mm, height_mm),),
        order_mm=diameter_mm,
    )


TRIAL = Trial(
    FAMILY,
    st.builds(
        can, st.floats(10.0, 150.0), st.floats(40.0, 350.0), st.sampled_from([0.0, 3.0, 25.0])
    ),
    groups=(
        (can(20.0, 90.0), can(52.0, 180.0), can(65.0, 195.0, 10.0)),
        (can(10.0, 40.0), can(120.0, 300.0), can(66.0, 200.0)),
        (can(66.0, 200.0),),
        (can(10.0, 40.0),),
    ),
    guided=(HalfPlay(can(66.0, 200.0), raised_mm=2.0, within_mm=0.021),),
    held=(can(66.0, 40.0),),
    refused=((can(66.0, 39.0), "39 mm is lower than the 40 mm"),),
)


def test_there_is_a_ring_for_each_can_and_an_opening_where_the_base_is_wide_enough() -> None:
    assert TRIAL.front(can(20.0, 90.0), can(52.0, 180.0), can(65.0, 195.0, 10.0)).genus == 3 + 2


def test_ring_floor_and_webs_have_the_volume_of_the_closed_form(kernel: MeshKernel) -> None:
    """A ring is a rectangle with a roof, plus two flares, less eight sides with a roof.

    A roof whose slopes touch a circle of radius r, with a flat of 2 f, has the area
    (2 sqrt 2 - 1) r^2 - f^2 in front of the middle; half of eight sides is 4 (sqrt 2 - 1) r^2.
    """
    front = TRIAL.front(can(60.0, 200.0))
    x, plate, wall, inner, flat = front.width_mm / 2, 5.0, 3.0, 30.2, 4.5
    half, axis, eighth = inner + wall, plate + 1.0 + inner, math.tan(math.pi / 8)
    roof = 2 * math.sqrt(2.0) - 1.0
    ring = 2 * half * axis + roof * half**2 - (flat + wall * eighth) ** 2
    flares = 2 * 2.0 * plate + 2.0**2
    hole = (roof + 4 * eighth) * inner**2 - flat**2
    body = kernel.evaluate(front.solid)

    def between(z0: float, z1: float) -> float:
        slab = block(x - 99.0, -1.0, z0, x + 99.0, 199.0, z1)
        return body.overlap_mm3(kernel.evaluate(slab))

    assert between(48.0, 59.0) == pytest.approx(11.0 * (ring + flares - hole), rel=1e-6)
    assert between(0.0, 48.0) == pytest.approx(0.0, abs=1e-6), "open between floor and ring"
    plan = 2 * half * (axis + half) - (half * (1.0 - eighth)) ** 2
    open_mm = 30.0 - 7.0
    front = 2 * open_mm * flat + (open_mm + flat) * (open_mm - flat)
    floor = 5.0 * (plan - front - 4 * eighth * open_mm**2)
    assert between(-5.0, 0.0) == pytest.approx(floor, rel=1e-6)
    root, run = 0.35 * (axis + half - plate), axis + half * eighth - plate
    webs = 2 * wall * (plate * root + run * (root + 8.0) / 2)
    cove = (2 * half - 2 * wall) * (plate * 3.0 + 3.0**2 / 2)
    assert between(-99.0, -5.0) == pytest.approx(webs + cove, rel=1e-6)


def test_the_ring_stands_at_a_bounded_share_of_the_height() -> None:
    part = TRIAL.part(can(30.0, 40.0), can(50.0, 100.0), can(66.0, 300.0))
    lifts = [seat.way_out[0][2] - 1.0 for seat in part.seats]
    assert lifts == pytest.approx([24.0, 37.0, 60.0])


def test_the_walls_of_a_wide_ring_bear_a_knock_unless_the_owner_says_how_thick_they_are() -> None:
    """By hand for 140 mm: legs of 128 mm, 5 N / 2 each, 0.574 of it at a foot, 8 N/mm2.

    A leg 12 mm high and t thick: 1.1 x 2.5 x 128 x 0.574 / 8 = 12 t2 / 6, so t = 3.56 mm.
    """
    long = 70.2 * (math.sqrt(2.0) + math.tan(math.pi / 8))
    k = long / 140.4
    foot = 2.5 * long * (3 * k + 1) / (6 * k + 1)
    thick = math.sqrt(1.1 * foot / 8.0 * 6.0 / 12.0)
    wide = can(140.0, 200.0)
    assert thick == pytest.approx(3.57, abs=0.01)
    assert TRIAL.front(wide).width_mm == pytest.approx(140.4 + 2 * thick + 2 * 2.0)
    thin = TRIAL.front(wide, params={"wall": 3.0})
    assert thin.width_mm == pytest.approx(140.4 + 6.0 + 2 * 2.0)
    assert TRIAL.front(can(60.0, 200.0)).min_wall_mm == pytest.approx(3.0)


def test_a_heavy_can_has_a_smaller_opening_and_a_very_heavy_one_deeper_webs(
    kernel: MeshKernel,
) -> None:
    light, heavy, heaviest = (
        TRIAL.front(replace(can(120.0, 200.0), mass_kg=mass)) for mass in (1.0, 7.0, 20.0)
    )
    assert (light.genus, heavy.genus) == (2, 2)
    slab = kernel.evaluate(block(-1.0, 0.0, -5.0, 300.0, 300.0, 0.0))
    floors = [kernel.evaluate(one.solid).overlap_mm3(slab) for one in (light, heavy)]
    assert floors[1] > 1.1 * floors[0]
    assert heaviest.low_mm < heavy.low_mm == light.low_mm
