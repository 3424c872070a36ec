"""A pair of springing arms and the stop between them, which print upright without support."""

from __future__ import annotations

import math

from cleatwright.parts.hold import SpringArms
from cleatwright.shapes.outline import Outline, Point, polygon
from cleatwright.shapes.solid import Intersection, PrismRow, Solid, across

# a 45-degree foot on both sides of an arm, where it is strained most
ROOT_MM = 1.0
LEAST_STOP_MM = 2.4
_STOP_MM = 4.0
_BESIDE_STOP_MM = 0.6


def arms(
    spring: SpringArms, *, axis_mm: float, plate_mm: float, low_mm: float, high_mm: float
) -> Solid:
    """Return both arms about x = 0, from the plate out to their round tips.

    At the tips they span ``low_mm`` to ``high_mm``; towards the plate they grow down at
    45 degrees, so that they print upright, and are strained least where they bend most.

    Args:
        spring: The arms; the arc ends a quarter turn from the way out.
        axis_mm: The y of the arc's centre.
        plate_mm: The plate's front.
        low_mm: Lower edge at the tips.
        high_mm: Upper edge.
    """
    right = _arm(spring, axis_mm=axis_mm, plate_mm=plate_mm)
    tip = axis_mm + spring.mean_radius_mm * math.cos(math.radians(spring.tip_deg))
    front = tip + spring.thickness_mm / 2
    lowest = low_mm - (front - plate_mm)
    side = polygon(
        [
            (0.0, lowest),
            (plate_mm, lowest),
            (front + 1.0, low_mm + 1.0),
            (front + 1.0, high_mm),
            (0.0, high_mm),
        ]
    )
    half = spring.mean_radius_mm + spring.thickness_mm + ROOT_MM
    plan = PrismRow((right, _mirrored(right)), high_mm - lowest + 2.0).moved(dz=lowest - 1.0)
    return Intersection((plan, across(side, -half, half)))


def stop(
    *, inner_mm: float, axis_mm: float, plate_mm: float, low_mm: float, high_mm: float
) -> Solid:
    """Return the web between two arms against which a body of radius ``inner_mm`` leans back.

    Its underside grows out of the plate at 45 degrees.
    """
    half = min(_STOP_MM, max(LEAST_STOP_MM, 2 * (inner_mm - ROOT_MM - _BESIDE_STOP_MM))) / 2
    face = axis_mm - inner_mm
    side = polygon(
        [
            (0.0, low_mm - (face - plate_mm)),
            (plate_mm, low_mm - (face - plate_mm)),
            (face, low_mm),
            (face, high_mm),
            (0.0, high_mm),
        ]
    )
    return across(side, -half, half)


def _arm(spring: SpringArms, *, axis_mm: float, plate_mm: float) -> Outline:
    """Return the plan of the arm at x > 0: foot, leg, arc and a round tip."""
    inner = spring.mean_radius_mm - spring.thickness_mm / 2
    outer = inner + spring.thickness_mm
    sine = math.sin(math.radians(spring.tip_deg))
    cosine = math.cos(math.radians(spring.tip_deg))
    bulge = math.tan(math.radians(spring.arc_deg) / 4)
    corners = (
        (inner - ROOT_MM, 0.0),
        (outer + ROOT_MM, 0.0),
        (outer + ROOT_MM, plate_mm),
        (outer, plate_mm + ROOT_MM),
        (outer, axis_mm),
        (outer * sine, axis_mm + outer * cosine),
        (inner * sine, axis_mm + inner * cosine),
        (inner, axis_mm),
        (inner, plate_mm + ROOT_MM),
        (inner - ROOT_MM, plate_mm),
    )
    return Outline(corners, (0.0, 0.0, 0.0, 0.0, bulge, 1.0, -bulge, 0.0, 0.0, 0.0))


def _mirrored(outline: Outline) -> Outline:
    """Return the outline mirrored in x = 0; the order of corners turns round."""
    corners: tuple[Point, ...] = tuple((-x, y) for x, y in outline.corners[::-1])
    # the bulge of an edge belongs to its first corner, which was its last before
    bulges = (*outline.bulges[-2::-1], outline.bulges[-1])
    return Outline(corners, bulges)
