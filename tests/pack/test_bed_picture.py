"""The picture of a bed: where things are in it, and what of it can be seen through.

Oracle: orthographic projection in closed form, from the direction in which the eye lies (any
textbook of descriptive geometry: right = up x eye, seen height = z cos e + y sin e for an eye
raised by e above the ground after a turn about z).
"""

from __future__ import annotations

import io
import math
from itertools import product

import numpy as np
import pytest
from PIL import Image

from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.pack.bed_picture import BED_PICTURE, HEIGHT_PX, WIDTH_PX, SeenBed
from cleatwright.papers.kit.picture import EYE, MARGIN_PX
from cleatwright.printing.meshfile import print_mesh
from cleatwright.printing.threemf import PlacedMesh
from cleatwright.shapes.solid import block, joined

BED, HIGH = (200.0, 160.0), 100.0


def box(x_mm: float, y_mm: float, *, size: tuple[float, float, float]) -> PlacedMesh:
    body = MeshKernel().evaluate(block(0.0, 0.0, 0.0, *size))
    mesh = print_mesh("box", "A", vertices=body.vertices_mm, triangles=body.triangles)
    return PlacedMesh(mesh, x_mm=x_mm, y_mm=y_mm)


def hook(x_mm: float, y_mm: float) -> PlacedMesh:
    """An L of two arms 40 mm long, 10 mm wide and 8 mm high, which lie on its corner."""
    solid = joined(block(0, 0, 0, 40, 10, 8), block(0, 0, 0, 10, 40, 8))
    body = MeshKernel().evaluate(solid)
    mesh = print_mesh("hook", "A", vertices=body.vertices_mm, triangles=body.triangles)
    return PlacedMesh(mesh, x_mm=x_mm, y_mm=y_mm)


def seen(points: list[tuple[float, float, float]]) -> list[tuple[float, float]]:
    """Return points to the right and up, in mm, for the eye before the near edge of the bed."""
    east, north, high = -EYE[0], -EYE[1], EYE[2]
    turn, raised = math.atan2(east, -north), math.atan2(high, math.hypot(east, north))
    found: list[tuple[float, float]] = []
    for x, y, z in points:
        right = x * math.cos(turn) + y * math.sin(turn)
        away = -x * math.sin(turn) + y * math.cos(turn)
        found.append((right, z * math.cos(raised) + away * math.sin(raised)))
    return found


def in_px(
    points: list[tuple[float, float, float]], *, high_mm: float = HIGH
) -> list[tuple[float, float]]:
    corners = list(product((0.0, BED[0]), (0.0, BED[1]), (0.0, high_mm)))
    room = np.array(seen(corners))
    low, high = room.min(axis=0), room.max(axis=0)
    size = np.array((WIDTH_PX, HEIGHT_PX))
    scale = float(np.min((size - 2 * MARGIN_PX) / (high - low)))
    middle = (low + high) / 2
    return [
        tuple((size / 2 + scale * (np.array(one) - middle) * (1, -1)).tolist())
        for one in seen(points)
    ]


def test_the_bed_and_the_tops_lie_where_projection_puts_them() -> None:
    bed = SeenBed(BED, HIGH, (box(20, 30, size=(60, 40, 100)), box(120, 90, size=(30, 30, 20))))
    width, depth = BED
    ground = [(0.0, 0.0, 0.0), (width, 0.0, 0.0), (width, depth, 0.0), (0.0, depth, 0.0)]
    tops = [(50.0, 50.0, 100.0), (135.0, 105.0, 20.0)]
    for found, wanted in ((bed.outline_px, in_px(ground)), (bed.tops_px, in_px(tops))):
        for one, other in zip(found, wanted, strict=True):
            assert one == pytest.approx(other, abs=0.06)
    # the near corner of the bed is lowest in the picture, and x runs to the right
    assert max(y for _, y in bed.outline_px) == bed.outline_px[1][1]
    assert bed.outline_px[0][0] < bed.outline_px[1][0]


def test_the_spot_on_a_hook_lies_on_the_hook() -> None:
    """The middle of its box, at (20, 20), and its centroid, at (13.6, 13.6), lie beside it."""
    ((x, y),) = SeenBed(BED, 8.0, (hook(30, 50),)).tops_px
    arms = (((30, 70), (50, 60)), ((30, 40), (50, 90)))
    lies = [
        (a, b)
        for a in np.arange(30.0, 71.0, 0.5)
        for b in np.arange(50.0, 91.0, 0.5)
        if any(xs[0] <= a <= xs[1] and ys[0] <= b <= ys[1] for xs, ys in arms)
    ]
    spots = np.array(in_px([(a, b, 8.0) for a, b in lies], high_mm=8.0))
    assert np.min(np.linalg.norm(spots - (x, y), axis=1)) < 1.5
    for beside in ((50.0, 70.0), (43.6, 63.6)):
        off = np.array(in_px([(*beside, 8.0)], high_mm=8.0)[0]) - (x, y)
        assert np.linalg.norm(off) > 1.5


def test_a_box_covers_just_its_projection_and_the_rest_is_clear() -> None:
    bed = SeenBed(BED, HIGH, (box(20, 30, size=(60, 40, 100)),))
    image = Image.open(io.BytesIO(Run(Store()).need(BED_PICTURE, bed)))
    corners = in_px(list(product((20.0, 80.0), (30.0, 70.0), (0.0, 100.0))))
    xs, ys = zip(*corners, strict=True)
    wanted = (min(xs), min(ys), max(xs), max(ys))
    assert image.convert("RGBA").getchannel("A").getbbox() == pytest.approx(wanted, abs=1.5)
    x, y = in_px([(50.0, 50.0, 100.0)])[0]
    assert image.convert("RGBA").getchannel("A").getpixel((round(x), round(y))) == 255


def test_the_same_bed_has_the_same_picture_and_another_place_another_key() -> None:
    one, other, moved = (
        SeenBed(BED, HIGH, (box(x, 30, size=(60, 40, 100)),)) for x in (20, 20, 21)
    )
    assert one.key == other.key != moved.key
    first, second = (Run(Store()).need(BED_PICTURE, bed) for bed in (one, other))
    assert first == second
