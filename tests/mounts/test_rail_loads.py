"""What hangers, bolts and columns of a back are made for, by hand.

Source: equilibrium on a bevel of 45 degrees, edges blunted by 3 mm: q (d - 6) = M + d F and
S = q - W; W = b t2 / 6.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
import shapely
from scipy.optimize import linprog
from tests.mounts.sections import section
from tests.mounts.shelf import shelf

from cleatwright.base.errors import NoRoomError, RailHoldError
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import french_cleat, rail_back
from cleatwright.mounts.printed.bolt_places import guides_for, meet, taken_boxes
from cleatwright.mounts.printed.rail_loads import RailDemand
from cleatwright.parts.holder import Front, HolderPart, PrintPose
from cleatwright.shapes.extent import extent
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid, block
from cleatwright.statics.captured import Section, hook_nmm
from cleatwright.statics.cleat import LoadCase
from cleatwright.statics.load_table import LoadTable
from cleatwright.statics.rail_contacts import contacts_of

KERNEL = MeshKernel()
G = 9.80665
SECTION = Section(-14.0, 67.0, 45.0, 14.5)
STILL = MountSettings(pull_n=0.0, lift_n=0.0, knock_n=0.0, drag=0.0)
STILL_15 = replace(STILL, margin=1.5)
# 6 F l / (b h2) of a bolt: 3 mm out, 6 mm wide, 6.6 mm high
HUNDRED = rail_back.hangers_for(100.0)
YEARS_N, HAND_N = (s * 6.0 * 6.6**2 / 18.0 for s in (10.0, 16.0))


def loads(front: Front, settings: MountSettings = STILL) -> RailDemand:
    return RailDemand(front, SECTION, settings)


def test_weights_ask_for_bolts_as_for_years_with_the_margin() -> None:
    """20 kg, 85 mm out, by the load without its own weight, which is the worse."""
    heavy = shelf(100.0, reach_mm=100.0, mass_kg=20.0)
    force = 20.0 * G * (85.0 / 61.0 - 1.0)
    for margin in (1.0, 1.5, 3.0):
        found = loads(heavy, replace(STILL, margin=margin)).bolt_share(HUNDRED, (50.0,))
        assert found == pytest.approx(force * margin / YEARS_N)


def test_a_light_tool_far_out_is_asked_without_the_weight_of_the_holder() -> None:
    """0.05 kg of holder would keep down what is pulled by 1 N at the bevel: M + 67 F over 61."""
    light = shelf(100.0, reach_mm=20.0, mass_kg=0.1)
    (seat,) = light.seats
    at_bevel = replace(light, seats=(replace(seat, rest_z_mm=-14.0),))
    hand = replace(STILL, pull_n=30.0)
    w = 0.1 * G
    low = (w * 5.0 + 30.0 * 67.0) / 61.0 - w
    grip = 30.0 - 15.0 + 14.0
    high = (w * 5.0 + 30.0 * (67.0 + grip)) / 61.0 - w
    assert loads(at_bevel, hand).bolt_share(HUNDRED, (50.0,)) == pytest.approx(
        max(low, high) / HAND_N
    )


def test_a_column_bears_the_force_of_the_foot_at_its_lever() -> None:
    """Moments about the bevel: N = W e / 67, on 40 mm below the plate; the holder adds its own."""
    heavy = shelf(100.0, reach_mm=100.0, mass_kg=20.0)
    foot = (20.0 * 85.0 + 0.05 * 50.0) * G / 67.0
    found = loads(heavy, replace(STILL, margin=1.5)).modulus_mm3(40.0, (50.0,))
    assert found == pytest.approx(foot * 40.0 * 1.5 / 10.0)
    assert loads(heavy).modulus_mm3(0.0, (50.0,)) == 0.0


@pytest.mark.parametrize(("modulus", "most"), [(10.0, 80.0), (150.0, 80.0), (900.0, 80.0)])
def test_each_size_of_column_has_the_section_modulus_asked_for(modulus: float, most: float) -> None:
    sizes = rail_back.column_sizes_mm(modulus, thick_mm=5.0, most_wide_mm=most)
    for wide, thick in sizes[:1]:
        assert wide * thick**2 / 6.0 >= modulus * (1.0 - 1e-9)
        assert thick >= 5.0
        assert wide >= rail_back.GUIDE_WIDTH_MM
    for wide, thick in sizes[1:]:
        assert thick == 5.0
        assert wide == most or wide * thick**2 / 6.0 >= modulus * (1.0 - 1e-9)


@pytest.mark.parametrize("mass_kg", [0.5, 5.0, 15.0])
def test_the_column_of_a_heavy_tool_bears_its_foot(mass_kg: float) -> None:
    """The section of the mesh just above the guide: I and the lower fibre, in polygons."""
    how = MountSettings(rail_height_mm=95.0)
    part = french_cleat.attach("test", shelf(100.0, reach_mm=90.0, mass_kg=mass_kg), how)
    body = KERNEL.evaluate(part.solid)
    out, mass = 75.0, mass_kg
    (bolt,) = [one for one in part.fittings if one.name == "bolt"]
    x = bolt.pose.shift_mm[0] + 5.0
    cut = section(body, x)
    low_plate, foot = -30.0, part.hanging.contact_z_mm - 95.0
    z = low_plate - 15.0
    strip = cut.intersection(_box(z))
    deep = strip.bounds[2]
    wide = _width_at(part, z)
    force = mass * G * out / 92.0
    moment = force * (low_plate - foot)
    assert 6.0 * moment * 1.5 / (wide * deep**2) <= 10.0 * 1.001


def _box(z_mm: float) -> shapely.Polygon:
    return shapely.box(-1.0, z_mm - 0.05, 100.0, z_mm + 0.05)


def _width_at(part: HolderPart, z_mm: float) -> float:
    body = KERNEL.evaluate(part.solid)
    slab = KERNEL.evaluate(block(-10.0, 0.5, z_mm - 0.1, 300.0, 1.5, z_mm + 0.1))
    return body.overlap_mm3(slab) / 0.2


@pytest.mark.parametrize("bolts", [1, 2])
def test_a_plate_is_so_wide_that_a_knock_leaves_its_hooks_down(bolts: int) -> None:
    """5 N at the far end of a tool turn it about the end of a hook, 5 mm from the edge."""
    front = shelf(100.0, mass_kg=0.5)
    lever = 30.0 + 14.0
    arm = 5.0 * lever / (bolts * HAND_N + 0.5 * G)
    found = loads(front, MountSettings()).width_mm(bolts, 7.0)
    assert found == pytest.approx(2.0 * (arm + 7.0 + 5.0))


# what the floor of a guide bears, solid 9.6 of 10 N/mm2, with three walls of 0.45 mm and skins of
# 0.9 mm, of what its bolt does: see tests/printing/test_walls.py
FLOOR = (1.0 - 3.2 * 8.8**3 / (5.0 * 11.5**3)) / (6.6**2 * (1.0 + 3.0 / 2.1) / 11.5**2 * 6.0 / 5.0)


@pytest.mark.parametrize(("share", "bolts"), [(0.99, 1), (1.01, 2), (1.99, 2), (2.01, 0)])
def test_there_are_two_bolts_where_the_floor_of_one_guide_does_not_bear_it(
    share: float, bolts: int
) -> None:
    """A floor of walls and skins bears three quarters of its bolt; screws bear more than two."""
    assert pytest.approx(0.743, abs=1e-3) == FLOOR
    mass = share * FLOOR * YEARS_N / (1.5 * G * (285.0 / 61.0 - 1.0))
    front = replace(shelf(150.0, reach_mm=300.0, mass_kg=mass), print_pose="on-its-back")
    hung = french_cleat.attach("test", front, STILL_15)
    assert len([one for one in hung.fittings if one.name == "bolt"]) == bolts
    assert (hung.hanging.rail_screws is None) == (bolts > 0)


def test_what_neither_two_bolts_nor_screws_bear_is_refused() -> None:
    """285 mm out, on the margin: S = W (285 / 61 - 1) 1.5 against the floors of 2 guides."""
    most = 2.0 * FLOOR * YEARS_N / (1.5 * G * (285.0 / 61.0 - 1.0))
    front = shelf(150.0, reach_mm=300.0, mass_kg=3.0 * most)
    heavy = replace(front, print_pose="on-its-back")
    with pytest.raises(RailHoldError, match="from each of 2 bolts"):
        french_cleat.attach("test", heavy, STILL_15)


def test_a_guide_stands_clear_of_tools_and_front_wherever_there_is_room() -> None:
    """The tool and its arm before the middle of the plate, down to below the bolt."""
    plain = shelf(160.0)
    (seat,) = plain.seats
    low = replace(plain, seats=(replace(seat, pose=seat.pose.then(shift(0.0, -17.0, -110.0))),))
    guides = guides_for(low, rail_low_mm=-84.0, lead_mm=7.0, count=1)
    (guide,) = guides
    assert guide.x_mm != 80.0
    for piece in low.seats[0].envelope():
        assert not meet(guide.room, extent(piece))
    assert len(list(taken_boxes(low))) >= 2


def test_a_tool_before_the_whole_plate_puts_the_bolt_beside_it() -> None:
    """The shelf reaches below the bolt over its whole width: 18.4 mm of guide, and 2 more."""
    plain = shelf(60.0)
    deep = replace(plain, solid=shelf(60.0).solid.moved(0.0, 0.0, -60.0) | plain.solid)
    low = replace(deep, solid=deep.solid | _wall(60.0), plate_low_mm=-130.0, low_mm=-130.0)
    part = french_cleat.attach("test", low, MountSettings())
    (bolt,) = [one for one in part.fittings if one.name == "bolt"]
    assert bolt.pose.shift_mm[0] >= 60.0
    assert part.bounds_mm[1][0] >= 60.0 + 18.4
    with pytest.raises(NoRoomError):
        french_cleat.attach(
            "test", replace(low, anchored=True, cuts=(_wall(60.0),)), MountSettings()
        )


def _wall(width_mm: float) -> Solid:
    return block(0.0, 0.0, -130.0, width_mm, 12.0, -7.0)


def test_hangers_stand_at_the_ends_or_in_the_middle_and_are_as_wide_as_there_is_room() -> None:
    """One below 40 mm; 5 mm of edge for the pin, 2.5 mm of end behind its groove."""
    for width in range(20, 300):
        hangers = rail_back.hangers_for(float(width))
        assert len(hangers.lefts_mm) == (1 if width < 40 else 2)
        low, high = hangers.ends_mm
        assert low >= 5.0
        assert high <= width - (2.5 if width < 40 else 5.0) + 1e-9
    assert rail_back.hangers_for(39.0).width_mm == 24.0
    assert math.isclose(rail_back.hangers_for(23.5).width_mm, 16.0)


@pytest.mark.parametrize(
    ("mass_kg", "pull_n"), [(0.3, 10.0), (1.0, 20.0), (8.0, 10.0), (0.2, 15.0), (15.0, 10.0)]
)
@pytest.mark.parametrize("pose", ["on-its-back", "upright"])
def test_hangers_and_their_groove_bear_what_a_hand_asks(
    mass_kg: float, pull_n: float, pose: PrintPose
) -> None:
    """The neck 8 mm high, 6 M / (b h2) + T / (b h), and the wall as a strip, by hand.

    M is the least moment of the forces on the bevel about the middle of the root, 5 mm above the
    bevel's edge, by linear programme. 16 N/mm2 along the layers and 8 across while a hand pulls.
    The tool is held 130 mm below the bevel at the lowest.
    """
    plain = shelf(60.0, mass_kg=mass_kg)
    (seat,) = plain.seats
    low = replace(plain, seats=(replace(seat, rest_z_mm=-144.0),), print_pose=pose)
    part = french_cleat.attach("test", low, replace(STILL, pull_n=pull_n))
    hold = part.hanging.hold
    assert hold is not None
    contacts = contacts_of(part.hanging, hold)
    hangers = [high - low for low, high in hold.hangers_mm]
    length, strip = sum(hangers), sum(hangers) + len(hangers) * (5.0 + 4.6)
    x0, middle = hold.hangers_mm[0][0], part.seats[0].com_mm[0]
    cut = section(KERNEL.evaluate(part.solid), x0 + 2.0)
    wall = cut.intersection(_box(-9.0)).area / 0.1
    most = 16.0 if pose == "on-its-back" else 8.0
    for height in (-130.0, 29.0):
        for own_n in (0.0, 0.05 * G):
            weight, turning = mass_kg * G + own_n, mass_kg * G * 25.0 + own_n * 20.0
            case = LoadCase(
                "",
                weight,
                turning,
                pull_n,
                height - 14.0,
                along_nmm=weight * middle,
                hand_x_mm=middle,
            )
            push = contacts.bolt_n(case)
            moment = least_root_nmm(case, push)
            up = weight + push
            assert (6.0 * moment / 8.0 + up) / (length * 8.0) <= 16.0 * 1.001
            # shoulder 4.5 and flank (1.25, 4.75) from the neck's middle
            s = (moment + 6.0 * up) / 4.5
            u = (2.0 * up + s) / 2.0
            lever = 3.05 + wall / 2.0 - 1.25
            bent = max(abs(u * (4.75 - e - lever) - s * (4.5 - e)) for e in (4.6, -4.6))
            assert (6.0 * bent / wall + u) / (strip * wall) <= most * 1.02


def least_root_nmm(case: LoadCase, push: float) -> float:
    """Return the least moment at the root, over forces at places on the bevel and on the face."""
    places = np.linspace(3.0, 14.5, 24)
    depths = np.linspace(3.0, 67.0, 9)
    found = linprog(
        [2.0 * r + 5.0 for r in places] + [0.0] * len(depths),
        A_eq=[
            [-1.0] * len(places) + [1.0] * len(depths),
            [1.0] * len(places) + [0.0] * len(depths),
            [0.02 * r for r in places] + [-0.01 * d for d in depths],
        ],
        b_eq=[
            -case.pull_n,
            case.weight_n + push,
            -0.01 * (case.moment_nmm + case.pull_n * (case.pull_z_mm + 14.0) - 3.0 * push),
        ],
        method="highs",
    )
    if found.fun is None:
        # the bolt is pushed down at the face instead: less to hold upright
        return 0.0
    (ours,) = hook_nmm(LoadTable.of([case]), SECTION, bolts_n=np.array([push]), middle_mm=5.0)
    assert ours == pytest.approx(float(found.fun), rel=1e-6)
    return float(found.fun)


def test_hangers_grow_with_the_plate_and_no_plate_is_asked_for_too_much() -> None:
    for least in (5.0, 12.0, 13.0, 20.0, 24.0, 25.0, 32.0, 40.0, 48.0, 80.0):

        def enough(one: rail_back.Hangers, least: float = least) -> bool:
            return one.long_mm >= least

        width = rail_back.width_for_mm(enough)
        hangers = rail_back.hangers_for(width, enough=enough)
        assert hangers.width_mm * len(hangers.lefts_mm) >= least
        assert len(hangers.lefts_mm) == 1 or hangers.lefts_mm[1] - hangers.lefts_mm[0] >= (
            hangers.width_mm + 0.2
        )
    assert rail_back.width_for_mm(lambda one: one.long_mm >= 80.1) == math.inf


def test_a_front_is_set_forward_where_its_tool_stands_before_the_groove() -> None:
    """A tool 1 mm before the plate, over the whole height of the groove, and heavy."""
    plain = shelf(60.0, mass_kg=6.0)
    (seat,) = plain.seats
    tall = block(-8.0, -19.0, -30.0, 8.0, 8.0, 30.0)
    near = replace(plain, seats=(replace(seat, tool=replace(seat.tool, envelope=(tall,))),))
    free = french_cleat.attach("test", plain, MountSettings())
    part = french_cleat.attach("test", near, MountSettings())
    assert part.seats[0].pose.shift_mm[1] > free.seats[0].pose.shift_mm[1]
    body = KERNEL.evaluate(part.solid)
    for piece in part.seats[0].envelope():
        above = piece & block(-50.0, -50.0, 0.0, 150.0, 150.0, 50.0)
        assert KERNEL.evaluate(above).overlap_mm3(body) < 1e-6
    assert body.facts.bodies == 1
