"""A chisel or a gouge, edge down.

 ┌───┐  ← handle, z = blade_length + bolster_length + handle_length
 │   │  handle
 └┬─┬┘
  ├─┤   bolster (may be missing)
 ┌┴─┴┐
 │   │  blade, blade_width
 └───┘  ← edge, z = 0

An edge that is not covered cuts hands and is dulled: choose a holder that covers it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import Blade, Grip, Shoulder
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.solid import block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import (
    MassComponent,
    assembled,
    cylinder,
    short,
)
from cleatwright.tools.kind import AtOdds, Kind, Measures, optional_mm, ordinary
from cleatwright.tools.material import STEEL, WOOD

# a blade is bevelled, and it is thinner at its edge than where it was measured
BLADE_SHARE = 0.75
# a ledge narrower than this on each side sinks into the mouth of a holder
LEAST_LEDGE_MM = 2.5


class ChiselMeasures(Measures):
    """What is measured on a chisel."""

    blade_length_mm: float = Field(
        ge=20.0, le=300.0, description="from the edge to the bolster, or to the handle without one"
    )
    blade_width_mm: float = Field(ge=2.0, le=80.0, description="across the blade's widest place")
    blade_thickness_mm: float = Field(
        ge=1.0,
        le=40.0,
        description="through the blade's thickest place; of a gouge, from back to hollow edge",
    )
    handle_mm: float = Field(ge=8.0, le=60.0, description="across the handle's widest place")
    handle_length_mm: float = Field(
        ge=30.0, le=250.0, description="from the bolster or the blade to the handle's end"
    )
    bolster_mm: float = optional_mm(4.0, 60.0, description="across the bolster or the ferrule")
    bolster_length_mm: float = optional_mm(1.0, 60.0, description="along the bolster")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one chisel."""
        yield from self.together("bolster", "bolster_length")
        if self.bolster_mm > self.handle_mm:
            yield self.at_odds("{bolster} is thicker than {handle}: measure both again")
        if self.blade_thickness_mm > self.blade_width_mm * 2.0:
            yield self.at_odds(
                "{blade_thickness} is more than twice {blade_width}: exchange the two, or measure "
                "both again"
            )
        if self.handle_mm < self.blade_thickness_mm + 2.0 * LEAST_LEDGE_MM:
            yield self.at_odds(
                "{handle} is not {least} thicker than {blade_thickness}, so nothing can "
                "carry it: measure both again",
                least=2.0 * LEAST_LEDGE_MM,
            )


def body(m: ChiselMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: a steel blade and a wooden handle."""
    x, y, foot = m.blade_width_mm / 2, m.blade_thickness_mm / 2, m.blade_length_mm
    low = foot + m.bolster_length_mm
    components = [
        MassComponent(block(-x, -y, 0.0, x, y, foot), STEEL, BLADE_SHARE),
        MassComponent(cylinder(m.handle_mm, low, low + m.handle_length_mm), WOOD),
    ]
    if m.bolster_mm > 0.0:
        components.insert(1, MassComponent(cylinder(m.bolster_mm, foot, low), STEEL))
    return assembled(
        components,
        weighed_kg,
        kind="chisel",
        leading=f"{short(m.blade_width_mm)}×{short(m.blade_length_mm)}",
        grips=_grips(m),
        order_mm=m.blade_width_mm,
    )


def _grips(m: ChiselMeasures) -> tuple[Grip, ...]:
    """Return the blade below the lowest ledge that carries, and the shoulder of a wide handle."""
    foot, low = m.blade_length_mm, m.blade_length_mm + m.bolster_length_mm
    wide, thick = max(m.blade_width_mm, m.bolster_mm), max(m.blade_thickness_mm, m.bolster_mm)
    grips: list[Grip] = []
    if m.bolster_mm >= m.blade_thickness_mm + 2.0 * LEAST_LEDGE_MM:
        stop = m.bolster_mm
        grips.append(Blade(foot, foot, m.blade_width_mm, m.blade_thickness_mm, stop, stop))
    else:
        grips.append(Blade(low, low, wide, thick, m.handle_mm, m.handle_mm))
    neck = max(math.hypot(m.blade_width_mm, m.blade_thickness_mm), m.bolster_mm)
    if m.handle_mm > neck:
        grips.append(Shoulder(low, neck, m.handle_mm, low))
    return tuple(grips)


def _dimensions(m: ChiselMeasures) -> tuple[Dimension, ...]:
    foot, low = m.blade_length_mm, m.blade_length_mm + m.bolster_length_mm
    handle, top = m.handle_mm / 2, low + m.handle_length_mm
    bolster = (
        across("bolster", m.bolster_mm, z_mm=(foot + low) / 2),
        along("bolster_length", foot, low, x_mm=-handle),
    )
    return (
        along("blade_length", 0.0, foot, x_mm=m.blade_width_mm / 2),
        across("blade_width", m.blade_width_mm, z_mm=0.0),
        across("blade_thickness", m.blade_thickness_mm, z_mm=foot / 2, view="side"),
        across("handle", m.handle_mm, z_mm=top),
        along("handle_length", low, top, x_mm=handle),
        *bolster,
    )


KIND = Kind(
    name="chisel",
    title="Chisel or gouge with a round handle",
    measures=ChiselMeasures,
    body=body,
    dimensions=_dimensions,
    caution="Carry chisels and gouges edge down.",
    example=ordinary(
        blade_length=110.0,
        blade_width=18.0,
        blade_thickness=5.0,
        handle=32.0,
        handle_length=130.0,
        bolster=17.0,
        bolster_length=8.0,
    ),
    properties=("sharp",),
)
