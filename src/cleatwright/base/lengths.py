"""How lengths are written for people, in mm or in inches, alone and in sentences.

Inside and in files for programs a length is a plain float in mm. For people, inches are written
as an inch workshop writes them: fractions in lowest terms, to the nearest 1/32. Two kinds of
length keep decimals, to 0.001 in: what is below 1/16, such as a layer, and sizes that are set
or read with a calliper.

A length is rounded once, where it is written for people. A sentence carries it as ``said`` marks
it, until ``Wording`` puts it into words.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Generator, Iterable
from contextlib import contextmanager
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, TypeVar

from cleatwright.base import said
from cleatwright.base.errors import CleatwrightError, MeasureError
from cleatwright.base.said import plain

LengthUnit = Literal["mm", "in"]

MM_PER_INCH = 25.4
KG_PER_LB = 0.45359237
OZ_PER_LB = 16.0
PARTS_OF_AN_INCH = 32
ROUNDED_TO = "to 1/32 inch"
# below this a thirty-second says too little
SMALL_IN = 1 / 16
_SAME_MM = 0.005

Round = Callable[[float], int]
Fault = TypeVar("Fault", bound=CleatwrightError)


def show_length(mm: float, unit: str, *, decimals: int = 2) -> str:
    """Write a length for people with its unit.

    Args:
        mm: The length.
        unit: "mm" or "in".
        decimals: To how many decimals mm are written, 0 to 2.

    Raises:
        MeasureError: ``unit`` is neither "mm" nor "in", or the length is not finite.

    >>> show_length(27.5, "mm"), show_length(34.925, "in"), show_length(0.2, "in")
    ('27.5 mm', '1-3/8 in', '0.008 in')
    """
    return f"{length_words(mm, unit, decimals=decimals)} {unit}"


def length_words(mm: float, unit: str, *, decimals: int = 1) -> str:
    """Write a length for people without the name of the unit; see ``show_length``.

    >>> length_words(12.34, "mm"), length_words(25.4 * 2.5, "in")
    ('12.3', '2-1/2')
    """
    if not math.isfinite(mm):
        raise MeasureError(f"{mm} is not a length", allowed="a finite number")
    if unit == "mm":
        return plain(mm, decimals)
    if unit != "in":
        raise MeasureError(f'Lengths cannot be shown in "{unit}"', allowed="mm, in")
    return _inches(mm, round)


def sides_words(sides_mm: Iterable[float], unit: str) -> str:
    """Write the sides of a box for people, without the name of the unit; mm are whole.

    >>> sides_words((50.8, 25.4), "mm"), sides_words((50.8, 31.75), "in")
    ('51 x 25', '2 x 1-1/4')
    """
    return " x ".join(length_words(side, unit, decimals=0) for side in sides_mm)


def in_a_row(words: Iterable[str]) -> str:
    """Return words as a sentence lists them.

    >>> in_a_row(("1", "2")), in_a_row(("1", "2", "3")), in_a_row(("1",))
    ('1 and 2', '1, 2 and 3', '1')
    """
    *first, last = words
    return f"{', '.join(first)} and {last}" if first else last


def fine_length(mm: float, unit: str) -> str:
    """Write a size that is set or read with a calliper: to 0.01 mm, or to 0.001 in.

    >>> fine_length(6.7, "mm"), fine_length(6.7, "in")
    ('6.70', '0.264')
    """
    return f"{mm:.2f}" if unit == "mm" else f"{mm / MM_PER_INCH:.3f}"


def measured_length(mm: float, unit: str) -> str:
    """Write a size as it was taken off a tool, without the name of the unit.

    In inches a fraction where it is one to 1/32, and else to 0.001.

    >>> measured_length(34.925, "in"), measured_length(6.7, "in"), measured_length(6.7, "mm")
    ('1-3/8', '0.264', '6.7')
    """
    if unit == "mm":
        return f"{round(mm, 2):.6g}"
    parts = mm / MM_PER_INCH * PARTS_OF_AN_INCH
    exact = abs(parts - round(parts)) * MM_PER_INCH / PARTS_OF_AN_INCH <= _SAME_MM
    return _inches(mm, round) if exact else fine_length(mm, unit)


def bounds_words(low_mm: float, high_mm: float, unit: str) -> str:
    """Write from what to what a size may be; neither end is rounded to what is forbidden.

    >>> bounds_words(3, 60, "mm"), bounds_words(3, 60, "in")
    ('3 to 60 mm', '1/8 to 2-11/32 in')
    """
    if unit == "mm":
        return f"{low_mm:g} to {high_mm:g} mm"
    return f"{_inches(low_mm, said.to_whole('up'))} to {_inches(high_mm, said.to_whole('down'))} in"


def show_area(mm2: float, unit: str) -> str:
    """Write an area without the name of the unit: to 1 mm2, or to 0.01 in2.

    >>> show_area(645.16, "mm"), show_area(645.16, "in")
    ('645', '1.00')
    """
    return f"{mm2:.0f}" if unit == "mm" else f"{mm2 / MM_PER_INCH**2:.2f}"


def _inches(mm: float, to_whole: Round) -> str:
    """Return inches as a fraction; what is small and no thirty-second as a decimal."""
    inches = abs(mm) / MM_PER_INCH
    parts = to_whole(inches * PARTS_OF_AN_INCH)
    sign = "-" if mm < 0 else ""
    rounded_mm = parts / PARTS_OF_AN_INCH * MM_PER_INCH
    if inches < SMALL_IN and abs(rounded_mm - abs(mm)) > _SAME_MM:
        text = f"{inches:.3f}"
        return f"{sign}{text}" if float(text) else "0"
    whole, rest = divmod(parts, PARTS_OF_AN_INCH)
    fraction = str(Fraction(rest, PARTS_OF_AN_INCH)) if rest else ""
    text = "-".join(part for part in (str(whole) if whole or not rest else "", fraction) if part)
    return f"{sign if parts else ''}{text}"


def column(name: str, unit: str) -> str:
    """Return the heading of a column of lengths, whose cells are written by ``cell``.

    >>> column("length", "mm"), column("length", "in")
    ('length mm', 'length')
    """
    return f"{name} mm" if unit == "mm" else name


def cell(mm: float, unit: str) -> str:
    """Write a length as a cell of a list: to 0.1 mm, or as a fraction with its unit.

    A spreadsheet takes a bare 1/2 for a day of the year, but not one with its unit.

    >>> cell(12.7, "mm"), cell(12.7, "in")
    ('12.7', '1/2 in')
    """
    return f"{mm:.1f}" if unit == "mm" else show_length(mm, unit)


@dataclass(frozen=True)
class Wording:
    """Puts the lengths in sentences into the unit of a workshop.

    Args:
        unit: The unit of the workshop.
    """

    unit: LengthUnit = "mm"

    def __call__(self, text: str) -> str:
        """Return a text with each length that it has as a mark in words; see ``said``.

        >>> text = f'between {said.number(10)} and {said.mm(30)}, at most {said.most(41)}; "Key"'
        >>> Wording("in")(text)
        'between 13/32 and 1-3/16 in, at most 1-19/32 in; "Key"'
        >>> Wording("in")(f"wood screw {said.metric(5, 70)}")
        'wood screw metric 5 x 70 (3/16 x 2-3/4 in)'
        """
        return said.in_mm(text) if self.unit == "mm" else said.put(text, _in_inches)

    def all(self, texts: Iterable[str]) -> tuple[str, ...]:
        """Return texts with every length in the unit."""
        return tuple(self(text) for text in texts)

    def error(self, error: Fault) -> Fault:
        """Return the same error, its sentences in the unit."""
        return error.said(self)


IN_MM = Wording()


@contextmanager
def errors_in(words: Wording) -> Generator[None]:
    """Let every error of the program out with its sentences in the unit of the workshop."""
    try:
        yield
    except CleatwrightError as error:
        raise words.error(error) from error


def show_mass(kg: float, unit: str, form: str = ".2f") -> str:
    """Write a mass for people with its unit: in kg, or in lb and below one in oz beside inches.

    Args:
        kg: The mass.
        unit: The unit of lengths, "mm" or "in".
        form: How the number of kg is formatted.

    >>> show_mass(0.3, "mm"), show_mass(0.3, "in"), show_mass(2.0, "in"), show_mass(0.0, "in")
    ('0.30 kg', '10.6 oz', '4.41 lb', '0 oz')
    """
    if unit == "mm":
        return f"{format(kg, form)} kg"
    if kg == 0.0:
        return "0 oz"
    pounds = kg / KG_PER_LB
    return f"{pounds * OZ_PER_LB:.1f} oz" if abs(pounds) < 1.0 else f"{pounds:.2f} lb"


def mass_unit(unit: str) -> str:
    """Return the unit of a column of masses beside lengths in mm or in inches."""
    return "kg" if unit == "mm" else "lb"


def mass_number(kg: float, unit: str, form: str = ".3f") -> str:
    """Return a mass in a column without its unit.

    >>> mass_number(1.0, "mm"), mass_number(1.0, "in")
    ('1.000', '2.205')
    """
    return format(kg if unit == "mm" else kg / KG_PER_LB, form)


def _in_inches(length: said.Length) -> str:
    if length.sort == "mass":
        return show_mass(length.values[0], "in")
    if length.sort == "metric":
        sizes = " x ".join(f"{value:g}" for value in length.values)
        inches = " x ".join(_inches(value, round) for value in length.values)
        return f"metric {sizes} ({inches} in)"
    (value,) = length.values
    if length.sort in {"area", "area-number"}:
        return show_area(value, "in") + (" in2" if length.sort == "area" else "")
    if length.sort == "wide-area":
        return f"{value / MM_PER_INCH**2:.0f} in2"
    fine = length.sort in {"fine", "fine-mm"} or not math.isfinite(value)
    text = fine_length(value, "in") if fine else _inches(value, said.to_whole(length.side))
    return text if length.sort in {"first", "number", "fine"} else f"{text} in"
