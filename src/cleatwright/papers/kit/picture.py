"""A picture of solids: seen from the front, the right and above, with dark edges.

A depth buffer decides what is seen; an edge is drawn where the depth or the direction of
the surface jumps from one point to its neighbour.
"""

from __future__ import annotations

import io
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from cleatwright.base.interrupts import defer_interrupts

if TYPE_CHECKING:
    from PIL import Image

Array = NDArray[np.float64]
Colour = tuple[int, int, int]

PART = (214, 186, 140)
TOOL = (150, 170, 190)
FITTING = (188, 128, 108)
PAPER = (255, 255, 255)
INK = (45, 48, 52)
# towards the eye, for a person in front of the wall: x of a holder runs to the left
EYE = (-0.52, 0.74, 0.43)
LIGHT = (-0.25, 0.65, 0.72)
FINE = 2
MARGIN_PX = 12
CREASE = math.cos(math.radians(28.0))
AMBIENT = 0.5


@dataclass(frozen=True)
class Seen:
    """A mesh to be drawn.

    Args:
        vertices_mm: Corners, shape (n, 3).
        triangles: Indices of corners, shape (m, 3), counter-clockwise from outside.
        colour: Red, green and blue, 0 to 255.
    """

    vertices_mm: Array
    triangles: NDArray[np.integer]
    colour: Colour = PART


@dataclass(frozen=True)
class PictureWindow:
    """What of the space a picture shows.

    Args:
        room_mm: A mesh, or any points, that shall fit into it, shape (n, 3).
        width_px: Width of the picture.
        height_px: Height of the picture.
    """

    room_mm: Array
    width_px: int = 560
    height_px: int = 420

    def spots_px(self, points_mm: Array) -> Array:
        """Return where points are in the picture, to the right and down, shape (n, 2)."""
        scale, shift = self.fit(fine=1)
        spots = _flat(points_mm) * scale + shift
        return np.column_stack((spots[:, 0], self.height_px - spots[:, 1]))

    def fit(self, *, fine: int = FINE) -> tuple[float, Array]:
        """Return how many points a mm is, and how far all is shifted to the right and up."""
        flat, size = _flat(self.room_mm), np.array((self.width_px, self.height_px)) * fine
        low, high = flat.min(axis=0), flat.max(axis=0)
        room = size - 2 * MARGIN_PX * fine
        scale = float(np.min(room / np.maximum(high - low, 1e-9)))
        return scale, (size - scale * (high - low)) / 2 - scale * low


def picture_png(shown: Sequence[Seen], *, width_px: int = 560, height_px: int = 420) -> bytes:
    """Return a PNG picture of the meshes, as large as fits.

    Args:
        shown: One or more meshes in one frame.
        width_px: Width of the picture.
        height_px: Height of the picture.
    """
    room = np.concatenate([one.vertices_mm for one in shown])
    picture, _ = _picture(shown, PictureWindow(room, width_px, height_px))
    return _encoded(picture, (width_px, height_px))


def clear_png(shown: Sequence[Seen], window: PictureWindow) -> bytes:
    """Return a PNG picture in which whatever no mesh covers can be seen through.

    Args:
        shown: One or more meshes in one frame.
        window: What of it is seen; meshes must lie within.
    """
    picture, there = _picture(shown, window)
    colours = np.clip(picture, 0, 255).astype(np.uint8)
    alpha = np.where(there, 255, 0).astype(np.uint8)
    # resizing weighs colours by how much they cover, so that no paper shows at the edges
    image = _resized(
        np.dstack((colours, alpha))[::-1], (window.width_px, window.height_px), mode="RGBA"
    )
    return _png(image)


def _picture(shown: Sequence[Seen], window: PictureWindow) -> tuple[Array, NDArray[np.bool_]]:
    """Return the picture, finer than it shall be, and which of its points a mesh covers."""
    _, _, eye = _camera()
    size = (window.width_px * FINE, window.height_px * FINE)
    scale, shift = window.fit()
    depth = np.full((size[1], size[0]), -np.inf)
    normals = np.zeros((size[1], size[0], 3))
    colours = np.zeros((size[1], size[0], 3))
    for one in shown:
        pixels = _flat(one.vertices_mm) * scale + shift
        _draw(one, pixels, one.vertices_mm @ eye, (depth, normals, colours))
    return _inked(depth, normals, colours, jump_mm=6.0 / scale), np.isfinite(depth)


