"""A picture of what lies on a bed as it will print, from the same view for all beds."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from itertools import product

import numpy as np
from numpy.typing import NDArray

from cleatwright.base.keys import content_key
from cleatwright.base.stages.codec import BytesCodec
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.pack.production import PlannedBatch
from cleatwright.papers.kit.picture import PictureWindow, Seen, clear_png
from cleatwright.printing.threemf import PlacedMesh

Array = NDArray[np.float64]
Spot = tuple[float, float]
WIDTH_PX, HEIGHT_PX = 440, 360
COLOUR = (206, 216, 222)
GRID_MM = 50.0
TOP_MM = 0.01


@dataclass(frozen=True)
class SeenBed:
    """What is seen of a bed.

    Args:
        bed_mm: Width and depth of the bed.
        high_mm: How high the picture reaches: that of the highest part on any bed.
        items: What lies on it.
    """

    bed_mm: tuple[float, float]
    high_mm: float
    items: tuple[PlacedMesh, ...]

    @cached_property
    def key(self) -> str:
        """The content key of all that is seen."""
        placed = [
            (one.mesh.shape_key, one.x_mm, one.y_mm, one.z_mm, one.turn_deg) for one in self.items
        ]
        return content_key((self.bed_mm, self.high_mm, tuple(placed)))

    @property
    def window(self) -> PictureWindow:
        """Return what of the space the picture shows; one for all beds of a printer."""
        (x, y), z = self.bed_mm, self.high_mm
        corners = np.array(list(product((0.0, x), (0.0, y), (0.0, z))))
        return PictureWindow(_faced(corners), WIDTH_PX, HEIGHT_PX)

    @property
    def outline_px(self) -> tuple[Spot, ...]:
        """Return the corners of the bed in the picture."""
        x, y = self.bed_mm
        return self._spots([(0.0, 0.0, 0.0), (x, 0.0, 0.0), (x, y, 0.0), (0.0, y, 0.0)])

    @property
    def grid_px(self) -> tuple[tuple[Spot, Spot], ...]:
        """Return lines on the bed in the picture, one every ``GRID_MM``."""
        x, y = self.bed_mm
        across = [((at, 0.0, 0.0), (at, y, 0.0)) for at in np.arange(GRID_MM, x, GRID_MM)]
        along = [((0.0, at, 0.0), (x, at, 0.0)) for at in np.arange(GRID_MM, y, GRID_MM)]
        spots = self._spots([point for line in (*across, *along) for point in line])
        return tuple(zip(spots[::2], spots[1::2], strict=True))

    @property
    def tops_px(self) -> tuple[Spot, ...]:
        """Return for each item the place in the picture of a spot on its top, near its middle."""
        return self._spots([_top_spot(_placed(item), item.mesh.triangles) for item in self.items])

    def _spots(self, points: list[tuple[float, float, float]]) -> tuple[Spot, ...]:
        if not points:
            return ()
        spots = self.window.spots_px(_faced(np.array(points)))
        return tuple((round(x, 1), round(y, 1)) for x, y in spots.tolist())


def seen_beds(
    batches: tuple[PlannedBatch, ...], bed_mm: tuple[float, float]
) -> tuple[SeenBed, ...]:
    """Return what is seen of each batch, all from the same place."""
    high = max((_top_mm(item) for batch in batches for item in batch.items), default=0.0)
    return tuple(SeenBed(bed_mm, high, batch.items) for batch in batches)


def _top_mm(item: PlacedMesh) -> float:
    return item.mesh.size_mm[2] + item.z_mm


def _placed(item: PlacedMesh) -> Array:
    rows, shift = item.motion
    return item.mesh.vertices @ np.array(rows).T + np.array(shift)


def _top_spot(corners_mm: Array, triangles: NDArray[np.integer]) -> tuple[float, float, float]:
    """Return the middle of the topmost face of a part, or what of a frame or hook is next to it."""
    faces = corners_mm[triangles]
    top = float(corners_mm[:, 2].max())
    on_top = faces[faces[:, :, 2].min(axis=1) >= top - TOP_MM]
    on_top = on_top[_twice_mm2(on_top) != 0.0]
    if not len(on_top):
        x, y, _ = corners_mm[np.argmax(corners_mm[:, 2])].tolist()
        return x, y, top
    middles = on_top.mean(axis=1)
    first, second = (on_top[:, n, :2] - on_top[:, 0, :2] for n in (1, 2))
    twice_mm2 = _twice_mm2(on_top)
    middle = np.average(middles, axis=0, weights=np.abs(twice_mm2))[:2]
    # how far along its two sides it lies, as shares; a triangle holds it where neither is negative
    to = middle - on_top[:, 0, :2]
    one, other = _cross(to, second) / twice_mm2, _cross(first, to) / twice_mm2
    if not np.any((one >= 0.0) & (other >= 0.0) & (one + other <= 1.0)):
        middle = middles[np.argmin(np.linalg.norm(middles[:, :2] - middle, axis=1)), :2]
    x, y = middle.tolist()
    return x, y, top


def _twice_mm2(faces: Array) -> Array:
    """Return twice the area of triangles as seen from above, negative where they face down."""
    return _cross(faces[:, 1, :2] - faces[:, 0, :2], faces[:, 2, :2] - faces[:, 0, :2])


def _cross(one: Array, other: Array) -> Array:
    return one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0]


def _faced(points_mm: Array) -> Array:
    """Return points of the bed as the picture takes them: its near edge lies in front."""
    return points_mm * np.array((-1.0, -1.0, 1.0))


def _picture(_: Run, bed: SeenBed) -> bytes:
    shown = [Seen(_faced(_placed(item)), item.mesh.triangles, colour=COLOUR) for item in bed.items]
    return clear_png(shown, bed.window)


def _key(bed: SeenBed) -> str:
    return bed.key


BED_PICTURE = Stage("picture of a bed", _picture, _key, size=len, codec=BytesCodec())
"""From what lies on a bed to a picture of it as PNG, clear where nothing lies."""
