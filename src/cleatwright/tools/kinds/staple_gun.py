"""A staple gun or another flat tool with a closed opening for the hand.

┌────────────┐  ← z = height
│  ┌──────┐  │  rim, above the opening
│  └──────┘  │  opening_width by opening_height, in the middle of the tool
│            │
└────────────┘  ← z = 0, length
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.tool import ToolBody
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.openings import Opening
from cleatwright.tools.features.pieces import MassComponent, assembled, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import STEEL

# a shell of sheet around a spring: 0.6 to 0.9 kg for 170 by 150 by 30 mm (common practice, no
# source)
FILLED = 0.18
LEAST_RIM_MM = 5.0


class StapleGunMeasures(Measures):
    """What is measured on a flat tool with a hand opening."""

    length_mm: float = Field(ge=80.0, le=400.0, description="along the handle, from end to end")
    height_mm: float = Field(
        ge=60.0, le=400.0, description="from the top of the handle to the lowest end"
    )
    thickness_mm: float = Field(ge=8.0, le=60.0, description="through the thickest place")
    opening_width_mm: float = Field(
        ge=40.0, le=200.0, description="the opening for the hand, clear along the handle"
    )
    opening_height_mm: float = Field(
        ge=15.0, le=120.0, description="the opening for the hand, clear the other way"
    )
    rim_mm: float = Field(
        ge=LEAST_RIM_MM, le=80.0, description="from the opening's upper edge to the top"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one tool."""
        if self.opening_width_mm > self.length_mm - 2.0 * LEAST_RIM_MM:
            yield self.at_odds(
                "{opening_width} leaves less than {least} at each end of {length}: measure "
                "the opening inside, and the length end to end",
                least=LEAST_RIM_MM,
            )
        if self.opening_height_mm + self.rim_mm > self.height_mm - LEAST_RIM_MM:
            yield self.at_odds(
                "{opening_height} and {rim} do not fit into {height}: measure all three again"
            )


def _opening(m: StapleGunMeasures) -> Opening:
    z1 = m.height_mm - m.rim_mm
    return Opening(
        half_mm=m.length_mm / 2,
        low_mm=0.0,
        top_mm=m.height_mm,
        width_mm=m.opening_width_mm,
        z0_mm=z1 - m.opening_height_mm,
        z1_mm=z1,
        thickness_mm=m.thickness_mm,
    )


def body(m: StapleGunMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: a plate around the opening, partly steel."""
    opening = _opening(m)
    return assembled(
        [MassComponent(solid, STEEL, FILLED) for solid in opening.solids()],
        weighed_kg,
        kind="staple-gun",
        leading=f"{short(m.length_mm)}×{short(m.height_mm)}",
        grips=opening.grips(),
        order_mm=m.length_mm,
    )


def _dimensions(m: StapleGunMeasures) -> tuple[Dimension, ...]:
    z1 = m.height_mm - m.rim_mm
    return (
        across("length", m.length_mm, z_mm=0.0),
        along("height", 0.0, m.height_mm, x_mm=m.length_mm / 2),
        across("thickness", m.thickness_mm, z_mm=0.0, view="side"),
        across("opening_width", m.opening_width_mm, z_mm=z1),
        along("opening_height", z1 - m.opening_height_mm, z1, x_mm=-m.opening_width_mm / 2),
        along("rim", z1, m.height_mm),
    )


KIND = Kind(
    name="staple-gun",
    title="Staple gun or another flat tool with a hand opening",
    measures=StapleGunMeasures,
    body=body,
    dimensions=_dimensions,
    caution="Take the staples or nails out, or lock the lever, before it goes on the wall.",
    example=ordinary(
        length=170.0,
        height=150.0,
        thickness=30.0,
        opening_width=95.0,
        opening_height=32.0,
        rim=22.0,
    ),
)
