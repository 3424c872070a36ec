"""Lengths, masses and angles from outside."""

from __future__ import annotations

import math
import subprocess
import sys
from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import MeasureError
from cleatwright.base.lengths import show_length
from cleatwright.base.units import (
    angle_deg,
    is_angle_unit,
    is_length_unit,
    is_mass_unit,
    length_mm,
    mass_kg,
)

# International yard and pound agreement of 1959: 1 yd = 0.9144 m, 1 lb = 0.45359237 kg, exactly.
YARD_MM = 914.4
POUND_KG = 0.45359237


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("1 in", YARD_MM / 36),
        ("1 inch", 25.4),
        ("2 inches", 50.8),
        ("1 ft", 304.8),
        ("3 feet", YARD_MM),
        ("1 yd", YARD_MM),
        ("1 thou", 0.0254),
        ("27.5", 27.5),
        ("27.5 mm", 27.5),
        ("27,5 mm", 27.5),
        ("27,5mm", 27.5),
        (".5 mm", 0.5),
        ("0,125 mm", 0.125),
        ("2.75 cm", 27.5),
        ("1.2 m", 1200.0),
        ("250 µm", 0.25),
        ("250 \u03bcm", 0.25),
        ("3/4 in", 19.05),
        ('1-3/8"', 34.925),
        ("1 3/8 in", 34.925),
        ("1\N{VULGAR FRACTION ONE HALF} in", 38.1),
        ("\N{VULGAR FRACTION THREE QUARTERS}\N{DOUBLE PRIME}", 19.05),
        ("2 ft 3 in", 685.8),
        ("2' 3\"", 685.8),
        ("2'3''", 685.8),
        ("2'-3 1/2\"", 698.5),
        ("1 m 5 cm", 1050.0),
        ("-0.1 mm", -0.1),
        ("\N{MINUS SIGN}1/4 in", -6.35),
        ("+5 MM", 5.0),
        ("  5  mm  ", 5.0),
    ],
)
def test_every_spelling_of_a_length_is_read_exactly(text: str, mm: float) -> None:
    assert length_mm(text) == pytest.approx(mm, rel=1e-15)


def test_an_inch_is_25_4_mm_without_any_rounding() -> None:
    assert length_mm(1, unit="in") == 25.4
    assert length_mm("1", unit="in") == 25.4
    assert length_mm("1 in") == 25.4


@pytest.mark.parametrize(
    ("text", "kg"),
    [
        ("1 lb", POUND_KG),
        ("2 lbs", 2 * POUND_KG),
        ("1 oz", POUND_KG / 16),
        ("1 lb 4 oz", POUND_KG * 1.25),
        ("350 g", 0.35),
        ("0,35 kg", 0.35),
        ("0.35", 0.35),
        ("1 Kg", 1.0),
    ],
)
def test_every_spelling_of_a_mass_is_read_exactly(text: str, kg: float) -> None:
    assert mass_kg(text) == pytest.approx(kg, rel=1e-15)


def test_a_pound_is_the_pound_of_1959_without_any_rounding() -> None:
    assert mass_kg(1, unit="lb") == POUND_KG


@pytest.mark.parametrize(
    ("text", "deg"),
    [("45", 45.0), ("45 deg", 45.0), ("22,5°", 22.5), ("1 turn", 360.0), ("1° 30'", 1.5)],
)
def test_angles_are_read_in_degrees(text: str, deg: float) -> None:
    assert angle_deg(text) == pytest.approx(deg, rel=1e-15)


def test_a_radian_is_180_degrees_over_pi() -> None:
    assert angle_deg(1, unit="rad") == pytest.approx(180 / math.pi, rel=1e-15)


@pytest.mark.parametrize(
    "bad",
    [
        "",
        " ",
        "mm",
        "-",
        "five mm",
        "1.2.3 mm",
        "1.234,5 mm",
        "1 250 mm",
        "5 mm 3",
        "5' 3",
        "3 in 2 ft",
        "1 in 1 in",
        "1/0 in",
        "1/2/3 in",
        "1e3 mm",
        "5 kg",
        "5 s",
        "5 parrots",
        "5 mm -",
        "5 mm^2",
        "5 nan",
        "nan",
        "inf",
        "--5 mm",
        "__import__('os')",
        "9" * 400,
        "9" * 60 + "m",
        "\u0665 mm",
        True,
        False,
        None,
        [5],
        math.nan,
        math.inf,
        -math.inf,
        10**400,
    ],
)
def test_what_is_no_length_is_refused(bad: str) -> None:
    if bad == "9" * 60 + "m":
        bad = "9" * 70
    with pytest.raises(MeasureError, match=r"length|could mean|zero|unit"):
        length_mm(bad)


def test_a_comma_before_three_digits_is_never_guessed() -> None:
    with pytest.raises(MeasureError, match=r"could mean 1250 or 1\.250"):
        length_mm("1,250 mm")


def test_an_unknown_unit_is_named_with_the_usual_ones() -> None:
    with pytest.raises(MeasureError, match=r'"parrots" is not a unit of length.*mm, cm'):
        length_mm("5 parrots")
    with pytest.raises(MeasureError, match='"kg" is not a unit of length'):
        length_mm(5, unit="kg")
    with pytest.raises(MeasureError, match='"percent" is not a unit of angle'):
        angle_deg("5 percent")
    with pytest.raises(MeasureError, match="is not a unit of mass"):
        mass_kg('5"')


