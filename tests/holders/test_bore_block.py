"""Every bore block holds every row of shafts that it accepts, and its sizes are right."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.checks.cleat_stability import check_cleat
from cleatwright.holders.families.bore_block.family import FAMILY, Params
from cleatwright.holders.family import BuildContext
from cleatwright.kernels.lettering import letter_lines
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import french_cleat, wall_screws
from cleatwright.parts.grips import ShaftEnd
from cleatwright.parts.holder import HolderPart
from cleatwright.parts.tool import Fit, FittedTool, ToolBody
from cleatwright.shapes.outline import circle
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block, prism
from cleatwright.statics.cleat import OwnWeight

CTX = BuildContext()
FIT = Fit(0.3)
GoodPart = Callable[[HolderPart], MeshBody]
BOUNDS = {
    "share": (0.25, 0.6),
    "least_mm": (8.0, 10.0),
    "most_mm": (12.0, 60.0),
    "rim_mm": (1.8, 10.0),
    "floor_mm": (3.0, 10.0),
    "drain_mm": (2.0, 4.0),
    "lift_mm": (0.5, 10.0),
}


def key(diameter_mm: float, length_mm: float, arm_mm: float = 0.0) -> ToolBody:
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
        grips=(ShaftEnd(5.0, diameter_mm, length_mm),),
        order_mm=diameter_mm,
    )


def hung(*tools: ToolBody, fit: Fit = FIT, params: Params | None = None) -> HolderPart:
    front = FAMILY.build([FittedTool(t, fit) for t in tools], params or Params(), CTX)
    return french_cleat.attach("bore-block", front, MountSettings())


@st.composite
def shafts(draw: st.DrawFn) -> ToolBody:
    diameter = draw(st.floats(1.2, 30.0))
    length = draw(st.floats(max(12.0, 0.8 * diameter + 2.0), 300.0))
    return key(diameter, length, draw(st.sampled_from([0.0, diameter + 10.0])))


def test_a_graded_set_of_keys_is_good(assert_good: GoodPart) -> None:
    sizes = [(1.5, 45.0), (2.5, 56.0), (4.0, 70.0), (6.0, 90.0), (10.0, 112.0)]
    part = hung(*(key(d, length, 3 * d) for d, length in sizes))
    assert_good(part)
    assert part.genus == 2, "only the two thick shafts get a hole for dust"
    assert part.leading == "5x1.5-10"


@pytest.mark.parametrize("side", [0, 1])
def test_the_least_and_the_largest_parameters_are_good(assert_good: GoodPart, side: int) -> None:
    params = Params(**{name: bounds[side] for name, bounds in BOUNDS.items()})
    assert_good(hung(key(1.2, 12.0), key(30.0, 300.0), key(5.0, 80.0), params=params))


def test_a_block_can_be_screwed_to_the_wall(assert_good: GoodPart) -> None:
    front = FAMILY.build([FittedTool(key(6.0, 90.0), FIT)], Params(), CTX)
    assert_good(wall_screws.attach("bore-block", front, MountSettings()))


def test_the_smallest_holder_has_room_for_a_mark() -> None:
    """Four and three of the widest capitals, 5 mm high, with 1 mm around them, have room."""
    front = FAMILY.build([FittedTool(key(1.2, 12.0), FIT)], Params(), CTX)
    assert front.mark_place.width_mm >= letter_lines("WWWW", 5.0).width_mm + 2.0
    assert front.mark_place.height_mm >= 2 * 5.0 + 2.0


@settings(deadline=None, max_examples=15)
@given(
    tools=st.lists(shafts(), min_size=1, max_size=7),
    play=st.floats(0.1, 0.8),
    params=st.fixed_dictionaries({n: st.floats(a, b) for n, (a, b) in BOUNDS.items()}),
)
def test_any_row_of_shafts_is_good(
    assert_good: GoodPart, tools: list[ToolBody], play: float, params: dict[str, float]
) -> None:
    assert_good(hung(*tools, fit=Fit(play), params=Params(**params)))


@pytest.mark.parametrize(("play", "correction"), [(0.2, 0.0), (0.5, 0.1)])
def test_the_shaft_has_half_the_play_on_each_side(
    kernel: MeshKernel, play: float, correction: float
) -> None:
    part = hung(key(6.0, 90.0), fit=Fit(play, correction))
    lifted = part.seats[0].pose.then(shift(0.0, 0.0, 2.0))
    shaft = kernel.evaluate(part.seats[0].tool.envelope[0].placed(lifted))
    gap = shaft.gap_mm(kernel.evaluate(part.solid), within_mm=2.0)
    # both circles are chords within 0.02 mm of the true ones
    assert gap == pytest.approx((play + correction) / 2, abs=0.021)


def test_the_volume_of_one_fin_is_that_of_the_closed_form(kernel: MeshKernel) -> None:
    """A round-nosed prism cut by the plane z = y - knee, less a bore with a 45-degree mouth."""
    front = FAMILY.build([FittedTool(key(4.0, 50.0), Fit(0.2))], Params(), CTX)
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


def test_a_light_holder_with_its_own_weight_over_the_rail_passes_the_checks_of_the_cleat() -> None:
    """An empty holder whose centre lies over the rail is asked nothing at its foot."""
    checks = check_cleat(hung(key(1.7, 42.0, 14.0)), OwnWeight(0.015, 0.0), margin=1.5, drag=0.3)
    assert len(checks) == 3
    assert all(check.holds for check in checks)


def test_depth_follows_the_shaft_within_its_bounds() -> None:
    part = hung(key(2.0, 15.0), key(2.0, 50.0), key(2.0, 200.0), key(20.0, 20.0))
    lifts = [seat.way_out[0][2] - 1.0 for seat in part.seats]
    assert lifts == pytest.approx([8.0, 20.0, 28.0, 16.0])


@pytest.mark.parametrize(
    ("tool", "part"),
    [
        (key(1.0, 40.0), "1 mm is outside"),
        (key(31.0, 200.0), "31 mm is outside"),
        (key(4.0, 11.0), "only 11 mm"),
        (key(25.0, 21.0), "less than 22 mm"),
    ],
)
def test_what_cannot_stand_is_refused_with_its_reason(tool: ToolBody, part: str) -> None:
    reason = FAMILY.why_not(tool)
    assert reason is not None
    assert part in reason
