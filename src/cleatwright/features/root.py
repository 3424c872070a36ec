"""Pieces that several families put where a front meets its plate."""

from __future__ import annotations

from cleatwright.shapes.outline import polygon
from cleatwright.shapes.solid import Solid, across

COVE_MM = 3.0


def gusset(x0: float, x1: float, *, plate_mm: float, reach_mm: float, z_mm: float) -> Solid:
    """Return a 45-degree web under a shelf whose underside lies at ``z_mm``.

    It spans x0 to x1, and runs from the plate's front out by ``reach_mm``.
    """
    profile = polygon(
        [
            (0.0, z_mm - reach_mm),
            (plate_mm, z_mm - reach_mm),
            (plate_mm + reach_mm, z_mm),
            (0.0, z_mm),
        ]
    )
    return across(profile, x0, x1)


def bracket(
    x0: float,
    x1: float,
    *,
    plate_mm: float,
    root_mm: float,
    tip_mm: float,
    reach_mm: float,
    z_mm: float,
) -> Solid:
    """Return a web from x0 to x1 under a shelf whose underside lies at ``z_mm``.

    It is ``root_mm`` high at the front of the plate, and ``tip_mm`` at ``reach_mm`` from the wall
    face; it prints without support while the plate lies on the bed.
    """
    profile = polygon(
        [
            (0.0, z_mm - root_mm),
            (plate_mm, z_mm - root_mm),
            (reach_mm, z_mm - tip_mm),
            (reach_mm, z_mm),
            (0.0, z_mm),
        ]
    )
    return across(profile, x0, x1)


def cove(x0: float, x1: float, *, plate_mm: float, z_mm: float) -> Solid:
    """Return a 45-degree fillet under a shelf, where it meets the plate."""
    return gusset(x0, x1, plate_mm=plate_mm, reach_mm=COVE_MM, z_mm=z_mm)
