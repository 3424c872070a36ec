"""DIN 7997: countersunk wood screws with cross recess, and the wider heads of chipboard screws."""

from __future__ import annotations

from cleatwright.base import said
from cleatwright.base.errors import MeasureError
from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Listed, Table

_SEEN = Source(
    "DIN 7997",
    "dimensions",
    Evidence.SECONDARY,
    "a public file that cites fasteners.eu",
)

WOOD_SCREWS = Table(
    name="DIN 7997 wood screws",
    key_name="diameter",
    columns=(Column("head_mm", _SEEN), Column("head_height_mm", _SEEN)),
    rows=(
        ("3", (5.6, 1.65)),
        ("3.5", (6.5, 1.93)),
        ("4", (7.5, 2.2)),
        ("4.5", (8.3, 2.35)),
        ("5", (9.2, 2.5)),
        ("6", (11.0, 3.0)),
    ),
)

CHIPBOARD_HEAD_RATIO = 2.0
CHIPBOARD_HEAD = Listed(
    name="Chipboard screws",
    label="head diameter / screw diameter",
    value=CHIPBOARD_HEAD_RATIO,
    source=Source("Makers' lists of chipboard screws", "head diameter", Evidence.MEMORY),
)

SMALLEST_MM, LARGEST_MM = 3.0, 6.0


def wood_screw_head_mm(diameter_mm: float) -> tuple[float, float]:
    """Return the head diameter and the head height of a DIN 7997 screw.

    Args:
        diameter_mm: A nominal diameter of the table: 3, 3.5, 4, 4.5, 5 or 6.

    Raises:
        UnknownNameError: The diameter is not in the table.

    >>> wood_screw_head_mm(4.5)
    (8.3, 2.35)
    """
    key = f"{diameter_mm:g}"
    return WOOD_SCREWS.value(key, "head_mm"), WOOD_SCREWS.value(key, "head_height_mm")


# how much wider than a head a countersink is cut (a choice)
CLEARANCE_MM = 0.4


def countersink_mm(diameter_mm: float) -> float:
    """Return the diameter of a countersink that takes both wood screws and chipboard screws.

    Heads of chipboard screws are twice the screw wide and so wider than those
    of DIN 7997; the countersink is cut for the wider one, with CLEARANCE_MM.

    Raises:
        MeasureError: The nominal diameter lies outside the table, 3 to 6 mm.

    >>> countersink_mm(4.0)
    8.4
    """
    if not SMALLEST_MM <= diameter_mm <= LARGEST_MM:
        raise MeasureError(
            f"a wood screw of {said.mm(diameter_mm)}",
            allowed=f"{said.number(SMALLEST_MM)} to {said.mm(LARGEST_MM)}",
        )
    return CHIPBOARD_HEAD_RATIO * diameter_mm + CLEARANCE_MM


# of 4 to 5 mm
SCREW_LENGTHS_MM = (20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 60.0, 70.0, 80.0, 90.0, 100.0, 120.0)
LENGTHS = Source("Chipboard screws in any shop", "lengths", Evidence.MEMORY)

VALUES = tuple(
    Listed("Chipboard screws", f"length {length:g} mm", length, LENGTHS)
    for length in SCREW_LENGTHS_MM
)


def screw_length_mm(least_mm: float) -> float:
    """Return the shortest screw on sale that is at least so long.

    Args:
        least_mm: Length that is needed, up to 120 mm.

    Raises:
        MeasureError: No screw is so long.

    >>> screw_length_mm(43.0)
    45.0
    """
    found = next((length for length in SCREW_LENGTHS_MM if length >= least_mm), None)
    if found is None:
        raise MeasureError(
            f"a screw at least {said.least(least_mm)} long",
            allowed=f"up to {said.most(SCREW_LENGTHS_MM[-1])}",
        )
    return found
