"""Densities of printing polymers, for the mass of a part.

A spool's own data sheet always wins; the values here are for when there is none.
"""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_PAPER = Source("Processes 2025, 13(9), 2733", "material data", Evidence.SEEN)
_MAKERS = Source("Makers' data of ASA filament", "density", Evidence.MEMORY)

DENSITIES = Table(
    name="Densities of printing polymers",
    key_name="polymer",
    columns=(Column("density_kg_m3", _PAPER, ("ASA",), _MAKERS),),
    rows=(("PLA", (1240.0,)), ("PETG", (1270.0,)), ("ABS", (1040.0,)), ("ASA", (1070.0,))),
)


def density_kg_m3(polymer: str) -> float:
    """Return the density of solid polymer in kg/m3.

    Args:
        polymer: "PLA", "PETG", "ABS" or "ASA".

    Raises:
        UnknownNameError: The polymer is not in the table.

    >>> density_kg_m3("PETG")
    1270.0
    """
    return DENSITIES.value(polymer, "density_kg_m3")
