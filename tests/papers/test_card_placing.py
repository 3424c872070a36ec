"""However many measures meet, their letters keep apart; every view finds its place."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.papers.cards.drawing import drawing
from cleatwright.papers.cards.lines import RADIUS
from cleatwright.papers.cards.placing import placed
from cleatwright.papers.cards.view import CardDimension, CardFace, FaceName, Ring
from cleatwright.papers.elevation.view import letter

WIDE, HIGH = 100.0, 200.0
BOX: Ring = ((0.0, 0.0), (WIDE, 0.0), (WIDE, HIGH), (0.0, HIGH))
share = st.floats(0.0, 1.0)


def face(dimensions: list[CardDimension], name: FaceName = "front") -> CardFace:
    return CardFace(name, (BOX,), (BOX,), tuple(dimensions))


@settings(deadline=None, max_examples=60)
@given(
    st.lists(st.tuples(share, share, share), max_size=10),
    st.lists(st.tuples(share, share, share), max_size=10),
    st.floats(0.1, 2.0),
)
def test_letters_keep_apart_however_many_measures_meet(
    upright: list[tuple[float, float, float]],
    lying: list[tuple[float, float, float]],
    scale: float,
) -> None:
    """Up to twenty measures anywhere on a plate, down to nothing long, get free circles."""
    ends = [((a * WIDE, b * HIGH), (a * WIDE, c * HIGH + 0.5)) for a, b, c in upright]
    ends += [((b * WIDE, a * HIGH), (c * WIDE + 0.5, a * HIGH)) for a, b, c in lying]
    shown = placed(face([CardDimension(letter(k), *e) for k, e in enumerate(ends)]), scale)
    centres = [one.centre for one in shown.drawn]
    assert len(centres) == len(ends)
    for one, other in itertools.combinations(centres, 2):
        assert math.dist(one, other) > 2 * RADIUS
    lengths = {letter(k): math.dist(*e) * scale for k, e in enumerate(ends)}
    for one in shown.drawn:
        assert math.dist(one.start, one.end) == pytest.approx(lengths[one.letter], abs=1e-9)
        for x, y in (one.start, one.end, one.centre):
            assert -1e-9 <= x <= shown.size[0] + 1e-9
            assert -1e-9 <= y <= shown.size[1] + 1e-9


def test_a_slanted_measure_is_drawn_where_it_lies() -> None:
    """A line that is neither along nor across keeps both its ends on the tool."""
    shown = placed(face([CardDimension("A", (20.0, 30.0), (80.0, 110.0))]), 0.5)
    (one,) = shown.drawn
    # the 3-4-5 triangle, twenty times
    assert math.dist(one.start, one.end) == pytest.approx(50.0)
    x, y = shown.body
    assert sorted((one.start, one.end)) == [
        pytest.approx((x + 10.0, y + 85.0)),
        pytest.approx((x + 40.0, y + 45.0)),
    ]


def test_views_stand_as_in_first_angle_projection() -> None:
    """From the left stands at the right of the front, from above below it.

    Source: ISO 5456-2:1996, first angle projection (from memory).
    """
    faces = [
        face([CardDimension("A", (0.0, 0.0), (0.0, HIGH))]),
        face([CardDimension("B", (0.0, 0.0), (WIDE, 0.0))], "side"),
        face([CardDimension("C", (0.0, 0.0), (WIDE, 0.0))], "above"),
    ]
    shown = {view.face.face.name: view for view in drawing(faces, width=186, height=120).views}
    front, side, above = (shown[name] for name in ("front", "side", "above"))
    tops = [view.at[1] + view.face.body[1] for view in (front, side)]
    lefts = [view.at[0] + view.face.body[0] for view in (front, above)]
    assert tops[0] == pytest.approx(tops[1])
    assert lefts[0] == pytest.approx(lefts[1])
    assert side.at[0] > front.at[0] + front.face.size[0]
    assert above.at[1] > front.at[1] + front.face.size[1]
