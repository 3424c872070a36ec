"""A hex key, long arm down, short arm on top and out to the person.

y ←──────┐   ← z = long_arm
 short   │
         │ long arm
         │
         ┘   ← z = 0
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import ShaftEnd
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import hexagon
from cleatwright.shapes.solid import prism
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, mass_and_centre, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import STEEL

CORNERS = 2.0 / math.sqrt(3.0)


class HexKeyMeasures(Measures):
    """What is measured on a hex key."""

    flats_mm: float = Field(ge=0.7, le=36.0, description="across two opposite flats")
    long_arm_mm: float = Field(
        ge=15.0, le=500.0, description="from the tip to the outside of the short arm"
    )
    short_arm_mm: float = Field(
        ge=5.0, le=250.0, description="from the tip to the outside of the long arm"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one hex key."""
        if self.long_arm_mm < self.short_arm_mm:
            yield self.at_odds("{long_arm} is less than {short_arm}: exchange the two")
        if self.short_arm_mm < 2.0 * self.flats_mm:
            yield self.at_odds(
                "{short_arm} is less than twice {flats}: measure the arm over the outside of the "
                "bend"
            )


def body(m: HexKeyMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body, with the bend as a sharp corner.

    For the mass each arm ends at the crossing of the two centre lines, which is what a
    mitred corner holds.
    """
    bar, half = hexagon(m.flats_mm), m.flats_mm / 2
    level = m.long_arm_mm - half
    out = m.short_arm_mm - half
    # the turn lays the short arm's axis onto +y and keeps flats on top
    short_arm = prism(bar, out).turned("x", -90.0).moved(0.0, 0.0, level)
    components = (MassComponent(prism(bar, level), STEEL), MassComponent(short_arm, STEEL))
    mass_kg, com_mm = mass_and_centre(components, weighed_kg)
    end = ShaftEnd(
        z_mm=0.0, diameter_mm=CORNERS * m.flats_mm, length_mm=m.long_arm_mm - 2.0 * m.flats_mm
    )
    return ToolBody(
        kind="hex-key",
        leading=f"SW{short(m.flats_mm)}",
        envelope=(prism(bar, m.long_arm_mm), short_arm),
        mass_kg=mass_kg,
        com_mm=com_mm,
        grips=(end,) if end.length_mm > m.flats_mm else (),
        order_mm=m.flats_mm,
    )


def _dimensions(m: HexKeyMeasures) -> tuple[Dimension, ...]:
    return (
        across("flats", m.flats_mm, z_mm=0.3 * m.long_arm_mm, view="side"),
        along("long_arm", 0.0, m.long_arm_mm, x_mm=-m.flats_mm / 2, view="side"),
        across(
            "short_arm",
            m.short_arm_mm,
            z_mm=m.long_arm_mm,
            view="side",
            at_mm=m.short_arm_mm / 2 - m.flats_mm / 2,
        ),
    )


KIND = Kind(
    name="hex-key",
    title="Hex key with a long and a short arm",
    measures=HexKeyMeasures,
    body=body,
    dimensions=_dimensions,
    # DIN 911 / ISO 2936:1983, size 5 (from memory)
    example=ordinary(flats=5.0, long_arm=80.0, short_arm=28.0),
)
