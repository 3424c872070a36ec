"""A filling knife, a palette knife or a stripping knife, blade down.

 ┌───┐     ← z = blade_length + handle_length
 │ o │     hole (may be missing), hole_rim above it
 │   │     handle, handle_width by handle_thickness
┌┴───┴┐    ← z = blade_length
│     │    blade, blade_width
└─────┘    ← z = 0

It rests with what its handle is thicker than its blade, or hangs by its hole.
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import Blade
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import rectangle
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, flat, short
from cleatwright.tools.features.plates import EndHole
from cleatwright.tools.kind import AtOdds, Kind, Measures, optional_mm, ordinary
from cleatwright.tools.material import STEEL, WOOD

# a blade is thin beside the neck by which its thickness is measured, and narrows to it
BLADE_SHARE = 0.35
# an oval handle fills about pi / 4 of the box around it
HANDLE_SHARE = 0.785
LEAST_RIM_MM = 2.0
LEAST_LEDGE_MM = 2.5
ROUNDING_MM = 1e-9


class FillingKnifeMeasures(Measures):
    """What is measured on a filling knife."""

    blade_length_mm: float = Field(
        ge=30.0, le=180.0, description="from the edge up to where the handle is full"
    )
    blade_width_mm: float = Field(ge=5.0, le=120.0, description="across the blade's widest place")
    blade_thickness_mm: float = Field(
        ge=0.8, le=12.0, description="through the blade or its neck, whichever is thicker"
    )
    handle_length_mm: float = Field(ge=50.0, le=250.0, description="from the blade to the end")
    handle_width_mm: float = Field(
        ge=8.0, le=60.0, description="across the handle, in line with the blade's flat side"
    )
    handle_thickness_mm: float = Field(ge=6.0, le=50.0, description="through the handle")
    hole_mm: float = optional_mm(
        3.0, 30.0, description="the hole at the handle's end, clear across"
    )
    hole_rim_mm: float = optional_mm(
        LEAST_RIM_MM, 40.0, description="from the hole's edge to the end of the handle"
    )

    @property
    def hole(self) -> EndHole:
        """Return the hole at the end of the handle."""
        top = self.blade_length_mm + self.handle_length_mm
        return EndHole(self.handle_width_mm / 2, top, self.hole_mm, self.hole_rim_mm)

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one knife."""
        yield from self.together("hole", "hole_rim")
        ledge = (
            max(
                self.handle_width_mm - self.blade_width_mm,
                self.handle_thickness_mm - self.blade_thickness_mm,
            )
            / 2
        )
        if ledge < LEAST_LEDGE_MM - ROUNDING_MM:
            yield self.at_odds(
                "{handle_width} and {handle_thickness} stand out less than {least} on each "
                "side of {blade_width} and {blade_thickness}, so nothing can carry it: measure "
                "the blade up to where the handle is full",
                least=LEAST_LEDGE_MM,
            )
        if self.hole_mm > self.handle_width_mm - 2.0 * LEAST_RIM_MM:
            yield self.at_odds("{hole} does not fit into {handle_width}: measure both again")
        if self.hole_mm + 2.0 * self.hole_rim_mm > self.handle_length_mm - 5.0:
            yield self.at_odds(
                "{hole} and {hole_rim} do not fit into {handle_length}: measure all three again"
            )


def body(m: FillingKnifeMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: a plate of steel and a handle of wood; a hole stays open."""
    foot, half, hole = m.blade_length_mm, m.handle_width_mm / 2, m.hole
    blade = flat(
        rectangle(-m.blade_width_mm / 2, 0.0, m.blade_width_mm / 2, foot), m.blade_thickness_mm
    )
    outlines = [rectangle(-half, foot, half, hole.low_mm), *hole.outlines()]
    components = (
        MassComponent(blade, STEEL, BLADE_SHARE),
        *(MassComponent(flat(one, m.handle_thickness_mm), WOOD, HANDLE_SHARE) for one in outlines),
    )
    edge = Blade(
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
        kind="filling-knife",
        leading=f"{short(m.blade_width_mm)}×{short(m.blade_length_mm)}",
        grips=(*hole.grips(m.handle_thickness_mm), edge),
        order_mm=m.blade_width_mm,
    )


def _dimensions(m: FillingKnifeMeasures) -> tuple[Dimension, ...]:
    foot, top = m.blade_length_mm, m.blade_length_mm + m.handle_length_mm
    return (
        along("blade_length", 0.0, foot, x_mm=m.blade_width_mm / 2),
        across("blade_width", m.blade_width_mm, z_mm=0.0),
        across("blade_thickness", m.blade_thickness_mm, z_mm=foot / 2, view="side"),
        along("handle_length", foot, top, x_mm=m.handle_width_mm / 2),
        across("handle_width", m.handle_width_mm, z_mm=foot),
        across("handle_thickness", m.handle_thickness_mm, z_mm=top, view="side"),
        *m.hole.dimensions(),
    )


KIND = Kind(
    name="filling-knife",
    title="Filling, palette or stripping knife",
    measures=FillingKnifeMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(
        blade_length=105.0,
        blade_width=60.0,
        blade_thickness=3.0,
        handle_length=115.0,
        handle_width=28.0,
        handle_thickness=20.0,
        hole=8.0,
        hole_rim=6.0,
    ),
    properties=("sharp",),
)
