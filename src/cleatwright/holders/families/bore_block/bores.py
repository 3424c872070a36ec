"""Blind bores with a lead-in, and the plan of a fin around one."""

from __future__ import annotations

from cleatwright.shapes.outline import Outline, polygon
from cleatwright.shapes.solid import Revolved, Solid

PAST_MM = 1.0


def bore(made_mm: float, depth_mm: float, *, lead_mm: float) -> Solid:
    """Return the cut for a round shaft: bottom at z = 0, mouth at ``depth_mm``.

    The mouth is wider by ``lead_mm`` on each side, at 45 degrees; the cut goes on above it.
    """
    radius = made_mm / 2
    profile = [
        (0.0, 0.0),
        (radius, 0.0),
        (radius, depth_mm - lead_mm),
        (radius + lead_mm + PAST_MM, depth_mm + PAST_MM),
        (0.0, depth_mm + PAST_MM),
    ]
    return Revolved(polygon(profile))


def round_nosed(half_mm: float, reach_mm: float) -> Outline:
    """Return a fin from above, about x = 0: straight from y = 0, half a circle at the front."""
    front = reach_mm - half_mm
    corners = ((-half_mm, 0.0), (half_mm, 0.0), (half_mm, front), (-half_mm, front))
    return Outline(corners, (0.0, 0.0, 1.0, 0.0))
