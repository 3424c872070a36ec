"""A hex key with a handle across its top: long arm down, the handle along the wall.

┌─────────────┐   ← z = length
│   handle    │
└─────┬─┬─────┘
      │ │  arm, flats to the left and the right
      └─┘         ← z = 0
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import Overhang, ShaftEnd
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import hexagon
from cleatwright.shapes.solid import block, prism
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.kinds.hex_key import CORNERS
from cleatwright.tools.material import PLASTIC, STEEL

# rounded edges and finger hollows take away a fifth of the block around a handle (common
# practice, no source)
HANDLE_SHARE = 0.8


class THexKeyMeasures(Measures):
    """What is measured on a hex key with a cross handle."""

    flats_mm: float = Field(ge=1.5, le=20.0, description="across two opposite flats of the arm")
    length_mm: float = Field(ge=70.0, le=500.0, description="from the tip to the handle's top")
    handle_length_mm: float = Field(ge=30.0, le=250.0, description="along the handle")
    handle_height_mm: float = Field(
        ge=8.0, le=50.0, description="from the handle's top to its underside at the arm"
    )
    handle_depth_mm: float = Field(ge=5.0, le=50.0, description="across the handle, the flat way")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one key."""
        if self.handle_length_mm < 2.0 * self.flats_mm:
            yield self.at_odds(
                "{handle_length} is less than twice {flats}: measure along the handle, across the "
                "arm"
            )
        if self.length_mm < self.handle_height_mm + 20.0:
            yield self.at_odds(
                "{length} leaves less than {least} of arm below {handle_height}: measure the "
                "length overall",
                least=20.0,
            )


def body(m: THexKeyMeasures, weighed_kg: float | None) -> ToolBody:
    """Return a hexagonal bar of steel and the block around its handle."""
    under = m.length_mm - m.handle_height_mm
    x, y = m.handle_length_mm / 2, m.handle_depth_mm / 2
    components = (
        MassComponent(prism(hexagon(m.flats_mm).turned(90.0), under), STEEL),
        MassComponent(block(-x, -y, under, x, y, m.length_mm), PLASTIC, HANDLE_SHARE),
    )
    corners = CORNERS * m.flats_mm
    overhang = Overhang(
        z_mm=under,
        neck_x_mm=m.flats_mm,
        neck_y_mm=corners,
        neck_length_mm=under,
        handle_x_mm=m.flats_mm,
        head_x_mm=m.handle_length_mm,
        head_y_mm=max(m.handle_depth_mm, corners),
    )
    return assembled(
        components,
        weighed_kg,
        kind="t-hex-key",
        leading=f"SW{short(m.flats_mm)}×{m.length_mm:.0f}",
        grips=(overhang, ShaftEnd(z_mm=0.0, diameter_mm=corners, length_mm=under)),
        order_mm=m.flats_mm,
    )


def _dimensions(m: THexKeyMeasures) -> tuple[Dimension, ...]:
    under, half = m.length_mm - m.handle_height_mm, m.handle_length_mm / 2
    return (
        across("flats", m.flats_mm, z_mm=0.3 * under),
        along("length", 0.0, m.length_mm, x_mm=half),
        across("handle_length", m.handle_length_mm, z_mm=m.length_mm),
        along("handle_height", under, m.length_mm, x_mm=-half),
        across("handle_depth", m.handle_depth_mm, z_mm=m.length_mm, view="side"),
    )


KIND = Kind(
    name="t-hex-key",
    title="Hex key with a handle across its top",
    measures=THexKeyMeasures,
    body=body,
    dimensions=_dimensions,
    # an ordinary key of 5 mm: common practice, no source
    example=ordinary(
        flats=5.0, length=190.0, handle_length=90.0, handle_height=22.0, handle_depth=14.0
    ),
)
