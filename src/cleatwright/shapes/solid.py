"""Solids as a tree of immutable descriptions.

Every node is frozen and carries a content key; no node knows a kernel.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from cleatwright.base import said
from cleatwright.base.errors import ShapeError
from cleatwright.base.keys import fields_key
from cleatwright.shapes.outline import Outline, Region
from cleatwright.shapes.rigid import Axis, Rigid, shift, turn


@dataclass(frozen=True)
class Solid:
    """Base of all nodes: placing and combining."""

    @cached_property
    def content_key(self) -> str:
        """Return the key of everything that shapes this solid."""
        return fields_key(self)

    def moved(self, dx: float = 0.0, dy: float = 0.0, dz: float = 0.0) -> Solid:
        """Return the solid shifted in mm."""
        return Placed(self, shift(dx, dy, dz))

    def turned(self, axis: Axis, degrees: float) -> Solid:
        """Return the solid turned about an axis through the origin."""
        return Placed(self, turn(axis, degrees))

    def placed(self, motion: Rigid) -> Solid:
        """Return the solid after a rigid motion."""
        return Placed(self, motion)

    def __or__(self, other: Solid) -> Solid:
        return Union((self, other))

    def __sub__(self, other: Solid) -> Solid:
        return Difference(self, (other,))

    def __and__(self, other: Solid) -> Solid:
        return Intersection((self, other))


@dataclass(frozen=True)
class Prism(Solid):
    """A region in the xy plane, drawn out along z from 0 to ``height_mm`` (> 0).

    ``bottom_chamfer_mm`` and ``top_chamfer_mm`` (>= 0) cut the rim of each end at
    45 degrees; holes are widened there. Chamfered loops need corners between
    straight edges or tangent arcs.
    """

    region: Region
    height_mm: float
    bottom_chamfer_mm: float = 0.0
    top_chamfer_mm: float = 0.0

    def __post_init__(self) -> None:
        """Raise ShapeError for a height or chamfer that is no prism."""
        chamfers = self.bottom_chamfer_mm + self.top_chamfer_mm
        numbers = (self.height_mm, self.bottom_chamfer_mm, self.top_chamfer_mm)
        if not all(math.isfinite(n) for n in numbers) or min(numbers[1:]) < 0.0:
            raise ShapeError(f"a prism with numbers {numbers}")
        if not self.height_mm > chamfers - 1e-12 or not self.height_mm > 0.0:
            raise ShapeError(
                f"a prism of height {said.mm(self.height_mm)} with chamfers {said.mm(chamfers)}"
            )


@dataclass(frozen=True)
class CutPrism(Solid):
    """What is left of an outline after cutting others out of it, drawn out along z.

    The cuts may cross the outline and each other, as slots in the edge of a shelf do;
    cutting in the plane is much cheaper than cutting in space.
    """

    outline: Outline
    cuts: tuple[Outline, ...]
    height_mm: float

    def __post_init__(self) -> None:
        """Raise ShapeError for a height that is none."""
        if not (math.isfinite(self.height_mm) and self.height_mm > 0.0):
            raise ShapeError(f"a prism of height {said.mm(self.height_mm)}")


@dataclass(frozen=True)
class PrismRow(Solid):
    """Prisms of one height on outlines that lie apart, as one solid: a row of bores to cut.

    One cut with a row is cheaper than a cut with each of its prisms.
    """

    outlines: tuple[Outline, ...]
    height_mm: float

    def __post_init__(self) -> None:
        """Raise ShapeError when there is nothing, or the height is none."""
        if not self.outlines:
            raise ShapeError("a row of no prisms")
        if not (math.isfinite(self.height_mm) and self.height_mm > 0.0):
            raise ShapeError(f"prisms of height {said.mm(self.height_mm)}")

    @property
    def as_union(self) -> Solid:
        """Return the same solid as a union of prisms."""
        return Union(tuple(Prism(Region(outline), self.height_mm) for outline in self.outlines))


@dataclass(frozen=True)
class Revolved(Solid):
    """An outline in the (r, z) half plane, r >= 0, turned fully about the z axis."""

    profile: Outline

    def __post_init__(self) -> None:
        """Raise ShapeError when the profile crosses the axis."""
        if self.profile.bounds[0] < -1e-9:
            raise ShapeError("a revolved profile crosses its axis")


@dataclass(frozen=True)
class Loft(Solid):
    """A ruled solid from ``lower`` at z = 0 to ``upper`` at z = ``height_mm`` (> 0).

    Both outlines have the same number of edges; edge i is ruled to edge i.
    """

    lower: Outline
    upper: Outline
    height_mm: float

    def __post_init__(self) -> None:
        """Raise ShapeError for outlines that cannot be paired."""
        if len(self.lower.corners) != len(self.upper.corners):
            raise ShapeError("a ruled loft needs outlines with the same number of edges")
        if not (self.height_mm > 0.0 and math.isfinite(self.height_mm)):
            raise ShapeError(f"a loft of height {said.mm(self.height_mm)}")


@dataclass(frozen=True)
class LoftChain(Solid):
    """Ruled lofts one on the other, as one solid: outline k lies at ``heights_mm[k]``, growing.

    All outlines have the same number of edges; edge i is ruled to edge i. One chain is much
    cheaper than a union of its lofts.
    """

    outlines: tuple[Outline, ...]
    heights_mm: tuple[float, ...]

    def __post_init__(self) -> None:
        """Raise ShapeError for outlines or heights that make no chain of lofts."""
        if len(self.outlines) != len(self.heights_mm) or len(self.outlines) < 2:
            raise ShapeError("a chain of lofts needs two or more outlines and a height for each")
        _ = self.links  # each loft raises for itself

    @cached_property
    def links(self) -> tuple[Loft, ...]:
        """Return the lofts of the chain, each from z = 0."""
        pairs = zip(pairwise(self.outlines), pairwise(self.heights_mm), strict=True)
        return tuple(Loft(lower, upper, high - low) for (lower, upper), (low, high) in pairs)

    @property
    def as_union(self) -> Solid:
        """Return the same solid as a union of lofts."""
        placed = zip(self.links, self.heights_mm, strict=False)
        return Union(tuple(link.moved(0.0, 0.0, z) for link, z in placed))


@dataclass(frozen=True)
class Lettering(Solid):
    """Raised text: the base line along x from 0, capitals ``cap_mm`` high in y, depth along z."""

    text: str
    cap_mm: float
    depth_mm: float

    def __post_init__(self) -> None:
        """Raise ShapeError for text that leaves no mark."""
        if not self.text.strip():
            raise ShapeError("empty lettering")
        if not (self.cap_mm > 0.0 and self.depth_mm > 0.0):
            raise ShapeError(
                f"lettering {said.mm(self.cap_mm)} high and {said.mm(self.depth_mm)} deep"
            )


@dataclass(frozen=True)
class Placed(Solid):
    """A solid after a rigid motion."""

    solid: Solid
    motion: Rigid


@dataclass(frozen=True)
class Union(Solid):
    """Everything in any of the solids."""

    solids: tuple[Solid, ...]

    def __post_init__(self) -> None:
        """Raise ShapeError when there is nothing to join."""
        if not self.solids:
            raise ShapeError("a union of nothing")


@dataclass(frozen=True)
class Difference(Solid):
    """What is in ``solid`` and in none of ``cuts``."""

    solid: Solid
    cuts: tuple[Solid, ...]


@dataclass(frozen=True)
class Intersection(Solid):
    """What is in all of the solids."""

    solids: tuple[Solid, ...]

    def __post_init__(self) -> None:
        """Raise ShapeError when there is nothing to intersect."""
        if not self.solids:
            raise ShapeError("an intersection of nothing")


def prism(
    outline: Outline,
    height_mm: float,
    *,
    holes: tuple[Outline, ...] = (),
    bottom_chamfer_mm: float = 0.0,
    top_chamfer_mm: float = 0.0,
) -> Prism:
    """Return a prism on an outline with holes."""
    return Prism(Region(outline, holes), height_mm, bottom_chamfer_mm, top_chamfer_mm)


def block(x0: float, y0: float, z0: float, x1: float, y1: float, z1: float) -> Solid:
    """Return the box between two opposite corners, each coordinate growing."""
    corners = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    base = prism(Outline(corners, (0.0, 0.0, 0.0, 0.0)), z1 - z0)
    return base.moved(0.0, 0.0, z0)


def joined(*solids: Solid) -> Solid:
    """Return one flat union; unions among the solids are opened, which saves a kernel work."""
    pieces: list[Solid] = []
    for solid in solids:
        pieces.extend(solid.solids if isinstance(solid, Union) else (solid,))
    return Union(tuple(pieces))


def across(outline: Outline, x0: float, x1: float, *, edge_mm: float = 0.0) -> Solid:
    """Return a profile given in the (y, z) plane, drawn out along x from x0 to x1.

    The rims of both ends are cut by ``edge_mm`` at 45 degrees.
    """
    # turning (x, y, z) -> (z, x, y) lays the profile plane onto (y, z)
    frame = Rigid(((0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)), (x0, 0.0, 0.0))
    plain = prism(outline, x1 - x0, bottom_chamfer_mm=edge_mm, top_chamfer_mm=edge_mm)
    return plain.placed(frame)
