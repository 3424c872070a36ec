"""Things that people own: what is free for a holder, and masses in closed form by hand.

Weights called ordinary are trade weights, common practice without a source.
"""

from __future__ import annotations

import math

import pytest
from tests.tools.ordinary import example, overlap

from cleatwright.base.errors import MeasureError
from cleatwright.parts.grips import Blade, EyeHole, Footprint, Loop, Overhang, PistolGrip, ShaftEnd
from cleatwright.shapes.outline import circle
from cleatwright.shapes.solid import block, prism
from cleatwright.tools.registry import KINDS, tool_body

OPENINGS = ["plastering-trowel", "staple-gun", "spade", "bow-saw", "bucket", "thing-with-loop"]


@pytest.mark.parametrize("name", OPENINGS)
def test_a_bar_as_large_as_the_opening_passes_and_a_higher_one_does_not(name: str) -> None:
    body = example(name)
    loop, hole = body.needed_grip(Loop), body.needed_grip(EyeHole)
    x, low = loop.width_mm / 2 - 1e-3, loop.z_mm - loop.height_mm
    inside = block(-x, -300.0, low + 1e-3, x, 300.0, loop.z_mm - 1e-3)
    assert overlap(body, inside) == pytest.approx(0.0, abs=1e-6)
    above = block(-1.0, -300.0, loop.z_mm, 1.0, 300.0, loop.z_mm + 1.0)
    assert overlap(body, above) == pytest.approx(2.0 * loop.bundle_mm, rel=1e-6)
    peg = prism(circle(hole.diameter_mm - 1e-3), 600.0).turned("x", 90.0)
    free = peg.moved(0.0, 300.0, hole.z_mm - hole.diameter_mm / 2)
    assert overlap(body, free) == pytest.approx(0.0, abs=1e-6)
    assert hole.diameter_mm == min(loop.width_mm, loop.height_mm)


@pytest.mark.parametrize(
    ("name", "least_kg", "most_kg"),
    [
        ("plastering-trowel", 0.3, 0.55),  # of 280 by 120 mm
        ("paint-roller", 0.15, 0.35),  # of 180 mm, dry
        ("filling-knife", 0.05, 0.15),  # of 60 mm
        ("scalpel", 0.015, 0.035),
        ("trigger-bottle", 0.7, 0.95),  # of three quarters of a litre, full
        ("heat-gun", 0.6, 1.0),  # of 2000 W, without its cord
        ("corded-drill", 1.5, 2.4),  # of 700 W, without its cord
        ("staple-gun", 0.6, 1.1),
        ("spade", 1.6, 2.4),
        ("dibber", 0.12, 0.4),
        ("bow-saw", 0.5, 0.95),  # of 610 mm
        ("bucket", 1.0, 1.6),  # of 12 litres, of sheet
        ("glove", 0.1, 0.35),  # a pair of leather gloves
        ("iron", 0.9, 1.6),
        ("loppers", 1.1, 2.0),  # of 700 mm
    ],
)
def test_ordinary_things_weigh_about_what_they_weigh(
    name: str, least_kg: float, most_kg: float
) -> None:
    assert least_kg < example(name).mass_kg < most_kg


def test_a_spade_is_a_plate_a_stick_and_a_frame() -> None:
    """Blade 3 mm of steel, shaft and T handle of ash: three volumes by hand."""
    sizes = {
        "length": 900.0,
        "handle_width": 120.0,
        "handle_height": 40.0,
        "handle_thickness": 30.0,
        "shaft": 36.0,
        "blade_width": 180.0,
        "blade_length": 300.0,
        "blade_depth": 60.0,
    }
    body = tool_body("spade", sizes)
    blade = 180.0 * 300.0 * 3.0 * 7850e-9
    wood = (math.pi * 18.0**2 * 560.0 + 120.0 * 40.0 * 30.0) * 720e-9
    assert body.mass_kg == pytest.approx(blade + wood, rel=1e-9)
    head = body.needed_grip(Overhang)
    assert (head.z_mm, head.neck_length_mm) == (860.0, 560.0)
    assert body.grip(EyeHole) is None


def test_a_full_round_spray_bottle_is_a_cylinder_of_water_and_a_light_head() -> None:
    body = tool_body(
        "trigger-bottle",
        {
            "body_width": 80.0,
            "height": 250.0,
            "head_height": 100.0,
            "head_length": 100.0,
            "head_width": 40.0,
        },
    )
    water, head = math.pi * 40.0**2 * 150.0 * 1e-6, 100.0 * 40.0 * 100.0 * 0.12 * 1.2e-6
    assert body.mass_kg == pytest.approx(water + head, rel=1e-9)


