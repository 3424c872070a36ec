"""What walls and skins leave of a cut through a printed body; the inside counts for nothing."""

# the library's stubs leave the element types of its arrays open
# pyright: reportUnknownMemberType=false, reportUnknownVariableType=false
# pyright: reportUnknownArgumentType=false

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal, TypeVar

import numpy as np
from manifold3d import CrossSection, JoinType, Manifold

from cleatwright.kernels.mesh.body import Floats, MeshBody, transformed
from cleatwright.shapes.rigid import Rigid

Axis = Literal["x", "y", "z"]
CutAxis = Axis
# rows that lay the plane of a cut onto xy, and what the first coordinate there is of x, or of z
LAID: dict[CutAxis, tuple[Rigid, float]] = {
    "x": (Rigid(((0.0, 0.0, -1.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))), -1.0),
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
class Ahead:
    """What a cut leaves of a body further along its axis, one connected piece.

    Args:
        number: Which of them; pieces of a cut with the same one meet there.
        reach_mm: How far along the axis it reaches.
        low_v_mm: Least v of it.
        high_v_mm: Largest v.
        turning_mm4: Its volume times how far its middle lies from the cut.
    """

    number: int
    reach_mm: float
    low_v_mm: float
    high_v_mm: float
    turning_mm4: float


@dataclass(frozen=True)
class ShellPiece:
    """One piece of a cut, in x and in v: z of a cut across y, and y of a cut across z.

    A cut across x lies in z and in v = y; what is said of x here is of z there.

    Args:
        low_mm: Least x and v of the piece.
        high_mm: Largest x and v.
        area_mm2: Area of its walls and skins.
        centre_mm: Centre of that area.
        about_x_mm4: Second moment of that area about the line along x through the centre.
        about_v_mm4: The same about the line along v.
    """

    low_mm: tuple[float, float]
    high_mm: tuple[float, float]
    area_mm2: float
    centre_mm: tuple[float, float]
    about_x_mm4: float
    about_v_mm4: float

    @property
    def fibre_v_mm(self) -> float:
        """Return how far the outermost fibre lies from the line along x through the centre."""
        return max(self.high_mm[1] - self.centre_mm[1], self.centre_mm[1] - self.low_mm[1])

    @property
    def fibre_x_mm(self) -> float:
        """Return the same for the line along v."""
        return max(self.high_mm[0] - self.centre_mm[0], self.centre_mm[0] - self.low_mm[0])


@dataclass(frozen=True)
class ArmPiece(ShellPiece):
    """One piece of a cut, and what lies ahead of it along the axis."""

    ahead: Ahead


def shell_pieces(
    body: MeshBody, axis: CutAxis, at_mm: float, *, shell: Shell, most_v_mm: float = math.inf
) -> tuple[ShellPiece, ...]:
    """Return the pieces of a cut across an axis, from the least x to the largest.

    Args:
        body: The body in the frame of its holder.
        axis: The axis across which the plane lies.
        at_mm: Where it lies along that axis.
        shell: What is closed.
        most_v_mm: What lies further along v is left out.
    """
    laid, sign = LAID[axis]
    cut = transformed(body.manifold, laid).slice(at_mm)
    if most_v_mm < math.inf and not cut.is_empty():
        left, low, right, _ = cut.bounds()
        cut ^= CrossSection.square((right - left, most_v_mm - low)).translate((left, low))
    return _sorted(pieces_of(cut, axis, shell, sign))


def arm_pieces(body: MeshBody, at_mm: float, *, shell: Shell) -> tuple[ArmPiece, ...]:
    """Return the pieces of a cut across y with what lies ahead of each, from the least x.

    Args:
        body: The body in the frame of its holder.
        at_mm: Where the plane lies along y.
        shell: What is closed.
    """
    laid, sign = LAID["y"]
    bodies = transformed(body.manifold, laid).trim_by_plane((0.0, 0.0, 1.0), at_mm - _JUST_MM)
    found: list[ArmPiece] = []
    for number, one in enumerate(bodies.decompose()):
        pieces = tuple(pieces_of(one.slice(at_mm), "y", shell, sign))
        if pieces:
            ahead = _ahead(one, number, at_mm)
            found += [ArmPiece(**vars(piece), ahead=ahead) for piece in pieces]
    return _sorted(found)


_P = TypeVar("_P", bound=ShellPiece)


def _sorted(pieces: Iterable[_P]) -> tuple[_P, ...]:
    return tuple(sorted(pieces, key=lambda one: one.low_mm))


def pieces_of(cut: CrossSection, axis: CutAxis, shell: Shell, sign: float) -> Iterator[ShellPiece]:
    """Yield the pieces of a cut that is laid onto xy, the first coordinate times ``sign``."""
    for one in cut.simplify(_SIMPLER_MM).decompose():
        if one.area() > _SIMPLER_MM:
            yield _piece(one, _without_inside(one, axis, shell), sign)


def _ahead(body: Manifold, number: int, at_mm: float) -> Ahead:
    """Return what lies ahead, its first moment from tetrahedra about the origin."""
    _, low_v, _, _, high_v, reach = body.bounding_box()
    mesh = body.to_mesh64()
    corners = np.asarray(mesh.vert_properties)[:, :3][np.asarray(mesh.tri_verts)]
    (ax, bx, cx), (ay, by, cy), (az, bz, cz) = corners.transpose(2, 1, 0)
    six = ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)
    turning = float((six * (az + bz + cz - 4.0 * at_mm)).sum()) / 24.0
    return Ahead(number, reach, low_v, high_v, turning)


def _without_inside(cut: CrossSection, axis: CutAxis, shell: Shell) -> CrossSection:
    if shell.layers == axis:
        return cut - cut.offset(-shell.walls_mm, JoinType.Miter)
    first: Axis = "z" if axis == "x" else "x"
    along_x = shell.skin_mm if shell.layers == first else shell.walls_mm
    along_v = shell.walls_mm if shell.layers == first else shell.skin_mm
    inside = cut
    for dx, dv in ((along_x, 0.0), (-along_x, 0.0), (0.0, along_v), (0.0, -along_v)):
        inside = inside ^ cut.translate((dx, dv))
    return cut - inside


def _piece(cut: CrossSection, shell: CrossSection, sign: float) -> ShellPiece:
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
    )


def _moments(loops: list[Floats]) -> tuple[float, Floats, Floats]:
    """Return area, first and second moments (integrals of 1, of (x, v) and of their squares)."""
    area, first, second = 0.0, np.zeros(2), np.zeros(2)
    for loop in loops:
        a, b = loop, np.concatenate((loop[1:], loop[:1]))
        cross = a[:, 0] * b[:, 1] - b[:, 0] * a[:, 1]
        area += float(cross.sum()) / 2.0
        first += ((a + b) * cross[:, None]).sum(axis=0) / 6.0
        second += ((a * a + a * b + b * b) * cross[:, None]).sum(axis=0) / 12.0
    return area, first, second
