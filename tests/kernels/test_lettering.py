"""Lettering against the shoelace sum of its own polygons, in both kernels."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

import pytest

from cleatwright.base.errors import ShapeError
from cleatwright.kernels.exact import ExactKernel
from cleatwright.kernels.lettering import letter_lines
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.shapes.outline import Point, rectangle
from cleatwright.shapes.solid import Lettering, prism


def _moments(loop: Sequence[Point]) -> tuple[float, float, float]:
    following = [*loop[1:], loop[0]]
    area = mx = my = 0.0
    for (x0, y0), (x1, y1) in zip(loop, following, strict=True):
        cross = x0 * y1 - x1 * y0
        area += cross / 2
        mx += (x0 + x1) * cross / 6
        my += (y0 + y1) * cross / 6
    return area, mx, my


@pytest.mark.parametrize(
    ("text", "bodies", "holes"),
    [
        # counted by eye: B and 8 have two holes each, the slash cuts that of Ø in two
        ("BØ 8", 3, 6),
        ("i%", 5, 2),
        ("12×30", 5, 1),
    ],
)
def test_letters_have_the_area_of_their_polygons(
    agrees: Callable[..., None], expect: Callable[..., object], text: str, bodies: int, holes: int
) -> None:
    """The font runs its outer loops clockwise, so that the signed areas of all loops add up."""
    depth = 0.8
    loops = letter_lines(text, 6.0)
    area, mx, my = (
        -sum(column) for column in zip(*(_moments(loop) for loop in loops), strict=True)
    )
    around = sum(
        math.dist(p, q) for loop in loops for p, q in zip(loop, (*loop[1:], loop[0]), strict=True)
    )
    xs = [x for loop in loops for x, _ in loop]
    ys = [y for loop in loops for _, y in loop]
    want = expect(
        volume=area * depth,
        area=2.0 * area + around * depth,
        centroid=(mx / area, my / area, depth / 2),
        bounds=((min(xs), min(ys), 0.0), (max(xs), max(ys), depth)),
        bodies=bodies,
        genus=holes,
    )
    agrees(Lettering(text, 6.0, depth), want)


def test_engraving_takes_the_letters_out_of_a_plate(exact: ExactKernel, mesh: MeshKernel) -> None:
    text = Lettering("M8", 5.0, 1.0)
    plate = prism(rectangle(-2.0, -2.0, 20.0, 7.0), 3.0)
    for kernel in (exact, mesh):
        ink = kernel.evaluate(text).facts.volume_mm3 * 0.6
        facts = kernel.evaluate(plate - text.moved(dz=2.4)).facts
        assert facts.volume_mm3 == pytest.approx(22.0 * 9.0 * 3.0 - ink, rel=1e-9)
        assert (facts.genus, facts.bodies) == (0, 1)


def test_capitals_are_as_high_as_asked_and_stand_on_the_base_line() -> None:
    ys = [y for loop in letter_lines("HIE", 7.0) for _, y in loop]
    assert (min(ys), max(ys)) == (0.0, pytest.approx(7.0))


def test_a_sign_outside_the_font_is_refused() -> None:
    with pytest.raises(ShapeError, match="no 漢"):
        letter_lines("漢", 5.0)


def test_the_sign_of_a_diameter_has_its_round_and_its_slash() -> None:
    """ISO 129-1 puts the diameter sign before the number: a circle with a slash through it."""
    plain = letter_lines("⌀", 10.0)
    assert sum(_moments(loop)[0] > 0.0 for loop in plain) == 2
