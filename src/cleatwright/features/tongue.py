"""A flat ledge on 45-degree webs, on which one tool stands."""

from __future__ import annotations

import math

from cleatwright.features.root import gusset
from cleatwright.shapes.solid import Solid, block, joined

WEB_MM = 3.0
# bridges of 10 mm print in the air (common practice, no source)
_BRIDGE_MM = 9.0


def tongue(
    half_mm: float, front_mm: float, *, top_mm: float, thick_mm: float, plate_mm: float
) -> Solid:
    """Return a ledge about x = 0 on as many webs as bridges between them ask for.

    Args:
        half_mm: Half its width.
        front_mm: How far it reaches in y.
        top_mm: Height of its upper face.
        thick_mm: Thickness of its slab.
        plate_mm: The plate's front.
    """
    under = top_mm - thick_mm
    slab = block(-half_mm, 0.0, under, half_mm, front_mm, top_mm)
    count = max(1, math.ceil((2 * half_mm - WEB_MM) / (WEB_MM + _BRIDGE_MM) - 1e-9) + 1)
    width = WEB_MM if count > 1 else 2 * half_mm
    step = (2 * half_mm - width) / max(1, count - 1)
    webs = [
        gusset(x, x + width, plate_mm=plate_mm, reach_mm=front_mm - plate_mm, z_mm=under)
        for x in (k * step - half_mm for k in range(count))
    ]
    return joined(slab, *webs)
