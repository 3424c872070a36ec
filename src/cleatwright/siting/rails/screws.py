"""Which screws hold a rail: how thick, how long, and what that length assumes."""

from __future__ import annotations

from cleatwright.base import said
from cleatwright.base.errors import MeasureError
from cleatwright.base.source import Evidence, Source
from cleatwright.standards.fasteners.wood_screws import SCREW_LENGTHS_MM, screw_length_mm
from cleatwright.standards.table import Listed
from cleatwright.wall.screws import HEIGHT_SHARES
from cleatwright.wall.studs import SCREW_MM
from cleatwright.workshop.document.surfaces import Wall

RAIL_SCREW_MM = SCREW_MM
SCREWS_A_STUD = len(HEIGHT_SHARES)
PENETRATION_DIAMETERS = 6
RAIL_SCREW_RULE = Source(
    "NDS 2018",
    "12.1.5.6: at least six diameters in the stud, the tip included",
    Evidence.SECONDARY,
    "public check programs that name clause and page",
)
RAIL_SCREW_SIZE = Source("screws of a rail in studs", "", Evidence.PRACTICE)
VALUES = (
    Listed("Rail screws", "diameter mm", RAIL_SCREW_MM, RAIL_SCREW_SIZE),
    Listed("Rail screws", "screws a stud", SCREWS_A_STUD, RAIL_SCREW_SIZE),
    Listed("Rail screws", "depth / diameter", PENETRATION_DIAMETERS, RAIL_SCREW_RULE),
)


def rail_screw_mm(
    *, rail_thickness_mm: float, lining_mm: float, screw_mm: float = RAIL_SCREW_MM
) -> float:
    """Return the length of the screws of a rail: through rail and lining, six diameters in.

    Args:
        rail_thickness_mm: Thickness of the rail, > 0.
        lining_mm: Thickness of what lies between rail and stud, >= 0.
        screw_mm: Their diameter.

    Raises:
        MeasureError: No screw on sale is long enough.

    >>> rail_screw_mm(rail_thickness_mm=18.0, lining_mm=12.5)
    70.0
    """
    behind = PENETRATION_DIAMETERS * screw_mm
    least, longest = rail_thickness_mm + lining_mm + behind, SCREW_LENGTHS_MM[-1]
    if least > longest:
        raise MeasureError(
            f"a rail of {said.mm(rail_thickness_mm)} on a lining of {said.mm(lining_mm)}, which "
            f"needs screws of at least {said.least(least)}",
            allowed=f"up to {said.most(longest - behind)} for rail and lining together",
            todo="Make the rails of a thinner board, or take the lining away where rails go",
        )
    return screw_length_mm(least)


def lining_given(wall: Wall) -> bool:
    """Tell whether the owner has said how thick the lining of a wall is."""
    return "lining_mm" in wall.model_fields_set
