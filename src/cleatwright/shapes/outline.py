"""Closed outlines of straight lines and circular arcs.

An outline is a counter-clockwise loop of corners. The edge that leaves corner i
is straight when its bulge is zero, else an arc: bulge = tan(sweep / 4), positive
when the arc turns to the left, so that it swells out of a counter-clockwise loop.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from cleatwright.base import said
from cleatwright.base.errors import ShapeError

Point = tuple[float, float]
TOLERANCE_MM = 1e-9


@dataclass(frozen=True)
class Edge:
    """One straight or circular edge, from ``start`` to ``end``."""

    start: Point
    end: Point
    bulge: float

    @property
    def chord_mm(self) -> float:
        """Return the straight distance between the ends."""
        return math.dist(self.start, self.end)

    @property
    def length_mm(self) -> float:
        """Return the length along the edge."""
        return self.radius_mm * abs(self.sweep) if self.bulge else self.chord_mm

    @property
    def sweep(self) -> float:
        """Return the signed angle of the arc in radians, zero for a line."""
        return 4.0 * math.atan(self.bulge)

    @property
    def radius_mm(self) -> float:
        """Return the radius of the arc, infinity for a line."""
        if self.bulge == 0.0:
            return math.inf
        return self.chord_mm * (1.0 + self.bulge**2) / (4.0 * abs(self.bulge))

    @property
    def centre(self) -> Point:
        """Return the centre of the arc; raises ShapeError for a line."""
        if self.bulge == 0.0:
            raise ShapeError("a straight edge has no centre")
        (x0, y0), (x1, y1) = self.start, self.end
        lift = (1.0 - self.bulge**2) / (4.0 * self.bulge)
        return ((x0 + x1) / 2 - (y1 - y0) * lift, (y0 + y1) / 2 + (x1 - x0) * lift)

    def at(self, t: float) -> Point:
        """Return the point at fraction ``t`` (0 to 1) of the edge."""
        if self.bulge == 0.0:
            (x0, y0), (x1, y1) = self.start, self.end
            return (x0 + (x1 - x0) * t, y0 + (y1 - y0) * t)
        cx, cy = self.centre
        turn = self.sweep * t
        dx, dy = self.start[0] - cx, self.start[1] - cy
        cos, sin = math.cos(turn), math.sin(turn)
        return (cx + dx * cos - dy * sin, cy + dx * sin + dy * cos)

    def points(self, count: int) -> list[Point]:
        """Return ``count`` (>= 1) points at equal fractions, the start first, the end left out."""
        if count == 1:
            return [self.start]
        if self.bulge == 0.0:
            return [self.at(k / count) for k in range(count)]
        cx, cy = self.centre
        dx, dy = self.start[0] - cx, self.start[1] - cy
        sweep = self.sweep
        turns = [sweep * k / count for k in range(1, count)]
        return [
            self.start,
            *(
                (
                    cx + dx * math.cos(turn) - dy * math.sin(turn),
                    cy + dx * math.sin(turn) + dy * math.cos(turn),
                )
                for turn in turns
            ),
        ]

    def direction_at(self, t: float) -> Point:
        """Return the unit tangent at fraction ``t`` of the edge."""
        (x0, y0), (x1, y1) = self.start, self.end
        length = self.chord_mm
        if self.bulge == 0.0:
            return ((x1 - x0) / length, (y1 - y0) / length)
        turn = self.sweep * (t - 0.5)
        cos, sin = math.cos(turn), math.sin(turn)
        ux, uy = (x1 - x0) / length, (y1 - y0) / length
        return (ux * cos - uy * sin, ux * sin + uy * cos)

    def segments(self, chord_error_mm: float) -> int:
        """Return how many chords keep the arc within ``chord_error_mm`` (> 0)."""
        if self.bulge == 0.0:
            return 1
        ratio = min(1.0, chord_error_mm / self.radius_mm)
        step = 2.0 * math.acos(1.0 - ratio)
        return max(1, math.ceil(abs(self.sweep) / min(step, math.pi / 4) - 1e-9))


@dataclass(frozen=True)
class Outline:
    """A simple closed loop, counter-clockwise, at least two corners (two make a circle)."""

    corners: tuple[Point, ...]
    bulges: tuple[float, ...]

    def __post_init__(self) -> None:
        """Raise ShapeError for numbers that are no outline."""
        if len(self.corners) != len(self.bulges) or len(self.corners) < 2:
            raise ShapeError("an outline needs two or more corners and one bulge for each")
        flat = [*(c for corner in self.corners for c in corner), *self.bulges]
        if not all(math.isfinite(number) for number in flat):
            raise ShapeError("an outline has a number that is not finite")
        if any(edge.chord_mm < TOLERANCE_MM for edge in self.edges):
            raise ShapeError("an outline has two corners at one place")
        if self.area_mm2 <= 0.0:
            raise ShapeError("an outline must run counter-clockwise and enclose an area")

    @property
    def edges(self) -> Iterator[Edge]:
        """Yield the edges in order."""
        count = len(self.corners)
        for i in range(count):
            yield Edge(self.corners[i], self.corners[(i + 1) % count], self.bulges[i])

    @cached_property
    def area_mm2(self) -> float:
        """Return the exact enclosed area."""
        total = 0.0
        for edge in self.edges:
            (x0, y0), (x1, y1) = edge.start, edge.end
            total += (x0 * y1 - x1 * y0) / 2
            if edge.bulge:
                total += edge.radius_mm**2 * (edge.sweep - math.sin(edge.sweep)) / 2
        return total

    @cached_property
    def centroid(self) -> Point:
        """Return the exact centre of the enclosed area."""
        mx = my = 0.0
        for edge in self.edges:
            (x0, y0), (x1, y1) = edge.start, edge.end
            cross = x0 * y1 - x1 * y0
            mx += (x0 + x1) * cross / 6
            my += (y0 + y1) * cross / 6
            if edge.bulge:
                cap = edge.radius_mm**2 * (edge.sweep - math.sin(edge.sweep)) / 2
                reach = edge.chord_mm**3 / (12.0 * abs(cap))
                cx, cy = edge.centre
                px, py = edge.at(0.5)
                radial = math.hypot(px - cx, py - cy)
                ux, uy = (px - cx) / radial, (py - cy) / radial
                mx += cap * (cx + ux * reach)
                my += cap * (cy + uy * reach)
        return (mx / self.area_mm2, my / self.area_mm2)

    @cached_property
    def perimeter_mm(self) -> float:
        """Return the exact length of the loop."""
        return sum(edge.length_mm for edge in self.edges)

    @cached_property
    def bounds(self) -> tuple[float, float, float, float]:
        """Return the exact (min x, min y, max x, max y)."""
        points = list(self.corners)
        for edge in self.edges:
            if not edge.bulge:
                continue
            (cx, cy), radius = edge.centre, edge.radius_mm
            start = math.atan2(edge.start[1] - cy, edge.start[0] - cx)
            for quarter in range(4):
                angle = quarter * math.pi / 2
                travel = (angle - start) % (2 * math.pi)
                if edge.sweep < 0:
                    travel = travel - 2 * math.pi if travel > 0 else 0.0
                if abs(travel) <= abs(edge.sweep):
                    points.append((cx + radius * math.cos(angle), cy + radius * math.sin(angle)))
        xs, ys = [p[0] for p in points], [p[1] for p in points]
        return (min(xs), min(ys), max(xs), max(ys))

    def moved(self, dx: float, dy: float) -> Outline:
        """Return the outline shifted by (dx, dy) mm."""
        return Outline(tuple((x + dx, y + dy) for x, y in self.corners), self.bulges)

    def turned(self, degrees: float) -> Outline:
        """Return the outline turned about the origin."""
        cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
        points = tuple((x * cos - y * sin, x * sin + y * cos) for x, y in self.corners)
        return Outline(points, self.bulges)

    def scaled(self, factor: float) -> Outline:
        """Return the outline drawn larger or smaller about the origin, factor > 0."""
        return Outline(tuple((x * factor, y * factor) for x, y in self.corners), self.bulges)

    def polygon(self, chord_error_mm: float) -> list[Point]:
        """Return the corners of a polygon whose arcs stay within ``chord_error_mm``."""
        return [p for edge in self.edges for p in edge.points(edge.segments(chord_error_mm))]


@dataclass(frozen=True)
class Region:
    """An outline with holes in it; the holes are outlines inside, apart from each other."""

    outer: Outline
    holes: tuple[Outline, ...] = ()

    @property
    def area_mm2(self) -> float:
        """Return the exact area."""
        return self.outer.area_mm2 - sum(hole.area_mm2 for hole in self.holes)

    @property
    def loops(self) -> tuple[Outline, ...]:
        """Return the outer outline and then the holes."""
        return (self.outer, *self.holes)


def polygon(points: Sequence[Point]) -> Outline:
    """Return the outline with straight edges through ``points``, counter-clockwise."""
    return Outline(tuple(points), (0.0,) * len(points))


def rectangle(x0: float, y0: float, x1: float, y1: float) -> Outline:
    """Return the rectangle between two opposite corners, x0 < x1 and y0 < y1."""
    return polygon([(x0, y0), (x1, y0), (x1, y1), (x0, y1)])


def circle(diameter_mm: float, *, at: Point = (0.0, 0.0)) -> Outline:
    """Return a circle (diameter > 0) as two half-turns.

    >>> round(circle(2.0).area_mm2, 12)
    3.14159265359
    """
    if not diameter_mm > 0.0:
        raise ShapeError(f"a circle of diameter {said.mm(diameter_mm)}")
    radius = diameter_mm / 2
    return Outline(((at[0] - radius, at[1]), (at[0] + radius, at[1])), (1.0, 1.0))


def hexagon(across_flats_mm: float, *, at: Point = (0.0, 0.0)) -> Outline:
    """Return a regular hexagon with two flats parallel to the x axis."""
    radius = across_flats_mm / math.sqrt(3.0)
    angles = [math.radians(60 * k) for k in range(6)]
    return polygon([(at[0] + radius * math.cos(a), at[1] + radius * math.sin(a)) for a in angles])


def obround(width_mm: float, length_mm: float, *, at: Point = (0.0, 0.0)) -> Outline:
    """Return a slot with round ends, ``length_mm`` along y including the ends (> width)."""
    if not length_mm > width_mm > 0.0:
        raise ShapeError(f"a slot of width {said.mm(width_mm)} and length {said.mm(length_mm)}")
    r, h = width_mm / 2, length_mm / 2 - width_mm / 2
    x, y = at
    points = ((x - r, y - h), (x + r, y - h), (x + r, y + h), (x - r, y + h))
    return Outline(points, (1.0, 0.0, 1.0, 0.0))
