"""Bits, sockets, drills and power tools: published tables, closed forms, plausible weights."""

from __future__ import annotations

import math

import pytest
from tests.tools.ordinary import example

from cleatwright.base.errors import MeasureError
from cleatwright.holders.registry import FAMILIES
from cleatwright.parts.grips import HexShank, PistolGrip, ShaftEnd, Shoulder, SquareDrive
from cleatwright.standards.table import Table
from cleatwright.standards.tools.iso_235 import JOBBER_DRILLS
from cleatwright.standards.tools.iso_1173 import HEX_BIT_SHANKS, SOLD_BITS
from cleatwright.standards.tools.iso_2725 import SMALL_SOCKETS, SOCKET_SERIES, SOCKETS
from cleatwright.tools.registry import tool_body


@pytest.mark.parametrize("name", [str(row[0]) for row in JOBBER_DRILLS.rows])
def test_every_jobber_drill_of_iso_235_stands_in_a_bore_unless_it_is_too_thin(name: str) -> None:
    length, flutes = (JOBBER_DRILLS.value(name, c) for c in ("length_mm", "flute_length_mm"))
    sizes = {"diameter": float(name), "length": length, "flute_length": flutes}
    body = tool_body("twist-drill", sizes)
    end = body.needed_grip(ShaftEnd)
    assert (end.diameter_mm, end.length_mm) == (float(name), length - flutes)
    refusal = FAMILIES["bore-block"].why_not(body)
    assert (refusal is None) == (float(name) >= 1.2)


@pytest.mark.parametrize("name", [str(row[0]) for row in SOLD_BITS.rows])
def test_every_bit_of_iso_1173_as_sold_stands_in_a_hexagonal_pocket(name: str) -> None:
    flats = HEX_BIT_SHANKS.value("6.3", "across_flats_mm")
    length = SOLD_BITS.value(name, "length_mm")
    body = tool_body("hex-bit", {"flats": flats, "length": length})
    assert FAMILIES["hex-pocket-block"].why_not(body) is None
    grip = body.needed_grip(HexShank)
    assert grip.length_mm == length / 2
    (_, y0, _), (_, y1, _) = body.extent_mm
    assert y1 - y0 == pytest.approx(HEX_BIT_SHANKS.value("6.3", "across_corners_mm"), abs=0.005)


# the largest female square, ISO 1174-1 (from memory)
@pytest.mark.parametrize(
    ("square", "female_mm", "table"), [("6.3", 6.63, SMALL_SOCKETS), ("12.5", 13.03, SOCKETS)]
)
def test_every_socket_of_iso_2725_stands_on_a_post_by_its_wider_end(
    square: str, female_mm: float, table: Table
) -> None:
    for row in table.rows:
        outer = max(
            table.value(str(row[0]), "outer_max_mm"),
            SOCKET_SERIES.value(square, "drive_end_max_mm"),
        )
        sizes = {
            "outer": outer,
            "length": SOCKET_SERIES.value(square, "length_max_mm"),
            "square": female_mm,
        }
        body = tool_body("socket", sizes)
        assert FAMILIES["square-post-rail"].why_not(body) is None, row
        drive = body.needed_grip(SquareDrive)
        assert drive.body_mm == outer


def test_a_drill_and_a_router_bit_weigh_their_cylinders() -> None:
    """By hand: 8 mm for 42 mm of shank and 0.55 of 75 mm of flutes; steel of 7850 kg/m3."""
    drill = tool_body("twist-drill", {"diameter": 8.0, "length": 117.0, "flute_length": 75.0})
    assert drill.mass_kg == pytest.approx(math.pi * 16.0 * (42.0 + 0.55 * 75.0) * 7.85e-6)
    bit = example("router-bit")
    volume = math.pi / 4 * (8.0**2 * 32.0 + 0.5 * 20.0**2 * 25.0)
    assert bit.mass_kg == pytest.approx(volume * 7.85e-6)


def test_the_point_of_a_punch_is_a_frustum_of_eight_sides() -> None:
    """Octagon about a circle: 8 tan(pi/8) r r; frustum h/3 (A + B + sqrt(A B)); cylinder below."""
    body = example("punch")
    big, small = (8 * math.tan(math.pi / 8) * r**2 for r in (5.0, 2.0))
    volume = math.pi * 25.0 * 80.0 + 40.0 / 3 * (big + small + math.sqrt(big * small))
    assert body.mass_kg == pytest.approx(volume * 7.85e-6)


def test_the_edge_of_a_cold_chisel_wider_than_its_body_is_inside_the_envelope() -> None:
    sizes = {"body": 18.0, "length": 200.0, "point": 26.0, "point_length": 60.0}
    assert tool_body("punch", sizes).width_mm == pytest.approx(26.0)


def test_a_nut_driver_with_a_short_shank_hangs_through_a_slot_for_its_head() -> None:
    for length, neck in ((105.0, 7.0), (30.0, 12.0)):
        shoulder = example("nut-driver", shank_length=length).needed_grip(Shoulder)
        assert shoulder.neck_mm == neck


def test_a_cordless_drill_balances_over_its_handle() -> None:
    """The battery under it and the chuck in front keep the centre within the handle's depth."""
    body = example("cordless-drill")
    grip = body.needed_grip(PistolGrip)
    assert abs(body.com_mm[1]) < grip.handle_y_mm / 2
    assert grip.back_y_mm + grip.front_y_mm == pytest.approx(130.0)


def test_a_twist_drill_without_a_shank_to_stand_on_is_refused() -> None:
    sizes = {"diameter": 6.0, "length": 93.0}
    assert tool_body("twist-drill", {**sizes, "flute_length": 85.0}).grip(ShaftEnd)
    with pytest.raises(MeasureError, match="less than 8 mm"):
        tool_body("twist-drill", {**sizes, "flute_length": 85.1})
