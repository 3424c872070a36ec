"""Evaluation of solid descriptions as meshes."""

# the library's stubs leave the element types of its arrays open
# pyright: reportUnknownMemberType=false, reportUnknownVariableType=false
# pyright: reportUnknownArgumentType=false

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from types import MappingProxyType

import manifold3d as m3
import numpy as np

from cleatwright.base import said
from cleatwright.base.errors import KernelError
from cleatwright.kernels.api import CHORD_ERROR_MM
from cleatwright.kernels.cache import ContentCache
from cleatwright.kernels.lettering import letter_lines
from cleatwright.kernels.mesh.body import Floats, MeshBody, transformed
from cleatwright.kernels.mesh.rings import (
    Level,
    Points2,
    loft_counts,
    sampled,
    shared_counts,
    stacked,
)
from cleatwright.shapes.outline import Region
from cleatwright.shapes.rounding import offset
from cleatwright.shapes.solid import (
    CutPrism,
    Difference,
    Intersection,
    Lettering,
    Loft,
    LoftChain,
    Placed,
    Prism,
    PrismRow,
    Revolved,
    Solid,
    Union,
)

# the library's plane sections lie on a grid of about 1e-8 mm
_AREA_SLACK = 1e-6
NOTHING: Mapping[str, MeshBody] = MappingProxyType({})


class MeshKernel:
    """Evaluates descriptions with manifold3d; every operation's result is checked.

    Args:
        chord_error_mm: Largest distance of a chord from its arc (> 0).
        keep: How many bodies the content cache holds.
    """

    name = "mesh"

    def __init__(self, *, chord_error_mm: float = CHORD_ERROR_MM, keep: int = 256) -> None:
        if not chord_error_mm > 0.0:
            raise KernelError(f"a chord error of {said.mm(chord_error_mm)}")
        self.chord_error_mm = chord_error_mm
        self._bodies: ContentCache[MeshBody] = ContentCache(keep)

    def evaluate(self, solid: Solid, *, known: Mapping[str, MeshBody] = NOTHING) -> MeshBody:
        """Return the body of a description.

        Args:
            solid: The description.
            known: Bodies of nodes inside it by their content keys, of the same chord error.

        Raises:
            KernelError: An operation failed or left nothing; the message names the node.
        """
        for one, body in known.items():
            self._bodies.put(one, body)
        key = solid.content_key
        body = self._bodies.get(key)
        if body is None:
            body = MeshBody(self._build(solid))
            self._bodies.put(key, body)
        return body

    def corners(self, solid: Solid) -> Floats:
        """Return the corners of a convex solid's mesh, shape (n, 3), without making the mesh."""
        match solid:
            case Placed():
                motion = solid.motion
                points = self.corners(solid.solid)
                return points @ np.array(motion.rows).T + np.array(motion.shift_mm)
            case Prism(bottom_chamfer_mm=0.0, top_chamfer_mm=0.0):
                loop = np.array(solid.region.outer.polygon(self.chord_error_mm))
                ends = [np.full(len(loop), z) for z in (0.0, solid.height_mm)]
                return np.concatenate([np.column_stack([loop, z]) for z in ends])
            case _:
                return self.evaluate(solid).vertices_mm

    def _known(self, solid: Solid) -> m3.Manifold:
        """Return the manifold of a node inside another; combined nodes are kept."""
        if isinstance(solid, (Union, Difference, Intersection, Lettering)):
            return self.evaluate(solid).manifold
        return self._build(solid)

    def _build(self, solid: Solid) -> m3.Manifold:  # noqa: C901, PLR0911 - one branch per node type
        match solid:
            case Placed():
                return _checked(transformed(self._known(solid.solid), solid.motion), solid)
            case Union():
                return self._union(solid)
            case Difference():
                return self._difference(solid)
            case Intersection():
                parts = [self._known(part) for part in solid.solids]
                return _checked(m3.Manifold.batch_boolean(parts, m3.OpType.Intersect), solid)
            case Prism():
                return _checked(self._prism(solid), solid)
            case CutPrism():
                return _checked(self._cut_prism(solid), solid)
            case PrismRow():
                return _checked(self._prism_row(solid), solid)
            case Revolved():
                return _checked(self._revolved(solid), solid)
            case Loft():
                return _checked(self._lofts((solid,), 0.0, solid), solid)
            case LoftChain():
                return _checked(self._lofts(solid.links, solid.heights_mm[0], solid), solid)
            case Lettering():
                return _checked(self._lettering(solid), solid)
            case _:
                raise KernelError(f"the mesh kernel does not know {type(solid).__name__}")

    def _union(self, node: Union) -> m3.Manifold:
        parts = [self._known(part) for part in node.solids]
        if len(parts) == 1:
            return parts[0]
        joined = _checked(m3.Manifold.batch_boolean(parts, m3.OpType.Add), node)
        volumes = [part.volume() for part in parts]
        if not max(volumes) * (1 - 1e-6) <= joined.volume() <= sum(volumes) * (1 + 1e-6):
            raise _failure(node, f"a volume of {joined.volume():g} mm3 out of {volumes}")
        return joined

    def _difference(self, node: Difference) -> m3.Manifold:
        whole = self._known(node.solid)
        if not node.cuts:
            return whole
        parts = [whole, *(self._known(cut) for cut in node.cuts)]
        left = _checked(m3.Manifold.batch_boolean(parts, m3.OpType.Subtract), node)
        if left.volume() > whole.volume() * (1 + 1e-6):
            raise _failure(node, "more volume after the cut than before")
        return left

    def _prism(self, node: Prism) -> m3.Manifold:
        height, low, high = node.height_mm, node.bottom_chamfer_mm, node.top_chamfer_mm
        if not (low or high):
            # the library's sections are rounded to a grid, which would open cracks where
            # prisms touch; stacking keeps every coordinate
            points = [np.array(loop.polygon(self.chord_error_mm)) for loop in node.region.loops]
            _sound_section(points, node)
            return stacked([(0.0, points), (height, points)])
        loops = node.region.loops
        insets: list[tuple[float, float]] = []
        if low:
            insets.append((0.0, low))
        if low + high < height - 1e-9:
            insets.extend([(low, 0.0), (height - high, 0.0)])
        else:
            insets.append((low, 0.0))
        if high:
            insets.append((height, high))
        counts = [shared_counts([loop], self.chord_error_mm) for loop in loops]
        levels: list[Level] = []
        for z, inset in insets:
            shifted = [offset(loop, inset if k else -inset) for k, loop in enumerate(loops)]
            points = [sampled(loop, n) for loop, n in zip(shifted, counts, strict=True)]
            levels.append((z, points))
            _sound_section(points, node)
        return stacked(levels)

    def _cut_prism(self, node: CutPrism) -> m3.Manifold:
        loops = (node.outline, *node.cuts)
        sections = [self._section(Region(loop), node) for loop in loops]
        left = m3.CrossSection.batch_boolean(sections, m3.OpType.Subtract)
        if left.is_empty():
            raise _failure(node, "nothing after its cuts")
        return left.extrude(node.height_mm)

    def _prism_row(self, node: PrismRow) -> m3.Manifold:
        loops = [np.array(loop.polygon(self.chord_error_mm)) for loop in node.outlines]
        row = m3.CrossSection(loops, m3.FillRule.Positive)
        wanted = sum(_shoelace(loop) for loop in loops)
        if not abs(row.area() - wanted) <= _AREA_SLACK * max(1.0, wanted):
            raise _failure(node, "outlines that do not lie apart")
        return row.extrude(node.height_mm)

    def _section(self, region: Region, node: Solid) -> m3.CrossSection:
        loops = [np.array(loop.polygon(self.chord_error_mm)) for loop in region.loops]
        return _sound_section(loops, node)

    def _revolved(self, node: Revolved) -> m3.Manifold:
        radius = node.profile.bounds[2]
        step = 2.0 * math.acos(1.0 - min(1.0, self.chord_error_mm / radius))
        turns = 4 * max(2, math.ceil(2.0 * math.pi / min(step, math.pi / 4) / 4 - 1e-9))
        return self._section(Region(node.profile), node).revolve(turns)

    def _lofts(self, links: Sequence[Loft], low_mm: float, node: Solid) -> m3.Manifold:
        """Return lofts one on the other, the first from ``low_mm`` up."""
        found = [loft_counts(link.lower, link.upper, self.chord_error_mm) for link in links]
        counts = [max(column) for column in zip(*(each for each, _ in found), strict=True)]
        z, low = low_mm, sampled(links[0].lower, counts)
        levels: list[Level] = [(z, [low])]
        for link, (_, steps) in zip(links, found, strict=True):
            high = sampled(link.upper, counts)
            shares = [k / steps for k in range(1, steps + 1)]
            levels += [(z + link.height_mm * t, [low * (1 - t) + high * t]) for t in shares]
            z, low = z + link.height_mm, high
        for _, loops in levels:
            _sound_section(loops, node)
        return stacked(levels)

    def _lettering(self, node: Lettering) -> m3.Manifold:
        lines = letter_lines(node.text, node.cap_mm)
        polygons = [np.array(loop) for loop in lines]
        # the font's outer loops run clockwise; the non-zero rule takes them either way
        section = m3.CrossSection(polygons, m3.FillRule.NonZero)
        return section.extrude(node.depth_mm)


