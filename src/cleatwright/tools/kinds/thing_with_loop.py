"""Anything that hangs by a loop, a bail or an opening above its body.

  ┌─────┐    ← z = height + loop
  │     │    loop, clear both ways; loop_thickness is out of the page
┌─┴─────┴─┐  ← z = height
│         │  width by depth
└─────────┘  ← z = 0
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import EyeHole, Loop
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.solid import block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import MIXED, PLASTIC

RIM_MM = 3.0
# more hollow than full
BODY_SHARE = 0.3


class ThingWithLoopMeasures(Measures):
    """What is measured on a thing with a loop."""

    width_mm: float = Field(ge=18.0, le=500.0, description="across, as it hangs")
    depth_mm: float = Field(ge=1.0, le=400.0, description="out of the wall, the deepest place")
    height_mm: float = Field(ge=10.0, le=1200.0, description="from the lower end up to the loop")
    loop_mm: float = Field(
        ge=10.0, le=300.0, description="the loop, clear across its narrow way, as it hangs"
    )
    loop_thickness_mm: float = Field(
        ge=1.0, le=59.0, description="through the loop at its top, out of the wall"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one thing."""
        if self.loop_mm + 2.0 * RIM_MM > self.width_mm:
            yield self.at_odds(
                "{loop} does not fit above {width}: measure the loop inside, and the width over "
                "everything"
            )


def body(m: ThingWithLoopMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: a block, and a square loop above it."""
    x, y, s = m.width_mm / 2, m.depth_mm / 2, m.loop_thickness_mm / 2
    low, under, inner = m.height_mm, m.height_mm + m.loop_mm, m.loop_mm / 2
    outer = inner + RIM_MM
    components = (
        MassComponent(block(-x, -y, 0.0, x, y, low), MIXED, BODY_SHARE),
        MassComponent(block(-outer, -s, low, -inner, s, under), PLASTIC),
        MassComponent(block(inner, -s, low, outer, s, under), PLASTIC),
        MassComponent(block(-outer, -s, under, outer, s, under + RIM_MM), PLASTIC),
    )
    return assembled(
        components,
        weighed_kg,
        kind="thing-with-loop",
        leading=f"{short(m.width_mm)}×{short(m.height_mm)}",
        grips=(
            Loop(under, m.loop_mm, m.loop_mm, m.loop_thickness_mm),
            EyeHole(under, m.loop_mm, m.loop_thickness_mm, RIM_MM),
        ),
        order_mm=m.width_mm,
    )


def _dimensions(m: ThingWithLoopMeasures) -> tuple[Dimension, ...]:
    under = m.height_mm + m.loop_mm
    return (
        across("width", m.width_mm, z_mm=0.0),
        across("depth", m.depth_mm, z_mm=0.0, view="side"),
        along("height", 0.0, m.height_mm, x_mm=m.width_mm / 2),
        along("loop", m.height_mm, under, x_mm=m.loop_mm / 2),
        across("loop_thickness", m.loop_thickness_mm, z_mm=under, view="side"),
    )


KIND = Kind(
    name="thing-with-loop",
    title="Anything with a loop, a bail or an opening to hang by",
    measures=ThingWithLoopMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(width=90.0, depth=40.0, height=120.0, loop=28.0, loop_thickness=8.0),
    plain="with a loop",
)
