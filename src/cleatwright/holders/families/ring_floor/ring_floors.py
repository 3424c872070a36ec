"""Rings that need no support while the plate lies on the bed, and floors on two webs."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cleatwright.features.footed import BRIDGE_MM, eighths, eighths_behind, roof
from cleatwright.features.root import bracket, cove
from cleatwright.features.webs import WebDepth
from cleatwright.shapes.outline import Outline, polygon
from cleatwright.shapes.solid import Prism, Solid, prism

FLARE_MM = 2.0
LEAD_IN_MM = 1.0
# how high webs are at the plate, of how far the floor reaches out, and at their ends
WEB_SHARE = 0.35
WEB_TIP_MM = 8.0


@dataclass(frozen=True)
class RingShape:
    """What all rings and floors of a row share.

    Args:
        ring_mm: Height of a ring.
        wall_mm: Thickness of its walls and of the webs below a floor.
        floor_mm: Thickness of a floor.
        plate_mm: Thickness of the plate.
    """

    ring_mm: float
    wall_mm: float
    floor_mm: float
    plate_mm: float

    def least_webs(self, half_mm: float, axis_mm: float) -> WebDepth:
        """Return how deep the webs of a floor are in any case."""
        root = WEB_SHARE * (axis_mm + half_mm - self.plate_mm)
        return WebDepth(root, min(WEB_TIP_MM, root / 2))


def web_end_mm(half_mm: float, axis_mm: float) -> float:
    """Return how far webs reach out: as far as the sides of a floor go."""
    return axis_mm + half_mm * math.tan(math.pi / 8)


def ring(inner_mm: float, axis_mm: float, *, shape: RingShape) -> Prism:
    """Return the ring about x = 0 from z = 0 up, which touches a circle of radius ``inner_mm``.

    It has eight inner sides; those in front run at 45 degrees to a short bridge.
    """
    wall, plate = shape.wall_mm, shape.plate_mm
    half, eighth = inner_mm + wall, math.tan(math.pi / 8)
    foot, flat = half + FLARE_MM, min(BRIDGE_MM / 2, inner_mm * eighth)
    outer = polygon(
        [
            (-foot, 0.0),
            (foot, 0.0),
            (foot, plate),
            (half, plate + FLARE_MM),
            # the walls of the front are as thick as those of the sides
            *roof(half, axis_mm, flat_mm=flat + wall * eighth),
            (-half, plate + FLARE_MM),
            (-foot, plate),
        ]
    )
    hole = [*roof(inner_mm, axis_mm, flat_mm=flat), *eighths_behind(inner_mm, axis_mm)]
    lead = min(LEAD_IN_MM, wall / 3)
    return prism(outer, shape.ring_mm, holes=(polygon(hole),), top_chamfer_mm=lead)


def webbed_floor(
    half_mm: float, axis_mm: float, *, opening_mm: float, shape: RingShape, webs: WebDepth
) -> tuple[Solid, ...]:
    """Return the pieces of a floor about x = 0 below z = 0: slab, cove and a web at each side.

    Args:
        half_mm: Half its width.
        axis_mm: Where the middle of its eight sides lies, along y.
        opening_mm: Half the width of the opening in it, or zero.
        shape: Its thicknesses.
        webs: How deep its webs are.
    """
    wall, plate, under = shape.wall_mm, shape.plate_mm, -shape.floor_mm
    slab = prism(
        polygon([(-half_mm, 0.0), (half_mm, 0.0), *eighths(half_mm, axis_mm)]),
        shape.floor_mm,
        holes=(_opening(opening_mm, axis_mm),) if opening_mm else (),
    )
    end = web_end_mm(half_mm, axis_mm)
    pair = (
        bracket(
            x,
            x + wall,
            plate_mm=plate,
            root_mm=webs.root_mm,
            tip_mm=webs.tip_mm,
            reach_mm=end,
            z_mm=under,
        )
        for x in (-half_mm, half_mm - wall)
    )
    return (
        slab.moved(0.0, 0.0, under),
        cove(-half_mm, half_mm, plate_mm=plate, z_mm=under),
        *pair,
    )


def _opening(half_mm: float, axis_mm: float) -> Outline:
    """Return an opening: eight sides behind, and a roof to a short bridge in front."""
    flat, front = min(BRIDGE_MM / 2, half_mm), axis_mm + half_mm
    return polygon(
        [
            (half_mm, front - half_mm + flat),
            (flat, front),
            (-flat, front),
            (-half_mm, front - half_mm + flat),
            *eighths_behind(half_mm, axis_mm),
        ]
    )