def _sound_section(loops: Sequence[Points2], node: Solid) -> m3.CrossSection:
    """Return the section inside the first loop and outside the others, all counter-clockwise.

    A loop that crosses itself or another, or a hole outside, encloses another area than its
    corners say; the library would pass over it without a word.
    """
    outer, *holes = loops
    section = m3.CrossSection([outer, *(hole[::-1] for hole in holes)], m3.FillRule.Positive)
    wanted = _shoelace(outer) - sum(_shoelace(hole) for hole in holes)
    if not abs(section.area() - wanted) <= _AREA_SLACK * max(1.0, wanted):
        raise _failure(
            node, f"a section of {said.area(section.area())} instead of {said.area(wanted)}"
        )
    return section


def _shoelace(loop: Points2) -> float:
    following = np.roll(loop, -1, axis=0)
    return float(np.sum(loop[:, 0] * following[:, 1] - loop[:, 1] * following[:, 0])) / 2


def _failure(node: Solid, what: str) -> KernelError:
    return KernelError(
        f"{type(node).__name__} {node.content_key[:10]} gave {what}",
        where="shapes of triangles",
        todo="Please keep the workshop file and report this",
    )


def _checked(manifold: m3.Manifold, node: Solid) -> m3.Manifold:
    status = manifold.status()
    if status != m3.Error.NoError:
        raise _failure(node, f"the status {status.name}")
    if manifold.is_empty() or not manifold.volume() > 0.0:
        raise _failure(node, "an empty body")
    return manifold
