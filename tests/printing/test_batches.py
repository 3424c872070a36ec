"""Packing beds: nothing overlaps, nothing is lost, and known packings bound the number of beds."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import BedError, MeasureError
from cleatwright.base.said import in_mm
from cleatwright.printing.batches import (
    Batch,
    Bed,
    BedPart,
    BedPlace,
    pack_batches,
)
from cleatwright.printing.footprint import turn_to_fit, turned_size_mm

# Moron 1925 and Duijvestijn 1978, from memory; the sums of squares below confirm them
MORON_33_BY_32 = (1, 4, 7, 8, 9, 10, 14, 15, 18)
DUIJVESTIJN_112 = (2, 4, 6, 7, 8, 9, 11, 15, 16, 17, 18, 19, 24, 25, 27, 29, 33, 35, 37, 42, 50)

# OR-Library binpack1, u120_00 (Falkenauer 1996): capacity 150, optimum 48, first fit decreasing 49
U120_00 = """
42 69 67 57 93 90 38 36 45 42 33 79 27 57 44 84 86 92 46 38 85 33 82 73 49 70 59 23 57 72 74 69 33
42 28 46 30 64 29 74 41 49 55 98 80 32 25 38 82 30 35 39 57 84 62 50 55 27 30 36 20 78 47 26 45 41
58 98 91 96 73 84 37 93 91 43 73 85 81 79 71 80 76 83 41 78 70 23 42 87 43 84 60 55 49 78 73 62 36
44 94 69 32 96 70 84 58 78 25 80 58 66 83 24 98 60 42 43 43 39
"""
# a documentation example (from memory; optimum proven elsewhere): capacity 100, 4 bins
DOCUMENTED = "48 30 19 36 36 27 42 42 36 24 30"


def squares(sides: tuple[int, ...]) -> list[BedPart]:
    return [BedPart(f"s{side}", float(side), float(side)) for side in sides]


def gap(one: BedPlace, two: BedPlace) -> float:
    """Return the larger of the gaps along x and y; negative when the rectangles overlap."""
    across = max(one.x_mm - two.x_mm - two.size_mm[0], two.x_mm - one.x_mm - one.size_mm[0])
    along = max(one.y_mm - two.y_mm - two.size_mm[1], two.y_mm - one.y_mm - one.size_mm[1])
    return max(across, along)


def check(batches: tuple[Batch, ...], parts: list[BedPart], bed: Bed) -> None:
    placed = [place for batch in batches for place in batch.places]
    assert sorted(p.part.name for p in placed) == sorted(p.name for p in parts)
    area = sum(p.width_mm * p.depth_mm for p in parts)
    assert len(batches) >= math.ceil(area / (bed.room_mm[0] * bed.room_mm[1]) - 1e-9)
    for batch in batches:
        for i, place in enumerate(batch.places):
            assert place.x_mm >= bed.rim_mm - 1e-6
            assert place.y_mm >= bed.rim_mm - 1e-6
            assert place.x_mm + place.size_mm[0] <= bed.width_mm - bed.rim_mm + 0.01
            assert place.y_mm + place.size_mm[1] <= bed.depth_mm - bed.rim_mm + 0.01
            for other in batch.places[:i]:
                assert gap(place, other) >= bed.spacing_mm - 1e-6


@settings(deadline=None, max_examples=25)
@given(
    sizes=st.lists(st.tuples(st.floats(5.0, 200.0), st.floats(5.0, 150.0)), max_size=12),
    spacing=st.floats(0.0, 8.0),
    rim=st.floats(0.0, 5.0),
)
def test_no_part_is_lost_and_every_gap_is_kept(
    sizes: list[tuple[float, float]], spacing: float, rim: float
) -> None:
    bed = Bed("bed", 220.0, 170.0, rim, spacing)
    parts = [BedPart(f"p{i}", w, d) for i, (w, d) in enumerate(sizes)]
    check(pack_batches(parts, bed), parts, bed)


@pytest.mark.parametrize(
    ("sides", "width", "depth"),
    [(MORON_33_BY_32, 33, 32), (DUIJVESTIJN_112, 112, 112)],
    ids=["33x32", "112x112"],
)
def test_squares_that_tile_a_bed_need_one_bed_at_least_and_two_at_most(
    sides: tuple[int, ...], width: int, depth: int
) -> None:
    """The area equals the bed exactly, so one bed is the bound; no sliver of area is gained."""
    assert sum(s * s for s in sides) == width * depth
    bed = Bed("bed", float(width), float(depth), 0.0, 0.0)
    batches = pack_batches(squares(sides), bed)
    check(batches, squares(sides), bed)
    assert 1 <= len(batches) <= 2


@pytest.mark.parametrize(
    ("widths", "capacity", "optimum", "greedy"),
    [(U120_00, 150, 48, 49), (DOCUMENTED, 100, 4, 4)],
    ids=["u120_00", "documented"],
)
def test_strips_as_deep_as_the_bed_are_packed_like_a_published_instance(
    widths: str, capacity: int, optimum: int, greedy: int
) -> None:
    """Strips deeper than the bed is wide cannot be turned: bin packing along a line is left."""
    deep = capacity + 10.0
    parts = [BedPart(f"p{i}", float(w), deep) for i, w in enumerate(widths.split())]
    bed = Bed("bed", float(capacity), deep, 0.0, 0.0)
    batches = pack_batches(parts, bed)
    check(batches, parts, bed)
    assert optimum <= len(batches) <= greedy


def test_rectangles_that_tile_a_bed_in_rows_are_packed_on_one_bed() -> None:
    """Closed form: 6 x 4 rectangles of 30 x 40 tile 180 x 160."""
    parts = [BedPart(f"p{i}", 30.0, 40.0) for i in range(24)]
    bed = Bed("bed", 180.0, 160.0, 0.0, 0.0)
    assert len(pack_batches(parts, bed)) == 1


def test_spacing_is_needed_between_parts_but_not_at_the_rim() -> None:
    """Closed form: n parts of w with gaps s fit when n w + (n - 1) s <= W."""
    parts = [BedPart("a", 95.0, 50.0), BedPart("b", 95.0, 50.0)]
    exact = Bed("exact", 195.0, 50.0, 0.0, 5.0)
    small = Bed("small", 194.9, 50.0, 0.0, 5.0)
    assert [len(pack_batches(parts, bed)) for bed in (exact, small)] == [1, 2]


def test_a_part_that_only_fits_after_a_quarter_turn_is_turned() -> None:
    bed = Bed("bed", 100.0, 210.0, 0.0, 0.0)
    (batch,) = pack_batches([BedPart("long", 200.0, 20.0)], bed)
    assert batch.places[0].turn_deg == 90.0
    assert batch.places[0].size_mm == (20.0, 200.0)


def test_the_order_of_the_parts_does_not_change_the_batches() -> None:
    parts = [BedPart(f"p{i}", 20.0 + 7 * (i % 5), 30.0 + 11 * (i % 4)) for i in range(20)]
    bed = Bed("bed", 220.0, 220.0)
    assert pack_batches(parts, bed) == pack_batches(parts[::-1], bed)


def test_no_parts_need_no_bed() -> None:
    assert pack_batches([], Bed("bed", 220.0, 220.0)) == ()


def test_a_part_too_large_for_the_bed_is_named_with_its_size_and_a_way_out() -> None:
    bed = Bed("small one", 220.0, 220.0, 5.0)
    with pytest.raises(BedError) as caught:
        pack_batches([BedPart("long rack", 290.0, 20.0), BedPart("peg", 20.0, 20.0)], bed)
    assert '"long rack" needs 290.0 by 20.0 mm' in in_mm(caught.value.given)
    assert '"small one"' in caught.value.given
    assert "up to 210.0 by 210.0 mm" in in_mm(caught.value.allowed)
    assert "turned by any angle" in caught.value.allowed


def test_on_a_square_bed_the_longest_diagonal_strip_is_the_diagonal_less_its_width() -> None:
    """Closed form: on a square of side a, a strip of width q may be a sqrt 2 - q long."""
    longest = 220.0 * math.sqrt(2.0) - 20.0
    assert turn_to_fit((longest - 0.01, 20.0), (220.0, 220.0)) == pytest.approx(45.0)
    assert turn_to_fit((longest + 0.01, 20.0), (220.0, 220.0)) is None


@settings(deadline=None, max_examples=60)
@given(
    p=st.floats(1.0, 400.0),
    q=st.floats(1.0, 400.0),
    a=st.floats(50.0, 300.0),
    b=st.floats(50.0, 300.0),
)
def test_the_diagonal_rule_agrees_with_a_scan_of_angles(
    p: float, q: float, a: float, b: float
) -> None:
    """A rectangle at the angle t takes p cos t + q sin t by p sin t + q cos t."""
    steps = [math.radians(i / 20.0) for i in range(1801)]
    excess = min(
        max(
            p * math.cos(t) + q * math.sin(t) - a,
            p * math.sin(t) + q * math.cos(t) - b,
        )
        for t in steps
    )
    found = turn_to_fit((p, q), (a, b))
    if abs(excess) > 0.5:
        assert (found is not None) == (excess < 0)
    if found is not None:
        width, depth = turned_size_mm((p, q), found)
        assert width <= a + 1e-5
        assert depth <= b + 1e-5


def test_a_part_that_fits_only_at_an_angle_lies_alone_in_the_middle() -> None:
    """Closed form: 203 by 41 at 45 degrees takes (203 + 41) / sqrt 2 = 172.5 mm each way."""
    bed = Bed("small", 180.0, 180.0, 0.0, 5.0)
    parts = [BedPart("rack", 41.0, 203.0), BedPart("peg", 20.0, 20.0)]
    batches = pack_batches(parts, bed)
    check(batches, parts, bed)
    assert len(batches) == 2
    (rack,) = next(b.places for b in batches if b.places[0].part.name == "rack")
    across = (203.0 + 41.0) / math.sqrt(2.0)
    assert rack.size_mm == pytest.approx((across, across))
    assert (rack.x_mm, rack.y_mm) == pytest.approx(((180.0 - across) / 2,) * 2, abs=1e-5)


@pytest.mark.parametrize("size", [(0.0, 5.0), (math.nan, 5.0), (5.0, math.inf)])
def test_a_part_without_extent_is_refused(size: tuple[float, float]) -> None:
    with pytest.raises(MeasureError):
        pack_batches([BedPart("p", *size)], Bed("bed", 220.0, 220.0))


@pytest.mark.parametrize(
    "numbers", [(10.0, 220.0, 5.0), (220.0, 220.0, -1.0), (math.nan, 9.0, 0.0)]
)
def test_a_bed_without_room_is_refused(numbers: tuple[float, float, float]) -> None:
    with pytest.raises(MeasureError):
        Bed("bed", *numbers)
