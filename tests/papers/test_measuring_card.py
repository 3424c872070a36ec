"""A measuring card shows each measure once, at its own length, and every letter can be read."""

from __future__ import annotations

import functools
import itertools
import math
import random

import lxml.etree
import numpy as np
import pytest

from cleatwright.base.errors import MeasureError
from cleatwright.jobs.measuring import SEEN, full_example, measuring_card
from cleatwright.papers.cards.card import WIDTH, card_svg
from cleatwright.papers.cards.drawing import Drawing, drawing
from cleatwright.papers.cards.lines import RADIUS, Drawn
from cleatwright.papers.cards.view import CardView
from cleatwright.shapes.rigid import Vector
from cleatwright.tools.registry import KINDS, kind, ordinary_outline, tool_body

CASES = 6
Segment = tuple[tuple[float, float], tuple[float, float]]


@functools.cache
def cards(name: str) -> tuple[CardView, ...]:
    """Return the card of the ordinary tool and those of tools with measures drawn at random."""
    numbers = random.Random(11)  # noqa: S311 - a repeatable draw, no secret
    chosen, found = kind(name), [measuring_card(name)]
    example = dict(chosen.example)
    for _ in range(CASES):
        measures = {
            row.name: example.get(row.name, row.low_mm) * numbers.uniform(0.4, 2.5)
            for row in chosen.card
            if row.needed or numbers.random() < 0.5
        }
        try:
            found.append(measuring_card(name, measures, outline=ordinary_outline(name)))
        except MeasureError:
            continue
    return tuple(found)


@functools.cache
def laid_out(view: CardView) -> Drawing:
    """Return the drawing of a card as it is placed on paper."""
    return drawing(view.faces, width=WIDTH, height=82.0)


def lines_of(one: Drawn) -> list[Segment]:
    """Return every line of a dimension but its circle."""
    leader = list(itertools.pairwise(one.leader))
    return [(one.start, one.end), *one.extensions, *leader]


def distance(point: tuple[float, float], line: Segment) -> float:
    """Return the distance between a point and a segment, by elementary vector geometry."""
    (x, y), ((x0, y0), (x1, y1)) = point, line
    dx, dy = x1 - x0, y1 - y0
    length = dx * dx + dy * dy
    t = 0.0 if length == 0.0 else min(1.0, max(0.0, ((x - x0) * dx + (y - y0) * dy) / length))
    return math.hypot(x - x0 - t * dx, y - y0 - t * dy)


@pytest.mark.parametrize("name", sorted(KINDS))
def test_each_needed_measure_has_its_letter_exactly_once(name: str) -> None:
    """The letters of the legend run on, and the drawing has each that is needed, once."""
    view = measuring_card(name)
    assert [row.name for row in view.rows] == [row.name for row in kind(name).card]
    assert len({row.letter for row in view.rows}) == len(view.rows)
    drawn = [one.letter for face in view.faces for one in face.dimensions]
    assert len(drawn) == len(set(drawn))
    if view.faces:
        needed = [
            row.letter for row, told in zip(view.rows, kind(name).card, strict=True) if told.needed
        ]
        assert set(needed) <= set(drawn)
    svg = lxml.etree.fromstring(card_svg(view))
    letters = svg.xpath('//*[local-name()="text"][@class="letter"]/text()')
    assert sorted(letters) == sorted(drawn)


@pytest.mark.parametrize("name", sorted(KINDS))
def test_no_letter_lies_on_another_or_on_a_line_of_another(name: str) -> None:
    """The circles of the letters keep apart, and no line of another dimension crosses one."""
    for view in cards(name):
        for shown in laid_out(view).views:
            drawn = shown.face.drawn
            for one, other in itertools.combinations(drawn, 2):
                assert math.dist(one.centre, other.centre) > 2 * RADIUS, (one.letter, other.letter)
            for one, other in itertools.permutations(drawn, 2):
                gap = min(distance(one.centre, line) for line in lines_of(other))
                assert gap >= RADIUS, (one.letter, other.letter, gap)


@pytest.mark.parametrize("name", sorted(KINDS))
def test_views_keep_apart_and_the_drawing_stays_on_the_card(name: str) -> None:
    """No view reaches into another, and all of them into the space for the drawing."""
    for view in cards(name):
        shown = laid_out(view)
        assert shown.size[0] <= WIDTH
        assert shown.size[1] <= 82.0
        for one, other in itertools.combinations(shown.views, 2):
            beside = one.at[0] + one.face.size[0] <= other.at[0]
            above = one.at[1] + one.face.size[1] <= other.at[1]
            assert beside or above


@pytest.mark.parametrize("name", sorted(KINDS))
def test_each_dimension_line_is_as_long_as_its_measure_at_the_scale(name: str) -> None:
    """The length between the arrow points on paper is the measure times the scale."""
    example = dict(kind(name).example)
    view = measuring_card(name, example, outline=ordinary_outline(name))
    scale = laid_out(view).scale
    svg = lxml.etree.fromstring(card_svg(view))
    letters = {row.name: row.letter for row in view.rows}
    for measure, value in example.items():
        found = svg.xpath(f'//*[@class="dimension {letters[measure]}"]/@points')
        assert len(found) == (value > 0.0)
        for points in found:
            ends = [tuple(map(float, point.split(","))) for point in points.split()]
            # the file has two decimals of a millimetre
            assert math.dist(*ends) / scale == pytest.approx(value, abs=0.015 / scale)


def seen_box(view: str, low: Vector, high: Vector) -> tuple[float, float, float, float]:
    """Return left, right, lower and upper bound of a tool as a person sees it who stands before it.

    In the frame of a tool x runs to the person's left, y to the person and z up. From the side
    the wall is at the left; from above it is at the top.
    """
    (x0, y0, z0), (x1, y1, z1) = low, high
    return {
        "front": (-x1, -x0, z0, z1),
        "side": (y0, y1, z0, z1),
        "above": (-x1, -x0, -y1, -y0),
    }[view]


def test_each_view_shows_left_and_right_as_a_person_sees_them() -> None:
    """Only tools that are not alike left and right, or before and behind, can tell.

    No view is a mirror image: by the right-hand rule what goes to the right and what goes up
    give the way to the person who looks.
    """
    towards = {"front": (0.0, 1.0, 0.0), "side": (1.0, 0.0, 0.0), "above": (0.0, 0.0, 1.0)}
    for view, (right, up) in SEEN.items():
        assert np.cross(right, up).tolist() == list(towards[view])
    askew: set[str] = set()
    for name in sorted(KINDS):
        outline = ordinary_outline(name)
        body = tool_body(name, full_example(kind(name)), outline=outline)
        low, high = body.extent_mm
        for face in measuring_card(name).faces:
            points = [point for ring in face.outline for point in ring]
            (xs, zs) = zip(*points, strict=True)
            box = seen_box(face.name, low, high)
            assert (min(xs), max(xs), min(zs), max(zs)) == pytest.approx(box, abs=0.05), name
            if abs(box[0] + box[1]) > 1.0:
                askew.add(face.name)
    assert {"front", "side"} <= askew
