"""A try square, its blade down, its stock across on top.

┌──────────────┐  ← z = blade_length + stock_width
│    stock     │
├───┬──────────┘
│   │   blade, blade_width
│   │
└───┘             ← z = 0
↔ stock_length ↔
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import FlatEdge, ThinPlate
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.rigid import turn
from cleatwright.shapes.solid import block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, mass_and_centre, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import STEEL, WOOD

END_MM = 1.0


class SquareMeasures(Measures):
    """What is measured on a try square."""

    blade_length_mm: float = Field(
        ge=40.0, le=600.0, description="from the stock to the blade's end"
    )
    blade_width_mm: float = Field(ge=10.0, le=100.0, description="across the blade")
    blade_thickness_mm: float = Field(ge=0.5, le=8.0, description="through the blade")
    stock_length_mm: float = Field(
        ge=30.0, le=400.0, description="along the stock, from the blade's outer edge to its end"
    )
    stock_width_mm: float = Field(ge=8.0, le=80.0, description="across the stock, along the blade")
    stock_thickness_mm: float = Field(ge=4.0, le=40.0, description="through the stock")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one try square."""
        if self.stock_length_mm <= self.blade_width_mm:
            yield self.at_odds(
                "{stock_length} is not more than {blade_width}: measure the stock from end to end"
            )
        if self.stock_thickness_mm < self.blade_thickness_mm:
            yield self.at_odds("{stock_thickness} is less than {blade_thickness}: exchange the two")


def body(m: SquareMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body; the stock counts as hard wood with the blade running through it."""
    half, y, t = m.blade_width_mm / 2, m.blade_thickness_mm / 2, m.stock_thickness_mm / 2
    under, top = m.blade_length_mm, m.blade_length_mm + m.stock_width_mm
    end = m.stock_length_mm - half
    blade = MassComponent(block(-half, -y, 0.0, half, y, under), STEEL)
    stock = MassComponent(block(-half, -t, under, end, t, top), WOOD)
    inlet = MassComponent(block(-half, -y, under, half, y, top), STEEL)
    mass_kg, com_mm = mass_and_centre([blade, stock, inlet], weighed_kg)
    return ToolBody(
        kind="square",
        leading=f"{short(m.blade_length_mm)}×{short(m.stock_length_mm)}",
        envelope=(blade.solid, stock.solid),
        mass_kg=mass_kg,
        com_mm=com_mm,
        grips=(
            # the stock points to the person
            ThinPlate(turn("z", 90.0), m.blade_thickness_mm, -half, half, under),
            FlatEdge(END_MM, under, m.blade_width_mm, m.blade_thickness_mm),
        ),
        order_mm=m.blade_length_mm,
    )


def _dimensions(m: SquareMeasures) -> tuple[Dimension, ...]:
    under, top = m.blade_length_mm, m.blade_length_mm + m.stock_width_mm
    left = -m.blade_width_mm / 2
    end = left + m.stock_length_mm
    return (
        along("blade_length", 0.0, under, x_mm=left),
        across("blade_width", m.blade_width_mm, z_mm=0.0),
        across("blade_thickness", m.blade_thickness_mm, z_mm=0.0, view="side"),
        across("stock_length", m.stock_length_mm, z_mm=top, at_mm=(left + end) / 2),
        along("stock_width", under, top, x_mm=end),
        across("stock_thickness", m.stock_thickness_mm, z_mm=top, view="side"),
    )


KIND = Kind(
    name="square",
    title="Try square: a blade and a stock",
    measures=SquareMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(
        blade_length=150.0,
        blade_width=38.0,
        blade_thickness=1.8,
        stock_length=115.0,
        stock_width=24.0,
        stock_thickness=18.0,
    ),
)
