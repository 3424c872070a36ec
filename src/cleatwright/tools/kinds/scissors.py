"""Scissors, shears or snips, closed, points down, with a loop for the fingers on each side.

 ╭──╮╭──╮  ← z = blade_length + loops_length
 │  ││  │  two finger loops, loops_width over both
 └──┴┴──┘  ← z = blade_length
    ││     blades and joint, blade_width
    └┘     ← points, z = 0

Closed points still stab: choose a holder that covers them.
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import Blade
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import rectangle
from cleatwright.shapes.rounding import fillet
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, flat, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import STEEL

# two thin blades that taper to their points; loops are rings (common practice, no source)
BLADE_SHARE = 0.4
LOOP_SHARE = 0.25
LEAST_LEDGE_MM = 2.5


class ScissorsMeasures(Measures):
    """What is measured on closed scissors."""

    blade_length_mm: float = Field(
        ge=25.0, le=300.0, description="from the points to the underside of the finger loops"
    )
    blade_width_mm: float = Field(
        ge=6.0, le=80.0, description="the widest place below the loops, with the joint, closed"
    )
    blade_thickness_mm: float = Field(
        ge=2.0, le=30.0, description="the thickest place below the loops, over the joint's screw"
    )
    loops_width_mm: float = Field(ge=20.0, le=160.0, description="over both closed loops")
    loops_length_mm: float = Field(
        ge=20.0, le=160.0, description="from the underside of the loops to their ends"
    )
    loops_thickness_mm: float = Field(ge=2.0, le=40.0, description="through the thicker loop")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one pair of scissors."""
        if self.loops_width_mm < self.blade_width_mm + 2.0 * LEAST_LEDGE_MM:
            yield self.at_odds(
                "{loops_width} stands out less than {least} on each side of {blade_width}, "
                "so nothing can carry it: measure both again, closed",
                least=LEAST_LEDGE_MM,
            )


def body(m: ScissorsMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body; the loops count as closed plates."""
    half, foot, x = m.blade_width_mm / 2, m.blade_length_mm, m.loops_width_mm / 2
    top = foot + m.loops_length_mm
    # only the outer upper corner is round, so that the underside carries up to its end
    round_mm = min(x, m.loops_length_mm) / 2
    right = fillet(rectangle(0.0, foot, x, top), round_mm, only=(2,))
    left = fillet(rectangle(-x, foot, 0.0, top), round_mm, only=(3,))
    blades = flat(rectangle(-half, 0.0, half, foot), m.blade_thickness_mm)
    components = (
        MassComponent(blades, STEEL, BLADE_SHARE),
        *(MassComponent(flat(o, m.loops_thickness_mm), STEEL, LOOP_SHARE) for o in (right, left)),
    )
    blade = Blade(
        z_mm=foot,
        length_mm=foot,
        width_mm=m.blade_width_mm,
        thickness_mm=m.blade_thickness_mm,
        stop_x_mm=m.loops_width_mm,
        stop_y_mm=m.loops_thickness_mm,
    )
    return assembled(
        components,
        weighed_kg,
        kind="scissors",
        leading=f"{short(m.blade_length_mm)}×{short(m.blade_width_mm)}",
        grips=(blade,),
        order_mm=m.blade_length_mm,
    )


def _dimensions(m: ScissorsMeasures) -> tuple[Dimension, ...]:
    foot, top, x = m.blade_length_mm, m.blade_length_mm + m.loops_length_mm, m.loops_width_mm / 2
    middle = (foot + top) / 2
    return (
        along("blade_length", 0.0, foot, x_mm=m.blade_width_mm / 2),
        across("blade_width", m.blade_width_mm, z_mm=0.0),
        across("blade_thickness", m.blade_thickness_mm, z_mm=foot / 2, view="side"),
        across("loops_width", m.loops_width_mm, z_mm=middle),
        along("loops_length", foot, top, x_mm=x),
        across("loops_thickness", m.loops_thickness_mm, z_mm=top, view="side"),
    )


KIND = Kind(
    name="scissors",
    title="Scissors, shears or snips with two finger loops",
    measures=ScissorsMeasures,
    body=body,
    dimensions=_dimensions,
    caution="Hang scissors and shears closed.",
    example=ordinary(
        blade_length=115.0,
        blade_width=24.0,
        blade_thickness=8.0,
        loops_width=70.0,
        loops_length=75.0,
        loops_thickness=11.0,
    ),
    properties=("sharp",),
)
