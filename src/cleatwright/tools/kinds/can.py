"""A can or a bottle, upright: full of something as heavy as water, until it is weighed."""

from __future__ import annotations

from pydantic import Field

from cleatwright.parts.grips import RoundBody
from cleatwright.parts.tool import ToolBody
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import (
    MassComponent,
    assembled,
    cylinder,
    short,
)
from cleatwright.tools.kind import Kind, Measures, ordinary
from cleatwright.tools.material import LIQUID


class CanMeasures(Measures):
    """What is measured on a can or a bottle."""

    diameter_mm: float = Field(ge=10.0, le=350.0, description="across the body, rims included")
    height_mm: float = Field(ge=20.0, le=600.0, description="from the base to the top of the cap")


def body(m: CanMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: a cylinder that is full to the cap."""
    whole = cylinder(m.diameter_mm, 0.0, m.height_mm)
    return assembled(
        [MassComponent(whole, LIQUID)],
        weighed_kg,
        kind="can",
        leading=f"⌀{short(m.diameter_mm)}×{short(m.height_mm)}",
        grips=(RoundBody(z_mm=0.0, diameter_mm=m.diameter_mm, height_mm=m.height_mm),),
        order_mm=m.diameter_mm,
    )


def _dimensions(m: CanMeasures) -> tuple[Dimension, ...]:
    return (
        across("diameter", m.diameter_mm, z_mm=0.6 * m.height_mm),
        along("height", 0.0, m.height_mm, x_mm=m.diameter_mm / 2),
    )


KIND = Kind(
    name="can",
    title="Can, bottle or cartridge that stands upright",
    measures=CanMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(diameter=65.0, height=195.0),
    keep_cool=True,
    properties=("liquid", "flammable"),
)
