"""A socket, its driving square down and its opening up.

┌───────┐   ← z = length
│       │
│ ┌───┐ │   ← z = depth
│ │   │ │    driving square, two sides to the left and the right
└─┘   └─┘   ← z = 0
   outer
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import SquareDrive
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import Outline
from cleatwright.shapes.solid import Solid, prism
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import (
    MassComponent,
    assembled,
    cylinder,
    short,
)
from cleatwright.tools.kind import AtOdds, Kind, Measures, optional_mm, ordinary
from cleatwright.tools.material import STEEL

# ISO 1174-1 asks for squares at least 1.2 times as deep as they are wide (from memory)
DEPTH_SHARE = 1.2
# a short socket has a web between both openings at half its length (common practice, no source)
MOST_DEPTH_SHARE = 0.5
# the opening for the nut takes away about half of what stands above the square (common
# practice, no source)
NUT_SHARE = 0.5
THINNEST_MM = 0.5


class SocketMeasures(Measures):
    """What is measured on a socket."""

    outer_mm: float = Field(ge=9.0, le=120.0, description="across the widest place")
    length_mm: float = Field(ge=15.0, le=300.0, description="from end to end")
    square_mm: float = Field(
        ge=5.0, le=40.0, description="between two opposite sides of the driving square"
    )
    depth_mm: float = optional_mm(
        3.0, 60.0, description="the driving square's depth, with the calliper's depth rod"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one socket."""
        if self.outer_mm < math.sqrt(2.0) * self.square_mm + 2 * THINNEST_MM:
            yield self.at_odds(
                "{outer} does not enclose the corners of {square}: measure both again"
            )
        if self.depth_mm >= self.length_mm:
            yield self.at_odds(
                "{depth} is not less than {length}: measure the square only, up to its web"
            )


def square_depth_mm(m: SocketMeasures) -> float:
    """Return the depth of the driving square, estimated when nobody measured it."""
    return m.depth_mm or min(DEPTH_SHARE * m.square_mm, MOST_DEPTH_SHARE * m.length_mm)


def body(m: SocketMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: four convex sides around the square, a full cylinder above it."""
    depth = square_depth_mm(m)
    components = (
        *(MassComponent(side, STEEL) for side in _sides(m.outer_mm, m.square_mm, depth)),
        MassComponent(cylinder(m.outer_mm, depth, m.length_mm), STEEL, NUT_SHARE),
    )
    drive = SquareDrive(z_mm=0.0, square_mm=m.square_mm, depth_mm=depth, body_mm=m.outer_mm)
    return assembled(
        components,
        weighed_kg,
        kind="socket",
        leading=f"⌀{short(m.outer_mm)}×{short(m.length_mm)}",
        grips=(drive,),
        order_mm=m.outer_mm,
    )


def _sides(outer_mm: float, square_mm: float, depth_mm: float) -> tuple[Solid, ...]:
    """Return what lies between one side of the square and the outside, four times."""
    half, on = square_mm / 2, outer_mm / 2 * math.sqrt(0.5)
    corners = ((half, -half), (on, -on), (on, on), (half, half))
    # a quarter turn of the outside lies between the second corner and the third
    side = Outline(corners, (0.0, math.tan(math.pi / 8), 0.0, 0.0))
    return tuple(prism(side.turned(90.0 * k), depth_mm) for k in range(4))


def _dimensions(m: SocketMeasures) -> tuple[Dimension, ...]:
    half = m.outer_mm / 2
    return (
        across("outer", m.outer_mm, z_mm=m.length_mm),
        along("length", 0.0, m.length_mm, x_mm=half),
        across("square", m.square_mm, z_mm=0.0),
        along("depth", 0.0, m.depth_mm, x_mm=-half),
    )


KIND = Kind(
    name="socket",
    title="Socket with a driving square",
    measures=SocketMeasures,
    body=body,
    dimensions=_dimensions,
    # a socket of 13 mm on a square of 12.5 mm to ISO 2725-1: 19.2 by 44 mm (from memory) would be
    # tight around 12.7 mm; ordinary ones are 22 mm at the drive (common practice, no source)
    example=ordinary(outer=22.0, length=38.0, square=12.7),
)
