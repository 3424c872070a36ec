"""What holds a tool besides its weight: a spring that bends, magnets that pull."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.source import Source
from cleatwright.shapes.solid import Solid
from cleatwright.standards.materials.spring_plastic import MOST_CAUTIOUS, SpringPlastic


@dataclass(frozen=True)
class SpringArms:
    """Arms of one clip that bend aside while the tool passes: an arc on a straight leg.

    Args:
        thickness_mm: Thickness of an arm in the plane in which it bends.
        width_mm: Least width of an arm, along the axis of its bend.
        mean_radius_mm: Radius of the middle of an arm's thickness.
        arc_deg: Angle of the arc, from its tip to its leg or, without one, to its root.
        deflection_mm: How far the tip of one arm moves aside, at most.
        moving: The solids, in the frame of the holder, that bend aside; the way out may
            pass through them.
        tip_deg: Angle at the centre of the arc from the way out to the tip; 90 degrees is
            a tip that moves along its own radius.
        straight_mm: Length of the leg between the arc and the root, tangent to the arc.
        plastic: What they are printed of.
    """

    thickness_mm: float
    width_mm: float
    mean_radius_mm: float
    arc_deg: float
    deflection_mm: float
    moving: tuple[Solid, ...]
    tip_deg: float = 90.0
    straight_mm: float = 0.0
    plastic: SpringPlastic = MOST_CAUTIOUS


@dataclass(frozen=True)
class MagnetPull:
    """Magnets that pull a tool to the wall.

    Args:
        pull_n: Pull of all magnets at the gap that the wall of the pocket leaves, together.
        friction: Friction between the tool and the holder.
        source: Where the pull comes from.
        face_y_mm: The face, in the frame of the holder, on which the tool lies.
        lever_mm: Height of the magnets' middle above the edge over which the tool would tip.
        most_n: The most that a hand may have to overcome, with the strongest magnets on sale.
    """

    pull_n: float
    friction: float
    source: Source
    face_y_mm: float = 0.0
    lever_mm: float = 0.0
    most_n: float = 0.0
