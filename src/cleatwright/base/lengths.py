"""How lengths are written for people, in mm or in inches, and sentences turned into inches.

Inside and in files for programs a length is a plain float in mm. For people, inches are written
as an inch workshop writes them: fractions in lowest terms, to the nearest 1/32. Two kinds of
length keep decimals, to 0.001 in: what is below 1/16, such as a layer, and sizes that are set
or read with a calliper.

A length is rounded once, where it is written for people. A sentence that is still to be turned
into the unit of a workshop carries it as ``said_mm`` writes it, so that it comes out as on paper.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Literal

from cleatwright.base.errors import CleatwrightError, MeasureError

LengthUnit = Literal["mm", "in"]

MM_PER_INCH = 25.4
MM2_PER_CM2 = 100.0
PARTS_OF_AN_INCH = 32
ROUNDED_TO = "to 1/32 inch"
# below this a thirty-second says too little
SMALL_IN = 1 / 16
_SAME_MM = 0.005
_NOISE = 1e-6

Round = Callable[[float], int]


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
        return _plain(mm, decimals)
    if unit != "in":
        raise MeasureError(f'Lengths cannot be shown in "{unit}"', allowed="mm, in")
    return _inches(mm, round)


def sides_words(sides_mm: Iterable[float], unit: str) -> str:
    """Write the sides of a box for people, without the name of the unit; mm are whole.

    >>> sides_words((50.8, 25.4), "mm"), sides_words((50.8, 31.75), "in")
    ('51 x 25', '2 x 1-1/4')
    """
    return " x ".join(length_words(side, unit, decimals=0) for side in sides_mm)


def said_mm(mm: float) -> str:
    """Write a length in mm for a sentence that ``Wording`` turns into the unit of a workshop.

    What is exact to 0.1 mm is written so; anything else to 0.001 mm, which nobody reads:
    ``Wording`` rounds it.

    >>> said_mm(1625.6), said_mm(406.0), said_mm(506.44375)
    ('1625.6', '406', '506.444')
    """
    text = f"{mm:.3f}"
    return _plain(mm, 1) if text.endswith("00") else text


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
    return f"{_inches(low_mm, _up)} to {_inches(high_mm, _down)} in"


def show_area(mm2: float, unit: str) -> str:
    """Write an area without the name of the unit: to 1 mm2, or to 0.01 in2.

    >>> show_area(645.16, "mm"), show_area(645.16, "in")
    ('645', '1.00')
    """
    return f"{mm2:.0f}" if unit == "mm" else f"{mm2 / MM_PER_INCH**2:.2f}"


def _plain(mm: float, decimals: int) -> str:
    text = f"{mm:.{decimals}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


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
    """Turns sentences whose lengths are in mm into the unit of a workshop.

    Args:
        unit: The unit of the workshop.
        names: Names that the owner gave; a "13 mm wrench" keeps its name.
    """

    unit: LengthUnit = "mm"
    names: frozenset[str] = frozenset()

    def __call__(self, text: str) -> str:
        """Return a text with every length in the unit; in mm those of ``said_mm`` lose noise.

        A bound is never rounded to what it forbids: "at most" rounds down, "at least" up. Screws
        are sold by their metric size here, so that it is kept beside the inches.

        >>> Wording("in")('between 10 and 30 mm, at most 41 mm; "Key"')
        'between 13/32 and 1-3/16 in, at most 1-19/32 in; "Key"'
        >>> Wording("in")("wood screw 5 x 70 mm")
        'wood screw metric 5 x 70 (3/16 x 2-3/4 in)'
        >>> Wording("mm")("R1 from x 12.7 to 506.444 mm")
        'R1 from x 12.7 to 506.4 mm'
        """
        return _pattern(self.names).sub(_in_mm if self.unit == "mm" else _in_inches, text)

    def all(self, texts: tuple[str, ...]) -> tuple[str, ...]:
        """Return texts with every length in the unit."""
        return tuple(self(text) for text in texts)

    def error(self, error: CleatwrightError) -> CleatwrightError:
        """Return the same error, its sentences in the unit."""
        return error.said(self)


IN_MM = Wording()

_NUMBER = r"-?(?:\d+(?:\.\d+)?|\.\d+)(?:e[+-]?\d+)?"
_SEPARATOR = r"(?: x | × | to | mm to | or | and | by )"


@lru_cache(maxsize=16)
def _pattern(names: frozenset[str]) -> re.Pattern[str]:
    """Return what finds lengths in a text, and the names that stay as they are."""
    # only a name with a length in it could be taken for one; the longest goes first
    kept = sorted((name for name in names if " mm" in name), key=lambda name: (-len(name), name))
    own = "|".join(re.escape(name) for name in kept) or r"(?!)"
    start = r"(?<![\w.,/-])"
    listed = rf"{_NUMBER}(?:, {_NUMBER})+,? (?:or|and) {_NUMBER}|{_NUMBER}(?:, {_NUMBER}){{2,}}"
    chain = rf"{_NUMBER}(?:{_SEPARATOR}{_NUMBER})*"
    return re.compile(
        rf"(?P<own>{own})"
        rf"|(?P<screw>(?i:wood screws?)) (?P<metric>{_NUMBER}(?: x {_NUMBER})?) mm\b"
        rf"|(?P<share>: {_NUMBER} (?:of|against) {_NUMBER}) mm\b(?!2)"
        rf"|{start}(?P<area>{_NUMBER}) mm(?:2\b|²)"
        rf"|{start}(?P<wide>{_NUMBER}) cm2\b"
        rf"|(?P<bound>\b(?:at most|up to|at least|less than|more than) )?{start}"
        rf"(?P<lengths>{listed}|{chain}) mm\b(?!2)"
    )


def _in_mm(found: re.Match[str]) -> str:
    """Return the match with each length of three decimals to 0.1 mm, a bound to its safe side."""
    if found["lengths"] is None:
        return found[0]
    to_whole = _rounding(found["bound"] or "")
    return re.sub(
        r"(?<![\w.])-?\d+\.\d{3}(?![\d.]|e[+-]?\d)",
        lambda n: _plain(to_whole(float(n[0]) * 10) / 10, 1),
        found[0],
    )


def _in_inches(found: re.Match[str]) -> str:
    if found["own"] is not None:
        return found["own"]
    if found["screw"] is not None:
        return f"{found['screw']} metric {found['metric']} ({_each(found['metric'], round)} in)"
    if found["share"] is not None:
        return re.sub(_NUMBER, lambda n: fine_length(float(n[0]), "in"), found["share"]) + " in"
    if found["area"] is not None:
        return f"{show_area(float(found['area']), 'in')} in2"
    if found["wide"] is not None:
        return f"{float(found['wide']) * MM2_PER_CM2 / MM_PER_INCH**2:.0f} in2"
    bound = found["bound"] or ""
    return f"{bound}{_each(found['lengths'].replace(' mm to ', ' to '), _rounding(bound))} in"


def _down(parts: float) -> int:
    return math.floor(parts + _NOISE)


def _up(parts: float) -> int:
    return math.ceil(parts - _NOISE)


def _rounding(bound: str) -> Round:
    return {"at most ": _down, "up to ": _down, "at least ": _up}.get(bound, round)


def _each(text: str, to_whole: Round) -> str:
    return re.sub(rf"(?<![\w.]){_NUMBER}", lambda n: _inches(float(n[0]), to_whole), text)
