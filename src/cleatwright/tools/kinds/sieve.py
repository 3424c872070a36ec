"""A sieve, a riddle, a pan or another round thing with a deep rim, flat to the wall.

seen from the front      seen from the side

    ╭───────╮              ┌──┐  ← z = diameter
   │         │             │  │
   │         │             │  │  depth
    ╰───────╯              └──┘  ← z = 0

It stands on its rim: a handle is no part of the measures, and must look up.
A rim of 4 mm or more counts as wood, a thinner one as sheet of steel.
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import RoundRim
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.exact_volume import exact_moments
from cleatwright.shapes.outline import circle
from cleatwright.shapes.solid import prism
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, mass_and_centre, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import STEEL, WOOD

WOODEN_MM = 4.0
# a mesh, a bottom or a lid counts as a sheet of steel so thick
SHEET_MM = 0.6


class SieveMeasures(Measures):
    """What is measured on a round thing with a rim."""

    diameter_mm: float = Field(ge=80.0, le=600.0, description="across the rim, outside")
    depth_mm: float = Field(ge=14.0, le=160.0, description="along the rim, out of the wall")
    rim_mm: float = Field(ge=0.4, le=25.0, description="through the rim")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one rim."""
        if 4.0 * self.rim_mm > self.diameter_mm:
            yield self.at_odds("{rim} is more than a quarter of {diameter}: measure both again")


def body(m: SieveMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: a full cylinder, of which the rim and one sheet count as material."""
    radius = m.diameter_mm / 2
    whole = prism(circle(m.diameter_mm), m.depth_mm).turned("x", 90.0)
    whole = whole.moved(0.0, m.depth_mm / 2, radius)
    volume = exact_moments(whole).volume_mm3
    inner = exact_moments(prism(circle(m.diameter_mm - 2.0 * m.rim_mm), m.depth_mm)).volume_mm3
    rim = MassComponent(whole, WOOD if m.rim_mm >= WOODEN_MM else STEEL, (volume - inner) / volume)
    sheet = MassComponent(whole, STEEL, SHEET_MM / m.depth_mm)
    mass_kg, com_mm = mass_and_centre((rim, sheet), weighed_kg)
    return ToolBody(
        kind="sieve",
        leading=f"⌀{short(m.diameter_mm)}×{short(m.depth_mm)}",
        envelope=(whole,),
        mass_kg=mass_kg,
        com_mm=com_mm,
        grips=(RoundRim(radius, m.diameter_mm, m.depth_mm),),
        order_mm=m.diameter_mm,
    )


def _dimensions(m: SieveMeasures) -> tuple[Dimension, ...]:
    return (
        along("diameter", 0.0, m.diameter_mm),
        across("depth", m.depth_mm, z_mm=0.0, view="side"),
        along("rim", m.diameter_mm - m.rim_mm, m.diameter_mm),
    )


KIND = Kind(
    name="sieve",
    title="Sieve, riddle, pan or another round thing with a deep rim",
    measures=SieveMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(diameter=300.0, depth=75.0, rim=5.0),
)
