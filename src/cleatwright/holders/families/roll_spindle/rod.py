"""Round rods that carry a roll by its bore: which sizes there are, and which is stiff enough."""

from __future__ import annotations

import math

from cleatwright.base.source import Evidence, Source
from cleatwright.parts.tool import GRAVITY_M_S2
from cleatwright.shapes.outline import circle
from cleatwright.shapes.rigid import Rigid
from cleatwright.shapes.solid import Solid, prism
from cleatwright.standards.table import Listed

ROD_SIZES = Source("dowels and round bars in metric sizes", "", Evidence.PRACTICE)
STOCK_MM = (6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 25.0, 30.0)
MOST_N_MM2 = 10.0
MOST = Source(
    "Beech in bending, about 100 N/mm2",
    "a tenth of it, for knots, creep and the pull of a hand",
    Evidence.MEMORY,
)
BORE_PLAY_MM = 1.0

VALUES = (
    *(Listed("Rods", f"{size:g} mm", size, ROD_SIZES) for size in STOCK_MM),
    Listed("Rods", "most in bending N/mm2", MOST_N_MM2, MOST),
)


def bending_n_mm2(rod_mm: float, *, span_mm: float, mass_kg: float) -> float:
    """Return the bending stress of a rod under a roll that lies along all of its span.

    Source: uniform load on a simple beam, M = W L / 8, over the modulus of a circle, pi d^3 / 32.

    >>> round(bending_n_mm2(10.0, span_mm=100.0, mass_kg=1.0), 3)
    1.249
    """
    moment = mass_kg * GRAVITY_M_S2 * span_mm / 8
    return moment / (math.pi * rod_mm**3 / 32)


def rod_for(bore_mm: float, *, wish_mm: float, span_mm: float, mass_kg: float) -> float | None:
    """Return a stock size for a roll, or None when none that passes the bore is stiff enough.

    It is the thinnest that is stiff enough and at least ``wish_mm``, or else the thickest
    that passes the bore.
    """
    fitting = [size for size in STOCK_MM if size <= bore_mm - BORE_PLAY_MM]
    stiff = [
        size
        for size in fitting
        if bending_n_mm2(size, span_mm=span_mm, mass_kg=mass_kg) <= MOST_N_MM2
    ]
    wished = [size for size in stiff if size >= wish_mm]
    return min(wished) if wished else max(stiff, default=None)


def lying_rod(diameter_mm: float, length_mm: float) -> Solid:
    """Return a rod along x, centred on the origin."""
    return prism(circle(diameter_mm), length_mm).turned("y", 90.0).moved(-length_mm / 2)


def undone(motion: Rigid) -> Rigid:
    """Return the motion that takes back another."""
    (a, b, c), (d, e, f), (g, h, i) = motion.rows
    back = Rigid(((a, d, g), (b, e, h), (c, f, i)))
    x, y, z = back.direct(motion.shift_mm)
    return Rigid(back.rows, (-x, -y, -z))
