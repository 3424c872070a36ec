"""Countersunk holes for wood screws through a plate."""

from __future__ import annotations

from cleatwright.shapes.outline import polygon
from cleatwright.shapes.solid import Revolved, Solid
from cleatwright.standards.fasteners.iso_273 import clearance_hole_mm
from cleatwright.standards.fasteners.wood_screws import countersink_mm

PAST_MM = 1.0


def screw_hole(screw_mm: float, *, plate_mm: float, behind_mm: float = PAST_MM) -> Solid:
    """Return the cut for one screw along y at x = z = 0, its head flush with ``plate_mm``.

    Args:
        screw_mm: Nominal diameter, 3 to 6 mm.
        plate_mm: Where the front of the plate lies.
        behind_mm: How far the cut goes on behind y = 0.
    """
    r, head = clearance_hole_mm(f"M{screw_mm:g}", "medium") / 2, countersink_mm(screw_mm) / 2
    sink = head - r
    # a revolved profile: r along x, depth along y from behind the plate to in front of it
    profile = polygon(
        [
            (0.0, -behind_mm),
            (r, -behind_mm),
            (r, plate_mm - sink),
            (head, plate_mm),
            (head, plate_mm + PAST_MM),
            (0.0, plate_mm + PAST_MM),
        ]
    )
    return Revolved(profile).turned("x", -90.0)
