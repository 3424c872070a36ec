"""Rows of holders and places as cells of a table, in the unit of the person."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cleatwright.base.lengths import LengthUnit, sides_words
from cleatwright.base.numbers import ranges

if TYPE_CHECKING:
    from cleatwright.jobs.rows import MadeRow
    from cleatwright.jobs.tables import CostRow

PLACE_COLUMNS = ("no", "holder", "hangs at", "points", "reach", "mass", "side", "rails", "group")


def made_columns(unit: LengthUnit) -> tuple[str, ...]:
    """Return the heading of holders that were made."""
    return ("no", "mark", "holder", "family", f"size {unit}", "load kg", "hangs at", "cleat used")


def made_cells(row: MadeRow, unit: LengthUnit) -> tuple[str, ...]:
    """Return the cells of a holder that was made."""
    spot = row.spot.words(unit)
    return (
        str(row.number),
        row.mark,
        row.name,
        row.family,
        sides_words(row.size_mm, unit),
        f"{row.load_kg:.2f}",
        spot + ("" if row.spot.rail else f" ({row.spot.mount})"),
        "" if row.used is None else f"{row.used:.0%}",
    )


def place_cells(row: CostRow, unit: LengthUnit) -> tuple[str, ...]:
    """Return the cells of a place and what it costs."""
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