def test_a_spray_bottle_that_is_not_round_stands_on_its_two_sizes() -> None:
    foot = example("trigger-bottle", body_depth=55.0).needed_grip(Footprint)
    assert (foot.width_mm, foot.depth_mm, foot.height_mm) == (82.0, 55.0, 245.0)


@pytest.mark.parametrize("name", ["heat-gun", "corded-drill"])
def test_beside_the_handle_of_a_pistol_grip_it_is_free_down_to_the_cord(name: str) -> None:
    body = example(name)
    grip = body.needed_grip(PistolGrip)
    low = grip.z_mm - grip.handle_length_mm
    beside = block(grip.handle_x_mm / 2, -300.0, low, 99.0, 300.0, grip.z_mm)
    assert overlap(body, beside) == pytest.approx(0.0, abs=1e-6)
    over = block(-99.0, -300.0, grip.z_mm, 99.0, 300.0, grip.z_mm + 1.0)
    length = grip.front_y_mm + grip.back_y_mm
    assert overlap(body, over) == pytest.approx(grip.body_x_mm * length, rel=1e-6)
    assert low == dict(KINDS[name].example)["cord"]


def test_below_the_handle_of_a_paint_roller_there_is_only_the_wire_down_to_its_crank() -> None:
    body = example("paint-roller")
    head = body.needed_grip(Overhang)
    low = head.z_mm - head.neck_length_mm
    neck = block(-300.0, -99.0, low, 300.0, 99.0, head.z_mm)
    expected = math.pi * 4.0**2 * head.neck_length_mm
    assert overlap(body, neck) == pytest.approx(expected, rel=1e-2)
    crank = block(-300.0, -99.0, low - 1.0, 300.0, 99.0, low)
    assert overlap(body, crank) > 3.0 * math.pi * 4.0**2


def test_a_filling_knife_needs_a_hole_or_a_ledge() -> None:
    knife = example("filling-knife", blade_width=20.0)
    blade = knife.needed_grip(Blade)
    below = block(-99.0, -99.0, 0.0, 99.0, 99.0, blade.z_mm)
    inside = blade.width_mm * blade.thickness_mm * blade.length_mm
    assert overlap(knife, below) == pytest.approx(inside, rel=1e-9)
    with pytest.raises(MeasureError, match="nothing can carry it"):
        example("filling-knife", blade_width=28.0, handle_thickness=6.0, blade_thickness=4.0)


def test_the_circle_around_a_scalpel_is_that_of_its_section_and_covers_its_blade() -> None:
    end = example("scalpel", handle_width=12.0, handle_thickness=5.0).needed_grip(ShaftEnd)
    assert end.diameter_mm == pytest.approx(13.0)
    assert end.covered_mm > 38.0


def test_a_frame_saw_carries_its_blade_below_its_middle() -> None:
    """A square frame of equal bars and a thin blade: the centre lies above half the height."""
    body = example("bow-saw", length=200.0, height=200.0, frame=20.0, blade_width=20.0)
    assert body.com_mm[0] == pytest.approx(0.0, abs=1e-9)
    assert body.com_mm[2] > 100.0


@pytest.mark.parametrize("name", ["thing-with-hole", "thing-with-loop", "thing-with-neck"])
def test_an_owner_who_finds_no_kind_measures_five_sizes_at_most(name: str) -> None:
    assert len(KINDS[name].card) <= 5


def test_every_plain_shape_is_there_and_takes_five_measures_at_most() -> None:
    plain = {one.plain: len(one.card) for one in KINDS.values() if one.plain}
    wanted = {"with a hole", "with a neck", "with a loop", "round", "flat", "on a handle"}
    assert wanted <= set(plain)
    assert max(plain.values()) <= 5


def test_a_sieve_is_a_ring_of_wood_and_a_sheet() -> None:
    """Ring pi (D - t) t h of ash, and a disc 0.6 mm thick of steel."""
    body = tool_body("sieve", {"diameter": 300.0, "depth": 80.0, "rim": 5.0})
    ring = math.pi * 295.0 * 5.0 * 80.0 * 720e-9
    sheet = math.pi * 150.0**2 * 0.6 * 7850e-9
    assert body.mass_kg == pytest.approx(ring + sheet, rel=1e-9)
