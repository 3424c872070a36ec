"""Lengths as a document takes them: rounded to a chosen side, and never twice.

What a line to write says is what is tried before it is said. No ``Wording`` turns such a length
into another unit, as it stands in the unit of the workshop already.
"""

from __future__ import annotations

import math
from typing import Literal

from cleatwright.base.lengths import MM_PER_INCH, PARTS_OF_AN_INCH, show_length
from cleatwright.base.units import length_mm

Side = Literal["nearest", "up", "down"]
_TENTH_MM, _HUNDREDTH_MM = 0.1, 0.01
_SAME_MM = 0.005
# a length on the grid stays there whatever its last bit says
_NOISE = 1e-6


def written_length(mm: float, unit: str, *, side: Side = "nearest") -> str:
    """Write a length with its unit as a document takes it, rounded to that side and no other.

    Args:
        mm: The length, >= 0.
        unit: "mm", to 0.1 mm (the nearest to 0.01 mm), or "in", to 1/32.
        side: Which way it is rounded.

    >>> written_length(12.34, "mm", side="up"), written_length(12.34, "in", side="up")
    ('12.4 mm', '1/2 in')
    >>> written_length(12.38, "mm", side="down"), written_length(600.0, "in")
    ('12.3 mm', '23-5/8 in')
    """
    if unit == "in":
        grid_mm = MM_PER_INCH / PARTS_OF_AN_INCH
    else:
        grid_mm = _HUNDREDTH_MM if side == "nearest" else _TENTH_MM
    parts = mm / grid_mm
    whole = {
        "nearest": round(parts),
        "up": math.ceil(parts - _NOISE),
        "down": math.floor(parts + _NOISE),
    }[side]
    return show_length(whole * grid_mm, unit)


def written_exactly(mm: float, unit: str) -> str:
    """Write a length so that a document has the very same, to a few thousandths of a millimetre.

    It stands on the grid of ``written_length`` where it lies there, else in decimals.

    >>> written_exactly(1422.4, "in"), written_exactly(1205.0, "in"), written_exactly(12.34, "mm")
    ('56 in', '47.4409 in', '12.34 mm')
    """
    text = written_length(mm, unit)
    if unit != "in" or abs(length_mm(text) - mm) <= _SAME_MM:
        return text
    return f"{mm / MM_PER_INCH:.4f} in"


def written_within(mm: float, low_mm: float, high_mm: float, *, unit: str) -> str:
    """Write a length as a document takes it, as near to it as lies from ``low_mm`` to ``high_mm``.

    Args:
        mm: The length.
        low_mm: The least that will do, >= 0.
        high_mm: The most that will do, at least 1/32 inch more.
        unit: As for ``written_length``.

    >>> written_within(9.0, 10.02, 90.0, unit="mm"), written_within(9.0, 10.02, 90.0, unit="in")
    ('10.02 mm', '13/32 in')
    """
    near_mm = min(max(mm, low_mm), high_mm)
    text = written_length(near_mm, unit)
    if length_mm(text) < low_mm:
        return written_length(near_mm, unit, side="up")
    if length_mm(text) > high_mm:
        return written_length(near_mm, unit, side="down")
    return text


def place_line(x: str, z: str) -> str:
    """Return the line that gives something a place, of two written lengths.

    >>> place_line("300 mm", "1-1/2 in")
    'place = { x = "300 mm", z = "1-1/2 in" }'
    """
    return f'place = {{ x = "{x}", z = "{z}" }}'
