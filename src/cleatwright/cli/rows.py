"""Rows of holders and places as cells of a table, in the unit of the person."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cleatwright.base.lengths import LengthUnit, length_words, sides_words
from cleatwright.base.numbers import ranges

if TYPE_CHECKING:
    from cleatwright.jobs.rows import MadeRow, SpotRow
    from cleatwright.jobs.tables import PlaceRow

MAIN = "wall"
PLACE_COLUMNS = ("no", "holder", "hangs at", "points", "reach", "mass", "side", "rails", "group")


def made_columns(unit: LengthUnit) -> tuple[str, ...]:
    """Return the heading of holders that were made."""
    return ("no", "mark", "holder", "family", f"size {unit}", "load kg", "hangs at", "cleat used")


def made_cells(row: MadeRow, unit: LengthUnit) -> tuple[str, ...]:
    """Return the cells of a holder that was made."""
    return (
        str(row.number),
        row.mark,
        row.name,
        row.family,
        sides_words(row.size_mm, unit),
        f"{row.load_kg:.2f}",
        _spot(row.spot, unit),
        "" if row.used is None else f"{row.used:.0%}",
    )


def place_cells(row: PlaceRow, unit: LengthUnit) -> tuple[str, ...]:
    """Return the cells of a place and what it costs."""
    points = row.points
    return (
        ranges(row.numbers),
        row.name,
        _spot(row.spot, unit),
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


def _spot(spot: SpotRow, unit: LengthUnit) -> str:
    x, z = (length_words(at, unit) for at in (spot.x_mm, spot.z_mm))
    on = f"on rail {spot.rail}" if spot.rail else f"by {spot.mount}"
    panel = "" if spot.panel == MAIN else f" of {spot.panel}"
    return f"x {x}, z {z} {unit} {on}{panel}"
