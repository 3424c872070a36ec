"""Ranges of a measure in plain words: "shank 3 to 12 by 0.5"."""

from __future__ import annotations

import re
from dataclasses import dataclass

from cleatwright.base.errors import MeasureError
from cleatwright.base.units import length_mm
from cleatwright.base.visible import visible

_RANGE = re.compile(r"\s*([a-z][a-z0-9_]*)\s+(.+?)\s+to\s+(.+?)\s+by\s+(.+?)\s*")
MOST_VALUES = 10_000
FORM = 'NAME FIRST to LAST by STEP, such as "shank 3 to 12 by 0.5"'


@dataclass(frozen=True)
class Range:
    """The values of one measure, in mm, rising."""

    name: str
    values_mm: tuple[float, ...]


def read_range(text: str, *, unit: str = "mm") -> Range:
    """Return the range that a text names; both ends belong to it.

    Args:
        text: Words in the form of ``FORM``; lengths may carry a unit.
        unit: The unit of bare lengths.

    Raises:
        MeasureError: The text is no range, or it runs backwards or has too many values.

    >>> read_range("shank 3 to 4 by 0.5")
    Range(name='shank', values_mm=(3.0, 3.5, 4.0))
    """
    found = _RANGE.fullmatch(text)
    if found is None:
        raise MeasureError(f'"{visible(text)}" is no range of a measure', allowed=FORM)
    name = found[1]
    try:
        first, last, step = (length_mm(found[k], unit=unit) for k in (2, 3, 4))
    except MeasureError as error:
        raise error.located(name) from None
    if not (step > 0.0 and last >= first):
        raise MeasureError(
            f'the range "{visible(text)}" never ends',
            allowed="a last value no less than the first, and a step of more than 0",
        )
    count = int((last - first) / step + 1e-9) + 1
    if count > MOST_VALUES:
        raise MeasureError(
            f'the range "{visible(text)}" has {count} values', allowed=f"up to {MOST_VALUES}"
        )
    return Range(name, tuple(round(first + k * step, 6) for k in range(count)))
