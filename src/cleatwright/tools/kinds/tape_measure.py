"""A tape measure that stands on its base, its flat sides left and right.

┌────┐  ← z = height
│case│  width by depth; a belt clip counts with the width
└────┘  ← z = 0
"""

from __future__ import annotations

from pydantic import Field

from cleatwright.parts.grips import Footprint
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.solid import block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, short
from cleatwright.tools.kind import Kind, Measures, ordinary
from cleatwright.tools.material import STEEL

# a plastic case around a coil of thin steel: one of 5 m, 70 by 70 by 40 mm, weighs 200 to
# 300 g (common practice, no source)
STEEL_SHARE = 0.16


class TapeMeasureMeasures(Measures):
    """What is measured on a tape measure."""

    width_mm: float = Field(
        ge=12.0, le=90.0, description="through the case, its belt clip included"
    )
    depth_mm: float = Field(ge=25.0, le=200.0, description="from the tape's hook to the back")
    height_mm: float = Field(ge=25.0, le=200.0, description="from the base to the top")


def body(m: TapeMeasureMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: a block."""
    x, y = m.width_mm / 2, m.depth_mm / 2
    whole = block(-x, -y, 0.0, x, y, m.height_mm)
    return assembled(
        [MassComponent(whole, STEEL, STEEL_SHARE)],
        weighed_kg,
        kind="tape-measure",
        leading=f"{short(m.width_mm)}×{short(m.depth_mm)}",
        grips=(Footprint(0.0, m.width_mm, m.depth_mm, m.height_mm),),
        order_mm=m.depth_mm,
    )


def _dimensions(m: TapeMeasureMeasures) -> tuple[Dimension, ...]:
    return (
        across("width", m.width_mm, z_mm=m.height_mm),
        across("depth", m.depth_mm, z_mm=m.height_mm, view="side"),
        along("height", 0.0, m.height_mm, x_mm=m.width_mm / 2),
    )


KIND = Kind(
    name="tape-measure",
    title="Tape measure",
    measures=TapeMeasureMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(width=45.0, depth=78.0, height=70.0),
)
