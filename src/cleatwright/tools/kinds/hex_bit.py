"""A bit with a hexagonal shank, its shank down and its tip up; also a socket on such a shank.

  ╷     ← z = length
  │      tip (may be left out)
┌─┴─┐   ← z = length - tip_length
│   │    hexagonal shank, flats to the left and the right
└───┘   ← z = 0
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import HexShank, ShaftEnd
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import hexagon
from cleatwright.shapes.solid import prism
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import (
    MassComponent,
    assembled,
    cylinder,
    short,
)
from cleatwright.tools.kind import AtOdds, Kind, Measures, optional_mm, ordinary
from cleatwright.tools.kinds.hex_key import CORNERS
from cleatwright.tools.material import STEEL

# where nobody measured the tip: at least half of an insert bit is hexagonal (common practice,
# no source)
SHANK_SHARE = 0.5
LEAST_SHANK_MM = 5.0


class HexBitMeasures(Measures):
    """What is measured on a bit."""

    flats_mm: float = Field(
        ge=3.0, le=20.0, description="across two opposite flats of the shank; 6.35 for most"
    )
    length_mm: float = Field(ge=12.0, le=300.0, description="from the shank's end to the tip")
    tip_mm: float = optional_mm(
        1.0, 40.0, description="across the widest place above the shank, corners included"
    )
    tip_length_mm: float = optional_mm(
        2.0, 280.0, description="from the end of the hexagonal shank to the tip"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one bit."""
        yield from self.together("tip", "tip_length")
        if self.tip_length_mm > self.length_mm - LEAST_SHANK_MM:
            yield self.at_odds(
                "{tip_length} leaves less than {least} of shank "
                "on a length of {length}: measure the length overall",
                "length",
                least=LEAST_SHANK_MM,
                length=self.length_mm,
            )


def body(m: HexBitMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body; without its own measures the tip counts as part of the hexagon."""
    shank = m.length_mm - m.tip_length_mm
    straight = shank if m.tip_length_mm > 0.0 else SHANK_SHARE * m.length_mm
    components = [MassComponent(prism(hexagon(m.flats_mm).turned(90.0), shank), STEEL)]
    if m.tip_length_mm > 0.0:
        components.append(MassComponent(cylinder(m.tip_mm, shank, m.length_mm), STEEL))
    return assembled(
        components,
        weighed_kg,
        kind="hex-bit",
        leading=f"SW{short(m.flats_mm)}×{m.length_mm:.0f}",
        grips=(
            HexShank(z_mm=0.0, flats_mm=m.flats_mm, length_mm=straight),
            ShaftEnd(z_mm=0.0, diameter_mm=CORNERS * m.flats_mm, length_mm=straight),
        ),
        # the shortest bits then come to stand in front
        order_mm=m.length_mm,
    )


def _dimensions(m: HexBitMeasures) -> tuple[Dimension, ...]:
    shank = m.length_mm - m.tip_length_mm
    tip = (
        across("tip", m.tip_mm, z_mm=m.length_mm),
        along("tip_length", shank, m.length_mm, x_mm=-m.flats_mm / 2),
    )
    return (
        across("flats", m.flats_mm, z_mm=0.3 * shank),
        along("length", 0.0, m.length_mm, x_mm=m.flats_mm / 2),
        *tip,
    )


KIND = Kind(
    name="hex-bit",
    title="Bit or small socket on a hexagonal shank",
    measures=HexBitMeasures,
    body=body,
    dimensions=_dimensions,
    # ISO 1173 form E 6.3: 6.35 mm across flats, 50 mm long (from memory); tip: common practice
    example=ordinary(flats=6.35, length=50.0, tip=6.0, tip_length=25.0),
)
