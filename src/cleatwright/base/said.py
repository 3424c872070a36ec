"""Lengths in sentences: written where the sentence is made, put into words by its reader.

Whoever makes a sentence knows what in it is a length; whoever reads it knows the unit of the
workshop. So a sentence holds each of its lengths as a mark with the exact millimetres::

    f"{said.mm(width_mm)} wide"     what is kept    "⟦mm:406.4::nearest⟧ wide"
                                    ``Wording``     "406.4 mm wide" or "16 in wide"

A sentence is text all the way: it is joined, sorted, compared and kept as any other.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Literal, cast

Side = Literal["nearest", "up", "down"]
Sort = Literal[
    "mm",
    "first",
    "number",
    "fine",
    "fine-mm",
    "area",
    "area-number",
    "wide-area",
    "metric",
    "mass",
]

MM2_PER_CM2 = 100.0
_NOISE = 1e-6
_SAME = 0.0005
_SMALL_MM = 1.0
_TENTH = "0.1"
_VALUE = r"-?(?:\d+(?:\.\d+)?(?:e[+-]?\d+)?|inf|nan)"
_MARK = re.compile(
    r"⟦(mm|first|number|fine|fine-mm|area|area-number|wide-area|metric|mass)"
    rf":({_VALUE}(?:;{_VALUE})?):(\.\d[fg]|0\.1)?:(nearest|up|down)⟧"
)


@dataclass(frozen=True)
class Length:
    """What a sentence has of a length, or of what is made of lengths.

    Args:
        sort: How it is written.
        values: In mm, or mm2; a metric size may have two.
        form: How the number is formatted in mm; "" for as many decimals as it needs.
        side: To which side it is rounded.
    """

    sort: Sort
    values: tuple[float, ...]
    form: str = ""
    side: Side = "nearest"

    def __str__(self) -> str:
        """Return the mark that stands for it in a sentence."""
        return f"⟦{self.sort}:{';'.join(map(repr, self.values))}:{self.form}:{self.side}⟧"

    def in_mm(self) -> str:
        """Return it in mm, cm2 or mm2."""
        if self.sort == "mass":
            return f"{format(self.values[0], self.form or '.2f')} kg"
        if self.sort == "metric":
            return f"{' x '.join(f'{value:g}' for value in self.values)} mm"
        (value,) = self.values
        if self.sort == "wide-area":
            return f"{format(value / MM2_PER_CM2, self.form or '.0f')} cm2"
        if self.sort in {"area", "area-number"}:
            return format(value, self.form or ".0f") + (" mm2" if self.sort == "area" else "")
        text = _formed(value, self.form, self.side) if self.form else _as_needed(value, self.side)
        return text if self.sort in {"number", "fine"} else f"{text} mm"


def put(text: str, say: Callable[[Length], str]) -> str:
    """Return a text with each of its lengths as it is said."""
    if "⟦" not in text:
        return text
    return _MARK.sub(lambda found: say(_length(found)), text)


def in_mm(text: str) -> str:
    """Return a text with its lengths in mm.

    >>> in_mm(f"from x {number(12.7)} to {at(506.44375)}, at most {most(99.97623)}")
    'from x 12.7 to 506.4 mm, at most 99.97 mm'
    """
    return put(text, Length.in_mm)


def mm(value: float, form: str = "") -> str:
    """Return a length with its unit for a sentence.

    Args:
        value: The length in mm.
        form: How it is formatted in mm, such as ".0f"; to 0.01 mm where it is left out.
    """
    return str(Length("mm", (float(value),), form))


def number(value: float, form: str = "") -> str:
    """Return a length without its unit, for a sentence that names that after another length."""
    return str(Length("number", (float(value),), form))


def first(value: float, *, tenth: bool = False) -> str:
    """Return a length before another one: in mm each names its unit, in inches the last does."""
    return str(Length("first", (float(value),), _TENTH if tenth else ""))


def at(value: float) -> str:
    """Return where something is on a wall, or how long a rail is, as on paper: to 0.1 mm."""
    return mm(value, _TENTH)


def at_number(value: float) -> str:
    """Return the same without its unit."""
    return number(value, _TENTH)


def most(value: float, form: str = "") -> str:
    """Return a length that must not be exceeded: it is never rounded to more."""
    return str(Length("mm", (float(value),), form, "down"))


def least(value: float, form: str = "") -> str:
    """Return a length that must be reached: it is never rounded to less."""
    return str(Length("mm", (float(value),), form, "up"))


def sides(sizes_mm: Iterable[float], form: str = ".0f") -> str:
    """Return the sides of a box with their unit."""
    *first, last = sizes_mm
    return " x ".join([*(number(size, form) for size in first), mm(last, form)])


def row(places_mm: Iterable[float]) -> str:
    """Return places on a wall as a sentence lists them, with their unit after the last.

    >>> in_mm(row([400.0, 800.0, 1200.0]))
    '400, 800 and 1200 mm'
    """
    *first, last = places_mm
    listed = ", ".join(map(at_number, first))
    return f"{listed} and {at(last)}" if first else at(last)


def fine(value: float, form: str) -> str:
    """Return a length that is set or read with a calliper, without its unit; 0.001 in inches."""
    return str(Length("fine", (float(value),), form))


def fine_mm(value: float, form: str) -> str:
    """Return the same with its unit."""
    return str(Length("fine-mm", (float(value),), form))


def area(mm2: float, form: str = "") -> str:
    """Return an area with its unit: to 1 mm2, or to 0.01 in2."""
    return str(Length("area", (float(mm2),), form))


def area_number(mm2: float, form: str = "") -> str:
    """Return the same without its unit."""
    return str(Length("area-number", (float(mm2),), form))


def wide_area(mm2: float, form: str = "") -> str:
    """Return an area of a wall with its unit: in cm2, or in in2."""
    return str(Length("wide-area", (float(mm2),), form))


def metric(*sizes_mm: float) -> str:
    """Return the one or two metric sizes of what is sold by them, as a screw is.

    In inches they are kept, and the inches stand beside them.
    """
    return str(Length("metric", tuple(map(float, sizes_mm))))


def mass(kg: float, form: str = "") -> str:
    """Return a mass with its unit: in kg, or in pounds and ounces where lengths are in inches.

    Args:
        kg: The mass.
        form: How the number of kg is formatted, such as ".1f"; to 10 g where it is left out.
    """
    return str(Length("mass", (float(kg),), form))


def to_whole(side: Side) -> Callable[[float], int]:
    """Return what rounds to whole steps on a side; noise of the last bit is no step."""
    if side == "down":
        return lambda steps: math.floor(steps + _NOISE)
    if side == "up":
        return lambda steps: math.ceil(steps - _NOISE)
    return round


def plain(value: float, decimals: int) -> str:
    """Return a number with no more decimals than it needs.

    >>> plain(12.50, 2), plain(-0.01, 1)
    ('12.5', '0')
    """
    text = f"{value:.{decimals}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def _formed(value: float, form: str, side: Side) -> str:
    if form == _TENTH:
        return plain(value, 1)
    if side == "nearest" or not math.isfinite(value):
        return format(value, form)
    steps = 10.0 ** int(form[1])
    return format(to_whole(side)(value * steps) / steps, form)


def _as_needed(value: float, side: Side) -> str:
    if not math.isfinite(value):
        return f"{value:g}"
    if abs(round(value, 2) - value) < _SAME:
        return plain(value, 2)
    if abs(value) < _SMALL_MM:
        return f"{value:.3g}"
    return plain(to_whole(side)(value * 100.0) / 100.0, 2)


def _length(found: re.Match[str]) -> Length:
    values = tuple(float(value) for value in found[2].split(";"))
    return Length(cast("Sort", found[1]), values, found[3] or "", cast("Side", found[4]))
