"""Exact volume and centroid of simple solids, in closed form."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.errors import ShapeError
from cleatwright.shapes.outline import Outline
from cleatwright.shapes.rigid import Vector
from cleatwright.shapes.solid import Loft, Placed, Prism, Solid


@dataclass(frozen=True)
class Moments:
    """The volume of a solid and the centroid of its uniform material."""

    volume_mm3: float
    centroid_mm: Vector


def exact_moments(solid: Solid) -> Moments:
    """Return the exact volume and centroid of a plain prism, a loft of polygons, or one placed.

    Raises:
        ShapeError: The solid has no closed form here.

    >>> from cleatwright.shapes.solid import block
    >>> exact_moments(block(0.0, 0.0, 0.0, 2.0, 4.0, 6.0))
    Moments(volume_mm3=48.0, centroid_mm=(1.0, 2.0, 3.0))
    """
    match solid:
        case Placed():
            inner = exact_moments(solid.solid)
            return Moments(inner.volume_mm3, solid.motion.apply(inner.centroid_mm))
        case Prism() if not (solid.bottom_chamfer_mm or solid.top_chamfer_mm):
            return _prism(solid)
        case Loft() if not (any(solid.lower.bulges) or any(solid.upper.bulges)):
            return _loft(solid)
        case _:
            raise ShapeError(f"{type(solid).__name__} has no closed form for its volume")


def _prism(solid: Prism) -> Moments:
    outer, *holes = solid.region.loops
    signed = [(outer.area_mm2, outer.centroid), *((-h.area_mm2, h.centroid) for h in holes)]
    area = solid.region.area_mm2
    x, y = (sum(a * c[k] for a, c in signed) / area for k in range(2))
    return Moments(area * solid.height_mm, (x, y, solid.height_mm / 2))


def _loft(solid: Loft) -> Moments:
    middle = Outline(
        tuple(
            ((ax + bx) / 2, (ay + by) / 2)
            for (ax, ay), (bx, by) in zip(solid.lower.corners, solid.upper.corners, strict=True)
        ),
        solid.lower.bulges,
    )
    # Simpson's rule is exact: with straight edges the area is a quadratic and its
    # moments are cubics in the height
    weights = (solid.height_mm / 6, solid.height_mm * 4 / 6, solid.height_mm / 6)
    sections = (solid.lower, middle, solid.upper)
    heights = (0.0, solid.height_mm / 2, solid.height_mm)
    slices = [w * s.area_mm2 for w, s in zip(weights, sections, strict=True)]
    volume = sum(slices)
    x, y = (
        sum(v * s.centroid[k] for v, s in zip(slices, sections, strict=True)) / volume
        for k in range(2)
    )
    z = sum(v * h for v, h in zip(slices, heights, strict=True)) / volume
    return Moments(volume, (x, y, z))
