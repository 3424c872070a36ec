"""An iron that stands on its heel, its point up.

seen from the front               seen from the side

    ╱──╲                            │╲
   ╱    ╲                           │ ╲__
  │      │  height                  │    │
  └──────┘  ← z = 0, width          └────┘  ← depth, from the sole to the handle
"""

from __future__ import annotations

from pydantic import Field

from cleatwright.parts.grips import Footprint
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.solid import block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, short
from cleatwright.tools.kind import Kind, Measures, ordinary
from cleatwright.tools.material import ALUMINIUM

# an iron of 115 by 140 by 280 mm weighs 1.0 to 1.5 kg (common practice, no source)
FILLED = 0.1


class IronMeasures(Measures):
    """What is measured on an iron that stands on its heel."""

    width_mm: float = Field(ge=60.0, le=180.0, description="across the heel, its widest place")
    depth_mm: float = Field(
        ge=70.0, le=230.0, description="from the sole to the far side of the handle, cord included"
    )
    height_mm: float = Field(ge=120.0, le=400.0, description="from the heel up to the point")


def body(m: IronMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: the block around it."""
    x, y = m.width_mm / 2, m.depth_mm / 2
    footprint = Footprint(z_mm=0.0, width_mm=m.width_mm, depth_mm=m.depth_mm, height_mm=m.height_mm)
    return assembled(
        [MassComponent(block(-x, -y, 0.0, x, y, m.height_mm), ALUMINIUM, FILLED)],
        weighed_kg,
        kind="iron",
        leading=f"{short(m.width_mm)}×{short(m.height_mm)}",
        grips=(footprint,),
        order_mm=m.width_mm,
    )


def _dimensions(m: IronMeasures) -> tuple[Dimension, ...]:
    return (
        across("width", m.width_mm, z_mm=0.0),
        across("depth", m.depth_mm, z_mm=0.0, view="side"),
        along("height", 0.0, m.height_mm, x_mm=m.width_mm / 2),
    )


KIND = Kind(
    name="iron",
    title="Iron that stands on its heel",
    measures=IronMeasures,
    body=body,
    dimensions=_dimensions,
    caution="Empty the water out of an iron, and turn its sole to the person, not to the wall.",
    example=ordinary(width=118.0, depth=145.0, height=285.0),
    properties=("hot",),
)
