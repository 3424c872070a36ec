"""Carriers of wood: what the bit takes, how printed tongues sit in it, and how it hangs."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st
from tests.mounts.shelf import shelf

from cleatwright.base.errors import DesignError
from cleatwright.base.said import in_mm
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.carrier import CarrierParams
from cleatwright.mounts.joints.bolted import BoltedParams
from cleatwright.mounts.joints.dovetail import DovetailParams
from cleatwright.mounts.joints.registry import JOINTS
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.timber import (
    bolted as wooden_bolted,
)
from cleatwright.mounts.timber import (
    cleat as wooden_cleat,
)
from cleatwright.mounts.timber import (
    dovetail as wooden_dovetail,
)
from cleatwright.mounts.timber.front import WoodenFront
from cleatwright.mounts.timber.registry import MOUNTS, wooden_joint, wooden_mount
from cleatwright.parts.holder import HolderPart
from cleatwright.parts.joinery import Groove, Joinery, Strip
from cleatwright.shapes.outline import polygon
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid, across, block
from cleatwright.standards.fasteners.iso_4032 import HEX_NUTS
from cleatwright.standards.fasteners.iso_7089 import WASHERS
from cleatwright.standards.fasteners.wood_screws import SCREW_LENGTHS_MM

KERNEL = MeshKernel()
FINE_KERNEL = MeshKernel(chord_error_mm=5e-4)
NO_PIN = CarrierParams(pin_count=0.0)
# nothing at all, but for the chords of the round end
NOTHING_MM3 = 0.01


def made_of_wood(
    joint: str,
    mount: str,
    widths: Sequence[float],
    *,
    hung: MountSettings,
    params: DovetailParams | BoltedParams | None = None,
    wish: CarrierParams = NO_PIN,
) -> tuple[list[HolderPart], WoodenFront, HolderPart]:
    chosen = params or JOINTS[joint].params()
    parts = [JOINTS[joint].plug("test", shelf(w, low_mm=-70.0), hung, chosen) for w in widths]
    front = wooden_joint(joint)(parts, hung, chosen, wish)
    return parts, front, wooden_mount(mount)("carrier", front, hung, wish)


def bodies(
    parts: Sequence[HolderPart],
    front: WoodenFront,
    carrier: HolderPart,
    *,
    kernel: MeshKernel = KERNEL,
) -> tuple[list[MeshBody], MeshBody]:
    holders = [
        kernel.evaluate(one.solid).placed(shift(*at))
        for one, at in zip(parts, front.offsets_mm, strict=True)
    ]
    return holders, kernel.evaluate(carrier.solid)


@settings(max_examples=15, deadline=None)
@given(
    bit=st.floats(9.5, 25.4),
    depth=st.floats(5.0, 12.0),
    length=st.floats(20.0, 120.0),
    angle=st.sampled_from((7.0, 14.0)),
)
def test_a_bit_takes_a_trapezium_and_half_a_frustum(
    bit: float, depth: float, length: float, angle: float
) -> None:
    """Closed forms: (a + b) h / 2 times the length, and pi h (R R + R r + r r) / 6."""
    mouth = bit - 2 * depth * math.tan(math.radians(angle))
    assume(mouth > 3.0)
    groove = Groove(40.0, -length, bit, depth, angle)
    assert groove.mouth_mm == pytest.approx(mouth)
    plain = Joinery(80.0, -length - 30.0, 0.0, 25.0)
    cut = Joinery(80.0, -length - 30.0, 0.0, 25.0, grooves=(groove,))
    taken = (
        KERNEL.evaluate(plain.solid).facts.volume_mm3 - KERNEL.evaluate(cut.solid).facts.volume_mm3
    )
    big, small = bit / 2, mouth / 2
    frustum = math.pi * depth / 3 * (big * big + big * small + small * small)
    assert taken == pytest.approx((bit + mouth) / 2 * depth * length + frustum / 2, rel=1e-3)


def test_the_lower_end_of_a_groove_is_a_half_circle_of_the_bit() -> None:
    """A probe of one cubic tenth is free inside the half circle and in wood outside of it."""
    groove = Groove(40.0, -50.0, 12.7, 8.0, 14.0)
    body = KERNEL.evaluate(Joinery(80.0, -90.0, 0.0, 18.0, grooves=(groove,)).solid)
    for degrees in range(0, 181, 15):
        turn = math.radians(degrees)
        for radius, in_wood in ((12.7 / 2 - 0.2, False), (12.7 / 2 + 0.2, True)):
            x, z = 40.0 + radius * math.cos(turn), -50.0 - radius * math.sin(turn)
            probe = block(x - 0.05, 10.0, z - 0.05, x + 0.05, 10.1, z + 0.05)
            shared = body.overlap_mm3(KERNEL.evaluate(probe))
            assert shared == pytest.approx(0.001 if in_wood else 0.0, abs=1e-6)


def corner_mm3(bit: float, depth: float, play: float, lower: float) -> float:
    """Return what one corner of a tongue shares with the wood when it is pressed in by ``lower``.

    Section by section: at a depth t below the face the round end is a circle of radius r + t L,
    the tongue is r - p/2 + t L wide to its side, and its 45-degree end has risen by t.
    """
    lean = math.tan(math.radians(14.0))
    r = bit / 2 - depth * lean
    neck = r - play / 2
    rest = -math.sqrt(r**2 - neck**2)
    t = np.linspace(0.0, min(lower, depth - play), 801)[:, None]
    end = rest - lower + t
    z = end * np.linspace(1.0, 0.0, 801)
    within = np.maximum(0.0, neck + t * lean - np.sqrt(np.maximum(0.0, (r + t * lean) ** 2 - z**2)))
    # the wood beside the round end begins at the height of its centre
    areas = np.trapezoid(within, z, axis=1)
    return float(np.trapezoid(areas, t[:, 0]))


@settings(max_examples=12, deadline=None)
@given(
    bit=st.floats(9.5, 25.4),
    depth=st.floats(5.0, 12.0),
    play=st.floats(0.1, 0.8),
    tongue=st.floats(20.0, 60.0),
    width=st.floats(30.0, 140.0),
)
@example(bit=24.0, depth=5.0, play=0.1, tongue=40.0, width=60.0)
@example(bit=25.4, depth=5.0, play=0.1, tongue=40.0, width=140.0)
def test_a_printed_tongue_rests_in_the_round_end_and_lifts_out(
    bit: float, depth: float, play: float, tongue: float, width: float
) -> None:
    params = DovetailParams(bit_mm=bit, depth_mm=depth, play_mm=play, tongue_mm=tongue)
    assume(bit - 2 * depth * math.tan(math.radians(14.0)) - play >= 4.0)
    # two tongues, a bit from each edge of what is wider than 80 mm, leave 8 mm between the cuts
    assume(width <= 80.0 or width - 2 * bit >= bit + 8.0)
    hung = MountSettings(rail_thickness_mm=25.0)
    parts, front, carrier = made_of_wood(
        "dovetail", "wall-screws", [width], hung=hung, params=params
    )
    (holder,), body = bodies(parts, front, carrier, kernel=FINE_KERNEL)

    def shared(dy: float, dz: float) -> float:
        return body.overlap_mm3(holder.placed(shift(0.0, dy, dz)))

    assert shared(0.0, 0.0) < NOTHING_MM3
    # carried: pressed lower its corners meet as much wood as sections of cones say
    corners = 2 * len(parts[0].interfaces)
    for lower in (0.5, 1.0, 2.0):
        met = corners * corner_mm3(bit, depth, play, lower)
        assert shared(0.0, -lower) == pytest.approx(met, rel=0.02, abs=NOTHING_MM3)
    assert corner_mm3(bit, depth, play, 2.0) > NOTHING_MM3
    # kept: it cannot come straight to the front
    assert shared(play / math.tan(math.radians(14.0)) / 2 + play + 0.5, 0.0) > 0.1
    for up in (0.5, 5.0, 20.0, tongue, tongue + 30.0):
        assert shared(0.0, up) < NOTHING_MM3, up


def test_two_tongues_too_near_each_other_for_a_wide_bit_are_refused() -> None:
    """81 mm wide, a bit of 25 from each edge: 31 mm apart, where two cuts and 8 mm need 33."""
    hung = MountSettings(rail_thickness_mm=25.0)
    wide = DovetailParams(bit_mm=25.0)
    with pytest.raises(DesignError, match=r"31\.0 mm apart"):
        made_of_wood("dovetail", "wall-screws", [81.0], hung=hung, params=wide)
    for width in (80.0, 83.0):
        _, front, _ = made_of_wood("dovetail", "wall-screws", [width], hung=hung, params=wide)
        assert len(front.board.grooves) == (1 if width <= 80.0 else 2)


def test_the_neck_of_a_tongue_meets_the_round_end_where_circle_and_chord_meet() -> None:
    """Pythagoras: the half circle of the mouth, cut at half the width of the neck."""
    params = DovetailParams()
    r = (12.7 - 16.0 * math.tan(math.radians(14.0))) / 2
    drop = math.sqrt(r**2 - (r - params.play_mm / 2) ** 2)
    groove = wooden_dovetail.groove_for(0.0, -60.0, params)
    assert groove.stop_mm == pytest.approx(-60.0 + drop)
    # the 45-degree end stays clear deeper in, where circle and tongue grow alike
    for deep in (2.0, 5.0, params.depth_mm - params.play_mm):
        wide = r + deep * math.tan(math.radians(14.0))
        below = math.sqrt(wide**2 - (wide - params.play_mm / 2) ** 2)
        assert -60.0 + deep > groove.stop_mm - below


@pytest.mark.parametrize("mount", sorted(MOUNTS))
@pytest.mark.parametrize("joint", ["bolted", "dovetail"])
@settings(max_examples=5, deadline=None)
@given(
    widths=st.lists(st.floats(40.0, 130.0), min_size=1, max_size=3),
    thick=st.floats(16.0, 30.0),
)
def test_a_carrier_is_one_sound_piece_that_its_holders_fit(
    joint: str, mount: str, widths: list[float], thick: float
) -> None:
    hung = MountSettings(rail_thickness_mm=thick)
    parts, front, carrier = made_of_wood(joint, mount, widths, hung=hung)
    holders, body = bodies(parts, front, carrier)
    assert body.facts.bodies == 1
    assert body.facts.genus == carrier.genus
    for axis in range(3):
        assert body.facts.bounds_mm[0][axis] == pytest.approx(carrier.bounds_mm[0][axis], abs=1e-6)
        assert body.facts.bounds_mm[1][axis] == pytest.approx(carrier.bounds_mm[1][axis], abs=1e-6)
    thinnest = body.thinnest_wall_mm(within_mm=carrier.min_wall_mm + 1.0)
    assert thinnest >= carrier.min_wall_mm - 0.05
    assert all(body.overlap_mm3(one) < NOTHING_MM3 for one in holders)
    board = carrier.joinery
    assert board is not None
    for groove in board.grooves:
        assert groove.x_mm - groove.bit_mm / 2 + 1e-6 >= 14.4
        assert groove.x_mm + groove.bit_mm / 2 <= board.width_mm - 14.4 + 1e-6
        for screw in board.screws:
            clear = abs(screw.x_mm - groove.x_mm) - groove.bit_mm / 2
            assert clear >= 5.0 - 1e-6


def rail_and_wall(hung: MountSettings, contact_mm: float, width_mm: float) -> Solid:
    """Return the rail and the wall in the frame of what hangs on it."""
    thick = hung.rail_thickness_mm
    slant = thick * math.tan(math.radians(hung.bevel_deg))
    low = contact_mm - hung.rail_height_mm
    rail = polygon([(-thick, low), (0.0, low), (0.0, contact_mm), (-thick, contact_mm - slant)])
    wall = block(-10.0, -thick - 10.0, -500.0, width_mm + 10.0, -thick, 500.0)
    return across(rail, -10.0, width_mm + 10.0) | wall


@pytest.mark.parametrize("bevel", [30.0, 45.0, 60.0])
@pytest.mark.parametrize("joint", ["bolted", "dovetail"])
def test_the_hook_strip_sits_on_the_rail_and_is_lifted_off(joint: str, bevel: float) -> None:
    hung = MountSettings(bevel_deg=bevel)
    _, _, carrier = made_of_wood(joint, "french-cleat", [60.0, 90.0], hung=hung)
    body = KERNEL.evaluate(carrier.solid)
    contact, width = carrier.hanging.contact_z_mm, carrier.bounds_mm[1][0]
    behind = KERNEL.evaluate(rail_and_wall(hung, contact, width))
    assert body.overlap_mm3(behind) < 1e-3
    # bevel on bevel: a hair lower it lies in the rail over the whole width
    assert body.overlap_mm3(behind.placed(shift(0.0, 0.0, 0.1))) > 0.05 * 10.0 * width
    slant = 18.0 * math.tan(math.radians(bevel))
    for dy, dz in ((0.0, slant / 2), (0.0, slant), (30.0, slant)):
        assert body.overlap_mm3(behind.placed(shift(0.0, -dy, -dz))) < 1e-3
    # the spacer bears on the wall, half its height above the lower edge
    low = carrier.bounds_mm[0][2]
    assert carrier.hanging.depth_below_mm == pytest.approx(contact - low - 15.0)
    probe = KERNEL.evaluate(block(0.0, -18.0, low, width, -17.9, low + 30.0))
    assert body.overlap_mm3(probe) == pytest.approx(0.1 * 30.0 * width, rel=1e-6)


def test_a_hook_strip_of_45_degrees_is_longer_at_the_wall_by_its_thickness() -> None:
    strip = Strip("hook strip", 0.0, 48.0, 18.0, 45.0, 2.0)
    assert strip.short_mm == pytest.approx(30.0)
    assert strip.low_mm == pytest.approx(-46.0)


@settings(deadline=None)
@given(thick=st.floats(14.0, 50.0))
def test_a_screw_from_behind_bites_and_does_not_come_through(thick: float) -> None:
    length = wooden_cleat.strip_screw_mm(thick)
    assert length in SCREW_LENGTHS_MM
    assert length - thick >= 8.0
    assert 2 * thick - length >= 3.0


@settings(deadline=None)
@given(plate=st.floats(3.0, 12.0), thick=st.floats(19.0, 40.0))
def test_a_bolt_passes_washers_plate_wood_and_the_whole_nut(plate: float, thick: float) -> None:
    """Source: ISO 4032 and ISO 7089, largest sizes of M4."""
    length, deep = wooden_bolted.bolting(MountSettings(plate_mm=plate, rail_thickness_mm=thick))
    washer, nut = WASHERS.value("M4", "thickness_max_mm"), HEX_NUTS.value("M4", "height_max_mm")
    grip = plate + thick - deep
    assert length == pytest.approx(washer + grip + washer + nut)
    assert length <= plate + thick
    assert thick - deep >= 8.0 - 1e-9
    assert WASHERS.value("M4", "outer_max_mm") < wooden_bolted.COUNTERBORE_MM


def test_screws_through_board_and_spacer_are_holes_to_the_wall() -> None:
    wish = CarrierParams(pin_count=0.0, screw_count=2.0)
    _, _, carrier = made_of_wood(
        "dovetail", "french-cleat", [60.0, 90.0], hung=MountSettings(), wish=wish
    )
    body = KERNEL.evaluate(carrier.solid)
    assert body.facts.genus == carrier.genus == 2
    (screws,) = [h for h in carrier.hardware if h.stud_mm]
    # 18 mm of board, 18 mm of strip, 12.5 mm of lining and six diameters of stud (NDS 12.1.5.6)
    assert (screws.count, in_mm(screws.name).split(" x ")[1]) == (2, "80 mm")
    assert carrier.hanging.lock is not None
    assert carrier.hanging.lock.count == 2


@pytest.mark.parametrize(
    ("joint", "mount", "hung", "wish", "words"),
    [
        ("dovetail", "perforated-board", {}, {}, "french-cleat, wall-screws"),
        ("dovetail", "french-cleat", {}, {"pin_count": 1.0}, "pin_count = 0"),
        ("dovetail", "wall-screws", {}, {"screw_count": 2.0}, "screw_count = 0"),
        ("dovetail", "french-cleat", {"rail_thickness_mm": 15.0}, {}, "at least 8 mm behind"),
        ("bolted", "french-cleat", {"rail_thickness_mm": 12.0}, {}, "at least 15 mm thick"),
        ("bolted", "french-cleat", {}, {"width_mm": 60.0}, "at least 89 mm"),
        ("dovetail", "french-cleat", {}, {"screw_count": 12.0}, "up to"),
        ("glued", "french-cleat", {}, {}, "bolted, dovetail"),
    ],
)
def test_what_wood_cannot_do_is_refused_with_what_it_can(
    joint: str, mount: str, hung: dict[str, float], wish: dict[str, float], words: str
) -> None:
    known = joint if joint in JOINTS else "dovetail"
    chosen, settings_ = JOINTS[known].params(), MountSettings(**hung)
    parts = [JOINTS[known].plug("test", shelf(60.0, low_mm=-70.0), settings_, chosen)]
    wished = CarrierParams(**{"pin_count": 0.0} | wish)
    with pytest.raises(DesignError) as told:
        wooden_mount(mount)(
            "carrier", wooden_joint(joint)(parts, settings_, chosen, wished), settings_, wished
        )
    assert words in str(told.value)


def test_a_thin_strip_takes_no_screw() -> None:
    with pytest.raises(DesignError, match="from 14 mm"):
        wooden_cleat.strip_screw_mm(13.0)
