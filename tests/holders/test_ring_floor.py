"""Every ring floor holds every row of round bodies that it accepts, and its sizes are right."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.holders.families.ring_floor.family import FAMILY, Params
from cleatwright.holders.family import BuildContext
from cleatwright.kernels.lettering import letter_lines
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import french_cleat, wall_screws
from cleatwright.parts.grips import RoundBody
from cleatwright.parts.holder import HolderPart, PrintPose
from cleatwright.parts.tool import Fit, FittedTool, ToolBody
from cleatwright.shapes.outline import circle
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block, prism

CTX = BuildContext()
FIT = Fit(0.3)
GoodPart = Callable[[HolderPart], MeshBody]
SupportFree = Callable[[MeshBody, PrintPose], None]
BOUNDS = {
    "share": (0.3, 0.6),
    "most_mm": (30.0, 120.0),
    "ring_mm": (8.0, 16.0),
    "wall_mm": (1.8, 8.0),
    "floor_mm": (3.0, 12.0),
    "lift_mm": (0.5, 10.0),
}


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


def hung(*tools: ToolBody, fit: Fit = FIT, params: Params | None = None) -> HolderPart:
    front = FAMILY.build([FittedTool(t, fit) for t in tools], params or Params(), CTX)
    return french_cleat.attach("ring-floor", front, MountSettings())


def screwed(*tools: ToolBody, fit: Fit = FIT, params: Params | None = None) -> HolderPart:
    """Return the part with a plain plate, which promises a pose in which it prints."""
    front = FAMILY.build([FittedTool(t, fit) for t in tools], params or Params(), CTX)
    part = wall_screws.attach("ring-floor", front, MountSettings())
    assert part.print_pose == "on-its-back"
    return part


cans = st.builds(
    can, st.floats(10.0, 150.0), st.floats(40.0, 350.0), st.sampled_from([0.0, 3.0, 25.0])
)


def test_a_row_of_unequal_cans_is_good(assert_good: GoodPart) -> None:
    part = hung(can(20.0, 90.0), can(52.0, 180.0), can(65.0, 195.0, 10.0))
    assert_good(part)
    assert part.genus == 3 + 2, "a ring each, and an opening where the base is wide enough"
    place = part.mark_places[0]
    assert place.width_mm >= 34.0
    assert place.height_mm >= 7.0


@pytest.mark.parametrize("side", [0, 1])
def test_the_least_and_the_largest_parameters_are_good(
    assert_good: GoodPart, assert_support_free: SupportFree, side: int
) -> None:
    params = Params(**{name: bounds[side] for name, bounds in BOUNDS.items()})
    tools = (can(10.0, 40.0), can(120.0, 300.0), can(66.0, 200.0))
    assert_good(hung(*tools, params=params))
    assert_support_free(assert_good(screwed(*tools, params=params)), "on-its-back")


def test_a_ring_floor_screwed_to_the_wall_prints_without_support(
    assert_good: GoodPart, assert_support_free: SupportFree
) -> None:
    part = screwed(can(66.0, 200.0))
    assert_support_free(assert_good(part), "on-its-back")


def test_the_smallest_holder_has_room_for_a_mark() -> None:
    """Four and three of the widest capitals, 5 mm high, with 1 mm around them, have room."""
    front = FAMILY.build([FittedTool(can(10.0, 40.0), FIT)], Params(), CTX)
    assert front.mark_place.width_mm >= letter_lines("WWWW", 5.0).width_mm + 2.0
    assert front.mark_place.height_mm >= 2 * 5.0 + 2.0


@settings(deadline=None, max_examples=15)
@given(
    tools=st.lists(cans, min_size=1, max_size=7),
    play=st.floats(0.1, 0.8),
    params=st.fixed_dictionaries({n: st.floats(a, b) for n, (a, b) in BOUNDS.items()}),
)
def test_any_row_of_cans_is_good(
    assert_good: GoodPart,
    assert_support_free: SupportFree,
    tools: list[ToolBody],
    play: float,
    params: dict[str, float],
) -> None:
    assert_good(hung(*tools, fit=Fit(play), params=Params(**params)))
    part = screwed(*tools, fit=Fit(play), params=Params(**params))
    assert_support_free(assert_good(part), "on-its-back")


@pytest.mark.parametrize(("play", "correction"), [(0.2, 0.0), (0.5, 0.1)])
def test_the_can_has_half_the_play_all_round(
    kernel: MeshKernel, play: float, correction: float
) -> None:
    part = hung(can(66.0, 200.0), fit=Fit(play, correction))
    lifted = part.seats[0].pose.then(shift(0.0, 0.0, 2.0))
    body = kernel.evaluate(part.seats[0].tool.envelope[0].placed(lifted))
    gap = body.gap_mm(kernel.evaluate(part.solid), within_mm=2.0)
    # both circles are chords within 0.02 mm of the true ones
    assert gap == pytest.approx((play + correction) / 2, abs=0.021)


def test_ring_floor_and_webs_have_the_volume_of_the_closed_form(kernel: MeshKernel) -> None:
    """A ring is a rectangle with a roof, plus two flares, less eight sides with a roof.

    A roof whose slopes touch a circle of radius r, with a flat of 2 f, has the area
    (2 sqrt 2 - 1) r^2 - f^2 in front of the middle; half of eight sides is 4 (sqrt 2 - 1) r^2.
    """
    front = FAMILY.build([FittedTool(can(60.0, 200.0), Fit(0.4))], Params(), CTX)
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
    floor = 5.0 * (plan - 2 * (30.0 - 7.0) ** 2)
    assert between(-5.0, 0.0) == pytest.approx(floor, rel=1e-6)
    web = (axis + half - plate) / 2
    webs = 2 * wall * (plate * web + web**2 / 2)
    cove = (2 * half - 2 * wall) * (plate * 3.0 + 3.0**2 / 2)
    assert between(-99.0, -5.0) == pytest.approx(webs + cove, rel=1e-6)


def test_the_ring_stands_at_a_bounded_share_of_the_height() -> None:
    part = hung(can(30.0, 40.0), can(50.0, 100.0), can(66.0, 300.0))
    lifts = [seat.way_out[0][2] - 1.0 for seat in part.seats]
    assert lifts == pytest.approx([24.0, 37.0, 60.0])


def test_a_low_can_is_refused_with_its_reason() -> None:
    assert FAMILY.why_not(can(66.0, 40.0)) is None
    reason = FAMILY.why_not(can(66.0, 39.0))
    assert reason is not None
    assert "39 mm is lower than the 40 mm" in reason
