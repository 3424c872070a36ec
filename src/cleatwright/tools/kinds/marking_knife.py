"""A marking knife, a carving knife or a striking blade, point down.

 ┌───┐  ← handle, z = blade_length + handle_length
 │   │  handle, handle_width by handle_thickness
 └┬─┬┘
  │ │   blade
   ╲│   ← point, z = 0

Its point is sharp on purpose: choose a holder that covers it.
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import Blade
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.solid import block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import STEEL, WOOD

# a blade that runs to a point fills about two thirds of the box around it
BLADE_SHARE = 0.65
# an oval handle fills about pi / 4 of the box around it
HANDLE_SHARE = 0.785
ROUNDING_MM = 1e-9
LEAST_LEDGE_MM = 2.5


class MarkingKnifeMeasures(Measures):
    """What is measured on a marking knife."""

    blade_length_mm: float = Field(
        ge=15.0, le=200.0, description="from the point to the handle, with any ferrule"
    )
    blade_width_mm: float = Field(
        ge=2.0, le=50.0, description="across the blade or the ferrule, whichever is wider"
    )
    blade_thickness_mm: float = Field(
        ge=0.8, le=15.0, description="through the blade or the ferrule, whichever is thicker"
    )
    handle_width_mm: float = Field(
        ge=8.0, le=60.0, description="the handle's widest place, in line with the blade's flat side"
    )
    handle_thickness_mm: float = Field(
        ge=4.0, le=60.0, description="through the handle's thickest place"
    )
    handle_length_mm: float = Field(ge=30.0, le=200.0, description="from the blade to the end")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one marking knife."""
        ledge = max(
            self.handle_width_mm - self.blade_width_mm,
            self.handle_thickness_mm - self.blade_thickness_mm,
        )
        # 16.2 less 11.2 is a little less than 5 to a computer
        if ledge < 2.0 * LEAST_LEDGE_MM - ROUNDING_MM:
            yield self.at_odds(
                "{handle_width} and {handle_thickness} stand out less than {least} beside "
                "{blade_width} and {blade_thickness}, so nothing can carry it: measure the blade "
                "up to where the handle is full",
                least=LEAST_LEDGE_MM,
            )


def body(m: MarkingKnifeMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: a steel blade and a wooden handle."""
    foot, top = m.blade_length_mm, m.blade_length_mm + m.handle_length_mm
    bx, by = m.blade_width_mm / 2, m.blade_thickness_mm / 2
    hx, hy = m.handle_width_mm / 2, m.handle_thickness_mm / 2
    components = (
        MassComponent(block(-bx, -by, 0.0, bx, by, foot), STEEL, BLADE_SHARE),
        MassComponent(block(-hx, -hy, foot, hx, hy, top), WOOD, HANDLE_SHARE),
    )
    blade = Blade(
        z_mm=foot,
        length_mm=foot,
        width_mm=m.blade_width_mm,
        thickness_mm=m.blade_thickness_mm,
        stop_x_mm=m.handle_width_mm,
        stop_y_mm=m.handle_thickness_mm,
    )
    return assembled(
        components,
        weighed_kg,
        kind="marking-knife",
        leading=f"{short(m.blade_width_mm)}×{short(m.blade_length_mm)}",
        grips=(blade,),
        order_mm=m.blade_width_mm,
    )


def _dimensions(m: MarkingKnifeMeasures) -> tuple[Dimension, ...]:
    foot, top = m.blade_length_mm, m.blade_length_mm + m.handle_length_mm
    return (
        along("blade_length", 0.0, foot, x_mm=m.blade_width_mm / 2),
        across("blade_width", m.blade_width_mm, z_mm=0.0),
        across("blade_thickness", m.blade_thickness_mm, z_mm=foot / 2, view="side"),
        across("handle_width", m.handle_width_mm, z_mm=top),
        across("handle_thickness", m.handle_thickness_mm, z_mm=top, view="side"),
        along("handle_length", foot, top, x_mm=m.handle_width_mm / 2),
    )


KIND = Kind(
    name="marking-knife",
    title="Marking or carving knife with a fixed blade",
    measures=MarkingKnifeMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(
        blade_length=50.0,
        blade_width=12.0,
        blade_thickness=2.5,
        handle_width=20.0,
        handle_thickness=15.0,
        handle_length=110.0,
    ),
    properties=("sharp",),
)
