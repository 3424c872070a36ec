"""Trays on a pitch: whole fields, closed forms, print rules, and any set of bins."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.holders.choosing import ranked
from cleatwright.holders.families.ribbed_tray.family import FAMILY, Params
from cleatwright.holders.families.ribbed_tray.ribbed_floor import RIB_MM
from cleatwright.holders.family import BuildContext
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import wall_screws
from cleatwright.parts.grips import Footprint
from cleatwright.parts.holder import Front, HolderPart, PrintPose
from cleatwright.parts.tool import Fit, FittedTool, ToolBody
from cleatwright.shapes.solid import block

GoodPart = Callable[[HolderPart], MeshBody]
SupportFree = Callable[[MeshBody, PrintPose], None]
FIT = Fit(0.4)
BOUNDS = {
    "pitch_mm": (20.0, 150.0),
    "rows_count": (1.0, 4.0),
    "rib_mm": (1.5, 4.0),
    "lip_mm": (4.0, 12.0),
    "floor_mm": (3.0, 12.0),
    "web_mm": (1.8, 5.0),
    "lift_mm": (0.5, 10.0),
}


def box(width_mm: float, depth_mm: float, height_mm: float = 40.0) -> ToolBody:
    x, y = width_mm / 2, depth_mm / 2
    return ToolBody(
        kind="test-box",
        leading=f"{width_mm:g}",
        envelope=(block(-x, -y, 0.0, x, y, height_mm),),
        mass_kg=1e-6 * width_mm * depth_mm * height_mm,
        com_mm=(0.0, 0.0, height_mm / 2),
        grips=(Footprint(0.0, width_mm, depth_mm, height_mm),),
        order_mm=width_mm,
    )


def front_of(*tools: ToolBody, fit: Fit = FIT, params: Params | None = None) -> Front:
    group = [FittedTool(tool, fit) for tool in tools]
    return FAMILY.build(group, params or Params(), BuildContext())


def hung(front: Front) -> HolderPart:
    return wall_screws.attach("ribbed-tray", front, MountSettings())


boxes = st.builds(box, st.floats(18.0, 150.0), st.floats(18.0, 150.0), st.floats(18.0, 90.0))


@settings(deadline=None, max_examples=12)
@given(
    tools=st.lists(boxes, min_size=1, max_size=6),
    play=st.floats(0.1, 0.8),
    params=st.fixed_dictionaries({n: st.floats(a, b) for n, (a, b) in BOUNDS.items()}),
)
def test_any_set_of_bins_is_good_and_prints_on_its_back(
    assert_good: GoodPart,
    assert_support_free: SupportFree,
    tools: list[ToolBody],
    play: float,
    params: dict[str, float],
) -> None:
    part = hung(front_of(*tools, fit=Fit(play), params=Params(**params)))
    assert_support_free(assert_good(part), "on-its-back")


@pytest.mark.parametrize("side", [0, 1])
def test_the_least_and_the_largest_parameters_are_good(
    assert_good: GoodPart, assert_support_free: SupportFree, side: int
) -> None:
    params = Params(**{name: bounds[side] for name, bounds in BOUNDS.items()})
    part = hung(front_of(box(44.0, 44.0), box(44.0, 40.0), box(90.0, 90.0), params=params))
    assert_support_free(assert_good(part), "on-its-back")


def test_bins_of_whole_pitches_stand_a_whole_number_of_pitches_apart() -> None:
    """Bins of 46, 46 and 96 mm on a pitch of 50 mm take 1, 1 and 2 columns: 0, 50, 125 mm."""
    front = front_of(box(46.0, 40.0), box(46.0, 40.0), box(96.0, 40.0))
    xs = [seat.pose.apply((0.0, 0.0, 0.0))[0] for seat in front.seats]
    assert [x - xs[0] for x in xs] == pytest.approx([0.0, 50.0, 125.0])
    assert front.width_mm == pytest.approx(4 * 50.0 + 2 * 2.7 - RIB_MM)


def test_in_two_rows_bins_stand_behind_each_other_and_come_out_over_those_in_front() -> None:
    params = Params(rows_count=2.0)
    front = front_of(box(46.0, 40.0, 70.0), box(46.0, 40.0), params=params)
    first, second = front.seats
    assert second.com_mm[0] == pytest.approx(first.com_mm[0])
    assert second.com_mm[1] < first.com_mm[1] - 45.0
    assert first.way_out[0][2] == pytest.approx(6.0 + 1.0)
    assert second.way_out[0][2] == pytest.approx(70.0 + 1.0)


def test_a_tray_of_one_field_has_the_volume_of_the_closed_form(kernel: MeshKernel) -> None:
    """Floor less its diamond, a lip under 45 degrees, two side walls, two webs and the cove."""
    front = front_of(box(46.0, 40.0))
    wide, reach = 50.0 + 5.4 - 1.8, 5.0 + 50.0 + 6.0 + 2.7
    floor = 4.0 * (wide * reach - 2 * 16.0**2)
    lip = (2.7 * 6.0 + 6.0**2 / 2) * (wide - 5.4)
    sides = 2 * 2.7 * 6.0 * reach
    web = (reach - 5.0) / 2
    webs = 2 * 3.0 * (5.0 * web + web**2 / 2)
    cove = (wide - 6.0) * (5.0 * 3.0 + 4.5)
    volume = kernel.evaluate(front.solid).facts.volume_mm3
    assert volume == pytest.approx(floor + lip + sides + webs + cove, rel=1e-6)


def test_a_tray_on_a_pitch_is_left_to_the_owner_to_ask_for() -> None:
    fitted = [FittedTool(box(46.0, 40.0), FIT)]
    rated = ranked(fitted, BuildContext(), prints=lambda _: True)
    assert FAMILY.by_wish
    assert "tray" in [one.family.name for one in rated]
    assert FAMILY.name not in [one.family.name for one in rated]


def test_bins_that_are_too_small_or_too_deep_are_refused_with_a_reason() -> None:
    assert FAMILY.why_not(box(18.0, 18.0)) is None
    for tool, told in ((box(17.0, 40.0), "17 mm"), (box(40.0, 251.0), "sag")):
        reason = FAMILY.why_not(tool)
        assert reason is not None
        assert told in reason
