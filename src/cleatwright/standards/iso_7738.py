"""ISO 7738:2015 and ISO 3318:2016: lengths and heads of combination wrenches.

These standards fix least lengths and largest heads, no nominal sizes: real wrenches of the
medium series are a quarter to a half longer.
"""

from __future__ import annotations

import math

from cleatwright.base.errors import MeasureError
from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_SEEN = Source("ISO 7738:2015", "medium series", Evidence.SECONDARY)
_MEMORY = Source("ISO 7738:2015", "medium series", Evidence.MEMORY)
_SHORT = Source("ISO 7738:2015", "short series", Evidence.SECONDARY)
_THICK = Source("ISO 7738", "thickness of heads", Evidence.MEMORY)
_HEAD = Source("ISO 3318:2016", "largest width of the open end", Evidence.SECONDARY)
_REAL = Source("Real combination wrenches", "overall lengths", Evidence.SECONDARY)
_FIT = Source("Straight lines through real wrenches of 8 to 24 mm", "", Evidence.SECONDARY)
_ROUGH = Source("Rough guesses of wrenches in a public program", "", Evidence.SECONDARY)

_REMEMBERED = (
    *("5.5", "6", "7", "8", "9", "11", "12", "14", "15", "16", "17", "18", "20", "21", "22"),
    *("27", "32"),
)

COMBINATION_WRENCHES = Table(
    name="ISO 7738:2015 medium combination wrenches",
    key_name="size",
    columns=(Column("length_min_mm", _SEEN, _REMEMBERED, _MEMORY),),
    rows=(
        ("5.5", (70.0,)),
        ("6", (75.0,)),
        ("7", (80.0,)),
        ("8", (90.0,)),
        ("9", (100.0,)),
        ("10", (110.0,)),
        ("11", (115.0,)),
        ("12", (125.0,)),
        ("13", (135.0,)),
        ("14", (145.0,)),
        ("15", (150.0,)),
        ("16", (160.0,)),
        ("17", (170.0,)),
        ("18", (180.0,)),
        ("19", (185.0,)),
        ("20", (200.0,)),
        ("21", (205.0,)),
        ("22", (215.0,)),
        ("24", (230.0,)),
        ("27", (255.0,)),
        ("30", (285.0,)),
        ("32", (300.0,)),
        ("36", (335.0,)),
        ("41", (380.0,)),
        ("46", (425.0,)),
        ("50", (460.0,)),
    ),
)

SHORT_COMBINATION_WRENCHES = Table(
    name="ISO 7738:2015 short combination wrenches",
    key_name="size",
    columns=(Column("length_max_mm", _SHORT),),
    rows=(("10", (109.0,)), ("13", (134.0,)), ("19", (184.0,))),
)

HEAD_THICKNESS = Table(
    name="ISO 7738 thickness of heads",
    key_name="size",
    columns=(Column("open_max_mm", _THICK), Column("ring_max_mm", _THICK)),
    rows=(
        ("10", (6.0, 9.0)),
        ("13", (7.0, 11.0)),
        ("17", (8.5, 13.0)),
        ("19", (9.0, 14.5)),
        ("24", (11.0, 17.5)),
    ),
)

REAL_WRENCHES = Table(
    name="Lengths of real combination wrenches",
    key_name="size",
    columns=(Column("shortest_seen_mm", _REAL), Column("longest_seen_mm", _REAL)),
    rows=(
        ("13", (206.1, 206.1)),
        ("19", (258.0, 278.6)),
        ("30", (390.0, 390.0)),
        ("36", (460.0, 510.5)),
        ("41", (520.0, 612.0)),
        ("46", (550.0, 550.0)),
        ("50", (580.0, 580.0)),
    ),
)

OPEN_HEADS = Table(
    name="ISO 3318:2016 open heads",
    key_name="formula",
    columns=(Column("share_of_flats", _HEAD), Column("plus_mm", _HEAD)),
    rows=(("width max", (2.1, 7.0)),),
)

REAL_HEADS = Table(
    name="Heads and shafts of real combination wrenches",
    key_name="formula",
    columns=(
        Column("share_of_flats", _FIT, ("ring width", "ring thickness", "shaft width"), _ROUGH),
        Column("plus_mm", _FIT, ("ring width", "ring thickness", "shaft width"), _ROUGH),
    ),
    rows=(
        ("open width", (2.09, 1.9)),
        ("open thickness", (0.27, 2.2)),
        ("ring width", (1.6, 4.0)),
        ("ring thickness", (0.3, 1.5)),
        ("shaft width", (0.9, 2.0)),
    ),
)


def open_head_width_max_mm(flats_mm: float) -> float:
    """Return the largest width that an open end may have.

    Args:
        flats_mm: The size stamped on it (> 0).

    Raises:
        MeasureError: The size is no positive number.

    Source: ISO 3318:2016, 2.1 s + 7.

    >>> round(open_head_width_max_mm(13.0), 1)
    34.3
    """
    return _line_mm(OPEN_HEADS, "width max", flats_mm)


def real_head_mm(formula: str, flats_mm: float) -> float:
    """Return a measure of a real wrench by the straight line through others.

    Args:
        formula: "open width" (within 1.1 mm), "open thickness" (within 1.0 mm), or one of the
            rougher "ring width", "ring thickness" and "shaft width".
        flats_mm: The size stamped on it (> 0); the lines were drawn for 8 to 24 mm.

    Raises:
        MeasureError: The size is no positive number.
        UnknownNameError: There is no such formula.

    >>> round(real_head_mm("open width", 10.0), 1)
    22.8
    """
    return _line_mm(REAL_HEADS, formula, flats_mm)


def _line_mm(table: Table, formula: str, flats_mm: float) -> float:
    if not (flats_mm > 0.0 and math.isfinite(flats_mm)):
        raise MeasureError(f"a wrench of {flats_mm:g} mm", allowed="more than 0 mm")
    return table.value(formula, "share_of_flats") * flats_mm + table.value(formula, "plus_mm")
