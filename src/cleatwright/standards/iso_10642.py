"""ISO 10642:2019: hexagon socket countersunk screws, beside the heads of DIN 7991.

Many data files print the heads of DIN 7991 (6, 8, 10, 12, 16) under the name
ISO 10642. The theoretical sharp-edged head of ISO 10642 is 2.24 d and thus 12 % wider.
"""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_SEEN = Source("ISO 10642:2019", "dimensions", Evidence.SECONDARY)
_MEMORY = Source("ISO 10642:2019", "dimensions", Evidence.MEMORY)
_DIN_7991 = Source("DIN 7991 (withdrawn)", "dimensions", Evidence.SECONDARY)

COUNTERSUNK_HEADS = Table(
    name="ISO 10642:2019 countersunk heads",
    key_name="thread",
    columns=(
        Column("head_theoretical_max_mm", _SEEN, ("M8",), _MEMORY),
        Column("head_height_max_mm", _SEEN, ("M8",), _MEMORY),
        Column("socket_mm", _SEEN),
        Column("head_actual_min_mm", _MEMORY),
    ),
    rows=(
        ("M3", (6.72, 1.86, 2.0, 5.54)),
        ("M4", (8.96, 2.48, 2.5, 7.53)),
        ("M5", (11.20, 3.10, 3.0, 9.43)),
        ("M6", (13.44, 3.72, 4.0, 11.34)),
        ("M8", (17.92, 4.96, 5.0, 15.24)),
    ),
)

OLD_COUNTERSUNK_HEADS = Table(
    name="DIN 7991 countersunk heads",
    key_name="thread",
    columns=(
        Column("head_actual_max_mm", _DIN_7991),
        Column("head_actual_min_mm", _DIN_7991),
        Column("head_height_max_mm", _DIN_7991),
    ),
    rows=(
        ("M3", (6.0, 5.7, 1.7)),
        ("M4", (8.0, 7.64, 2.3)),
        ("M5", (10.0, 9.64, 2.8)),
        ("M6", (12.0, 11.57, 3.3)),
        ("M8", (16.0, 15.57, 4.4)),
    ),
)


def countersink_mm(thread: str) -> float:
    """Return the diameter of a 90 degree countersink that takes heads of either standard.

    Args:
        thread: The size as "M3" to "M8".

    Raises:
        UnknownNameError: The thread is not in the table.

    Source: ISO 10642:2019, the theoretical sharp edge, which is the larger of both.

    >>> countersink_mm("M5")
    11.2
    """
    return COUNTERSUNK_HEADS.value(thread, "head_theoretical_max_mm")
