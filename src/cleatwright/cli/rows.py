"""Rows of holders and places as cells of a table, in the unit of the person."""

from __future__ import annotations

import shlex
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from cleatwright.base.lengths import LengthUnit, length_words, mass_number, mass_unit, sides_words
from cleatwright.base.numbers import ranges

if TYPE_CHECKING:
    from cleatwright.jobs.rows import MadeRow
    from cleatwright.jobs.tables import CostRow
    from cleatwright.jobs.why_answer import FamilyAnswer

_PLACE_COLUMNS = ("no", "holder", "hangs at", "points", "reach", "mass", "side", "rails", "group")
STATES = {"used": "used", "can": "possible", "passed": "passed over", "cannot": "no"}


def typed(command: str, folder: Path) -> str:
    """Return a command for a folder as it is typed.

    >>> typed("plans", Path("my shop"))
    "cleatwright plans 'my shop'"
    """
    return shlex.join(("cleatwright", command, str(folder)))


def how_to_draw(folder: Path) -> str:
    """Return what to type to see the wall of a folder drawn as far as it goes."""
    return f"To see the wall drawn as far as it goes: {typed('arrange', folder)} --out wall.pdf"


def made_columns(unit: LengthUnit) -> tuple[str, ...]:
    """Return the heading of holders that were made."""
    return (
        "no",
        "mark",
        "holder",
        "family",
        f"size {unit}",
        f"load {mass_unit(unit)}",
        "hangs at",
        "cleat used",
        "plate used",
    )


def made_cells(row: MadeRow, unit: LengthUnit) -> tuple[str, ...]:
    """Return the cells of a holder that was made."""
    spot = row.spot.words(unit)
    return (
        str(row.number),
        row.mark,
        row.name,
        row.family,
        sides_words(row.size_mm, unit),
        mass_number(row.load_kg, unit, ".2f"),
        spot + ("" if row.spot.rail else f" ({row.spot.mount})"),
        *("" if share is None else f"{share:.0%}" for share in (row.used, row.plate_used)),
    )


def place_table(
    rows: Sequence[CostRow], unit: LengthUnit
) -> tuple[tuple[str, ...], list[tuple[str, ...]]]:
    """Return heading and cells of places and what they cost, with what moved where anything did."""
    cells = [_place_cells(row, unit) for row in rows]
    if not any(row.points.moved for row in rows):
        return _PLACE_COLUMNS, cells
    moved = [(*one, f"{row.points.moved:.0f}") for one, row in zip(cells, rows, strict=True)]
    return (*_PLACE_COLUMNS, "moved"), moved


def _place_cells(row: CostRow, unit: LengthUnit) -> tuple[str, ...]:
    points = row.points
    return (
        ranges(row.numbers),
        row.name,
        row.spot.words(unit),
        *(
            f"{value:.0f}"
            for value in (
                points.total,
                points.reach,
                points.raised_mass,
                points.sideways,
                points.rail_count + points.rail_length + points.weak_rails,
                points.groups,
            )
        ),
    )


def family_columns(unit: LengthUnit) -> tuple[str, ...]:
    """Return the heading of families that could hold the tools of a holder."""
    return ("holder", "family", "is", "about g", "support", f"width {unit}", f"out {unit}", "why")


def family_cells(row: FamilyAnswer, unit: LengthUnit) -> tuple[str, ...]:
    """Return the cells of a family."""
    support = "" if row.support is None else "yes" if row.support else "no"
    width, reach = (
        "" if size is None else length_words(size, unit, decimals=0)
        for size in (row.width_mm, row.reach_mm)
    )
    grams = "" if row.grams is None else f"{row.grams:.0f}"
    state = STATES[row.state]
    return (row.holder, row.family, state, grams, support, width, reach, row.why)
