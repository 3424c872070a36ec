"""Sections of parts across a rail, taken from their meshes, and whether one can leave the rail."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import product

import numpy as np
import shapely
from shapely import Polygon, affinity
from shapely.geometry.base import BaseGeometry

from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.fittings.registry import fitting_kind
from cleatwright.parts.fitting import Fitting
from cleatwright.parts.holder import HolderPart
from cleatwright.shapes.rigid import Rigid

# x becomes the height of a cut, y and z lie in it
ACROSS = Rigid(((0.0, 1.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0)), (0.0, 0.0, 0.0))
STEP_MM = 0.05
STEP_RAD = 0.0008
# a path between the nodes of the grid comes no nearer to the rail than this: half a diagonal of
# a cell, and half a step of the angle at 110 mm from the bevel
NEAR_MM = 0.08
FAR = (60, 60, 160)


def fitted(one: Fitting, kernel: MeshKernel) -> MeshBody:
    """Return a fitting where it sits on its holder."""
    kind = fitting_kind(one.name)
    solid = kind.shape(kind.params(**dict(one.measures))).solid
    return kernel.evaluate(solid.placed(one.pose))


def section(body: MeshBody, x_mm: float) -> BaseGeometry:
    """Return the section (y, z) of a body at a place along the wall."""
    loops = body.placed(ACROSS).manifold.slice(x_mm).to_polygons()
    shape: BaseGeometry = Polygon()
    for loop in sorted(map(Polygon, loops), key=lambda one: -one.area):
        shape = shape.symmetric_difference(loop)
    return shape


def rail_section(
    *, thickness_mm: float, height_mm: float, bevel_deg: float, top_mm: float, wall: bool = True
) -> BaseGeometry:
    """Return the section of a rail, and of the wall behind it."""
    fall = thickness_mm * math.tan(math.radians(bevel_deg))
    low = top_mm - height_mm
    wood = Polygon(
        [(-thickness_mm, low), (0.0, low), (0.0, top_mm), (-thickness_mm, top_mm - fall)]
    )
    if not wall:
        return wood
    return wood.union(shapely.box(-thickness_mm - 60.0, low - 80.0, -thickness_mm, top_mm + 60.0))


def hung_section(part: HolderPart, kernel: MeshKernel) -> tuple[BaseGeometry, BaseGeometry]:
    """Return the sections of a holder with its hangers, and of its bolts, seen along the wall."""
    body = kernel.evaluate(part.solid)
    still: list[BaseGeometry] = []
    bolts: list[BaseGeometry] = []
    for one in part.fittings:
        made = fitted(one, kernel)
        (left, _, _), (right, _, _) = made.facts.bounds_mm
        still.append(section(body, (left + right) / 2))
        found = [section(made, left + share * (right - left)) for share in (0.2, 0.7)]
        (bolts if one.name == "bolt" else still).extend(found)
    return shapely.union_all(still), shapely.union_all(bolts)


def leaves(
    holder: BaseGeometry, obstacle: BaseGeometry, *, about: tuple[float, float], finer: int = 1
) -> bool:
    """Tell whether a section can get away from where it is: 3 mm, or 7 degrees.

    Every place and tilt of a grid that is reached over free neighbours is tried. The obstacle is
    taken smaller by more than what lies between two neighbours: no way through is missed.
    """
    shrunk = obstacle.buffer(-NEAR_MM / finer, join_style="mitre")
    shapely.prepare(shrunk)
    rings = [np.asarray(one.exterior.coords) for one in _polygons(holder)]
    far = tuple(finer * one for one in FAR)
    steps_of = np.array([STEP_MM, STEP_MM, STEP_RAD]) / finer
    seen = np.zeros(tuple(2 * one + 1 for one in far), dtype=bool)
    start = np.zeros((1, 3), dtype=int)
    seen[far] = True
    steps = np.array(list(product((-1, 0, 1), repeat=3)))
    assert _free(start * steps_of, rings, shrunk, about)[0], "it overlaps its rail where it hangs"
    while len(start):
        near = np.unique((start[:, None, :] + steps).reshape(-1, 3), axis=0)
        if (np.abs(near) >= far).any():
            return True
        at = tuple((near + far).T)
        near = near[~seen[at]]
        seen[tuple((near + far).T)] = True
        start = near[_free(near * steps_of, rings, shrunk, about)]
    return False


def _polygons(shape: BaseGeometry) -> Iterator[Polygon]:
    for one in shapely.get_parts(shape):
        assert isinstance(one, Polygon)
        yield one


def _free(
    nodes: np.ndarray, rings: list[np.ndarray], obstacle: BaseGeometry, about: tuple[float, float]
) -> np.ndarray:
    cos, sin = np.cos(nodes[:, 2:]), np.sin(nodes[:, 2:])
    free = np.ones(len(nodes), dtype=bool)
    for ring in rings:
        y, z = ring[:, 0] - about[0], ring[:, 1] - about[1]
        moved = np.stack(
            [
                about[0] + cos * y - sin * z + nodes[:, :1],
                about[1] + sin * y + cos * z + nodes[:, 1:2],
            ],
            axis=-1,
        )
        free &= ~shapely.intersects(obstacle, shapely.polygons(moved))
    return free


def pushed_home(bolt: BaseGeometry, rail: BaseGeometry) -> BaseGeometry:
    """Return a bolt pushed towards the wall until it touches the rail."""
    out, home = 30.0, -30.0
    assert not affinity.translate(bolt, out).intersection(rail).area
    for _ in range(40):
        middle = (out + home) / 2
        if affinity.translate(bolt, middle).intersection(rail).area > 1e-9:
            home = middle
        else:
            out = middle
    return affinity.translate(bolt, out)
