"""Pictures against closed forms: the area that a solid covers, and what hides what."""

from __future__ import annotations

import io

import numpy as np
import pytest
from PIL import Image

from cleatwright.kernels.mesh import MeshKernel
from cleatwright.papers.kit.picture import EYE, PAPER, Seen, picture_png
from cleatwright.shapes.outline import circle
from cleatwright.shapes.solid import Solid, block, prism

KERNEL = MeshKernel()
WIDTH, HEIGHT = 600, 450


def seen(solid: Solid, colour: tuple[int, int, int] = (200, 100, 50)) -> Seen:
    body = KERNEL.evaluate(solid)
    return Seen(body.vertices_mm, body.triangles, colour)


def pixels(*shown: Seen) -> np.ndarray:
    data = picture_png(shown, width_px=WIDTH, height_px=HEIGHT)
    return np.asarray(Image.open(io.BytesIO(data)).convert("RGB")).astype(int)


def covered(picture: np.ndarray) -> float:
    return float((np.abs(picture - PAPER).sum(axis=-1) > 40).sum())


def test_a_box_and_a_cube_cover_the_sum_of_their_projected_faces() -> None:
    """The shadow of a box along e is the sum of |e_k| times the face across axis k."""
    e = np.abs(np.array(EYE)) / np.linalg.norm(EYE)
    ratios = []
    for size in ((60.0, 60.0, 60.0), (30.0, 70.0, 45.0)):
        a, b, c = size
        shadow = e[0] * b * c + e[1] * a * c + e[2] * a * b
        picture = pixels(seen(block(0, 0, 0, *size)))
        drawn = np.abs(picture - PAPER).sum(axis=-1) > 40
        # the scale follows from the height of the drawing: |up . d| of the diagonal corners
        rows = np.flatnonzero(drawn.any(axis=1))
        flat = np.hypot(e[0], e[1])
        tall = c * flat + (a * e[0] + b * e[1]) / flat * e[2]
        scale = (rows[-1] - rows[0] + 1) / tall
        ratios.append(drawn.sum() / (shadow * scale**2))
    assert ratios == pytest.approx([1.0, 1.0], abs=0.02)


def test_the_nearer_solid_hides_the_farther_one() -> None:
    front = seen(block(-20, 30, -20, 20, 32, 20), (250, 0, 0))
    behind = seen(block(-10, 27, -10, 10, 29, 10), (0, 0, 250))
    both = pixels(front, behind)
    blue = (both[..., 2] > 120) & (both[..., 0] < 60)
    assert blue.sum() < 0.02 * covered(both)


def test_edges_are_dark_and_the_same_input_gives_the_same_bytes() -> None:
    cylinder = seen(prism(circle(40.0), 60.0))
    picture = pixels(cylinder)
    assert (picture.sum(axis=-1) < 200).sum() > 300
    assert picture_png([cylinder]) == picture_png([cylinder])
