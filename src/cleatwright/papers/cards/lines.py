"""Where the lines of a measuring card go, so that no letter lies on another or on a line.

A measure along the tool stands in a column at the left of the view; one across it lies where
the calliper goes, and its letter in a row at the right. All in mm of paper, y down.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from cleatwright.papers.cards.view import CardDimension, Ring
from cleatwright.papers.elevation.dimensions import spread
from cleatwright.papers.kit.svg import Point

RADIUS = 2.4
ARROW = 2.2
PAST = 1.2
TAIL = 4.4
FIRST_COLUMN = 8.0
COLUMN = 6.4
BESIDE = 9.0
ROW = 2 * RADIUS + 1.2
STEP = 0.25
OFF_LEVEL, OFF_EDGE, OFF_LINE = 1.4, 1.0, 2.8
# shorter than this, the arrow heads point inwards from outside
ROOM_FOR_ARROWS = 3 * ARROW
FAR = 400


@dataclass(frozen=True)
class Drawn:
    """A dimension on the paper.

    Args:
        letter: Its letter.
        start: One end of the dimension line, at an arrow's point.
        end: The other end.
        extensions: Lines from the tool to the ends.
        leader: Points of the line from the dimension line to the circle of the letter.
        centre: Centre of that circle.
    """

    letter: str
    start: Point
    end: Point
    extensions: tuple[tuple[Point, Point], ...]
    leader: tuple[Point, ...]
    centre: Point


def outside(one: Drawn) -> bool:
    """Tell whether the arrow heads point inwards from outside, for want of room."""
    return max(abs(one.end[0] - one.start[0]), abs(one.end[1] - one.start[1])) < ROOM_FOR_ARROWS


Span = tuple[CardDimension, Point, Point]


def upright_lines(spans: Sequence[Span], outline: Sequence[Ring]) -> Iterator[Drawn]:
    """Yield the dimensions along the tool, each in the first column that has room for it."""
    levels = sorted({end[1] for span in spans for end in span[1:]})
    columns: list[list[tuple[float, float]]] = []
    for one, start, end in sorted(spans, key=lambda s: (s[0].length_mm, s[1][1])):
        y0, y1 = sorted((start[1], end[1]))
        at = _circle(y0, y1, levels)
        tail = TAIL if y1 - y0 < ROOM_FOR_ARROWS else 0.0
        taken = min(y0 - tail, at - RADIUS) - 0.8, max(y1 + tail, at + RADIUS) + 0.8
        number = next(
            (n for n, c in enumerate(columns) if all(_apart(taken, t) for t in c)), len(columns)
        )
        if number == len(columns):
            columns.append([])
        columns[number].append(taken)
        x = -FIRST_COLUMN - number * COLUMN
        to = [(x, y0), (x, y1)]
        points = sorted((start, end), key=lambda p: p[1])
        if at < y0:
            leader: tuple[Point, ...] = ((x, y0), (x, at + RADIUS))
        else:
            leader = ((x, y1), (x, at - RADIUS)) if at > y1 else ()
        lines = tuple((_met(p, outline), (x - PAST, p[1])) for p in points)
        yield Drawn(one.letter, to[0], to[1], lines, leader, (x, at))


def _met(point: Point, outline: Sequence[Ring]) -> Point:
    """Return where an extension line from the left meets the tool, or the point within it."""
    x, y = point
    found = [
        a[0] + (b[0] - a[0]) * ((y - a[1]) / (b[1] - a[1]) if abs(b[1] - a[1]) > 0.02 else part)
        for ring in outline
        for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)
        for part in (0.0, 1.0)
        if min(a[1], b[1]) - 0.02 <= y <= max(a[1], b[1]) + 0.02
    ]
    return max(x, min(found, default=x)), y


def _apart(one: tuple[float, float], other: tuple[float, float]) -> bool:
    return one[1] <= other[0] + 0.8 or other[1] <= one[0] + 0.8


def _circle(y0: float, y1: float, levels: Sequence[float]) -> float:
    """Return the place nearest the middle where a circle touches no extension line."""
    middle, tail = (y0 + y1) / 2, TAIL if y1 - y0 < ROOM_FOR_ARROWS else 0.0
    for number in range(FAR):
        for sign in (-1.0, 1.0):
            at = middle + sign * number * STEP
            inside = y0 + ARROW + RADIUS <= at <= y1 - ARROW - RADIUS
            beyond = at < y0 - tail - RADIUS or at > y1 + tail + RADIUS
            clear = all(abs(at - level) >= RADIUS + 0.5 for level in levels)
            if (inside or beyond) and clear:
                return at
    return y0 - tail - RADIUS - 0.5


def lying_lines(
    spans: Sequence[Span],
    upright: Sequence[Span],
    outline: Sequence[Ring],
    corner: Point,
) -> Iterator[Drawn]:
    """Yield the dimensions across the tool, top first, with their letters at the right."""
    levels = [(end[1], -FAR, end[0]) for span in upright for end in span[1:]]
    edges = [
        (a[1], min(a[0], b[0]), max(a[0], b[0]))
        for ring in outline
        for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)
        if abs(a[1] - b[1]) < 0.02
    ]
    lines: list[tuple[float, Span]] = []
    for span in sorted(spans, key=lambda s: (s[1][1] + s[2][1], s[1][0] + s[2][0])):
        low, high = min(span[1][0], span[2][0]), max(span[1][0], span[2][0])
        tail = TAIL if high - low < ROOM_FOR_ARROWS else 0.0
        y = min(span[1][1], span[2][1])
        shift = 0.0
        if abs(span[1][1] - span[2][1]) < 1e-6:
            others = [(at, -FAR, FAR) for at, _ in lines]
            busy = [(levels, OFF_LEVEL), (edges, OFF_EDGE), (others, OFF_LINE)]
            shift = _free(y, (low - tail, high + tail), busy, up=y < corner[1] / 2)
        lines.append((y + shift, span))
    lines.sort(key=lambda one: one[0])
    ys = [y for y, _ in lines]
    long = (len(ys) - 1) * ROW / 2
    middle = sum(ys) / len(ys) if ys else 0.0
    low, high = min([*ys, middle - long]), max([*ys, middle + long])
    rows = spread(ys, step=ROW, low=low, high=high)
    edge = max([corner[0], *(max(s[1][0], s[2][0]) + TAIL for _, s in lines)])
    for (y, (one, start, end)), at in zip(lines, rows, strict=True):
        a, b = sorted((start, end))
        if abs(a[1] - b[1]) < 1e-6:
            past = math.copysign(PAST, y - a[1])
            back = PAST if y == a[1] else 0.0
            extensions = tuple(((x, a[1] - back), (x, y + past)) for x, _ in (a, b))
            a, b = (a[0], y), (b[0], y)
        else:
            extensions = ()
        route = (b, (edge + 1.0, b[1]), (edge + 4.0, at), (edge + BESIDE - RADIUS, at))
        yield Drawn(one.letter, a, b, extensions, route, (edge + BESIDE, at))


def _free(
    y: float,
    between: tuple[float, float],
    busy: Sequence[tuple[Sequence[tuple[float, float, float]], float]],
    *,
    up: bool,
) -> float:
    """Return the least shift of a lying line that keeps it off all that is drawn there."""
    for number in range(FAR):
        for sign in (-1.0, 1.0) if up else (1.0, -1.0):
            shift = sign * number * STEP
            if all(
                abs(y + shift - at) >= off - 1e-6 or high < between[0] or low > between[1]
                for lines, off in busy
                for at, low, high in lines
            ):
                return shift
    return 0.0
