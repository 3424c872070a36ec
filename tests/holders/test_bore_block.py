"""Every bore block holds every row of shafts that it accepts, and its sizes are right."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import strategies as st
from tests.holders.trial import HalfPlay, Trial

from cleatwright.checks.rail_hold import Holding, check_rail_hold
from cleatwright.holders.families.bore_block.family import FAMILY
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.grips import ShaftEnd
from cleatwright.parts.tool import Fit, ToolBody
from cleatwright.shapes.outline import circle
from cleatwright.shapes.solid import block, prism
from cleatwright.statics.cleat import OwnWeight
from cleatwright.statics.hand import Hand


def key(
    diameter_mm: float, length_mm: float, arm_mm: float = 0.0, *, covered_mm: float = 0.0
) -> ToolBody:
    """Return a round shaft whose end lies at z = 5, with an arm to the person on top."""
    r, top = diameter_mm / 2, 5.0 + length_mm
    shaft = prism(circle(diameter_mm), length_mm + diameter_mm).moved(0.0, 0.0, 5.0)
    arm = (block(-r, -r, top, r, arm_mm, top + diameter_mm),) if arm_mm else ()
    return ToolBody(
        kind="test-key",
        leading=f"{diameter_mm:g}",
        envelope=(shaft, *arm),
        mass_kg=0.05,
        com_mm=(0.0, arm_mm / 4, 5.0 + length_mm * 0.6),
        grips=(ShaftEnd(5.0, diameter_mm, length_mm, covered_mm),),
        order_mm=diameter_mm,
    )


@st.composite
def shafts(draw: st.DrawFn) -> ToolBody:
    diameter = draw(st.floats(1.2, 30.0))
    length = draw(st.floats(max(12.0, 0.8 * diameter + 2.0), 300.0))
    return key(diameter, length, draw(st.sampled_from([0.0, diameter + 10.0])))


TRIAL = Trial(
    FAMILY,
    shafts(),
    groups=(
        (key(6.0, 90.0),),
        (key(1.2, 12.0),),
        (key(1.2, 12.0), key(30.0, 300.0), key(5.0, 80.0)),
        (key(10.0, 150.0, covered_mm=41.0), key(8.0, 120.0, covered_mm=64.0), key(6.0, 90.0)),
        tuple(
            key(d, length, 3 * d)
            for d, length in ((1.5, 45.0), (2.5, 56.0), (4.0, 70.0), (6.0, 90.0), (10.0, 112.0))
        ),
    ),
    guided=(HalfPlay(key(6.0, 90.0), raised_mm=2.0, within_mm=0.021),),
    held=(key(1.2, 12.0), key(30.0, 300.0)),
    refused=(
        (key(1.0, 40.0), "1 mm is outside"),
        (key(31.0, 200.0), "31 mm is outside"),
        (key(4.0, 11.0), "only 11 mm"),
        (key(25.0, 21.0), "less than 22 mm"),
        (key(10.0, 90.0, covered_mm=70.0), "70 mm of it must be covered"),
    ),
)


def test_only_thick_shafts_get_a_hole_for_dust() -> None:
    """Of 1.5, 2.5, 4, 6 and 10 mm the last two are wider than a drain and its rim."""
    front = TRIAL.front(*TRIAL.groups[-1])
    assert front.genus == 2
    assert front.leading == "5x1.5-10"


def test_the_volume_of_one_fin_is_that_of_the_closed_form(kernel: MeshKernel) -> None:
    """A round-nosed prism cut by the plane z = y - knee, less a bore with a 45-degree mouth."""
    front = TRIAL.front(key(4.0, 50.0), fit=Fit(0.2))
    r, depth, half, plate, lead = 2.1, 0.4 * 50.0, 2.1 + 2.7, 5.0, 1.0
    axis = plate + 1.0 + r
    reach = axis + 6.8
    knee = axis + r + depth + 3.0 * math.sqrt(2.0)
    straight = reach - half
    area = 2 * half * (straight - plate) + math.pi * half**2 / 2
    moment = half * (straight**2 - plate**2) + math.pi * half**2 / 2 * (
        straight + 4 * half / (3 * math.pi)
    )
    fin = 2 * half * plate * (knee - plate) + knee * area - moment
    mouth = math.pi * lead / 3 * (r**2 + r * (r + lead) + (r + lead) ** 2)
    bore = math.pi * r**2 * (depth - lead) + mouth
    measured = kernel.evaluate(front.solid).facts.volume_mm3
    assert measured == pytest.approx(fin - bore, rel=2e-3)
    assert front.reach_mm == pytest.approx(reach)
    assert front.low_mm == pytest.approx(plate - knee)


def test_a_light_holder_with_its_own_weight_over_the_rail_stays_on_it() -> None:
    """An empty holder whose centre lies over the rail asks nothing of its bolt."""
    wanted = Holding(1.5, Hand(0.3, 10.0, 10.0), 5.0)
    part = TRIAL.on_rail(key(1.7, 42.0, 14.0))
    own = OwnWeight(0.015, 0.0, part.bounds_mm[1][0] / 2)
    checks = check_rail_hold(part, own, wanted)
    assert len(checks) == 5
    assert all(check.holds for check in checks)
    (empty,) = check_rail_hold(replace(part, seats=()), own, wanted)[:1]
    assert empty.demand == 0.0


def test_depth_follows_the_shaft_within_its_bounds() -> None:
    part = TRIAL.part(key(2.0, 15.0), key(2.0, 50.0), key(2.0, 200.0), key(20.0, 20.0))
    lifts = [seat.way_out[0][2] - 1.0 for seat in part.seats]
    assert lifts == pytest.approx([8.0, 20.0, 28.0, 16.0])


@pytest.mark.parametrize("covered", [12.0, 41.0, 64.0])
def test_a_point_is_covered_on_all_sides_and_comes_out_nowhere(
    kernel: MeshKernel, covered: float
) -> None:
    """A thin line from any place of the covered end, down or level, ends in the holder."""
    part = TRIAL.part(key(10.0, 150.0, covered_mm=covered))
    holder, seat = kernel.evaluate(part.solid), part.seats[0]
    x, y, z = seat.pose.apply((0.0, 0.0, 5.0))
    walls = [block(x - 40.0, y - 0.1, z + h, x, y + 0.1, z + h + 0.2) for h in (0.0, covered - 1.5)]
    walls += [block(x - 0.1, y, z + h, x + 0.1, y + 40.0, z + h + 0.2) for h in (0.0, covered / 2)]
    walls.append(block(x - 0.1, y - 0.1, z - 40.0, x + 0.1, y + 0.1, z))
    for wall in walls:
        assert holder.overlap_mm3(kernel.evaluate(wall)) > 0.04 * 2.0
    assert TRIAL.front(seat.tool).genus == 0
