"""Sizes of paper, and the scales at which a drawing is usually made."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.errors import unknown_name
from cleatwright.base.lengths import MM_PER_INCH
from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Listed, Table

_ISO_216 = Source(
    "ISO 216:2007",
    "A series",
    Evidence.SECONDARY,
    "encyclopedia.kids.net.au, ISO 216",
)
A_SERIES = Table(
    name="ISO 216:2007 A series",
    key_name="sheet",
    columns=(Column("short_mm", _ISO_216), Column("long_mm", _ISO_216)),
    rows=(
        ("A4", (210.0, 297.0)),
        ("A3", (297.0, 420.0)),
        ("A2", (420.0, 594.0)),
        ("A1", (594.0, 841.0)),
        ("A0", (841.0, 1189.0)),
    ),
)

_Y14_1 = Source(
    "ASME Y14.1",
    "sizes A to E",
    Evidence.SECONDARY,
    "en.wikipedia.org, ANSI/ASME Y14.1",
)
INCH_SHEETS = Table(
    name="ASME Y14.1 sheets",
    key_name="sheet",
    columns=(Column("short_in", _Y14_1), Column("long_in", _Y14_1)),
    rows=(
        ("Letter", (8.5, 11.0)),
        ("Tabloid", (11.0, 17.0)),
        ("ANSI-C", (17.0, 22.0)),
        ("ANSI-D", (22.0, 34.0)),
        ("ANSI-E", (34.0, 44.0)),
    ),
)

_ISO_5455 = Source("ISO 5455:1979", "reductions", Evidence.MEMORY)
REDUCTIONS = Table(
    name="ISO 5455:1979 reductions",
    key_name="scale",
    columns=(Column("reduction", _ISO_5455),),
    rows=(
        ("1:1", (1.0,)),
        ("1:2", (2.0,)),
        ("1:5", (5.0,)),
        ("1:10", (10.0,)),
        ("1:20", (20.0,)),
        ("1:50", (50.0,)),
        ("1:100", (100.0,)),
    ),
)
SCALES = tuple(round(REDUCTIONS.value(key, "reduction")) for key in REDUCTIONS.keys)

# edge that a printer leaves white, with some room to spare
PRINT_MARGIN = Source("white edge that office printers leave, 4 to 6 mm", "", Evidence.PRACTICE)
PRINT_MARGIN_MM = 6.0
VALUES = (Listed("Paper", "white edge mm", PRINT_MARGIN_MM, PRINT_MARGIN),)


@dataclass(frozen=True)
class Paper:
    """A sheet as it lies before the reader, in mm."""

    name: str
    width_mm: float
    height_mm: float

    @property
    def turned(self) -> Paper:
        """Return the same sheet turned by a quarter."""
        return Paper(self.name, self.height_mm, self.width_mm)

    @property
    def words(self) -> str:
        """Return name and size.

        >>> landscape("a4").words
        'A4, 297 × 210 mm'
        """
        if self.name in INCH_SHEETS.keys:
            sides = (self.width_mm / MM_PER_INCH, self.height_mm / MM_PER_INCH)
            return f"{self.name}, {sides[0]:g} × {sides[1]:g} in"
        return f"{self.name}, {self.width_mm:g} × {self.height_mm:g} mm"


def series(unit: str) -> tuple[str, ...]:
    """Return the sheets of a workshop that measures in mm or in inches, the smallest first.

    >>> series("mm")[0], series("in")[0]
    ('A4', 'Letter')
    """
    return tuple(A_SERIES.keys if unit == "mm" else INCH_SHEETS.keys)


def sheet_names() -> tuple[str, ...]:
    """Return the names of all sheets, each series from the smallest to the largest."""
    return (*A_SERIES.keys, *INCH_SHEETS.keys)


def landscape(name: str) -> Paper:
    """Return a sheet with its long side across; small and capital letters are the same.

    Raises:
        UnknownNameError: There is no such sheet.
    """
    known = {key.lower(): key for key in sheet_names()}
    key = known.get(name.lower())
    if key is None:
        raise unknown_name("sheet", name, sheet_names())
    if key in A_SERIES.keys:
        return Paper(key, A_SERIES.value(key, "long_mm"), A_SERIES.value(key, "short_mm"))
    sides = (INCH_SHEETS.value(key, "long_in"), INCH_SHEETS.value(key, "short_in"))
    return Paper(key, sides[0] * MM_PER_INCH, sides[1] * MM_PER_INCH)
