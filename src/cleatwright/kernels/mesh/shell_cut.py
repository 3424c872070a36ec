"""What walls and skins leave of a cut through a printed body; the inside counts for nothing."""

# the library's stubs leave the element types of its arrays open
# pyright: reportUnknownMemberType=false, reportUnknownVariableType=false
# pyright: reportUnknownArgumentType=false

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from manifold3d import CrossSection, JoinType

from cleatwright.kernels.mesh.body import Floats, MeshBody, transformed
from cleatwright.shapes.rigid import Rigid

Axis = Literal["x", "y", "z"]
CutAxis = Literal["y", "z"]
# rows that lay the plane of a cut onto xy, and what the first coordinate there is of x
_LAID: dict[CutAxis, tuple[Rigid, float]] = {
    "y": (Rigid(((-1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, 1.0, 0.0))), -1.0),
    "z": (Rigid(), 1.0),
}
_SIMPLER_MM = 0.01
# a body that begins just behind the plane is cut by it
_JUST_MM = 0.001


@dataclass(frozen=True)
class Shell:
    """How thick what is closed around the inside of a print is.

    Args:
        layers: The axis along which layers are stacked.
        walls_mm: Thickness of the walls, all lines together.
        skin_mm: Thickness of floors and roofs.
    """

    layers: Axis
    walls_mm: float
    skin_mm: float


@dataclass(frozen=True)
class ShellPiece:
    """One piece of a cut, in x and in v: z of a cut across y, and y of a cut across z.

    Args:
        low_mm: Least x and v of the piece.
        high_mm: Largest x and v.
        area_mm2: Area of its walls and skins.
        centre_mm: Centre of that area.
        about_x_mm4: Second moment of that area about the line along x through the centre.
        about_v_mm4: The same about the line along v.
        ahead: Which body lies ahead of it along the axis; pieces with the same one meet there.
        reach_mm: How far along the axis that body reaches.
    """

    low_mm: tuple[float, float]
    high_mm: tuple[float, float]
    area_mm2: float
    centre_mm: tuple[float, float]
    about_x_mm4: float
    about_v_mm4: float
    ahead: int
    reach_mm: float

    @property
    def fibre_v_mm(self) -> float:
        """Return how far the outermost fibre lies from the line along x through the centre."""
        return max(self.high_mm[1] - self.centre_mm[1], self.centre_mm[1] - self.low_mm[1])

    @property
    def fibre_x_mm(self) -> float:
        """Return the same for the line along v."""
        return max(self.high_mm[0] - self.centre_mm[0], self.centre_mm[0] - self.low_mm[0])


def shell_pieces(
    body: MeshBody, axis: CutAxis, at_mm: float, *, shell: Shell
) -> tuple[ShellPiece, ...]:
    """Return the pieces of a cut across an axis, from the least x to the largest.

    Args:
        body: The body in the frame of its holder.
        axis: The axis across which the plane lies.
        at_mm: Where it lies along that axis.
        shell: What is closed.
    """
    laid, sign = _LAID[axis]
    bodies = transformed(body.manifold, laid).trim_by_plane((0.0, 0.0, 1.0), at_mm - _JUST_MM)
    found = [
        _piece(one, _without_inside(one, axis, shell), sign, ahead=(k, ahead.bounding_box()[5]))
        for k, ahead in enumerate(bodies.decompose())
        for one in ahead.slice(at_mm).simplify(_SIMPLER_MM).decompose()
        if one.area() > _SIMPLER_MM
    ]
    return tuple(sorted(found, key=lambda one: one.low_mm))


def _without_inside(cut: CrossSection, axis: CutAxis, shell: Shell) -> CrossSection:
    if shell.layers == axis:
        return cut - cut.offset(-shell.walls_mm, JoinType.Miter)
    along_x = shell.skin_mm if shell.layers == "x" else shell.walls_mm
    along_v = shell.walls_mm if shell.layers == "x" else shell.skin_mm
    inside = cut
    for dx, dv in ((along_x, 0.0), (-along_x, 0.0), (0.0, along_v), (0.0, -along_v)):
        inside = inside ^ cut.translate((dx, dv))
    return cut - inside


def _piece(
    cut: CrossSection, shell: CrossSection, sign: float, *, ahead: tuple[int, float]
) -> ShellPiece:
    left, low, right, high = cut.bounds()
    area, first, second = _moments([np.array(one) for one in shell.to_polygons()])
    centre = first / area
    about = second - area * centre**2
    ends = sorted((sign * left, sign * right))
    return ShellPiece(
        low_mm=(ends[0], low),
        high_mm=(ends[1], high),
        area_mm2=area,
        centre_mm=(sign * float(centre[0]), float(centre[1])),
        about_x_mm4=float(about[1]),
        about_v_mm4=float(about[0]),
        ahead=ahead[0],
        reach_mm=ahead[1],
    )


def _moments(loops: list[Floats]) -> tuple[float, Floats, Floats]:
    """Return area, first and second moments (integrals of 1, of (x, v) and of their squares)."""
    area, first, second = 0.0, np.zeros(2), np.zeros(2)
    for loop in loops:
        a, b = loop, np.roll(loop, -1, axis=0)
        cross = a[:, 0] * b[:, 1] - b[:, 0] * a[:, 1]
        area += float(cross.sum()) / 2.0
        first += ((a + b) * cross[:, None]).sum(axis=0) / 6.0
        second += ((a * a + a * b + b * b) * cross[:, None]).sum(axis=0) / 12.0
    return area, first, second
