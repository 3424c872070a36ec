"""A flat cut through a body."""

# the library's stubs leave the element types of its arrays open
# pyright: reportUnknownMemberType=false, reportUnknownVariableType=false
# pyright: reportUnknownArgumentType=false

from __future__ import annotations

from collections.abc import Sequence

from manifold3d import CrossSection

from cleatwright.kernels.mesh.body import MeshBody, transformed
from cleatwright.shapes.rigid import Rigid

# rows that lay the plane across x onto xy: y to the right, z up
_ACROSS_X = Rigid(((0.0, 1.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0)))

Loops = tuple[tuple[tuple[float, float], ...], ...]


def section_across_x(body: MeshBody, x_mm: float) -> Loops:
    """Return the closed lines (y, z) in which a plane across x cuts a body; none where it misses.

    The line of a hole runs the other way round, so that their areas add up to that of the cut.
    """
    low, high = float(body.box_mm[0][0]), float(body.box_mm[1][0])
    if not low < x_mm < high:
        return ()
    turned = transformed(body.manifold, _ACROSS_X)
    loops = turned.slice(x_mm).simplify(0.01).to_polygons()
    return tuple(tuple((float(y), float(z)) for y, z in loop) for loop in loops)


Window = tuple[float, float, float, float]
"""A box in the plane of a cut: y0, z0, y1, z1."""


def stepped_section(body: MeshBody, steps: Sequence[tuple[float, Window]]) -> Loops:
    """Return a cut whose plane steps aside, as drawings do: in each window at an x of its own.

    Args:
        body: The body.
        steps: Where the plane lies in each window; windows do not overlap.
    """
    turned = transformed(body.manifold, _ACROSS_X)
    whole = CrossSection()
    for x_mm, (y0, z0, y1, z1) in steps:
        seen = CrossSection.square((y1 - y0, z1 - z0)).translate((y0, z0))
        whole += turned.slice(x_mm) ^ seen
    loops = whole.simplify(0.01).to_polygons()
    return tuple(tuple((float(y), float(z)) for y, z in loop) for loop in loops)


def middle_section(body: MeshBody) -> Loops:
    """Return the cut through the middle of a body, across x."""
    return section_across_x(body, float(body.box_mm[0][0] + body.box_mm[1][0]) / 2)
