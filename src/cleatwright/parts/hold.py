"""What holds a tool besides its weight: a spring that bends, magnets that pull."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.source import Source
from cleatwright.shapes.solid import Solid


@dataclass(frozen=True)
class SpringArms:
    """Arms of one clip that bend aside while the tool passes.

    Args:
        thickness_mm: Radial thickness of an arm.
        width_mm: Width of an arm, along the axis of its bend.
        mean_radius_mm: Radius of the middle of an arm's thickness.
        arc_deg: Angle over which an arm bends, from its root to its tip.
        deflection_mm: How far the tip of one arm moves aside, at most.
        moving: The solids, in the frame of the holder, that bend aside; the way out may
            pass through them.
    """

    thickness_mm: float
    width_mm: float
    mean_radius_mm: float
    arc_deg: float
    deflection_mm: float
    moving: tuple[Solid, ...]


@dataclass(frozen=True)
class MagnetPull:
    """Magnets that pull a tool to the wall.

    Args:
        pull_n: Pull of all magnets at the gap that the wall of the pocket leaves, together.
        friction: Friction between the tool and the holder.
        source: Where the pull comes from.
    """

    pull_n: float
    friction: float
    source: Source
