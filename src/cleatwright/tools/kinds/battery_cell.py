"""A round battery cell, upright on its flat end."""

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
from cleatwright.tools.material import STEEL

# a steel can around lighter paste: a cell R6 of 14.5 x 50.5 mm weighs about 23 g (from memory)
STEEL_SHARE = 0.35


class BatteryCellMeasures(Measures):
    """What is measured on a battery cell."""

    diameter_mm: float = Field(ge=7.0, le=36.0, description="across the jacket")
    height_mm: float = Field(
        ge=20.0, le=110.0, description="from the flat end to the top of the knob"
    )


def body(m: BatteryCellMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: one cylinder."""
    whole = cylinder(m.diameter_mm, 0.0, m.height_mm)
    return assembled(
        [MassComponent(whole, STEEL, STEEL_SHARE)],
        weighed_kg,
        kind="battery-cell",
        leading=f"⌀{short(m.diameter_mm)}×{short(m.height_mm)}",
        grips=(RoundBody(z_mm=0.0, diameter_mm=m.diameter_mm, height_mm=m.height_mm),),
        order_mm=m.diameter_mm,
    )


def _dimensions(m: BatteryCellMeasures) -> tuple[Dimension, ...]:
    return (
        across("diameter", m.diameter_mm, z_mm=0.5 * m.height_mm),
        along("height", 0.0, m.height_mm, x_mm=m.diameter_mm / 2),
    )


KIND = Kind(
    name="battery-cell",
    title="Round battery cell",
    measures=BatteryCellMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(diameter=14.5, height=50.5),
    caution="Keep cells away from keys and other loose metal, which can short their ends and set "
    "fire to things, and from children. Take leaking or swollen cells to where they are collected.",
    properties=("cell",),
)
