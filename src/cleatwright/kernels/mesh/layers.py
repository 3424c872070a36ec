"""How much of a body is wall, skin and inside, when it is laid down in layers."""

# the library's stubs leave the element types of its arrays open
# pyright: reportUnknownMemberType=false, reportUnknownVariableType=false
# pyright: reportUnknownArgumentType=false

from __future__ import annotations

from manifold3d import JoinType

from cleatwright.kernels.mesh.body import MeshBody, transformed
from cleatwright.shapes.rigid import Rigid


def inside_mm3(
    body: MeshBody, motion: Rigid, *, walls_mm: float, skin_mm: float, most_cuts: int
) -> float:
    """Return the volume behind all walls and skins of a body that lies on a bed.

    The body is cut at even heights. Of each cut the inside is what lies deeper than the walls,
    and has material ``skin_mm`` above it and below it.

    Args:
        body: The body.
        motion: How it is turned on the bed; z is up.
        walls_mm: Thickness of the walls, all lines together.
        skin_mm: Thickness of floors and roofs.
        most_cuts: How many cuts are made at the most (>= 8).
    """
    lying = transformed(body.manifold, motion)
    low, high = lying.bounding_box()[2], lying.bounding_box()[5]
    # two cuts in each skin, so that its edge is met within a quarter of it
    step = max(skin_mm / 2, (high - low) / most_cuts)
    count = max(1, round((high - low) / step))
    step = (high - low) / count
    off = max(1, round(skin_mm / step))
    cuts = [lying.slice(low + (k + 0.5) * step) for k in range(count)]
    total = 0.0
    for k in range(off, count - off):
        inner = cuts[k].offset(-walls_mm, JoinType.Miter)
        if not inner.is_empty():
            total += (inner ^ cuts[k - off] ^ cuts[k + off]).area()
    return total * step
