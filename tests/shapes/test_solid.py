"""Descriptions of solids: what is refused, keys, motions and boxes."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import ShapeError
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.shapes.extent import extent
from cleatwright.shapes.outline import circle, polygon, rectangle
from cleatwright.shapes.rigid import Axis, Rigid, shift, turn
from cleatwright.shapes.solid import (
    Intersection,
    Lettering,
    Loft,
    LoftChain,
    Revolved,
    Solid,
    Union,
    block,
    prism,
)

SQUARE = rectangle(0.0, 0.0, 4.0, 4.0)
AXES = st.sampled_from(("x", "y", "z"))
ANGLE = st.floats(-360.0, 360.0)


@pytest.mark.parametrize(
    "build",
    [
        lambda: prism(SQUARE, 0.0),
        lambda: prism(SQUARE, -1.0),
        lambda: prism(SQUARE, math.nan),
        lambda: prism(SQUARE, math.inf),
        lambda: prism(SQUARE, 2.0, top_chamfer_mm=-0.1),
        lambda: prism(SQUARE, 2.0, bottom_chamfer_mm=1.0, top_chamfer_mm=1.1),
        lambda: Revolved(rectangle(-1.0, 0.0, 2.0, 2.0)),
        lambda: Loft(SQUARE, polygon([(0.0, 0.0), (1.0, 0.0), (0.0, 1.0)]), 2.0),
        lambda: Loft(SQUARE, SQUARE, 0.0),
        lambda: LoftChain((SQUARE,), (0.0,)),
        lambda: LoftChain((SQUARE, SQUARE), (0.0,)),
        lambda: LoftChain((SQUARE, SQUARE, SQUARE), (0.0, 2.0, 2.0)),
        lambda: Lettering("  ", 5.0, 1.0),
        lambda: Lettering("A", 0.0, 1.0),
        lambda: Union(()),
        lambda: Intersection(()),
        lambda: block(0.0, 0.0, 0.0, 1.0, 1.0, 0.0),
        lambda: block(0.0, 0.0, 0.0, 1.0, 1.0, 1.0).moved(math.nan),
        lambda: Rigid(shift_mm=(math.inf, 0.0, 0.0)),
        lambda: Rigid(((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, -1.0))),
        lambda: Rigid(((2.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))),
        lambda: Rigid(((1.0, 0.0, 0.0), (0.1, 1.0, 0.0), (0.0, 0.0, 1.0))),
    ],
)
def test_numbers_that_are_no_solid_or_motion_are_refused(build: Callable[[], object]) -> None:
    with pytest.raises(ShapeError):
        build()


def test_equal_descriptions_have_equal_keys_and_a_change_anywhere_another_one() -> None:
    def made(radius: float = 2.0, text: str = "M6", degrees: float = 30.0) -> Solid:
        plate = prism(SQUARE, 3.0, holes=(circle(radius, at=(2.0, 2.0)),))
        return plate.turned("x", degrees) - Lettering(text, 2.0, 0.5)

    keys = {
        solid.content_key
        for solid in (made(), made(), made(radius=2.1), made(text="M8"), made(degrees=31.0))
    }
    assert len(keys) == 4
    a, b = made(), block(0.0, 0.0, 0.0, 1.0, 1.0, 1.0)
    assert len({(a | b).content_key, (b | a).content_key, (a - b).content_key}) == 3


@settings(deadline=None, max_examples=50)
@given(AXES, ANGLE, AXES, ANGLE)
def test_motions_compose_and_keep_lengths(a: Axis, alpha: float, b: Axis, beta: float) -> None:
    first, second = turn(a, alpha).then(shift(1.0, -2.0, 3.0)), turn(b, beta)
    point = (0.3, -4.0, 5.0)
    both = first.then(second)
    assert both.apply(point) == pytest.approx(second.apply(first.apply(point)), abs=1e-12)
    assert math.hypot(*both.direct(point)) == pytest.approx(math.hypot(*point), rel=1e-12)
    assert turn(a, alpha).then(turn(a, -alpha)).apply(point) == pytest.approx(point, abs=1e-12)


@pytest.mark.parametrize("degrees", [-1e-19, 0.0, 360.0, -360.0, 720.0])
def test_a_whole_turn_moves_nothing(degrees: float) -> None:
    assert turn("x", degrees) == Rigid()


@settings(deadline=None, max_examples=25)
@given(AXES, ANGLE)
def test_the_box_without_a_kernel_holds_the_body(axis: Axis, degrees: float) -> None:
    bar = Loft(SQUARE, SQUARE.turned(20.0), 6.0) | Revolved(rectangle(0.0, -2.0, 3.0, 5.0))
    solid = bar.turned(axis, degrees).moved(1.0, 2.0, 3.0)
    (low, high), (inner, outer) = extent(solid), MeshKernel().evaluate(solid).facts.bounds_mm
    assert all(a <= b + 1e-6 for a, b in zip(low, inner, strict=True))
    assert all(a >= b - 1e-6 for a, b in zip(high, outer, strict=True))


def test_the_box_of_each_kind_of_solid_is_that_of_its_corners() -> None:
    """The measures as they are written down, and the mesh of the same solid beside them."""
    plate = block(0.0, 0.0, 0.0, 30.0, 20.0, 10.0)
    bore = prism(circle(4.0), 40.0).moved(15.0, 10.0, -15.0)
    whole = ((0.0, 0.0, 0.0), (30.0, 20.0, 10.0))
    boxes: list[tuple[Solid, object]] = [
        (plate, whole),
        (plate - bore, whole),
        (plate | block(25.0, -5.0, 4.0, 45.0, 5.0, 6.0), ((0.0, -5.0, 0.0), (45.0, 20.0, 10.0))),
        (
            Loft(SQUARE, rectangle(1.0, -1.0, 3.0, 7.0), 6.0),
            ((0.0, -1.0, 0.0), (4.0, 7.0, 6.0)),
        ),
        (Revolved(rectangle(2.0, -1.0, 5.0, 3.0)), ((-5.0, -5.0, -1.0), (5.0, 5.0, 3.0))),
    ]
    for solid, box in boxes:
        assert extent(solid) == box, solid
        low, high = MeshKernel().evaluate(solid).facts.bounds_mm
        # the chords of a circle stay inside of it
        assert low == pytest.approx(extent(solid)[0], abs=0.05)
        assert high == pytest.approx(extent(solid)[1], abs=0.05)
    # of several that all must hold, the box of the first holds the rest
    both = Intersection((plate, block(10.0, 5.0, -5.0, 60.0, 15.0, 5.0)))
    assert extent(both) == whole


@pytest.mark.parametrize("degrees", [0.0, 90.0, 180.0, 270.0])
def test_the_box_is_exact_after_quarter_turns(degrees: float) -> None:
    solid = block(1.0, 2.0, 3.0, 4.0, 6.0, 8.0).turned("y", degrees)
    want = {
        0.0: ((1.0, 2.0, 3.0), (4.0, 6.0, 8.0)),
        90.0: ((3.0, 2.0, -4.0), (8.0, 6.0, -1.0)),
        180.0: ((-4.0, 2.0, -8.0), (-1.0, 6.0, -3.0)),
        270.0: ((-8.0, 2.0, 1.0), (-3.0, 6.0, 4.0)),
    }
    assert extent(solid) == want[degrees]
