"""IEC 60086: sizes of primary cells, with their common names."""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_SEEN = Source(
    "IEC 60086",
    "primary cells",
    Evidence.SECONDARY,
    "Linden's Handbook of Batteries, Table 4.9a",
)
_SHOP = Source(
    "A shop's list of cells",
    "R20",
    Evidence.SECONDARY,
    "elfa.nl",
)

ROUND_CELLS = Table(
    name="IEC 60086 round cells",
    key_name="cell",
    columns=(
        Column("diameter_max_mm", _SEEN),
        Column("diameter_min_mm", _SEEN),
        Column("height_max_mm", _SEEN),
        Column("height_min_mm", _SEEN),
    ),
    rows=(
        ("R03", (10.5, 9.5, 44.5, 43.3)),
        ("R6", (14.5, 13.5, 50.5, 49.2)),
        ("R14", (26.2, 24.9, 50.0, 48.6)),
        ("R20", (34.2, 32.3, 61.5, 59.5)),
    ),
)

DISPUTED_CELLS = Table(
    name="Round cells in another source",
    key_name="cell",
    columns=(Column("diameter_max_mm", _SHOP),),
    rows=(("R20", (34.5,)),),
)

COMMON_NAMES: tuple[tuple[str, str], ...] = (
    ("R03", "AAA"),
    ("R6", "AA"),
    ("R14", "C"),
    ("R20", "D"),
)


def bore_cell_mm(cell: str) -> float:
    """Return the largest diameter under which a round cell is printed anywhere.

    Args:
        cell: "R03", "R6", "R14" or "R20"; alkaline cells (LR) are as large.

    Raises:
        UnknownNameError: The cell is not in the table.

    Source: IEC 60086 in two secondary sources, the larger value.

    >>> bore_cell_mm("R20"), bore_cell_mm("R6")
    (34.5, 14.5)
    """
    printed = ROUND_CELLS.value(cell, "diameter_max_mm")
    if cell not in DISPUTED_CELLS.keys:
        return printed
    return max(printed, DISPUTED_CELLS.value(cell, "diameter_max_mm"))
