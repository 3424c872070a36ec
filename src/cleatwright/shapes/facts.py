"""What a kernel reports about an evaluated solid."""

from __future__ import annotations

from dataclasses import dataclass

Bounds = tuple[tuple[float, float, float], tuple[float, float, float]]


@dataclass(frozen=True)
class BodyFacts:
    """Measured facts of one evaluated solid.

    ``bounds_mm`` is ((min x, y, z), (max x, y, z)); ``genus`` counts the through
    holes; ``bodies`` the separate pieces; the centroid is that of uniform material.
    """

    volume_mm3: float
    area_mm2: float
    centroid_mm: tuple[float, float, float]
    bounds_mm: Bounds
    genus: int
    bodies: int

    @property
    def size_mm(self) -> tuple[float, float, float]:
        """Return the extents along x, y and z."""
        (x0, y0, z0), (x1, y1, z1) = self.bounds_mm
        return (x1 - x0, y1 - y0, z1 - z0)
