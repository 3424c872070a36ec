"""Views of a measuring card on paper, each with all its letters placed.

All in mm of paper, y down.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from cleatwright.papers.cards.lines import RADIUS, TAIL, Drawn, lying_lines, outside, upright_lines
from cleatwright.papers.cards.view import CardFace, Ring
from cleatwright.papers.kit.svg import Point


@dataclass(frozen=True)
class PlacedFace:
    """A view on the paper; its upper left corner, letters included, is (0, 0).

    Args:
        face: What it shows.
        outline: Its outline on the paper.
        pieces: Its pieces on the paper.
        drawn: Its dimensions.
        body: Upper left corner of the tool.
        size: Width and height with all letters.
    """

    face: CardFace
    outline: tuple[Ring, ...]
    pieces: tuple[Ring, ...]
    drawn: tuple[Drawn, ...]
    body: Point
    size: Point


def placed(face: CardFace, scale: float) -> PlacedFace:
    """Return a view with all its letters placed; ``scale`` is mm of paper for a mm of tool."""
    points = [point for ring in face.outline for point in ring]
    left, top = min(u for u, _ in points), max(v for _, v in points)

    def paper(point: Point) -> Point:
        return (point[0] - left) * scale, (top - point[1]) * scale

    outline = tuple(tuple(paper(p) for p in ring) for ring in face.outline)
    pieces = tuple(tuple(paper(p) for p in ring) for ring in face.pieces)
    spans = [(one, paper(one.start_mm), paper(one.end_mm)) for one in face.dimensions]
    upright = [span for span in spans if abs(span[1][0] - span[2][0]) < 1e-6]
    lying = [span for span in spans if span not in upright]
    right, below = max(x for r in outline for x, _ in r), max(y for r in outline for _, y in r)
    drawn = [
        *upright_lines(upright, outline),
        *lying_lines(lying, upright, outline, (right, below)),
    ]
    shapes = [*outline, *(_reach(one) for one in drawn)]
    low = min(x for s in shapes for x, _ in s), min(y for s in shapes for _, y in s)
    high = max(x for s in shapes for x, _ in s), max(y for s in shapes for _, y in s)

    def shifted(line: Iterable[Point]) -> tuple[Point, ...]:
        return tuple((x - low[0], y - low[1]) for x, y in line)

    return PlacedFace(
        face=face,
        outline=tuple(shifted(ring) for ring in outline),
        pieces=tuple(shifted(ring) for ring in pieces),
        drawn=tuple(_shifted(one, low) for one in sorted(drawn, key=lambda one: one.letter)),
        body=(-low[0], -low[1]),
        size=(high[0] - low[0], high[1] - low[1]),
    )


def _shifted(one: Drawn, low: Point) -> Drawn:
    def moved(point: Point) -> Point:
        return point[0] - low[0], point[1] - low[1]

    return Drawn(
        letter=one.letter,
        start=moved(one.start),
        end=moved(one.end),
        extensions=tuple((moved(a), moved(b)) for a, b in one.extensions),
        leader=tuple(moved(point) for point in one.leader),
        centre=moved(one.centre),
    )


def _reach(one: Drawn) -> tuple[Point, ...]:
    (x, y), tail = one.centre, TAIL if outside(one) else 0.0
    ends = [point for line in one.extensions for point in line]
    points = [*one.leader, *ends, (x - RADIUS, y - RADIUS), (x + RADIUS, y + RADIUS)]
    upright = one.start[0] == one.end[0]
    tails = [(0.0, sign) if upright else (sign, 0.0) for sign in (-tail, tail)]
    points += [(x + dx, y + dy) for x, y in (one.start, one.end) for dx, dy in tails]
    return tuple(points)
