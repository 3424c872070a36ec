"""Holders that are screwed to their rail, as they are printed and as a driver reaches them.

Sources: NDS 2018, 12.1.5.6, six diameters in the wood, the tip included; DIN 7997 heads; four
diameters from an edge that is loaded (EN 1995-1-1, Table 8.2, from memory).
"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from tests.mounts.shelf import assert_whole, rail, shelf

from cleatwright.base.errors import NoRoomError, RailHoldError
from cleatwright.design.building import build
from cleatwright.design.proving import trial_recipe
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import french_cleat
from cleatwright.mounts.printed.rail_screws import ScrewPad, as_parts, rail_screw
from cleatwright.parts.holder import Front, HolderPart
from cleatwright.shapes.outline import circle
from cleatwright.shapes.solid import block, prism
from cleatwright.statics.captured import Section

KERNEL = MeshKernel()


def crowded(mass_kg: float = 0.5) -> Front:
    """Return a shelf with a board before its whole wall, 0.6 mm off its plate, far down."""
    plain = shelf(60.0, mass_kg=mass_kg)
    (seat,) = plain.seats
    x, y, _ = seat.pose.shift_mm
    board = block(-x - 400.0, 5.6 - y, -200.0, 400.0 - x, 8.6 - y, -40.0)
    tool = replace(seat.tool, envelope=(*seat.tool.envelope, board))
    return replace(plain, seats=(replace(seat, tool=tool),))


def screwed(mass_kg: float = 0.5, **how: float) -> HolderPart:
    return french_cleat.attach("test", crowded(mass_kg), MountSettings(**how))


@pytest.mark.parametrize("thickness_mm", [18.0, 21.0, 24.0])
def test_a_screw_ends_in_its_rail_and_is_six_diameters_deep(thickness_mm: float) -> None:
    part = screwed(rail_thickness_mm=thickness_mm)
    screws = part.hanging.rail_screws
    assert screws is not None
    assert part.hanging.hold is None
    deep = screws.length_mm - screws.pad_mm
    assert 6.0 * screws.diameter_mm <= deep <= thickness_mm
    (bought,) = [one for one in part.hardware if "wood screw" in one.name]
    assert bought.count == len(screws.columns_mm)
    assert not [one for one in part.fittings if one.name == "bolt"]
    assert [one for one in part.fittings if one.name == "hanger"]


@pytest.mark.parametrize("height_mm", [60.0, 70.0, 95.0])
def test_it_goes_into_whole_wood_off_both_edges(height_mm: float) -> None:
    """A prism of four diameters about the screw lies wholly in the rail."""
    how = MountSettings(rail_height_mm=height_mm)
    part = french_cleat.attach("test", crowded(), how)
    screws = part.hanging.rail_screws
    assert screws is not None
    wood = KERNEL.evaluate(rail(part, how))
    z = part.hanging.contact_z_mm - screws.below_mm
    edge = 4.0 * screws.diameter_mm
    for x in screws.columns_mm:
        around = block(x - edge, -18.0, z - edge, x + edge, 0.0, z + edge)
        inside = KERNEL.evaluate(around).overlap_mm3(wood)
        assert inside == pytest.approx(18.0 * (2 * edge) ** 2, rel=1e-3)


def test_a_driver_reaches_each_screw_and_the_part_is_whole() -> None:
    """A bit of 10 mm from the front to the head, and a shank of 3 mm through to the rail."""
    part = screwed()
    body = assert_whole(part)
    screws = part.hanging.rail_screws
    assert screws is not None
    z = part.hanging.contact_z_mm - screws.below_mm
    for x in screws.columns_mm:
        bit = prism(circle(10.0), 200.0).turned("x", -90.0).moved(x, screws.pad_mm, z)
        shank = prism(circle(3.0), 40.0).turned("x", -90.0).moved(x, -10.0, z)
        for free in (bit, shank):
            assert KERNEL.evaluate(free).overlap_mm3(body) < 1e-6
        # the head of 5.6 mm does not go through
        head = prism(circle(5.6), 40.0).turned("x", -90.0).moved(x, -10.0, z)
        assert KERNEL.evaluate(head).overlap_mm3(body) > 1.0


def test_its_tools_are_free_of_the_pads() -> None:
    part = screwed()
    body = KERNEL.evaluate(part.solid)
    for piece in part.seats[0].envelope()[1:]:
        assert KERNEL.evaluate(piece).overlap_mm3(body) < 1e-6


def test_more_screws_where_one_is_not_enough() -> None:
    light, heavy = screwed(0.5).hanging.rail_screws, screwed(3.0).hanging.rail_screws
    assert light is not None
    assert heavy is not None
    assert len(heavy.columns_mm) > len(light.columns_mm)


def test_a_rail_too_thin_for_any_screw_refuses_as_before() -> None:
    """3 mm is the thinnest that is on sale, and 6 * 3 = 18 mm."""
    assert rail_screw(17.9, plate_mm=5.0) is None
    with pytest.raises(NoRoomError):
        screwed(rail_thickness_mm=15.0)


def test_what_no_row_of_screws_holds_is_refused() -> None:
    with pytest.raises(RailHoldError):
        screwed(200.0)


def test_where_a_bolt_has_room_there_is_no_screw() -> None:
    plain = french_cleat.attach("test", shelf(60.0), MountSettings())
    assert plain.hanging.rail_screws is None
    assert math.isfinite(plain.bounds_mm[0][2])


@pytest.mark.parametrize(("height_mm", "bolts"), [(100.0, True), (115.0, False), (200.0, False)])
def test_a_rail_so_high_that_a_bolt_captures_nothing_is_screwed_to(
    height_mm: float, *, bolts: bool
) -> None:
    """Play by hand: half a rise of 1.2, 0.5 of the rail, and 0.2 over 4.1 mm on 8.4 mm under it.

    Against nine tenths of u (29 - u) / H, u = 8.4: 155.7 / H is 1.56 at 100 and 1.35 at 115 mm.
    """
    how = MountSettings(rail_height_mm=height_mm)
    part = french_cleat.attach("test", shelf(60.0), how)
    play = 0.6 + 0.5 + 0.2 / 4.1 * 8.4
    assert (0.9 * 8.4 * 20.6 / height_mm >= play) is bolts
    assert (part.hanging.hold is not None) is bolts
    assert (part.hanging.rail_screws is None) is bolts


@pytest.mark.parametrize("mass_kg", [0.5, 2.0, 3.0])
@pytest.mark.parametrize("height_mm", [70.0, 115.0])
def test_its_own_lower_end_is_what_it_bears_on(mass_kg: float, height_mm: float) -> None:
    """No lever is longer than the part: a slice at the rail's face is there at the foot."""
    part = screwed(mass_kg, rail_height_mm=height_mm)
    screws = part.hanging.rail_screws
    assert screws is not None
    foot = part.hanging.contact_z_mm - screws.foot_mm
    body = KERNEL.evaluate(part.solid)
    for x in screws.columns_mm:
        at = block(x - 1.0, 0.0, foot, x + 1.0, 0.5, foot + 1.0)
        assert KERNEL.evaluate(at).overlap_mm3(body) == pytest.approx(1.0, rel=1e-3)
    assert screws.foot_mm <= height_mm
    assert part.hanging.depth_below_mm == screws.foot_mm


