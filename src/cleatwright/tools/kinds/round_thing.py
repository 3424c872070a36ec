"""Anything round and straight, upright or lying.

┌───┐  ← z = length
│   │  diameter
└───┘  ← z = 0
"""

from __future__ import annotations

from pydantic import Field

from cleatwright.parts.grips import LyingBar, RoundBody
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.rigid import shift, turn
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, cylinder, short
from cleatwright.tools.kind import Kind, Measures, ordinary
from cleatwright.tools.material import MIXED


class RoundThingMeasures(Measures):
    """What is measured on a round thing."""

    diameter_mm: float = Field(ge=6.0, le=300.0, description="across its widest place")
    length_mm: float = Field(ge=40.0, le=2400.0, description="from end to end")


def body(m: RoundThingMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: a cylinder."""
    lying = LyingBar(
        pose=turn("y", 90.0).then(shift(-m.length_mm / 2, 0.0, m.diameter_mm / 2)),
        length_mm=m.length_mm,
        depth_mm=m.diameter_mm,
        height_mm=m.diameter_mm,
        round_section=True,
    )
    return assembled(
        [MassComponent(cylinder(m.diameter_mm, 0.0, m.length_mm), MIXED)],
        weighed_kg,
        kind="round-thing",
        leading=f"⌀{short(m.diameter_mm)}×{short(m.length_mm)}",
        grips=(RoundBody(0.0, m.diameter_mm, m.length_mm), lying),
        order_mm=m.diameter_mm,
    )


def _dimensions(m: RoundThingMeasures) -> tuple[Dimension, ...]:
    return (
        across("diameter", m.diameter_mm, z_mm=0.6 * m.length_mm),
        along("length", 0.0, m.length_mm, x_mm=m.diameter_mm / 2),
    )


KIND = Kind(
    name="round-thing",
    title="Anything round and straight, upright or lying",
    measures=RoundThingMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(diameter=45.0, length=260.0),
    plain="round",
)
