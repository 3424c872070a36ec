"""Kinds of tools for the browser: what is measured on each, and how it looks."""

from __future__ import annotations

from functools import lru_cache

from pydantic import Field

from cleatwright.base.lengths import LengthUnit, Wording, bounds_words, measured_length
from cleatwright.jobs.measuring import measuring_card
from cleatwright.papers.elevation.view import letter
from cleatwright.tools.kind import Kind, MeasureRow
from cleatwright.tools.registry import KINDS
from cleatwright.web.rows.row import Row

Point = tuple[float, float]
DIGITS = 2


class ColumnRow(Row):
    """One measure of a kind, in the order in which it is taken."""

    name: str
    letter: str
    title: str
    where: str
    low_mm: float
    high_mm: float
    bounds: str
    needed: bool
    may_be_zero: bool
    ordinary_mm: float | None
    ordinary: str


class KindRow(Row):
    """A kind of tools, with its picture: closed lines in mm, to the right and down."""

    name: str
    title: str
    caution: str
    outlined: bool
    plain: str = Field(description="the shape of one that takes anything of it, or empty")
    columns: tuple[ColumnRow, ...]
    grips: tuple[str, ...]
    picture: tuple[tuple[Point, ...], ...]
    width_mm: float
    height_mm: float


@lru_cache(maxsize=200)
def kind_row(name: str, unit: LengthUnit) -> KindRow:
    """Return a kind as a row, lengths for people in a unit."""
    kind = KINDS[name]
    rings = _seen(kind)
    left = min(x for ring in rings for x, _ in ring)
    top = max(y for ring in rings for _, y in ring)
    shown = tuple(
        tuple((round(x - left, DIGITS), round(top - y, DIGITS)) for x, y in ring) for ring in rings
    )
    return KindRow(
        name=kind.name,
        title=kind.title,
        caution=Wording(unit)(" ".join(kind.cautions)),
        outlined=kind.outlined,
        plain=kind.plain,
        columns=column_rows(kind, unit),
        grips=_grips(kind),
        picture=shown,
        width_mm=max(x for ring in shown for x, _ in ring),
        height_mm=max(y for ring in shown for _, y in ring),
    )


def kind_rows(unit: LengthUnit) -> tuple[KindRow, ...]:
    """Return every kind, in the order of the registry."""
    return tuple(kind_row(name, unit) for name in KINDS)


def column_rows(kind: Kind, unit: LengthUnit) -> tuple[ColumnRow, ...]:
    """Return what is measured on a kind, in order."""
    return tuple(_column(kind, row, number, unit) for number, row in enumerate(kind.card))


def _seen(kind: Kind) -> tuple[tuple[Point, ...], ...]:
    """Return the ordinary tool as it is seen from where most of it shows."""
    faces = measuring_card(kind.name).faces
    return max(faces, key=lambda face: len(face.dimensions)).outline


def _column(kind: Kind, row: MeasureRow, number: int, unit: LengthUnit) -> ColumnRow:
    ordinary = dict(kind.example).get(row.name)
    return ColumnRow(
        name=row.name,
        letter=letter(number),
        title=row.name.replace("_", " "),
        where=Wording(unit)(row.description),
        low_mm=row.low_mm,
        high_mm=row.high_mm,
        bounds=bounds_words(row.low_mm, row.high_mm, unit),
        needed=row.needed,
        may_be_zero=row.may_be_zero,
        ordinary_mm=ordinary,
        ordinary="" if ordinary is None else measured_length(ordinary, unit),
    )


def _grips(kind: Kind) -> tuple[str, ...]:
    from cleatwright.tools.registry import ordinary_body  # noqa: PLC0415 - builds solids

    return tuple(dict.fromkeys(grip.title for grip in ordinary_body(kind.name).grips))
