"""A box that stands upright, half full of small steel parts until it is weighed: 2000 kg/m3."""

from __future__ import annotations

from pydantic import Field

from cleatwright.parts.grips import Footprint
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.solid import block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, short
from cleatwright.tools.kind import Kind, Measures, ordinary
from cleatwright.tools.material import SMALL_PARTS


class BoxMeasures(Measures):
    """What is measured on a box."""

    width_mm: float = Field(ge=15.0, le=600.0, description="along the wall, lid and rims included")
    depth_mm: float = Field(ge=15.0, le=600.0, description="out of the wall, rims included")
    height_mm: float = Field(ge=10.0, le=600.0, description="from the base to the top")


def body(m: BoxMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: a block, full to the top with the fill."""
    x, y = m.width_mm / 2, m.depth_mm / 2
    whole = block(-x, -y, 0.0, x, y, m.height_mm)
    footprint = Footprint(z_mm=0.0, width_mm=m.width_mm, depth_mm=m.depth_mm, height_mm=m.height_mm)
    return assembled(
        [MassComponent(whole, SMALL_PARTS)],
        weighed_kg,
        kind="box",
        leading=f"{short(m.width_mm)}×{short(m.depth_mm)}",
        grips=(footprint,),
        order_mm=m.width_mm,
    )


def _dimensions(m: BoxMeasures) -> tuple[Dimension, ...]:
    return (
        across("width", m.width_mm, z_mm=m.height_mm),
        across("depth", m.depth_mm, z_mm=m.height_mm, view="side"),
        along("height", 0.0, m.height_mm, x_mm=m.width_mm / 2),
    )


KIND = Kind(
    name="box",
    title="Box, tin or case that stands upright",
    measures=BoxMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(width=110.0, depth=75.0, height=60.0),
    plain="with a flat base",
)
