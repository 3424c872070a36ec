"""Lengths that keep what they are when a document counts in another unit.

A number without a unit counts in that of the document: where that becomes another one, each such
number is written with the unit in which it was measured.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, cast

from cleatwright.base.errors import MeasureError
from cleatwright.base.lengths import LengthUnit
from cleatwright.base.units import length_mm
from cleatwright.workshop.document.changes import DocumentChange, Plain
from cleatwright.workshop.document.described import described
from cleatwright.workshop.document.editing import Step
from cleatwright.workshop.document.entries import ToolSize
from cleatwright.workshop.document.fields import DocumentTable, is_length
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.sections import Sizes

Path = tuple[Step, ...]
UNITS = ("units",)
# what stands beside the measures in one size of a tool
_BESIDE = frozenset({"label", "mass"})


def unit_of(raw: Mapping[str, Any]) -> LengthUnit:
    """Return the unit in which a document counts, also where that cannot be read.

    >>> unit_of({"units": "in"}), unit_of({}), unit_of({"units": 7})
    ('in', 'mm', 'mm')
    """
    return "in" if raw.get("units") == "in" else "mm"


def in_other_unit(raw: Mapping[str, Any], units: LengthUnit) -> tuple[DocumentChange, ...]:
    """Return the changes after which a document counts in a unit, and every length is as before.

    Args:
        raw: The document as plain tables; what cannot be read in it stays as it is.
        units: In what it shall count.

    >>> tables = {"wall": {"width": 2400, "height": "2 m"}}
    >>> [(one.path, one.value) for one in in_other_unit(tables, "in")]
    [(('wall', 'width'), '2400 mm'), (('units',), 'in')]
    """
    before = unit_of(raw)
    if before == units:
        return ()
    told = tuple(
        DocumentChange("set", path, _with_unit(value, before), was=value)
        for path, value in _lengths(Workshop, raw, ())
        if _with_unit(value, before) != value
    )
    return (*told, DocumentChange("set", UNITS, units, was=cast("Plain", raw.get("units"))))


def _with_unit(value: Plain, unit: LengthUnit) -> Plain:
    if isinstance(value, list):
        return [_with_unit(one, unit) for one in value]
    if isinstance(value, bool) or not isinstance(value, (int, float, str)):
        return value
    try:
        bare = length_mm(value, unit="mm") != length_mm(value, unit="in")
    except MeasureError:
        return value
    return f"{str(value).strip()} {unit}" if bare else value


def _lengths(model: type[DocumentTable], table: Any, here: Path) -> Iterator[tuple[Path, Plain]]:
    """Yield the path and the value of all that measures a length, in a table and those inside."""
    if not isinstance(table, Mapping):
        return
    found = cast("Mapping[str, Any]", table)
    if model is Sizes:
        yield from _readings(found, here)
        return
    for field in described(model):
        value, path = found.get(field.key), (*here, field.key)
        if field.takes == "length":
            yield path, cast("Plain", value)
        elif field.takes == "readings" and isinstance(value, Mapping):
            yield from _readings(cast("Mapping[str, Any]", value), path)
        elif field.inner is not None:
            for step, one in _inside(value, path, field.takes):
                yield from _lengths(field.inner, one, step)
    if model is ToolSize:
        yield from _readings({k: v for k, v in found.items() if k not in _BESIDE}, here)


def _inside(value: Any, path: Path, takes: str) -> Iterator[tuple[Path, Any]]:
    """Yield the tables that stand at a key, each with its path."""
    if takes == "table":
        yield path, value
    elif isinstance(value, list):
        yield from (((*path, n), one) for n, one in enumerate(cast("list[Any]", value)))
    elif isinstance(value, Mapping):
        named = cast("Mapping[str, Any]", value)
        yield from (((*path, name), one) for name, one in named.items())


def _readings(table: Mapping[str, Any], here: Path) -> Iterator[tuple[Path, Plain]]:
    yield from (((*here, name), value) for name, value in table.items() if is_length(name))
