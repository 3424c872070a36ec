"""A scalpel, a craft knife or another slim tool with a point, point down.

 ┌─┐  ← z = blade_length + handle_length
 │ │  handle, handle_width by handle_thickness
 └┬┘  ← z = blade_length
  ╲│  blade
   ╲  ← z = 0

It stands in a closed bore that covers its whole blade.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import ShaftEnd
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.solid import block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import STEEL

# a thin blade that runs to a point in the box of its handle's thickness; a slotted or a hollow
# handle: a scalpel handle of 125 mm weighs 20 to 30 g (common practice, no source)
BLADE_SHARE = 0.1
HANDLE_SHARE = 0.75
# the bore goes on past the blade, so that nothing of it shows
PAST_BLADE_MM = 3.0
END_MM = 1.0


class ScalpelMeasures(Measures):
    """What is measured on a slim tool with a point."""

    blade_length_mm: float = Field(
        ge=5.0, le=60.0, description="from the point to the handle, with any holder of the blade"
    )
    handle_length_mm: float = Field(ge=60.0, le=200.0, description="from the blade to the end")
    handle_width_mm: float = Field(
        ge=4.0, le=21.0, description="the widest place of handle or blade, across the flat side"
    )
    handle_thickness_mm: float = Field(
        ge=2.0, le=21.0, description="the thickest place of handle or blade, the other way"
    )

    @property
    def across_mm(self) -> float:
        """Return the circle around its section."""
        return math.hypot(self.handle_width_mm, self.handle_thickness_mm)

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one slim tool."""
        if self.handle_thickness_mm > self.handle_width_mm:
            yield self.at_odds("{handle_thickness} is more than {handle_width}: exchange the two")


def body(m: ScalpelMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: the blade counts as wide as the handle."""
    x, y, foot = m.handle_width_mm / 2, m.handle_thickness_mm / 2, m.blade_length_mm
    top = foot + m.handle_length_mm
    components = (
        MassComponent(block(-x, -y, 0.0, x, y, foot), STEEL, BLADE_SHARE),
        MassComponent(block(-x, -y, foot, x, y, top), STEEL, HANDLE_SHARE),
    )
    end = ShaftEnd(
        z_mm=0.0,
        diameter_mm=m.across_mm,
        length_mm=top - END_MM,
        covered_mm=foot + PAST_BLADE_MM,
    )
    return assembled(
        components,
        weighed_kg,
        kind="scalpel",
        leading=f"{short(m.handle_width_mm)}×{short(top)}",
        grips=(end,),
        order_mm=m.handle_width_mm,
    )


def _dimensions(m: ScalpelMeasures) -> tuple[Dimension, ...]:
    foot, top = m.blade_length_mm, m.blade_length_mm + m.handle_length_mm
    return (
        along("blade_length", 0.0, foot, x_mm=m.handle_width_mm / 2),
        along("handle_length", foot, top, x_mm=m.handle_width_mm / 2),
        across("handle_width", m.handle_width_mm, z_mm=top),
        across("handle_thickness", m.handle_thickness_mm, z_mm=top, view="side"),
    )


KIND = Kind(
    name="scalpel",
    title="Scalpel, craft knife or another slim tool with a point",
    measures=ScalpelMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(
        blade_length=38.0, handle_length=110.0, handle_width=9.5, handle_thickness=3.5
    ),
    properties=("sharp",),
)
