"""What walls and skins leave of a cut has the area and the second moments of a hollow rectangle.

Source: closed form, I = (b h3 - (b - 2 s) (h - 2 t)3) / 12.
"""

from __future__ import annotations

import pytest

from cleatwright.kernels.mesh import MeshKernel
from cleatwright.kernels.mesh.shell_cut import Axis, CutAxis, Shell, shell_pieces
from cleatwright.shapes.solid import Union, block

KERNEL = MeshKernel()


def hollow(b: float, h: float, s: float, t: float) -> tuple[float, float, float]:
    """Return area and second moments about the lines along b and along h."""
    within, high = b - 2 * s, h - 2 * t
    return (
        b * h - within * high,
        (b * h**3 - within * high**3) / 12,
        (h * b**3 - high * within**3) / 12,
    )


@pytest.mark.parametrize(
    ("axis", "layers", "thick"),
    [
        ("y", "y", (1.35, 1.35)),
        ("y", "z", (1.35, 0.9)),
        ("y", "x", (0.9, 1.35)),
        ("z", "y", (1.35, 0.9)),
        ("z", "z", (1.35, 1.35)),
        ("z", "x", (0.9, 1.35)),
    ],
)
def test_a_bar_is_a_hollow_rectangle(
    axis: CutAxis, layers: Axis, thick: tuple[float, float]
) -> None:
    size = {"y": (30.0, 40.0, 12.0), "z": (30.0, 12.0, 40.0)}[axis]
    body = KERNEL.evaluate(block(7.0, 3.0, -5.0, 7.0 + size[0], 3.0 + size[1], -5.0 + size[2]))
    (piece,) = shell_pieces(body, axis, 15.0, shell=Shell(layers, 1.35, 0.9))
    area, about_x, about_v = hollow(30.0, 12.0, *thick)
    assert piece.area_mm2 == pytest.approx(area)
    assert piece.about_x_mm4 == pytest.approx(about_x)
    assert piece.about_v_mm4 == pytest.approx(about_v)
    low = -5.0 if axis == "y" else 3.0
    assert piece.centre_mm == pytest.approx((22.0, low + 6.0))
    assert piece.low_mm == pytest.approx((7.0, low))
    assert (piece.fibre_x_mm, piece.fibre_v_mm) == pytest.approx((15.0, 6.0))


def test_what_is_thinner_than_two_walls_is_solid() -> None:
    body = KERNEL.evaluate(block(0.0, 0.0, 0.0, 30.0, 20.0, 2.6))
    (piece,) = shell_pieces(body, "y", 10.0, shell=Shell("y", 1.35, 0.9))
    assert piece.about_x_mm4 == pytest.approx(30.0 * 2.6**3 / 12)


def test_pieces_come_from_the_least_x_to_the_largest() -> None:
    bars = Union(tuple(block(x, 0.0, 0.0, x + 5.0, 20.0, 5.0) for x in (40.0, 0.0, 20.0)))
    found = shell_pieces(KERNEL.evaluate(bars), "y", 10.0, shell=Shell("y", 1.0, 1.0))
    assert [one.low_mm[0] for one in found] == pytest.approx([0.0, 20.0, 40.0])
