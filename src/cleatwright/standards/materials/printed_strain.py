"""How far a printed spring may be strained, polymer by polymer."""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Listed, Table

PRACTICE = Source(
    "Makers' guides to snap-fits",
    "permissible strain of one joining, halved for printed arms that bend in their layers",
    Evidence.MEMORY,
)
OFTEN = Source("Makers' guides to snap-fits", "60 % of it for frequent use", Evidence.MEMORY)
OFTEN_SHARE = 0.6

PRINTED_STRAINS = Table(
    name="Permissible strain of printed springs",
    key_name="polymer",
    columns=(Column("once_percent", PRACTICE),),
    rows=(("PLA", (1.0,)), ("PETG", (2.0,)), ("ABS", (1.2,)), ("ASA", (1.2,))),
)
VALUES = (
    Listed("Permissible strain of printed springs", "share for frequent use", OFTEN_SHARE, OFTEN),
)


def frequent_strain(polymer: str) -> float:
    """Return the strain, as a plain ratio, that a printed spring may see again and again.

    Args:
        polymer: "PLA", "PETG", "ABS" or "ASA".

    Raises:
        UnknownNameError: The polymer is not in the table.

    >>> frequent_strain("PLA")
    0.006
    """
    return PRINTED_STRAINS.value(polymer, "once_percent") / 100.0 * OFTEN_SHARE
