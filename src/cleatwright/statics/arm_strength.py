"""How far the root of an arm is loaded by the tool that hangs on it for years."""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.parts.tool import GRAVITY_M_S2
from cleatwright.standards.table import Listed

LASTING_MPA = 5.0
LASTING = Source(
    "3D Printing and Additive Manufacturing, doi 10.1089/3dp.2020.0109",
    "polylactide breaks across its layers at 22.8 MPa; less than a quarter of it for years",
    Evidence.SECONDARY,
    "the abstract of the paper",
)
IN_PLANE = Source(
    "filament maker's data sheet, printed ISO 527 bars",
    "51 MPa along the layers, 17 MPa across; a fifth of it for years, a third while a hand pulls",
    Evidence.SECONDARY,
    "figures of the sheet as quoted in a public repository",
)
IN_PLANE_YEARS_MPA = 10.0
IN_PLANE_HAND_MPA = 16.0
# half of that along the layers, as for years: no more than half of the 17 MPa of the sheet
ACROSS_HAND_MPA = 8.0
VALUES = (
    Listed("Arms", "lasting stress MPa", LASTING_MPA, LASTING),
    Listed("Arms", "along the layers: lasting stress MPa", IN_PLANE_YEARS_MPA, IN_PLANE),
    Listed("Arms", "along the layers: stress while a hand pulls MPa", IN_PLANE_HAND_MPA, IN_PLANE),
    Listed("Arms", "across the layers: stress while a hand pulls MPa", ACROSS_HAND_MPA, IN_PLANE),
)


def flat_root_mpa(mass_kg: float, *, lever_mm: float, width_mm: float, height_mm: float) -> float:
    """Return the bending stress in a rectangular bar: 6 F e / (b h^2).

    >>> round(flat_root_mpa(1.0, lever_mm=20.0, width_mm=6.0, height_mm=10.0), 3)
    1.961
    """
    moment = mass_kg * GRAVITY_M_S2 * lever_mm
    return 6.0 * moment / (width_mm * height_mm**2)
