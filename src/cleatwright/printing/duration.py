"""How long parts are on a printer: their plastic, at the pace at which it is laid on average."""

from __future__ import annotations

from cleatwright.base.factors import G_PER_KG, MM3_PER_M3
from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Listed

MEAN_MM_S = 50.0
PACE = Source(
    "how fast a line is laid on average",
    "its corners, ways without plastic, first layers and heating counted in",
    Evidence.PRACTICE,
)
VALUES = (Listed("Printing", "mean pace of a line mm/s", MEAN_MM_S, PACE),)
_S_PER_H = 3600.0


def pace_g_per_h(*, line_mm: float, layer_mm: float, density_kg_m3: float) -> float:
    """Return how much plastic a printer of which nobody said it lays in an hour, in g.

    Args:
        line_mm: Width of a line.
        layer_mm: Height of a layer.
        density_kg_m3: Of the plastic.

    >>> round(pace_g_per_h(line_mm=0.45, layer_mm=0.2, density_kg_m3=1240.0), 1)
    20.1
    """
    mm3_per_h = line_mm * layer_mm * MEAN_MM_S * _S_PER_H
    return mm3_per_h * density_kg_m3 * G_PER_KG / MM3_PER_M3
