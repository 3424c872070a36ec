"""The floor of a guide, on which a bolt bears: what it bears solid, and of walls and skins.

The floor bends beside the slot of the bolt's tab, by the force on its edge, which is up to 2.4
times that on the bolt (``rail_back.FLOOR_RIM_MM``).
"""

from __future__ import annotations

from cleatwright.mounts.fittings import bolt
from cleatwright.mounts.printed import rail_back as back
from cleatwright.mounts.printed.rail_loads import bolt_strength_n
from cleatwright.statics.captured import BLUNT_MM

# three lines of 0.45 mm, as a printer makes where stress asks for them (common practice, no source)
WALLS_MM = 1.35
SKIN_MM = 0.9


def solid_floor_share() -> float:
    """Return how far a bolt at its strength loads a solid floor; see ``FLOOR_RIM_MM``."""
    edge = bolt_strength_n(1.0) * (1.0 + BLUNT_MM / bolt.HELD_MM)
    return edge * (bolt.WIDTH_MM - bolt.TAB_MM) / 2 * 6.0 / (bolt.GUIDE_MM * back.FLOOR_RIM_MM**2)


def floor_shell_share(walls_mm: float, skin_mm: float) -> float:
    """Return the section modulus of a floor of walls and skins, as a share of a solid one.

    >>> floor_shell_share(100.0, 0.9), round(floor_shell_share(1.35, 0.9), 3)
    (1.0, 0.713)
    """
    high, deep = back.FLOOR_RIM_MM, bolt.GUIDE_MM
    inside = max(high - 2 * walls_mm, 0.0) ** 3 * max(deep - 2 * skin_mm, 0.0)
    return 1.0 - inside / (high**3 * deep)


def floors_for(bolts: float) -> float:
    """Return how many floors bear so many bolts at their strength, as a share, with three walls.

    >>> round(floors_for(1.0), 3)
    1.346
    """
    return bolts * solid_floor_share() / floor_shell_share(WALLS_MM, SKIN_MM)
