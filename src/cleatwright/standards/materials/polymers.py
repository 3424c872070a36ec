"""Densities and stiffness of printing polymers, for the mass of a part and the force of a spring.

A spool's own data sheet always wins; the values here are for when there is none.
"""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Listed, Table

_PAPER = Source("Processes 2025, 13(9), 2733", "material data", Evidence.SEEN)
_MAKERS = Source("Makers' data of ASA filament", "density", Evidence.MEMORY)

DENSITIES = Table(
    name="Densities of printing polymers",
    key_name="polymer",
    columns=(Column("density_kg_m3", _PAPER, ("ASA",), _MAKERS),),
    rows=(("PLA", (1240.0,)), ("PETG", (1270.0,)), ("ABS", (1040.0,)), ("ASA", (1070.0,))),
)

_STIFF = Source("Makers' data of ASA filament", "modulus, the upper value", Evidence.MEMORY)
STIFFNESS = Table(
    name="Stiffness of printing polymers",
    key_name="polymer",
    columns=(Column("modulus_mpa", _PAPER, ("ASA",), _STIFF),),
    rows=(("PLA", (3500.0,)), ("PETG", (2000.0,)), ("ABS", (2100.0,)), ("ASA", (2400.0,))),
)
LEAST_ACROSS_MPA = 17.0
ACROSS = Source(
    "Filament maker's data of printed PLA",
    "strength across layers, the lowest of several makers",
    Evidence.SECONDARY,
    "a public file with sheet v1.1 of a maker",
)
VALUES = (Listed("Strength of printed PLA", "across layers MPa", LEAST_ACROSS_MPA, ACROSS),)


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


def polymer_of(material: str) -> str:
    """Return the polymer of the tables that the word for a filament's material names, or "".

    A word that says more, such as one for a filled plastic, names none of them.

    >>> polymer_of(" petg "), polymer_of("PLA with chalk")
    ('PETG', '')
    """
    word = " ".join(material.split()).casefold()
    return next((polymer for polymer in STIFFNESS.keys if polymer.casefold() == word), "")
