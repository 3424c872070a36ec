"""Screws through a holder into the rail behind it."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.parts.screw_strength import ScrewStrength


@dataclass(frozen=True)
class RailScrews:
    """One row of wood screws through a holder into its rail.

    Args:
        columns_mm: Where they stand along the part.
        below_mm: How far below the bevel's edge.
        hooks_mm: The outermost ends of the hooks along the part.
        strength: What one of them may carry.
        diameter_mm: Their diameter.
        length_mm: Their length.
        pad_mm: What they hold, under their heads.
        foot_mm: How far below the bevel's edge the part bears on the rail at the lowest.
        plate_mm: How far below it the plate ends from which pads hang.
        net_mm3: Section modulus beside the hole of one screw.
        column_mm3: The same of one pad where it hangs from the plate, or of the plate's part there
            if that is less; of walls and skins.
        across: Whether its layers may lie across its pads, as it is too wide for many beds.
    """

    columns_mm: tuple[float, ...]
    below_mm: float
    hooks_mm: tuple[float, float]
    strength: ScrewStrength
    diameter_mm: float
    length_mm: float
    pad_mm: float
    foot_mm: float
    plate_mm: float
    net_mm3: float
    column_mm3: float
    across: bool = False
