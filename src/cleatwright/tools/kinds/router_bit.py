"""A router bit, its shank down and its cutter up.

┌─────┐   ← z = shank_length + cutter_length
│     │    cutter, bearing included
└─┬─┬─┘
  │ │      shank
  └─┘     ← z = 0

It stands on its shank. The underside of the cutter is no shoulder to hang by: on many bits
it is a cutting edge.
"""

from __future__ import annotations

from pydantic import Field

from cleatwright.parts.grips import ShaftEnd
from cleatwright.parts.tool import ToolBody
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import (
    MassComponent,
    assembled,
    cylinder,
    short,
)
from cleatwright.tools.kind import Kind, Measures, ordinary
from cleatwright.tools.material import STEEL

# two gullets leave about half of the circle around a cutter (common practice, no source)
CUTTER_SHARE = 0.5


class RouterBitMeasures(Measures):
    """What is measured on a router bit."""

    shank_mm: float = Field(ge=2.0, le=20.0, description="across the shank")
    shank_length_mm: float = Field(
        ge=15.0, le=120.0, description="from the shank's end to the lowest edge of the cutter"
    )
    cutter_mm: float = Field(ge=1.0, le=120.0, description="across the cutter's widest place")
    cutter_length_mm: float = Field(
        ge=3.0, le=150.0, description="from the cutter's lowest edge to the top, bearing included"
    )


def body(m: RouterBitMeasures, weighed_kg: float | None) -> ToolBody:
    """Return two cylinders, of which the cutter is half steel."""
    top = m.shank_length_mm + m.cutter_length_mm
    components = (
        MassComponent(cylinder(m.shank_mm, 0.0, m.shank_length_mm), STEEL),
        MassComponent(cylinder(m.cutter_mm, m.shank_length_mm, top), STEEL, CUTTER_SHARE),
    )
    end = ShaftEnd(z_mm=0.0, diameter_mm=m.shank_mm, length_mm=m.shank_length_mm)
    return assembled(
        components,
        weighed_kg,
        kind="router-bit",
        leading=f"⌀{short(m.cutter_mm)}×{short(m.cutter_length_mm)}",
        grips=(end,),
        order_mm=m.cutter_mm,
    )


def _dimensions(m: RouterBitMeasures) -> tuple[Dimension, ...]:
    top, half = m.shank_length_mm + m.cutter_length_mm, max(m.shank_mm, m.cutter_mm) / 2
    return (
        across("shank", m.shank_mm, z_mm=m.shank_length_mm / 2),
        along("shank_length", 0.0, m.shank_length_mm, x_mm=half),
        across("cutter", m.cutter_mm, z_mm=top),
        along("cutter_length", m.shank_length_mm, top, x_mm=half),
    )


KIND = Kind(
    name="router-bit",
    title="Router bit with a round shank",
    measures=RouterBitMeasures,
    body=body,
    dimensions=_dimensions,
    # a straight cutter of 20 mm on a shank of 8 mm: common practice, no source
    example=ordinary(shank=8.0, shank_length=32.0, cutter=20.0, cutter_length=25.0),
    properties=("sharp",),
)
