"""Anything flat with straight edges, on edge.

┌────────┐  ← z = length
│        │  width; thickness is out of the page
└────────┘  ← z = 0
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import FlatEdge, Footprint, ThinPlate
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.rigid import turn
from cleatwright.shapes.solid import block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import MIXED

END_MM = 1.0


class FlatPlateMeasures(Measures):
    """What is measured on a flat thing."""

    length_mm: float = Field(ge=45.0, le=1500.0, description="along its longer edge")
    width_mm: float = Field(ge=15.0, le=500.0, description="along its shorter edge")
    thickness_mm: float = Field(ge=0.5, le=60.0, description="through its thickest place")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one plate."""
        if self.width_mm > self.length_mm:
            yield self.at_odds("{width} is more than {length}: exchange the two")


def body(m: FlatPlateMeasures, weighed_kg: float | None) -> ToolBody:
    """Return one plate on its shorter edge."""
    half, y = m.width_mm / 2, m.thickness_mm / 2
    plate = MassComponent(block(-half, -y, 0.0, half, y, m.length_mm), MIXED)
    return assembled(
        [plate],
        weighed_kg,
        kind="flat-plate",
        leading=f"{short(m.length_mm)}×{short(m.width_mm)}",
        grips=(
            ThinPlate(turn("z", 90.0), m.thickness_mm, -half, half, m.length_mm),
            FlatEdge(END_MM, m.length_mm - END_MM, m.width_mm, m.thickness_mm),
            Footprint(0.0, m.width_mm, m.thickness_mm, m.length_mm),
        ),
        order_mm=m.length_mm,
    )


def _dimensions(m: FlatPlateMeasures) -> tuple[Dimension, ...]:
    return (
        along("length", 0.0, m.length_mm, x_mm=m.width_mm / 2),
        across("width", m.width_mm, z_mm=0.0),
        across("thickness", m.thickness_mm, z_mm=0.0, view="side"),
    )


KIND = Kind(
    name="flat-plate",
    title="Anything flat with straight edges",
    measures=FlatPlateMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(length=240.0, width=90.0, thickness=6.0),
    plain="flat",
)
