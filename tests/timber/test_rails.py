"""Bevel rips against plane geometry, and the lists for the workshop."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import MeasureError
from cleatwright.timber import cautions
from cleatwright.timber.boards import Piece, Stock
from cleatwright.timber.carriers import HookStrip
from cleatwright.timber.cutlist import crosscut_list, rip_list
from cleatwright.timber.cutting import cut_boards
from cleatwright.timber.rails import bevel_rips, pair_strip_mm
from cleatwright.wall.rail import Profile


def area(points: list[tuple[float, float]]) -> float:
    """Shoelace formula."""
    turned = [*points[1:], points[0]]
    return (
        abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(points, turned, strict=True))) / 2
    )


@settings(deadline=None, max_examples=60)
@given(
    thickness=st.floats(9.0, 40.0),
    bevel=st.floats(5.0, 60.0),
    extra_a=st.floats(1.0, 150.0),
    extra_b=st.floats(1.0, 150.0),
    kerf=st.floats(0.0, 6.0),
)
def test_two_rails_and_the_slanted_kerf_make_up_the_strip(
    thickness: float, bevel: float, extra_a: float, extra_b: float, kerf: float
) -> None:
    """The areas of both trapezoids and of the kerf add up to the rectangle of the strip."""
    slant = thickness * math.tan(math.radians(bevel))
    first, second = (Profile(slant + extra, thickness, bevel) for extra in (extra_a, extra_b))
    strip = pair_strip_mm(first, second, kerf_mm=kerf)
    wide = kerf / math.cos(math.radians(bevel))
    rail_a = [(0, 0), (first.height_mm, 0), (first.short_face_mm, thickness), (0, thickness)]
    start = first.height_mm + wide
    rail_b = [(start, 0), (strip, 0), (strip, thickness), (start - slant, thickness)]
    assert strip - (start - slant) == pytest.approx(second.height_mm)
    sawdust = wide * thickness
    total = area(rail_a) + area(rail_b) + sawdust
    assert total == pytest.approx(strip * thickness, rel=1e-9)


def test_a_45_degree_pair_from_18_mm_board_by_hand() -> None:
    """80 + 80 - 18 + 3.2 sqrt 2 = 146.525."""
    rail = Profile(80.0, 18.0, 45.0)
    assert pair_strip_mm(rail, rail, kerf_mm=3.2) == pytest.approx(142.0 + 3.2 * math.sqrt(2.0))
    assert rail.short_face_mm == pytest.approx(62.0)


def test_rails_of_different_bevel_cannot_share_a_cut() -> None:
    with pytest.raises(MeasureError, match="share one cut"):
        pair_strip_mm(Profile(80.0, 18.0, 45.0), Profile(80.0, 18.0, 30.0), kerf_mm=3.0)


def test_a_bevel_drops_by_the_tangent_of_its_angle() -> None:
    """The tangents of 45 and 30 degrees are 1 and one over the root of 3."""
    assert Profile(70.0, 18.0, 45.0).slant_mm == pytest.approx(18.0)
    assert Profile(70.0, 18.0, 30.0).slant_mm == pytest.approx(18.0 / math.sqrt(3.0))


@pytest.mark.parametrize(
    ("height", "thickness", "bevel"),
    [
        (18.0, 18.0, 45.0),
        (80.0, 18.0, 0.0),
        (80.0, 18.0, 61.0),
        (80.0, -1.0, 45.0),
        (math.nan, 18, 45),
    ],
)
def test_a_profile_that_is_no_rail_is_refused(
    height: float, thickness: float, bevel: float
) -> None:
    with pytest.raises(MeasureError):
        Profile(height, thickness, bevel)


WALL = (
    HookStrip("upper", 2100.0, Profile(80.0, 18.0, 45.0)),
    HookStrip("lower", 1500.0, Profile(80.0, 18.0, 45.0)),
    HookStrip("side", 600.0, Profile(100.0, 18.0, 45.0)),
)


def test_rails_of_one_profile_are_ripped_together() -> None:
    rips = bevel_rips(WALL, kerf_mm=3.2)
    assert [rip.rails for rip in rips] == [("side",), ("upper", "lower")]
    assert rips[1].total_mm == 3600.0
    assert rips[1].pieces == (Piece("upper", 2100.0), Piece("lower", 1500.0))
    assert rips[1].blade_tilt_deg == 45.0
    assert rips[1].fence_mm == pytest.approx(62.0)


def test_the_rip_list_carries_the_cautions_of_a_bevel_rip() -> None:
    """The cautions are common practice of the trade, no source."""
    listed = rip_list(bevel_rips(WALL, kerf_mm=3.2))
    assert listed.cautions == cautions.BEVEL_RIP
    said = " ".join(listed.cautions).lower()
    for word in (
        "riving knife",
        "guard",
        "away from the fence",
        "push stick",
        "eye and ear protection",
        "dust mask",
        "local rules",
        "manual",
        "qualified people",
    ):
        assert word in said
    assert listed.rows[1][:2] == ("upper; lower", "80.0")


def test_the_cut_list_reads_back_as_the_plan() -> None:
    pieces = [piece for rip in bevel_rips(WALL, kerf_mm=3.2) for piece in rip.pieces]
    plan = cut_boards(pieces, [Stock("pine, planed", 2440.0)], kerf_mm=3.2)
    listed = crosscut_list(plan)
    rows = [dict(zip(listed.header, row, strict=True)) for row in listed.rows]
    assert [row["piece"] for row in rows] == ["upper", "lower", "side"]
    assert {row["stock"] for row in rows} == {"pine, planed"}
    assert rows[2]["from end mm"] == "1503.2"
    assert float(rows[2]["remainder mm"]) == pytest.approx(2440 - 1500 - 600 - 2 * 3.2)
    assert "Local rules" in listed.cautions[0]
    assert "proven optimal" in listed.notes[0]
