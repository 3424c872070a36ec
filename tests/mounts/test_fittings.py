"""Hangers in their grooves and bolts in their guides, as they are printed.

Sources: a dovetail holds in every direction across its groove; beams by hand, M = F l and
W = b h2 / 6; a wedge between two cones of friction.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linprog
from tests.mounts.sections import fitted
from tests.mounts.shelf import shelf

from cleatwright.base.errors import DesignError
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.fittings import bolt, hanger
from cleatwright.mounts.fittings.registry import FITTINGS, fitting_kind
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import french_cleat, rail_back, rail_loads
from cleatwright.parts.holder import HolderPart, PrintPose
from cleatwright.shapes.outline import circle
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid, prism
from cleatwright.statics.arm_strength import IN_PLANE, IN_PLANE_HAND_MPA, IN_PLANE_YEARS_MPA

KERNEL = MeshKernel()
# what a filament printer leaves between two parts that slide (common practice, no source)
MOST_PLAY_MM = 0.3
WIDTHS = [15.0, 20.0, 32.0, 60.0, 140.0]


def on_rail(width_mm: float = 80.0, **how: float) -> HolderPart:
    return french_cleat.attach("test", shelf(width_mm), MountSettings(**how))


def of(part: HolderPart, name: str) -> list[MeshBody]:
    return [fitted(one, KERNEL) for one in part.fittings if one.name == name]


def meets(one: MeshBody, other: MeshBody, *move: float) -> bool:
    return one.placed(shift(*move)).overlap_mm3(other) > 1e-6


@pytest.mark.parametrize("width_mm", WIDTHS)
def test_a_hanger_is_held_by_its_groove_in_every_way_but_along_it(width_mm: float) -> None:
    part = on_rail(width_mm)
    body = KERNEL.evaluate(part.solid)
    for one in of(part, "hanger"):
        assert not meets(one, body)
        for move in ((0.0, -MOST_PLAY_MM), (0.0, 0.0, MOST_PLAY_MM), (0.0, 0.0, -MOST_PLAY_MM)):
            assert meets(one, body, *move), move


@pytest.mark.parametrize("width_mm", WIDTHS)
def test_a_hanger_slides_out_to_one_side_alone_once_its_pin_is_drawn(width_mm: float) -> None:
    part = on_rail(width_mm)
    body = KERNEL.evaluate(part.solid)
    hangers = of(part, "hanger")
    for k, one in enumerate(hangers):
        out, into = (-1.0, 1.0) if k == 0 else (1.0, -1.0)
        assert not any(meets(one, body, out * 5.0 * step) for step in range(60))
        assert meets(one, body, into * 0.3)


def test_a_filament_pin_stands_in_the_way_of_each_hanger() -> None:
    """A wire of 1.75 mm pressed into its hole, on the side from which the hanger came."""
    part = on_rail(80.0)
    body = KERNEL.evaluate(part.solid)
    top = part.bounds_mm[1][2]
    ends = [one.facts.bounds_mm for one in of(part, "hanger")]
    for x in (ends[0][0][0] - 0.1 - 0.85, ends[1][1][0] + 0.1 + 0.85):
        wire = KERNEL.evaluate(_wire(x, top))
        assert wire.overlap_mm3(body) < 1e-3, "the hole of the pin is not free"
    for one, x, side in (
        (of(part, "hanger")[0], ends[0][0][0] - 0.95, -1.0),
        (of(part, "hanger")[1], ends[1][1][0] + 0.95, 1.0),
    ):
        wire = KERNEL.evaluate(_wire(x, top))
        assert not meets(one, wire)
        assert meets(one, wire, side * 0.5)


def _wire(x_mm: float, top_mm: float) -> Solid:
    long = rail_back.pin_mm()
    return prism(circle(1.69), long).moved(x_mm, rail_back.PIN_Y_MM, top_mm - long)


@pytest.mark.parametrize("thickness_mm", [15.0, 18.0, 30.0])
def test_a_bolt_is_free_in_its_guide_and_lies_on_its_floor(thickness_mm: float) -> None:
    part = on_rail(rail_thickness_mm=thickness_mm)
    body = KERNEL.evaluate(part.solid)
    (one,) = of(part, "bolt")
    assert not meets(one, body)
    assert meets(one, body, 0.0, 0.0, -0.01)
    # the roof keeps it from tilting, and the sides from turning
    assert meets(one, body, 0.0, 0.0, 0.25)
    assert meets(one, body, MOST_PLAY_MM)
    assert meets(one, body, -MOST_PLAY_MM)


@pytest.mark.parametrize("off_mm", [-0.5, 0.0, 0.5])
def test_a_bolt_reaches_a_rail_that_is_off_and_is_still_in_its_guide(off_mm: float) -> None:
    """Its slope of 1 in 4 rises from 6.6 to 7.8 mm; the middle meets the height that was asked."""
    part = on_rail()
    (fitting,) = [one for one in part.fittings if one.name == "bolt"]
    floor = fitting.pose.shift_mm[2]
    edge = part.hanging.contact_z_mm - 70.0 - floor - off_mm
    assert edge == pytest.approx(7.2 - off_mm)
    lead = dict(fitting.measures)["lead_mm"]
    at = lead + (edge - 6.6) * 4.0
    long = fitted(fitting, KERNEL).facts.bounds_mm
    length = long[1][1] - long[0][1]
    assert 6.6 <= edge <= 7.8
    # behind the face so far, and at least 2 mm still in a guide of 5 mm
    assert at <= 18.0 - 1.0
    assert length - at >= 2.0


def test_a_bolt_for_a_thin_rail_does_not_touch_the_wall() -> None:
    """The lowest rail asks for the most: 1 mm of air to a wall behind a rail 0.5 mm thinner."""
    for thickness in (10.0, 12.0, 13.0, 18.0):
        lead = bolt.lead_mm(thickness)
        assert lead is not None
        deepest = lead + (7.2 + 0.5 - 6.6) * 4.0
        assert deepest <= thickness - 1.0
    assert bolt.lead_mm(9.7) is None


def test_a_rail_too_thin_for_a_bolt_is_refused() -> None:
    with pytest.raises(DesignError, match="no room for a bolt"):
        on_rail(rail_thickness_mm=9.0)


PLATE = {
    "thick_mm": 5.0,
    "width_mm": 24.0,
    "tongue_from_mm": 3.0,
    "tongue_mm": 16.0,
    "above_mm": 60.0,
    "below_mm": 40.0,
    "column_mm": 11.0,
    "half_mm": 8.0,
    "upper_mm": 50.0,
    "lower_mm": 25.0,
    "rows": 2.0,
}
FORKED = {**PLATE, "below_mm": 77.2, "fork_mm": 14.0, "roof_mm": 70.0}
HOOKS = {"wide_mm": 3.6, "bar_mm": 3.2, "drop_mm": 1.5}
LOW = {"upper_mm": 20.0, "lower_mm": -30.8, "rows": 3.0}
ONE = {"lower_mm": 50.0, "rows": 1.0}


@pytest.mark.parametrize("name", sorted(FITTINGS))
def test_a_fitting_prints_as_it_promises_without_support(
    name: str, assert_support_free: Callable[[MeshBody, PrintPose], None]
) -> None:
    sizes = {
        "hanger": [
            {"thickness_mm": t, "bevel_deg": b, "width_mm": w}
            for t in (6.0, 18.0, 40.0)
            for b in (20.0, 45.0, 60.0)
            for w in (12.0, 24.0)
        ],
        "bolt": [{"lead_mm": lead} for lead in (2.0, 4.0, 5.5, 7.0)],
        "screw-plate": [
            {**PLATE, "screw_mm": 4.0},
            {**FORKED, "screw_mm": 6.0, "thick_mm": 8.0},
            {**PLATE, **ONE, "bore_mm": 5.5},
        ],
        "hook-plate": [
            {**PLATE, **HOOKS, **LOW},
            {**FORKED, **HOOKS, **LOW},
            {**PLATE, **ONE, "above_mm": 80.0, "wide_mm": 4.0, "bar_mm": 13.5, "drop_mm": 5.0},
        ],
        "board-hook": [
            {**HOOKS, "lip_mm": 6.75, "nose_mm": 3.0, "thick_mm": thick} for thick in (5.0, 10.0)
        ],
    }
    kind = fitting_kind(name)
    for measures in sizes[name]:
        part = kind.shape(kind.params(**measures))
        body = KERNEL.evaluate(part.solid)
        assert (body.facts.bodies, body.facts.genus) == (1, part.genus)
        for found, said in zip(body.facts.bounds_mm, part.bounds_mm, strict=True):
            assert found == pytest.approx(said, abs=1e-6)
        wall = body.thinnest_wall_mm(within_mm=part.min_wall_mm + 1.0)
        assert wall >= part.min_wall_mm - 0.05
        pose: PrintPose = "on-its-back" if name.endswith("-plate") else "on-its-side"
        assert part.free_poses == (pose,)
        assert_support_free(body, pose)


@pytest.mark.parametrize("width_mm", WIDTHS)
@pytest.mark.parametrize("height_mm", [45.0, 70.0, 100.0])
def test_a_back_with_grooves_and_guides_prints_on_its_back(
    width_mm: float, height_mm: float, assert_support_free: Callable[[MeshBody, PrintPose], None]
) -> None:
    """Behind a shelf no deeper than its plate, so that nothing but the back is asked."""
    how = MountSettings(rail_height_mm=height_mm)
    part = french_cleat.attach("test", shelf(width_mm, reach_mm=12.0), how)
    assert {one.name for one in part.fittings} == {"bolt", "hanger"}
    assert_support_free(KERNEL.evaluate(part.solid), "on-its-back")


def test_stresses_along_the_layers_are_shares_of_what_the_maker_gives() -> None:
    """51 MPa along the layers as printed (the filament maker's sheet): a fifth, and a third."""
    assert "51 MPa" in IN_PLANE.clause
    assert IN_PLANE_YEARS_MPA <= 51.0 / 5.0
    assert IN_PLANE_HAND_MPA <= 51.0 / 3.0
    assert IN_PLANE_YEARS_MPA < IN_PLANE_HAND_MPA


@pytest.mark.parametrize(
    ("force_n", "mpa"), [(rail_loads.BOLT_YEARS_N, 10.0), (rail_loads.BOLT_HAND_N, 16.0)]
)
def test_a_bolt_bears_in_bending_what_it_is_said_to(force_n: float, mpa: float) -> None:
    """A cantilever 3 mm long, 6 mm wide beside its slot and 6.6 mm high: 6 F l / (b h2)."""
    assert 6.0 * force_n * 3.0 / (6.0 * 6.6**2) == pytest.approx(mpa)


@pytest.mark.parametrize(
    ("force_n", "mpa"), [(rail_loads.BOLT_YEARS_N, 10.0), (rail_loads.BOLT_HAND_N, 16.0)]
)
def test_the_floor_of_a_guide_bears_its_bolt(force_n: float, mpa: float) -> None:
    """The rail pushes the bolt down 3 mm behind the back, its front end levers on the roof.

    Held over 2.1 mm at least: the edge of the floor bears F (1 + 3 / 2.1). It stands out 6 mm
    from the side wall beside the slot of the tab, 5 mm deep: 6 (F') (6 / 2) / (b h2).
    """
    part = on_rail()
    body = KERNEL.evaluate(part.solid)
    (fitting,) = [one for one in part.fittings if one.name == "bolt"]
    floor = fitting.pose.shift_mm[2]
    high = floor - body.facts.bounds_mm[0][2]
    edge_n = force_n * (1.0 + 3.0 / 2.1)
    assert 6.0 * edge_n * 3.0 / (5.0 * high**2) <= mpa


def test_a_wedge_stays_where_the_friction_is_more_than_the_half_of_its_angle() -> None:
    """The rail's force on the slope and the floor's below must lie in one line.

    Each leans at most its angle of friction from its face's normal: two cones that share a line
    exactly when both angles together are no less than that of the wedge.
    """
    wedge = math.atan(bolt.SLOPE)

    def stays(friction: float) -> bool:
        # unit rays of both cones that add to nothing, with a force of 1 down on the slope
        angles = [wedge - math.atan(friction), wedge + math.atan(friction)]
        above = [(math.sin(a), -math.cos(a)) for a in angles]
        below = [(math.sin(a), math.cos(a)) for a in (-math.atan(friction), math.atan(friction))]
        rays = [*above, *below]
        found = linprog(
            [0.0] * 4,
            A_eq=[[r[0] for r in rays], [r[1] for r in rays], [1.0, 1.0, 0.0, 0.0]],
            b_eq=[0.0, 0.0, 1.0],
            method="highs",
        )
        return found.status == 0

    least = bolt.self_holding_friction()
    assert stays(least * 1.001)
    assert not stays(least * 0.999)
    # plastic on wood or on plastic slides at 0.2 and more (common practice, no source)
    assert least < 0.2


@given(st.floats(5.5, 60.0), st.floats(20.0, 60.0))
def test_a_hook_lies_on_the_whole_bevel_and_leaves_air_to_the_wall(
    thickness: float, bevel: float
) -> None:
    kind = hanger.KIND
    part = kind.shape(hanger.HangerParams(thickness_mm=thickness, bevel_deg=bevel, width_mm=12.0))
    body = KERNEL.evaluate(part.solid)
    assert -body.facts.bounds_mm[0][1] == pytest.approx(thickness - 1.5, abs=1e-6)
    fall = (thickness - 1.5 - 2.0) * math.tan(math.radians(bevel))
    lowest = min(-fall, 5.0 - 5.5)
    assert body.facts.bounds_mm[0][2] == pytest.approx(lowest, abs=1e-6)


def test_a_rail_too_thin_for_the_land_of_a_hook_is_refused() -> None:
    with pytest.raises(DesignError, match="no room for a hook"):
        hanger.reach_mm(5.4)
    assert hanger.reach_mm(5.5) == pytest.approx(4.0)
