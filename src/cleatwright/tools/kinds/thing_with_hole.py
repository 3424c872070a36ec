"""Anything that hangs by a hole, in the block around it.

┌───┐  ← z = length
│ o │  hole, hole_rim above it
│   │  width by thickness
└───┘  ← z = 0
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import rectangle
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, flat, short
from cleatwright.tools.features.plates import EndHole
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import MIXED

LEAST_RIM_MM = 2.0


class ThingWithHoleMeasures(Measures):
    """What is measured on a thing with a hole."""

    length_mm: float = Field(ge=30.0, le=1500.0, description="from the lower end to the top")
    width_mm: float = Field(ge=11.0, le=500.0, description="across its widest place")
    thickness_mm: float = Field(ge=0.5, le=59.0, description="through its thickest place")
    hole_mm: float = Field(ge=7.4, le=100.0, description="the hole, clear across its narrow way")
    hole_rim_mm: float = Field(
        ge=LEAST_RIM_MM, le=100.0, description="from the hole's upper edge to the top"
    )

    @property
    def hole(self) -> EndHole:
        """Return the hole."""
        return EndHole(self.width_mm / 2, self.length_mm, self.hole_mm, self.hole_rim_mm)

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one thing."""
        if self.hole_mm > self.width_mm - LEAST_RIM_MM:
            yield self.at_odds("{hole} does not fit into {width}: measure both again")
        if self.hole.low_mm < LEAST_RIM_MM:
            yield self.at_odds("{hole} and {hole_rim} do not fit into {length}: measure them again")


def body(m: ThingWithHoleMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: the block around it; the hole stays open."""
    half, hole = m.width_mm / 2, m.hole
    outlines = [rectangle(-half, 0.0, half, hole.low_mm), *hole.outlines()]
    return assembled(
        [MassComponent(flat(one, m.thickness_mm), MIXED) for one in outlines],
        weighed_kg,
        kind="thing-with-hole",
        leading=f"⌀{short(m.hole_mm)}×{short(m.length_mm)}",
        grips=hole.grips(m.thickness_mm),
        order_mm=m.length_mm,
    )


def _dimensions(m: ThingWithHoleMeasures) -> tuple[Dimension, ...]:
    return (
        along("length", 0.0, m.length_mm, x_mm=m.width_mm / 2),
        across("width", m.width_mm, z_mm=0.0),
        across("thickness", m.thickness_mm, z_mm=0.0, view="side"),
        *m.hole.dimensions(),
    )


KIND = Kind(
    name="thing-with-hole",
    title="Anything with a hole to hang by",
    measures=ThingWithHoleMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(length=220.0, width=60.0, thickness=12.0, hole=10.0, hole_rim=8.0),
    plain="with a hole",
)
