"""Nominal sizes: each makes a sound tool, is found by its name, and says where it comes from."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import UnknownNameError
from cleatwright.base.source import Evidence, Source
from cleatwright.standards.tools.wrenches import OPEN_ENDS, WRENCH_LENGTHS
from cleatwright.tools.kinds import hex_bit, socket, twist_drill
from cleatwright.tools.nominal.nominal import Nominal, NominalSizes, cell_source, plain_size
from cleatwright.tools.nominal.sizes import NOMINAL_SIZES, nominal_sizes
from cleatwright.tools.registry import KINDS

ALL = [(kind, one) for kind, sizes in NOMINAL_SIZES.items() for one in sizes.sizes]
THERE = {**KINDS, **{made.KIND.name: made.KIND for made in (hex_bit, socket, twist_drill)}}
MADE = [(kind, one) for kind, one in ALL if kind in THERE]


def ids(pairs: list[tuple[str, Nominal]]) -> list[str]:
    return [f"{kind} {one.size}" for kind, one in pairs]


def sizes_of_three() -> NominalSizes:
    source = Source("A list", "", Evidence.MEMORY)
    names = ("5", "1/4 in", "3.5x75")
    return NominalSizes("Three", tuple(Nominal(n, (("flats", 5.0),), source) for n in names))


@pytest.mark.parametrize(("kind", "one"), MADE, ids=ids(MADE))
def test_each_size_of_a_kind_makes_a_sound_body(kind: str, one: Nominal) -> None:
    made = THERE[kind]
    body = made.body(made.measures.model_validate(dict(one.measures)), None)
    assert body.grips
    assert 0.0 < body.mass_kg < 5.0
    assert len(dict(one.measures)) == len(one.measures)


def test_sizes_belong_to_kinds_that_exist() -> None:
    assert set(NOMINAL_SIZES) - set(THERE) <= {"battery-cell"}


@pytest.mark.parametrize("kind", NOMINAL_SIZES)
def test_no_two_sizes_read_alike_and_all_name_the_same_measures(kind: str) -> None:
    sizes = NOMINAL_SIZES[kind]
    assert len({plain_size(name) for name in sizes}) == len(sizes) == len(sizes.names)
    assert len({tuple(name for name, _ in one.measures) for one in sizes.sizes}) == 1


@pytest.mark.parametrize(("kind", "one"), ALL, ids=ids(ALL))
def test_each_size_is_found_by_its_own_name(kind: str, one: Nominal) -> None:
    assert NOMINAL_SIZES[kind].get(one.size) is one
    assert one.size in NOMINAL_SIZES[kind]


@pytest.mark.parametrize("given_size", ["5", "5.0", "5,0", " 5 ", 5, 5.0, "05"])
def test_a_number_may_be_written_in_any_way(given_size: str | float) -> None:
    assert sizes_of_three().get(given_size).size == "5"


@pytest.mark.parametrize(
    ("written", "name"),
    [("1/4 in", "1/4 in"), ("1/4  IN", "1/4 in"), ("3.50 × 75.0", "3.5x75"), ("3,5X75", "3.5x75")],
)
def test_spaces_and_letters_do_not_count(written: str, name: str) -> None:
    assert sizes_of_three().get(written).size == name


@pytest.mark.parametrize("wrong", ["", "6", "-5", "5.0.0", "1/4", math.nan, math.inf, "5 in"])
def test_an_unknown_size_is_refused_with_the_known_ones(wrong: str | float) -> None:
    assert wrong not in sizes_of_three()
    with pytest.raises(UnknownNameError, match=r"Allowed: 1/4 in, 3\.5x75, 5") as caught:
        sizes_of_three().get(wrong)
    assert caught.value.where == "Three"


@settings(deadline=None, max_examples=100)
@given(st.decimals(1, 13, places=1))
def test_any_drill_by_tenths_is_found_as_number_and_as_text(size: object) -> None:
    drills = nominal_sizes("twist-drill")
    number = float(str(size))
    assert drills.get(number) is drills.get(str(size))
    assert dict(drills.get(number).measures)["diameter"] == number


def test_a_kind_without_sizes_is_refused_with_those_that_have_some() -> None:
    with pytest.raises(UnknownNameError, match="twist-drill"):
        nominal_sizes("hammer")


def test_a_cell_that_does_not_exist_has_no_source() -> None:
    with pytest.raises(UnknownNameError):
        cell_source(WRENCH_LENGTHS, "13.5", "length_mm")


def test_hex_keys_of_both_editions_stand_side_by_side() -> None:
    """ISO 2936:2014 has 85 and 33 mm, that of 1983 (DIN 911) 80 and 28 mm (from memory)."""
    keys = nominal_sizes("hex-key")
    flats = ("flats", 5.0)
    assert keys.get("5").measures == (flats, ("long_arm", 85.0), ("short_arm", 33.0))
    assert keys.get("5 (1983)").measures == (flats, ("long_arm", 80.0), ("short_arm", 28.0))
    assert keys.get("5").source.evidence is Evidence.SECONDARY
    assert keys.get("5 (1983)").source.evidence is Evidence.MEMORY
    assert "disagree" in keys.get("17").source.clause


def test_long_hex_keys_have_the_short_arm_of_the_normal_series() -> None:
    """ISO 2936:2014, size 5: 85, 120 and 165 mm by 33 mm (from memory beyond 85)."""
    keys = nominal_sizes("hex-key")
    arms = [dict(keys.get(size).measures) for size in ("5", "5 long", "5 extra long")]
    assert [one["long_arm"] for one in arms] == [85.0, 120.0, 165.0]
    assert {one["short_arm"] for one in arms} == {33.0}
    assert dict(keys.get("3 extra long").measures)["long_arm"] == 129.0
    assert keys.get("5 long").source.evidence is Evidence.MEMORY


def test_a_wrench_is_guessed_by_published_ones_and_says_that_it_is_a_guess() -> None:
    for one in nominal_sizes("flat-wrench").sizes:
        measures = dict(one.measures)
        assert measures["length"] == WRENCH_LENGTHS.value(one.size, "length_mm")
        assert one.source.evidence is Evidence.CHOICE
        assert "guess" in one.source.document


@pytest.mark.parametrize("size", OPEN_ENDS.keys)
def test_a_guessed_open_end_is_near_the_heads_of_two_makers(size: str) -> None:
    """Within half a millimetre of the wider one (secondary source), 8, 13 and 24 mm."""
    measures = dict(nominal_sizes("flat-wrench").get(size).measures)
    assert measures["head_width"] == pytest.approx(OPEN_ENDS.value(size, "width_most_mm"), abs=0.5)


@pytest.mark.parametrize("one", nominal_sizes("flat-wrench").sizes, ids=lambda one: one.size)
def test_a_guessed_wrench_obeys_the_limits_of_the_standards(one: Nominal) -> None:
    """ISO 3318:2016, largest open end 2.1 s + 7 (secondary source); a shaft slimmer than heads."""
    measures = dict(one.measures)
    assert measures["opening"] == float(one.size)
    assert measures["head_width"] < 2.1 * float(one.size) + 7.0
    assert measures["shaft_width"] < measures["other_head_width"] < measures["head_width"]
    assert measures["shaft_thickness"] < measures["head_thickness"]


def test_a_bit_is_a_quarter_of_an_inch_across_flats() -> None:
    """Closed form: 25.4 / 4; the lengths are those sold (secondary source)."""
    bits = nominal_sizes("hex-bit")
    assert bits.names == ("25", "50", "75", "100", "150")
    for one in bits.sizes:
        assert one.measures == (("flats", 25.4 / 4.0), ("length", float(one.size)))


def test_a_drill_has_the_lengths_of_its_step() -> None:
    """DIN 338: 6.0 mm is 93 mm long, 6.1 mm already 101 mm; 8 mm is 117 mm (secondary source)."""
    drills = nominal_sizes("twist-drill")
    assert len(drills) == 121
    lengths = {size: dict(drills.get(size).measures) for size in ("6", "6.1", "8")}
    assert [lengths[size]["length"] for size in lengths] == [93.0, 101.0, 117.0]
    assert [lengths[size]["flute_length"] for size in lengths] == [57.0, 63.0, 75.0]
    evidence = [drills.get(size).source.evidence for size in lengths]
    assert evidence == [Evidence.SECONDARY, Evidence.MEMORY, Evidence.SECONDARY]


def test_a_cell_has_one_size_under_both_its_names() -> None:
    """IEC 60086 in a handbook; the largest cell as the larger of two sources has it."""
    cells = nominal_sizes("battery-cell")
    assert cells.get("R6").measures == (("diameter", 14.5), ("height", 50.5))
    assert cells.get("R20").measures == (("diameter", 34.5), ("height", 61.5))
    for cell, name in (("R03", "AAA"), ("R6", "AA"), ("R14", "C"), ("R20", "D")):
        assert cells.get(cell).measures == cells.get(name).measures


def test_a_socket_is_as_wide_as_its_wider_end() -> None:
    """ISO 2725-1 / DIN 3124 from memory: the drive end up to 12.5 or 24 mm, then 1.25 s + 3."""
    sockets = nominal_sizes("socket")
    small = (("outer", 12.5), ("length", 25.0), ("square", 6.35))
    assert sockets.get("1/4 in 5.5").measures == small
    assert sockets.get("1/2 in 13").measures == (
        ("outer", 24.0),
        ("length", 44.0),
        ("square", 12.7),
    )
    assert dict(sockets.get("1/2 in 24").measures)["outer"] == 33.0
    for one in sockets.sizes:
        measures = dict(one.measures)
        assert measures["outer"] > math.sqrt(2.0) * measures["square"]


def test_the_tip_counts_where_it_is_wider_than_the_shaft() -> None:
    """DIN 5265 from memory: a tip of 6.5 mm on a shaft of 6 mm passes no hole of 6 mm."""
    assert dict(nominal_sizes("screwdriver").get("6.5 x 150").measures)["shank"] == 6.5
    assert dict(nominal_sizes("screwdriver").get("ph2").measures)["shank"] == 6.0


def test_cans_and_cartridges_have_the_sizes_of_the_trade() -> None:
    """From memory: 65 by 195 mm, and 50 by 215 mm or by 330 mm with its nozzle."""
    cans = nominal_sizes("can")
    assert cans.get("paint 400 ml").measures == (("diameter", 65.0), ("height", 195.0))
    assert cans.get("cartridge 310 ml").measures == (("diameter", 50.0), ("height", 215.0))
    nozzle = dict(cans.get("cartridge 310 ml with nozzle").measures)
    assert nozzle["height"] == 330.0
