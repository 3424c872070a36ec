"""Every tray holds every row of boxes that it accepts, and its sizes are right."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.holders.families.tray.family import FAMILY, Params
from cleatwright.holders.family import BuildContext
from cleatwright.kernels.lettering import letter_lines
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import french_cleat, wall_screws
from cleatwright.parts.grips import Footprint
from cleatwright.parts.holder import HolderPart, PrintPose
from cleatwright.parts.tool import Fit, FittedTool, ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block

CTX = BuildContext()
FIT = Fit(0.3)
GoodPart = Callable[[HolderPart], MeshBody]
SupportFree = Callable[[MeshBody, PrintPose], None]
BOUNDS = {
    "lip_mm": (4.0, 12.0),
    "side_mm": (4.0, 60.0),
    "wall_mm": (1.8, 8.0),
    "floor_mm": (3.0, 12.0),
    "web_mm": (1.8, 5.0),
    "lift_mm": (0.5, 10.0),
}


def box(width_mm: float, depth_mm: float, height_mm: float, lid_mm: float = 0.0) -> ToolBody:
    """Return a box that stands at z = 2, with a lid that juts out by ``lid_mm`` all round."""
    x, y, top = width_mm / 2, depth_mm / 2, 2.0 + height_mm
    whole = block(-x, -y, 2.0, x, y, top)
    a, b = x + lid_mm, y + lid_mm
    lid = (block(-a, -b, top, a, b, top + 5.0),) if lid_mm else ()
    return ToolBody(
        kind="test-box",
        leading=f"{width_mm:g}",
        envelope=(whole, *lid),
        mass_kg=1e-6 * width_mm * depth_mm * height_mm,
        com_mm=(0.0, 0.0, 2.0 + height_mm / 2),
        grips=(Footprint(2.0, width_mm, depth_mm, height_mm),),
        order_mm=width_mm,
    )


def hung(*tools: ToolBody, fit: Fit = FIT, params: Params | None = None) -> HolderPart:
    front = FAMILY.build([FittedTool(t, fit) for t in tools], params or Params(), CTX)
    return french_cleat.attach("tray", front, MountSettings())


def screwed(*tools: ToolBody, fit: Fit = FIT, params: Params | None = None) -> HolderPart:
    """Return the part with a plain plate, which promises a pose in which it prints."""
    front = FAMILY.build([FittedTool(t, fit) for t in tools], params or Params(), CTX)
    part = wall_screws.attach("tray", front, MountSettings())
    assert part.print_pose == "on-its-back"
    return part


boxes = st.builds(
    box,
    st.floats(20.0, 300.0),
    st.floats(20.0, 200.0),
    st.floats(20.0, 200.0),
    st.sampled_from([0.0, 2.0, 8.0]),
)


def test_a_row_of_unequal_boxes_is_good(assert_good: GoodPart) -> None:
    part = hung(box(25.0, 22.0, 30.0), box(110.0, 75.0, 60.0, 3.0), box(300.0, 60.0, 90.0))
    assert_good(part)
    place = part.mark_places[0]
    assert place.width_mm >= 34.0
    assert place.height_mm >= 7.0


def test_openings_stand_in_a_row_and_webs_between_them(assert_good: GoodPart) -> None:
    """Inside 300.3 mm there is room for (300.3 - 18 + 6) / (2 x 21.15 + 6) = 5 openings."""
    part = hung(box(300.0, 60.0, 90.0))
    assert_good(part)
    assert part.genus == 5
    assert hung(box(300.0, 30.0, 40.0)).genus == 15


@pytest.mark.parametrize("side", [0, 1])
def test_the_least_and_the_largest_parameters_are_good(
    assert_good: GoodPart, assert_support_free: SupportFree, side: int
) -> None:
    params = Params(**{name: bounds[side] for name, bounds in BOUNDS.items()})
    tools = (box(20.0, 20.0, 20.0), box(150.0, 90.0, 200.0))
    assert_good(hung(*tools, params=params))
    assert_support_free(assert_good(screwed(*tools, params=params)), "on-its-back")


def test_a_tray_screwed_to_the_wall_prints_without_support(
    assert_good: GoodPart, assert_support_free: SupportFree
) -> None:
    part = screwed(box(110.0, 75.0, 60.0))
    assert_support_free(assert_good(part), "on-its-back")


def test_the_smallest_holder_has_room_for_a_mark() -> None:
    """Four and three of the widest capitals, 5 mm high, with 1 mm around them, have room."""
    front = FAMILY.build([FittedTool(box(20.0, 20.0, 20.0), FIT)], Params(), CTX)
    assert front.mark_place.width_mm >= letter_lines("WWWW", 5.0).width_mm + 2.0
    assert front.mark_place.height_mm >= 2 * 5.0 + 2.0


@settings(deadline=None, max_examples=15)
@given(
    tools=st.lists(boxes, min_size=1, max_size=5),
    play=st.floats(0.1, 0.8),
    params=st.fixed_dictionaries({n: st.floats(a, b) for n, (a, b) in BOUNDS.items()}),
)
def test_any_row_of_boxes_is_good(
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
def test_the_box_has_half_the_play_on_each_side(
    kernel: MeshKernel, play: float, correction: float
) -> None:
    part = hung(box(80.0, 50.0, 60.0), fit=Fit(play, correction))
    lifted = part.seats[0].pose.then(shift(0.0, 0.0, 2.0))
    body = kernel.evaluate(part.seats[0].tool.envelope[0].placed(lifted))
    gap = body.gap_mm(kernel.evaluate(part.solid), within_mm=2.0)
    assert gap == pytest.approx((play + correction) / 2, abs=1e-6)


def test_a_tray_has_the_volume_of_the_closed_form(kernel: MeshKernel) -> None:
    """Between the sides one profile with an opening; a side is a prism with broken rims.

    A section of a side that shrinks by t has the area A - P t + 4 t^2: it turns by 90 degrees
    four times, and by 45 degrees once each to the left and to the right.
    """
    params = Params(lip_mm=6.0, side_mm=6.0)
    front = FAMILY.build([FittedTool(box(60.0, 40.0, 60.0), Fit(0.4))], params, CTX)
    assert front.genus == 1
    plate, wall, high, floor, inside, depth = 5.0, 2.7, 6.0, 4.0, 60.4, 40.4
    reach, body = plate + depth + high + wall, kernel.evaluate(front.solid)
    middle = front.width_mm / 2

    def between(x0: float, x1: float) -> float:
        slab = block(middle + x0, -1.0, -99.0, middle + x1, 199.0, 99.0)
        return body.overlap_mm3(kernel.evaluate(slab))

    lip, cove = wall * high + high**2 / 2, 3.0 * plate + 3.0**2 / 2
    # one opening, 2 (depth / 2 - 9) from corner to corner
    opening = 2 * (depth / 2 - 9.0) ** 2
    expected = inside * (floor * reach + lip + cove) - floor * opening
    assert between(-inside / 2, inside / 2) == pytest.approx(expected, rel=1e-6)

    web, e = (reach - plate) / 2, wall / 3
    area = reach * (high + floor) + web * plate + web**2 / 2
    level = reach + plate + (reach - plate - web)
    perimeter = level + 2 * (high + floor) + web + web * math.sqrt(2.0)
    outer = area * (wall / 2 - e) + area * e - perimeter * e**2 / 2 + 4 * e**3 / 3
    edge = inside / 2 + wall
    assert between(edge - wall / 2, edge + 1.0) == pytest.approx(outer, rel=1e-6)


def test_a_small_box_is_refused_with_its_reason() -> None:
    assert FAMILY.why_not(box(60.0, 20.0, 60.0)) is None
    reason = FAMILY.why_not(box(60.0, 19.0, 60.0))
    assert reason is not None
    assert "19 mm is less than the 20 mm" in reason