@pytest.mark.parametrize("plate_mm", [5.0, 7.0])
def test_a_thick_pad_is_no_stronger_than_the_plate_it_hangs_from(plate_mm: float) -> None:
    """A solid b h2 / 6 is more than its walls and skins; of two pads each has half the plate."""
    screw = rail_screw(18.0, plate_mm=20.0)
    assert screw is not None
    section = Section(-14.0, 67.0, 45.0, 14.5)
    pads = tuple(ScrewPad(x, -44.0, screw, -60.0) for x in (10.0, 30.0))
    box = ((0.0, 0.0, -30.0), (40.0, plate_mm, 0.0))
    row = as_parts(pads, section, (0.0, 40.0), plate=box)
    solid = 20.0 * plate_mm**2 / 6.0
    assert solid / 2.0 < row.column_mm3 < solid


def test_pads_reach_further_down_for_more_weight() -> None:
    how = MountSettings(rail_height_mm=115.0)
    fronts = (shelf(60.0, mass_kg=one, reach_mm=80.0) for one in (0.5, 4.0))
    light, heavy = (french_cleat.attach("test", one, how).hanging.rail_screws for one in fronts)
    assert light is not None
    assert heavy is not None
    assert heavy.foot_mm > light.foot_mm


def test_letters_are_not_cut_under_a_pad_that_is_thicker_than_its_plate() -> None:
    """Two buckets by their bails, on a peg: nothing stands 1 mm before any place for the mark."""
    bails = {"bail": 14.2, "bail_height": 83.7, "bail_thickness": 14.2}
    measures = bails | {"depth": 183.5, "height": 167.4, "width": 186.8}
    one = trial_recipe("peg", "bucket", (1.0, 1.0))
    seats = tuple(seat.model_copy(update={"measures": measures}) for seat in one.seats)
    built = build(one.model_copy(update={"seats": seats, "mount": "french-cleat"}), KERNEL)
    screws = built.part.hanging.rail_screws
    assert screws is not None
    assert screws.pad_mm > built.hung_as.settings.plate_mm
    body = KERNEL.evaluate(built.part.solid)
    for place in built.part.mark_places:
        before = block(0.0, 0.0, 0.01, place.width_mm, place.height_mm, 1.0).placed(place.pose)
        assert KERNEL.evaluate(before).overlap_mm3(body) < 1e-6
