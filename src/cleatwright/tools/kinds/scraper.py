"""A card scraper or another plain plate of steel, its long side upright.

 ┌─────┐  ← z = length
 │     │
 │     │  width
 └─────┘  ← z = 0

Its edges carry a burr that cuts: take it by the flat sides.
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import FlatEdge, SteelFace, ThinPlate
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.rigid import turn
from cleatwright.shapes.solid import block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import STEEL

END_MM = 1.0


class ScraperMeasures(Measures):
    """What is measured on a card scraper."""

    length_mm: float = Field(ge=40.0, le=300.0, description="along its long side")
    width_mm: float = Field(ge=20.0, le=150.0, description="along its short side")
    thickness_mm: float = Field(ge=0.3, le=6.0, description="through the plate")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one scraper."""
        if self.width_mm > self.length_mm:
            yield self.at_odds("{width} is more than {length}: exchange the two")


def body(m: ScraperMeasures, weighed_kg: float | None) -> ToolBody:
    """Return one plate of steel on its edge."""
    half, y = m.width_mm / 2, m.thickness_mm / 2
    component = MassComponent(block(-half, -y, 0.0, half, y, m.length_mm), STEEL)
    return assembled(
        [component],
        weighed_kg,
        kind="scraper",
        leading=f"{short(m.length_mm)}×{short(m.width_mm)}",
        grips=(
            ThinPlate(turn("z", 90.0), m.thickness_mm, -half, half, m.length_mm),
            FlatEdge(END_MM, m.length_mm - END_MM, m.width_mm, m.thickness_mm),
            SteelFace(-y, END_MM, m.length_mm - END_MM, m.width_mm, m.thickness_mm),
        ),
        order_mm=m.length_mm,
    )


def _dimensions(m: ScraperMeasures) -> tuple[Dimension, ...]:
    return (
        along("length", 0.0, m.length_mm, x_mm=m.width_mm / 2),
        across("width", m.width_mm, z_mm=0.0),
        across("thickness", m.thickness_mm, z_mm=0.0, view="side"),
    )


KIND = Kind(
    name="scraper",
    title="Card scraper, a plain plate of steel",
    measures=ScraperMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(length=150.0, width=62.0, thickness=0.8),
    properties=("sharp",),
)
