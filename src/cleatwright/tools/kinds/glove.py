"""A glove, a pouch or anything soft with a loop to hang by.

   ┌───┐    ← z = height + loop_height
   │   │    loop_width by loop_height, clear; strap is out of the page
┌──┴───┴──┐ ← z = height
│         │ width; thickness is out of the page
└─────────┘ ← z = 0

The estimate takes cloth or thin leather: weigh a pouch with something in it.
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import EyeHole, Loop
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.solid import block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import CLOTH

# a loop of cord or tape
TAPE_MM = 2.0


class GloveMeasures(Measures):
    """What is measured on a soft thing with a loop."""

    width_mm: float = Field(ge=20.0, le=500.0, description="across, as it hangs")
    thickness_mm: float = Field(ge=5.0, le=180.0, description="through its thickest place")
    height_mm: float = Field(ge=40.0, le=900.0, description="from its lower end up to the loop")
    loop_width_mm: float = Field(ge=10.0, le=150.0, description="clear within the loop, across")
    loop_height_mm: float = Field(ge=10.0, le=200.0, description="clear within the loop, upright")
    strap_mm: float = Field(ge=1.0, le=60.0, description="across the tape or cord of the loop")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one loop."""
        if self.loop_width_mm + 2.0 * TAPE_MM > self.width_mm:
            yield self.at_odds("{loop_width} is wider than {width}: measure both again")


def body(m: GloveMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body; the loop stays open."""
    x, y, s = m.width_mm / 2, m.thickness_mm / 2, m.strap_mm / 2
    low, under, inner = m.height_mm, m.height_mm + m.loop_height_mm, m.loop_width_mm / 2
    outer = inner + TAPE_MM
    components = (
        MassComponent(block(-x, -y, 0.0, x, y, low), CLOTH),
        MassComponent(block(-outer, -s, low, -inner, s, under), CLOTH),
        MassComponent(block(inner, -s, low, outer, s, under), CLOTH),
        MassComponent(block(-outer, -s, under, outer, s, under + TAPE_MM), CLOTH),
    )
    return assembled(
        components,
        weighed_kg,
        kind="glove",
        leading=f"{short(m.width_mm)}×{short(m.height_mm)}",
        grips=(
            Loop(under, m.loop_width_mm, m.loop_height_mm, m.strap_mm),
            EyeHole(under, min(m.loop_width_mm, m.loop_height_mm), m.strap_mm, TAPE_MM),
        ),
        order_mm=m.width_mm,
    )


def _dimensions(m: GloveMeasures) -> tuple[Dimension, ...]:
    under = m.height_mm + m.loop_height_mm
    return (
        across("width", m.width_mm, z_mm=0.0),
        across("thickness", m.thickness_mm, z_mm=0.0, view="side"),
        along("height", 0.0, m.height_mm, x_mm=m.width_mm / 2),
        across("loop_width", m.loop_width_mm, z_mm=under),
        along("loop_height", m.height_mm, under, x_mm=m.loop_width_mm / 2),
        across("strap", m.strap_mm, z_mm=under, view="side"),
    )


KIND = Kind(
    name="glove",
    title="Glove, pouch, apron or anything soft with a loop",
    measures=GloveMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(
        width=130.0, thickness=35.0, height=250.0, loop_width=25.0, loop_height=30.0, strap=10.0
    ),
)
