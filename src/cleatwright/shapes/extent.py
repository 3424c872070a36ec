"""Axis-parallel boxes around solids, without a kernel."""

from __future__ import annotations

from collections.abc import Iterable

from cleatwright.base.errors import ShapeError
from cleatwright.shapes.facts import Bounds
from cleatwright.shapes.rigid import Rigid
from cleatwright.shapes.solid import (
    CutPrism,
    Difference,
    Intersection,
    Loft,
    LoftChain,
    Placed,
    Prism,
    PrismRow,
    Revolved,
    Solid,
    Union,
)


def extent(solid: Solid) -> Bounds:
    """Return a box that holds the solid; exact for primitives that are moved by quarter turns.

    A turned solid gets the box of its turned box; a difference that of what it is
    cut from; lettering has no box without its font and raises ShapeError.
    """
    # a solid never changes, so it keeps its box as it keeps its content key
    kept = vars(solid)
    if "extent" not in kept:
        kept["extent"] = _extent(solid)
    return kept["extent"]


def _extent(solid: Solid) -> Bounds:  # noqa: PLR0911 - one return per node type
    match solid:
        case Placed():
            return _moved(extent(solid.solid), solid.motion)
        case Prism():
            x0, y0, x1, y1 = solid.region.outer.bounds
            return ((x0, y0, 0.0), (x1, y1, solid.height_mm))
        case CutPrism():
            x0, y0, x1, y1 = solid.outline.bounds
            return ((x0, y0, 0.0), (x1, y1, solid.height_mm))
        case PrismRow() | LoftChain():
            return extent(solid.as_union)
        case Revolved():
            _, z0, radius, z1 = solid.profile.bounds
            return ((-radius, -radius, z0), (radius, radius, z1))
        case Loft():
            a, b = solid.lower.bounds, solid.upper.bounds
            return (
                (min(a[0], b[0]), min(a[1], b[1]), 0.0),
                (max(a[2], b[2]), max(a[3], b[3]), solid.height_mm),
            )
        case Union():
            return joint_extent(solid.solids)
        case Difference():
            return extent(solid.solid)
        case Intersection():
            return extent(solid.solids[0])
        case _:
            raise ShapeError(f"{type(solid).__name__} has no extent of its own")


def _moved(box: Bounds, motion: Rigid) -> Bounds:
    """Return the box around the eight moved corners of a box."""
    (x0, y0, z0), (x1, y1, z1) = box
    low: list[float] = []
    high: list[float] = []
    # a coordinate is a sum, so that its least is the sum of the least of its parts
    for (a, b, c), t in zip(motion.rows, motion.shift_mm, strict=True):
        ax, bx, ay, by, az, bz = a * x0, a * x1, b * y0, b * y1, c * z0, c * z1
        low.append(min(ax, bx) + min(ay, by) + min(az, bz) + t)
        high.append(max(ax, bx) + max(ay, by) + max(az, bz) + t)
    return ((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def joint_extent(solids: Iterable[Solid]) -> Bounds:
    """Return the box around several solids."""
    boxes = [extent(solid) for solid in solids]
    low = [min(box[0][k] for box in boxes) for k in range(3)]
    high = [max(box[1][k] for box in boxes) for k in range(3)]
    return ((low[0], low[1], low[2]), (high[0], high[1], high[2]))
