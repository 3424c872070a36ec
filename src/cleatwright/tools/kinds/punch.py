"""A punch, nail set, centre punch or cold chisel: struck end down, so that the working end is seen.

  ╱╲      ← z = length; point wide
 ╱  ╲      point_length
│    │
│    │    body
└────┘    ← z = 0

The edge of a chisel lies along the wall.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import ShaftEnd
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import Outline, polygon, rectangle
from cleatwright.shapes.solid import Loft, Solid
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import (
    MassComponent,
    assembled,
    cylinder,
    short,
)
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import STEEL

# an edge is drawn this thick, so that the piece is a solid
EDGE_MM = 1.0
LEAST_BODY_MM = 15.0
# a forged blade has round corners in the block around it (a choice)
BLADE_SHARE = 0.8


class PunchMeasures(Measures):
    """What is measured on a punch."""

    body_mm: float = Field(
        ge=4.0, le=40.0, description="across the body's thickest place, corners included"
    )
    length_mm: float = Field(ge=60.0, le=400.0, description="from end to end")
    point_mm: float = Field(
        ge=0.5, le=80.0, description="across the working end; along the edge of a chisel"
    )
    point_length_mm: float = Field(
        ge=5.0, le=200.0, description="from the working end to where the body keeps its thickness"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one punch."""
        if self.point_length_mm > self.length_mm - LEAST_BODY_MM:
            yield self.at_odds(
                "{point_length} leaves less than {least} of body on {length}: measure both again",
                least=LEAST_BODY_MM,
            )


def body(m: PunchMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: round up to the taper, which has eight sides or widens to an edge."""
    straight = m.length_mm - m.point_length_mm
    wide = m.point_mm > m.body_mm
    components = (
        MassComponent(cylinder(m.body_mm, 0.0, straight), STEEL),
        MassComponent(_taper(m).moved(0.0, 0.0, straight), STEEL, BLADE_SHARE if wide else 1.0),
    )
    return assembled(
        components,
        weighed_kg,
        kind="punch",
        leading=f"⌀{short(m.body_mm)}×{short(m.length_mm)}",
        grips=(ShaftEnd(z_mm=0.0, diameter_mm=m.body_mm, length_mm=straight),),
        order_mm=m.body_mm,
    )


def _taper(m: PunchMeasures) -> Solid:
    foot, tip, high = m.body_mm / 2, m.point_mm / 2, m.point_length_mm
    if tip <= foot:
        return Loft(_octagon(foot), _octagon(tip), high)
    edge = EDGE_MM / 2
    return Loft(rectangle(-foot, -foot, foot, foot), rectangle(-tip, -edge, tip, edge), high)


def _octagon(half_mm: float) -> Outline:
    """Return the regular octagon around a circle, flats to the four sides."""
    radius = half_mm / math.cos(math.pi / 8)
    turns = [math.pi / 8 * (2 * k + 1) for k in range(8)]
    return polygon([(radius * math.cos(t), radius * math.sin(t)) for t in turns])


def _dimensions(m: PunchMeasures) -> tuple[Dimension, ...]:
    straight, half = m.length_mm - m.point_length_mm, max(m.body_mm, m.point_mm) / 2
    return (
        across("body", m.body_mm, z_mm=straight / 2),
        along("length", 0.0, m.length_mm, x_mm=half),
        across("point", m.point_mm, z_mm=m.length_mm),
        along("point_length", straight, m.length_mm, x_mm=-half),
    )


KIND = Kind(
    name="punch",
    title="Punch, nail set, centre punch or cold chisel",
    measures=PunchMeasures,
    body=body,
    dimensions=_dimensions,
    # a centre punch 120 mm long of stock 10 mm thick: common practice, no source
    example=ordinary(body=10.0, length=120.0, point=4.0, point_length=40.0),
)
