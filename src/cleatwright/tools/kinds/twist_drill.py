"""A twist drill, its shank down and its cutting end up, so that its size is seen.

╱╲    ← z = length
│ │    flutes, flute_length
│ │
├─┤
│ │    shank (as thick as the drill unless measured)
└─┘   ← z = 0
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import ShaftEnd
from cleatwright.parts.tool import ToolBody
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import (
    MassComponent,
    assembled,
    cylinder,
    short,
)
from cleatwright.tools.kind import AtOdds, Kind, Measures, optional_mm, ordinary
from cleatwright.tools.material import STEEL

# two flutes leave a little more than half of the circle (common practice, no source)
FLUTE_SHARE = 0.55
LEAST_SHANK_MM = 8.0


class TwistDrillMeasures(Measures):
    """What is measured on a twist drill."""

    diameter_mm: float = Field(ge=0.5, le=40.0, description="across the lands at the tip")
    length_mm: float = Field(ge=20.0, le=500.0, description="from end to end")
    flute_length_mm: float = Field(
        ge=3.0, le=450.0, description="from the tip to where the flutes run out"
    )
    shank_mm: float = optional_mm(
        0.5, 40.0, description="across the shank, if it is not as thick as the drill"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one drill."""
        if self.flute_length_mm > self.length_mm - LEAST_SHANK_MM:
            yield self.at_odds(
                "{flute_length} leaves less than {least} of shank on {length}: measure both again",
                least=LEAST_SHANK_MM,
            )


def body(m: TwistDrillMeasures, weighed_kg: float | None) -> ToolBody:
    """Return two cylinders, of which the flutes are a little more than half steel."""
    straight = m.length_mm - m.flute_length_mm
    shank = m.shank_mm or m.diameter_mm
    components = (
        MassComponent(cylinder(shank, 0.0, straight), STEEL),
        MassComponent(cylinder(m.diameter_mm, straight, m.length_mm), STEEL, FLUTE_SHARE),
    )
    return assembled(
        components,
        weighed_kg,
        kind="twist-drill",
        leading=f"⌀{short(m.diameter_mm)}×{short(m.length_mm)}",
        grips=(ShaftEnd(z_mm=0.0, diameter_mm=shank, length_mm=straight),),
        order_mm=m.diameter_mm,
    )


def _dimensions(m: TwistDrillMeasures) -> tuple[Dimension, ...]:
    straight = m.length_mm - m.flute_length_mm
    half = max(m.diameter_mm, m.shank_mm) / 2
    return (
        across("diameter", m.diameter_mm, z_mm=m.length_mm),
        along("length", 0.0, m.length_mm, x_mm=half),
        along("flute_length", straight, m.length_mm, x_mm=-half),
        across("shank", m.shank_mm, z_mm=straight / 2),
    )


KIND = Kind(
    name="twist-drill",
    title="Twist drill with a round shank",
    measures=TwistDrillMeasures,
    body=body,
    dimensions=_dimensions,
    # DIN 338, 8 mm (secondary source)
    example=ordinary(diameter=8.0, length=117.0, flute_length=75.0),
)