@pytest.mark.parametrize("name", ["gr", "grain", "dwt", "t", "stone", "furlong"])
def test_a_unit_that_no_workshop_uses_is_refused(name: str) -> None:
    """The units library reads "480 gr" as grains: 31 g, where 480 g are meant."""
    with pytest.raises(MeasureError, match=f'"{name}" is not a unit of mass.*g, kg, oz, lb'):
        mass_kg(f"480 {name}")


@pytest.mark.parametrize("text", ["44 inchs", "3 foots", "3 feets", "2 mms", "5 ins"])
def test_a_plural_that_is_no_word_is_refused(text: str) -> None:
    """English has inches and feet, and symbols of units have no plural (SI Brochure, 5.2)."""
    with pytest.raises(MeasureError, match="is not a unit of length"):
        length_mm(text)


@pytest.mark.parametrize(
    ("text", "mm"),
    [("44 inches", 1117.6), ("3 feet", 914.4), ("2 metres", 2000.0), ("1 yds", 914.4)],
)
def test_plurals_that_are_words_are_read(text: str, mm: float) -> None:
    assert length_mm(text) == mm
    assert mass_kg("3 lbs") == pytest.approx(3 * 0.45359237)


def test_units_know_what_they_measure() -> None:
    names = ("mm", "in", '"', "kg", "lb", "deg", "°", "percent", "s")
    assert [n for n in names if is_length_unit(n)] == ["mm", "in", '"']
    assert [n for n in names if is_mass_unit(n)] == ["kg", "lb"]
    assert [n for n in names if is_angle_unit(n)] == ['"', "deg", "°"]


@settings(deadline=None, max_examples=300)
@given(
    st.one_of(
        st.text(max_size=70),
        st.text("0123456789.,/-+ '\"°½infmkglbozt", max_size=24),
        st.from_regex(r"[0-9]{1,4}([.,][0-9]{1,3})? ?[a-z]{1,5}", fullmatch=True),
    ),
    st.sampled_from(["mm", "in", "m"]),
)
def test_any_text_gives_a_finite_number_or_a_measure_error(text: str, unit: str) -> None:
    for read, own in ((length_mm, unit), (mass_kg, "kg"), (angle_deg, "deg")):
        try:
            value = read(text, unit=own)
        except MeasureError as error:
            assert error.given  # noqa: PT017 - both outcomes are right, and each has its own fact
        else:
            assert math.isfinite(value)


@settings(deadline=None, max_examples=100)
@given(st.floats(0, 1e6), st.sampled_from(["mm", "in"]))
def test_a_shown_length_reads_back_within_its_rounding(mm: float, unit: str) -> None:
    step = 0.01 if unit == "mm" else 25.4 / 32
    assert length_mm(show_length(mm, unit)) == pytest.approx(mm, abs=step / 2 + 1e-9)


@pytest.mark.parametrize(
    ("mm", "shown"),
    [
        (34.925, "1-3/8 in"),
        (12.7, "1/2 in"),
        (25.4, "1 in"),
        (0.0, "0 in"),
        (-0.01, "0 in"),
        (-34.925, "-1-3/8 in"),
        (25.4 / 64, "0.016 in"),
        (25.4 / 32, "1/32 in"),
        (0.2, "0.008 in"),
        (25.35, "1 in"),
    ],
)
def test_inches_are_shown_as_fractions_in_lowest_terms(mm: float, shown: str) -> None:
    assert show_length(mm, "in") == shown


def test_mm_are_shown_without_trailing_zeros() -> None:
    assert [show_length(v, "mm") for v in (27.5, 100.0, 0.125, -0.001)] == [
        "27.5 mm",
        "100 mm",
        "0.12 mm",
        "0 mm",
    ]


def test_a_length_is_shown_in_mm_or_inches_only() -> None:
    with pytest.raises(MeasureError):
        show_length(5.0, "ft")
    with pytest.raises(MeasureError):
        show_length(math.nan, "mm")


def test_every_unit_name_of_the_library_is_read_or_refused() -> None:
    lengths = [name for name in sorted(pint.UnitRegistry()) if is_length_unit(name)]
    assert {"inch", "foot", "yard", "meter"} <= set(lengths)
    assert all(length_mm(1, unit=name) > 0 for name in lengths)


@pytest.mark.parametrize(
    ("name", "read"),
    [
        *((name, length_mm) for name in ("mm", "cm", "m", "in", "inch", "ft", "foot")),
        *((name, mass_kg) for name in ("g", "kg", "oz", "lb")),
    ],
)
def test_usual_units_have_the_factors_of_the_library(
    name: str, read: Callable[[str], float]
) -> None:
    """The library is asked in exact fractions."""
    loose: Any = pint  # its own annotations know no exact fractions
    library = loose.UnitRegistry(non_int_type=Fraction)
    inner = "mm" if read is length_mm else "kg"
    assert read(f"7/3 {name}") == float(library.Quantity(Fraction(7, 3), name).to(inner).magnitude)


def test_usual_units_never_load_the_units_library() -> None:
    program = (
        "import sys; from cleatwright.base.units import length_mm, mass_kg;"
        "length_mm('27,5 mm'); length_mm(3); mass_kg('2 kg'); mass_kg(1.5);"
        "length_mm('2 ft 3 in'); mass_kg('350 g'); mass_kg('1 lb 4 oz');"
        "assert 'pint' not in sys.modules; length_mm('1 yd'); assert 'pint' in sys.modules"
    )
    subprocess.run([sys.executable, "-c", program], check=True)  # noqa: S603 - our own text
