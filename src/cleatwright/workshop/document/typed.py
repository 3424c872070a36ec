"""What a person types into the field of a key, and what stands in the document for it."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import cast

from cleatwright.base.errors import MeasureError
from cleatwright.workshop.document.changes import Plain
from cleatwright.workshop.document.described import DescribedField
from cleatwright.workshop.document.editing import Step

_NUMBER = re.compile(r"[+-]?(\d+([.,]\d+)?|[.,]\d+)")
_BETWEEN = re.compile(r"\s*(?:\bx\b|×|\bby\b|;)\s*|(?<=\d)x(?=\d)", re.IGNORECASE)
_EXAMPLE = ("220", "220", "250", "250")
# where nothing else stands between plain numbers; 9 1/2 in is one length, and so is 9,5
_PLAIN_ROW = re.compile(r"(?!\d+,\d+$)\d+(?:\.\d+)?(?:(?:\s*[/,]\s*|\s+)\d+(?:\.\d+)?)+")
_PLAIN_BETWEEN = re.compile(r"\s*[/,]\s*|\s+")
_WHOLE = re.compile(r"[+-]?\d+")
_FLAGS = {"yes": True, "true": True, "no": False, "false": False}
MEASURED = frozenset({"length", "mass", "angle", "number", "count"})


def written(field: DescribedField, text: str) -> Plain:
    """Return what to write for a typed text; None for an empty one, which takes the key away.

    A plain number is written as a number; anything else that measures as it was typed, so that
    "1 3/8 in" stays what its owner read.

    Raises:
        MeasureError: A list has too few or too many parts, or a word is neither yes nor no.

    >>> bed = DescribedField("bed", "", "length", many=3)
    >>> written(bed, "220 x 220 x 9 1/2 in")
    [220, 220, '9 1/2 in']
    >>> written(bed, "220/220/250"), written(bed, "220 220 250"), written(bed, "220, 220, 250")
    ([220, 220, 250], [220, 220, 250], [220, 220, 250])
    """
    whole = text.strip()
    if not whole:
        return None
    if field.many == 0:
        return _single(field, whole)
    parts = [part for part in _BETWEEN.split(whole) if part]
    if len(parts) == 1 and _PLAIN_ROW.fullmatch(whole):
        parts = _PLAIN_BETWEEN.split(whole)
    if field.many > 0 and len(parts) != field.many:
        values = f"{len(parts)} {'value' if len(parts) == 1 else 'values'}"
        example = " x ".join(_EXAMPLE[: field.many])
        raise MeasureError(
            f'"{whole}" is {values} and not {field.many}',
            allowed=f"{field.many} values with x between them, such as {example}",
        )
    return [_single(field, part) for part in parts]


def _single(field: DescribedField, text: str) -> Plain:
    if field.takes == "flag":
        if text.lower() not in _FLAGS:
            raise MeasureError(f'"{text}" is neither yes nor no', allowed="yes or no")
        return _FLAGS[text.lower()]
    if field.takes == "count" and not _WHOLE.fullmatch(text):
        raise MeasureError(
            f'"{text}" is no whole number',
            allowed="" if field.low is None else f"from {field.low:g} to {field.high or 0:g}",
        )
    if field.takes not in MEASURED or not _NUMBER.fullmatch(text):
        return text
    number = float(text.replace(",", "."))
    # a bare mass would count in kg, which nobody means who weighs a tool
    if field.takes == "mass":
        return f"{number:g} g"
    return int(number) if number.is_integer() else number


def shown(value: Plain) -> str:
    """Return what stands in a document as a person would type it.

    >>> shown([220, 220.0, "9 in"]), shown(True), shown(None)
    ('220 x 220 x 9 in', 'yes', '')
    """
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, dict):
        return ", ".join(f"{key} {shown(one)}" for key, one in value.items())
    if isinstance(value, list):
        between = "; " if any(isinstance(one, dict) for one in value) else " x "
        return between.join(shown(one) for one in value)
    return f"{value:.10g}" if isinstance(value, float) else str(value)


def with_value(tables: Mapping[str, Plain], path: Sequence[Step], value: Plain) -> dict[str, Plain]:
    """Return tables with another value at a path of keys and numbers; without the key for None.

    >>> with_value({"wall": {"width": 5}}, ("wall", "height"), 7)
    {'wall': {'width': 5, 'height': 7}}
    """
    return cast("dict[str, Plain]", _with(dict(tables), path, value))


def _with(found: Plain, path: Sequence[Step], value: Plain) -> Plain:
    first, rest = path[0], path[1:]
    if isinstance(first, int):
        rows = list(found) if isinstance(found, list) else []
        if first < len(rows):
            rows[first] = _with(rows[first], rest, value) if rest else value
        return rows
    table = dict(found) if isinstance(found, dict) else {}
    if rest:
        table[first] = _with(table.get(first, [] if isinstance(rest[0], int) else {}), rest, value)
    elif value is None:
        table.pop(first, None)
    else:
        table[first] = value
    return table
