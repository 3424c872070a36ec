"""Where the screws of a rail sit: in a stud two, one above the other; else in a line."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Listed

# shares of the rail's height above its lower edge: so far apart that they do not split the
# rail along one line of grain, and each far from an edge
HEIGHT_SHARES = (1 / 3, 2 / 3)
SCREW_PLACES = Source("screws of a rail at a third and two thirds of it", "", Evidence.PRACTICE)

VALUES = tuple(
    Listed("Rail screws", f"row {row}: share of the rail's height", share, SCREW_PLACES)
    for row, share in enumerate(HEIGHT_SHARES, start=1)
)


@dataclass(frozen=True)
class ScrewPoint:
    """One screw on the wall: x from the left end of the wall, z from its lower edge."""

    x_mm: float
    z_mm: float


def screw_points(
    studs_mm: Iterable[float],
    *,
    z_top_mm: float,
    height_mm: float,
    shares: Iterable[float] = HEIGHT_SHARES,
) -> tuple[ScrewPoint, ...]:
    """Return the screws of one rail, from left to right, the lower of each stud first.

    Args:
        studs_mm: The x of the centre line of each stud that the rail crosses.
        z_top_mm: Height of the rail's top edge.
        height_mm: Height of the rail's front face, > 0.
        shares: How high they are, as shares of that height above the lower edge.

    >>> [(p.x_mm, p.z_mm) for p in screw_points((400.0,), z_top_mm=1000.0, height_mm=90.0)]
    [(400.0, 940.0), (400.0, 970.0)]
    """
    low, rows = z_top_mm - height_mm, tuple(shares)
    return tuple(ScrewPoint(x, low + share * height_mm) for x in sorted(studs_mm) for share in rows)
