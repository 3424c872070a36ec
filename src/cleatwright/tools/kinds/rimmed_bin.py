"""A bin with a rim, half full of small steel parts until it is weighed: 2000 kg/m3.

seen from the front            seen from the side

  ╔══════════════╗ rim          ╔════════╗   ↔ rim_width, rim_depth
  ╚╤════════════╤╝              ╚╤══════╤╝
   │            │                │      │
   │    body    │ height         │      │   ↔ body_width, body_depth:
   └────────────┘                └──────┘     at the widest, below the rim
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.base import said
from cleatwright.parts.grips import Footprint, Rim
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.solid import block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import SMALL_PARTS

LEAST_LEDGE_MM = 2.0


class BinMeasures(Measures):
    """What is measured on a bin."""

    rim_width_mm: float = Field(ge=24.0, le=600.0, description="over the rim, along the wall")
    rim_depth_mm: float = Field(ge=24.0, le=600.0, description="over the rim, out of the wall")
    body_width_mm: float = Field(ge=20.0, le=590.0, description="close below the rim, along it")
    body_depth_mm: float = Field(ge=20.0, le=590.0, description="close below the rim, out of it")
    height_mm: float = Field(ge=20.0, le=500.0, description="from the base to the top of the rim")
    rim_mm: float = Field(ge=1.0, le=60.0, description="height of the rim, from its underside up")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be: a rim that does not stand out, or as high as the bin."""
        for rim, below in (("rim_width", "body_width"), ("rim_depth", "body_depth")):
            if self.value_mm(rim) < self.value_mm(below) + LEAST_LEDGE_MM:
                yield self.at_odds(
                    f"{self.shown(rim)} must be at least {said.least(LEAST_LEDGE_MM)} more than "
                    f"{self.shown(below)}",
                    rim,
                    below,
                )
        if self.rim_mm > 0.3 * self.height_mm:
            yield self.at_odds("{rim} is more than three tenths of {height}")


def body(m: BinMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: a block with a rim around its top."""
    x, y = m.body_width_mm / 2, m.body_depth_mm / 2
    a, b, under = m.rim_width_mm / 2, m.rim_depth_mm / 2, m.height_mm - m.rim_mm
    below = block(-x, -y, 0.0, x, y, under)
    rim = block(-a, -b, under, a, b, m.height_mm)
    return assembled(
        [MassComponent(below, SMALL_PARTS)],
        weighed_kg,
        kind="bin",
        leading=f"{short(m.rim_width_mm)}×{short(m.rim_depth_mm)}",
        weightless=(rim,),
        grips=(
            Rim(
                z_mm=under,
                body_x_mm=m.body_width_mm,
                below_mm=under,
                rim_x_mm=m.rim_width_mm,
                rim_y_mm=m.rim_depth_mm,
                rim_mm=m.rim_mm,
            ),
            Footprint(
                z_mm=0.0,
                width_mm=m.body_width_mm,
                depth_mm=m.body_depth_mm,
                height_mm=m.height_mm,
            ),
        ),
        order_mm=m.rim_width_mm,
    )


def _dimensions(m: BinMeasures) -> tuple[Dimension, ...]:
    under = m.height_mm - m.rim_mm
    return (
        across("rim_width", m.rim_width_mm, z_mm=m.height_mm),
        across("rim_depth", m.rim_depth_mm, z_mm=m.height_mm, view="side"),
        across("body_width", m.body_width_mm, z_mm=0.8 * under),
        across("body_depth", m.body_depth_mm, z_mm=0.8 * under, view="side"),
        along("height", 0.0, m.height_mm, x_mm=m.body_width_mm / 2),
        along("rim", under, m.height_mm, x_mm=-m.rim_width_mm / 2),
    )


KIND = Kind(
    name="bin",
    title="Bin with a rim around its top",
    measures=BinMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(
        rim_width=110.0, rim_depth=150.0, body_width=96.0, body_depth=136.0, height=80.0, rim=8.0
    ),
)
