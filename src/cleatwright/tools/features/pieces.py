"""What several kinds share: convex pieces, mass on paper, short drawing notation."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.parts.grips import Grip
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.exact_volume import exact_moments
from cleatwright.shapes.outline import Outline, circle
from cleatwright.shapes.rigid import Vector
from cleatwright.shapes.solid import Solid, prism
from cleatwright.tools.material import Material


@dataclass(frozen=True)
class MassComponent:
    """A solid that counts for the mass; ``share`` (0 to 1) of it is material."""

    solid: Solid
    material: Material
    share: float = 1.0

    @property
    def mass_kg(self) -> float:
        """Return the estimated mass."""
        cubic_m = exact_moments(self.solid).volume_mm3 * 1e-9
        return cubic_m * self.material.density_kg_m3 * self.share


def mass_and_centre(
    components: Sequence[MassComponent], weighed_kg: float | None
) -> tuple[float, Vector]:
    """Return the mass in kg and the centre of mass; a weighed mass wins over the estimate."""
    masses = [component.mass_kg for component in components]
    centres = [exact_moments(component.solid).centroid_mm for component in components]
    total = sum(masses)
    # a millionth of a micron is noise of the arithmetic and has no place in a content key
    x, y, z = (
        round(sum(m * c[k] for m, c in zip(masses, centres, strict=True)) / total, 9)
        for k in range(3)
    )
    return (total if weighed_kg is None else weighed_kg), (x, y, z)


def assembled(
    components: Sequence[MassComponent],
    weighed_kg: float | None,
    *,
    kind: str,
    leading: str,
    grips: tuple[Grip, ...],
    order_mm: float,
    weightless: tuple[Solid, ...] = (),
) -> ToolBody:
    """Return the body of a tool that consists of components.

    Args:
        components: Its pieces; each must be convex.
        weighed_kg: The weighed mass, or None to estimate it.
        kind: Name of the kind.
        leading: Its leading measures in drawing notation.
        grips: How it can be held, the best first.
        order_mm: The size by which equal tools stand in a row.
        weightless: Pieces that take room, but do not count for the estimate.
    """
    mass_kg, com_mm = mass_and_centre(components, weighed_kg)
    return ToolBody(
        kind=kind,
        leading=leading,
        envelope=(*(component.solid for component in components), *weightless),
        mass_kg=mass_kg,
        com_mm=com_mm,
        grips=grips,
        order_mm=order_mm,
    )


def cylinder(diameter_mm: float, z0: float, z1: float) -> Solid:
    """Return an upright cylinder about the axis, from z0 to z1."""
    return prism(circle(diameter_mm), z1 - z0).moved(0.0, 0.0, z0)


def flat(outline: Outline, thickness_mm: float) -> Solid:
    """Return a plate whose outline is given in the xz plane, centred on y = 0."""
    return prism(outline, thickness_mm).turned("x", 90.0).moved(0.0, thickness_mm / 2, 0.0)


def ring_sectors(
    *, outer_mm: float, opening_mm: float, thickness_mm: float, z_mm: float, count: int
) -> tuple[Solid, ...]:
    """Return ``count`` convex sectors around a round opening in the xz plane.

    The centre lies at ``z_mm``. A sector is bounded outside by the true circle and inside
    by a chord of the opening, so that what stays free is ``free_opening_mm``; one chord
    lies level at the top.
    """
    half = math.pi / count
    bulge = math.tan(2 * half / 4)
    sectors: list[Solid] = []
    for k in range(count):
        middle = math.pi / 2 + 2 * half * k
        right = (math.cos(middle - half), math.sin(middle - half))
        left = (math.cos(middle + half), math.sin(middle + half))
        corners = (
            _on(right, opening_mm, z_mm),
            _on(right, outer_mm, z_mm),
            _on(left, outer_mm, z_mm),
            _on(left, opening_mm, z_mm),
        )
        sectors.append(flat(Outline(corners, (0.0, bulge, 0.0, 0.0)), thickness_mm))
    return tuple(sectors)


def free_opening_mm(opening_mm: float, *, count: int) -> float:
    """Return the circle that ``count`` sectors leave free in a round opening."""
    return opening_mm * math.cos(math.pi / count)


def short(number_mm: float) -> str:
    """Return a size in at most four signs, for bounds below 1000 mm.

    >>> short(6.0), short(12.25), short(118.6)
    ('6', '12.2', '119')
    """
    return f"{number_mm:.0f}" if number_mm >= 99.95 else f"{round(number_mm, 1):g}"


def _on(direction: tuple[float, float], diameter_mm: float, z_mm: float) -> tuple[float, float]:
    return (direction[0] * diameter_mm / 2, z_mm + direction[1] * diameter_mm / 2)