def _flat(points_mm: Array) -> Array:
    right, up, _ = _camera()
    return np.column_stack((points_mm @ right, points_mm @ up))


def _camera() -> tuple[Array, Array, Array]:
    eye = np.array(EYE) / np.linalg.norm(EYE)
    right = np.cross((0.0, 0.0, 1.0), eye)
    right /= np.linalg.norm(right)
    return right, np.cross(eye, right), eye


def _draw(one: Seen, pixels: Array, away: Array, buffers: tuple[Array, Array, Array]) -> None:
    """Draw each triangle that looks to the eye where it is nearer than what is there."""
    depth, normals, colours = buffers
    corners = one.vertices_mm[one.triangles]
    facing = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    lengths = np.linalg.norm(facing, axis=1)
    facing /= np.maximum(lengths, 1e-12)[:, None]
    seen = (facing @ (np.array(EYE) / np.linalg.norm(EYE)) > 0.0) & (lengths > 0.0)
    for k in np.flatnonzero(seen):
        index = one.triangles[k]
        ax, ay, bx, by, cx, cy = (float(v) for v in pixels[index].ravel())
        x0, x1 = math.floor(min(ax, bx, cx)), math.ceil(max(ax, bx, cx)) + 1
        y0, y1 = math.floor(min(ay, by, cy)), math.ceil(max(ay, by, cy)) + 1
        area = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
        if abs(area) < 1e-9:
            continue
        x = np.arange(x0, x1, dtype=np.float64) + 0.5
        y = np.arange(y0, y1, dtype=np.float64)[:, None] + 0.5
        second: Array = ((x - ax) * (cy - ay) - (y - ay) * (cx - ax)) / area
        third: Array = ((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / area
        first = 1.0 - second - third
        z0, z1, z2 = (float(v) for v in away[index])
        height = first * z0 + second * z1 + third * z2
        window = (slice(y0, y1), slice(x0, x1))
        nearer = (first >= 0) & (second >= 0) & (third >= 0) & (height > depth[window])
        depth[window][nearer] = height[nearer]
        normals[window][nearer] = facing[k]
        colours[window][nearer] = one.colour


def _inked(depth: Array, normals: Array, colours: Array, *, jump_mm: float) -> Array:
    """Return the shaded picture with its edges in ink."""
    light = np.array(LIGHT) / np.linalg.norm(LIGHT)
    shade = AMBIENT + (1.0 - AMBIENT) * np.clip(normals @ light, 0.0, 1.0)
    there = np.isfinite(depth)
    picture = np.where(there[..., None], colours * shade[..., None], PAPER)
    edge = np.zeros(depth.shape, dtype=bool)
    filled = np.where(there, depth, -1e9)
    for axis in (0, 1):
        one = [slice(None), slice(None)]
        other = [slice(None), slice(None)]
        one[axis], other[axis] = slice(None, -1), slice(1, None)
        a, b = tuple(one), tuple(other)
        slope = np.maximum(np.abs(normals[a] @ np.array(EYE)), 0.2)
        jumps = np.abs(filled[a] - filled[b]) > jump_mm / slope
        creases = (np.sum(normals[a] * normals[b], axis=-1) < CREASE) & there[a] & there[b]
        edge[a] |= jumps | creases
    picture[edge] = INK
    return picture


def _encoded(picture: Array, size: tuple[int, int]) -> bytes:
    # row 0 is at the bottom, as z runs up
    pixels = np.clip(picture[::-1], 0, 255).astype(np.uint8)
    return _png(_resized(pixels, size, mode="RGB").quantize(64))


def _resized(pixels: NDArray[np.uint8], size: tuple[int, int], *, mode: str) -> Image.Image:
    """Return pixels, which stand closer than they are shown, as a picture of a size."""
    with defer_interrupts():
        from PIL import Image  # noqa: PLC0415 - loads on use
    return Image.fromarray(pixels, mode).resize(size, Image.Resampling.BOX)


def _png(image: Image.Image) -> bytes:
    buffer = io.BytesIO()
    image.save(buffer, "PNG", optimize=True)
    return buffer.getvalue()
