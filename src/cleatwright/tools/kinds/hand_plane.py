"""A hand plane that stands on its sole, its length along the wall.

      ╭╮  ┌──╮      ← z = height
    ┌─┴┴──┴──┴──┐
    └───────────┘   ← z = 0, the sole: length by width

The estimate takes an iron plane. Weigh a wooden one.
"""

from __future__ import annotations

from pydantic import Field

from cleatwright.parts.grips import Footprint, LyingBar
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.solid import block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, short
from cleatwright.tools.kind import Kind, Measures, ordinary
from cleatwright.tools.material import STEEL

# a smoothing plane of 245 by 60 by 135 mm weighs about 1.6 kg (from memory)
IRON_SHARE = 0.1


class HandPlaneMeasures(Measures):
    """What is measured on a plane."""

    length_mm: float = Field(ge=60.0, le=760.0, description="along the sole, handles included")
    width_mm: float = Field(ge=15.0, le=120.0, description="across the widest place")
    height_mm: float = Field(
        ge=20.0, le=220.0, description="from the sole to the top of the handle or the iron"
    )


def body(m: HandPlaneMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: the block around the plane."""
    x, y = m.length_mm / 2, m.width_mm / 2
    whole = block(-x, -y, 0.0, x, y, m.height_mm)
    lying = LyingBar(length_mm=m.length_mm, depth_mm=m.width_mm, height_mm=m.height_mm)
    return assembled(
        [MassComponent(whole, STEEL, IRON_SHARE)],
        weighed_kg,
        kind="hand-plane",
        leading=f"{short(m.length_mm)}×{short(m.width_mm)}",
        grips=(lying, Footprint(0.0, m.length_mm, m.width_mm, m.height_mm)),
        order_mm=m.length_mm,
    )


def _dimensions(m: HandPlaneMeasures) -> tuple[Dimension, ...]:
    return (
        across("length", m.length_mm, z_mm=0.0),
        across("width", m.width_mm, z_mm=m.height_mm, view="side"),
        along("height", 0.0, m.height_mm, x_mm=m.length_mm / 2),
    )


KIND = Kind(
    name="hand-plane",
    title="Hand plane",
    measures=HandPlaneMeasures,
    body=body,
    dimensions=_dimensions,
    caution="Draw back the irons of planes and shaves before they go on the wall.",
    example=ordinary(length=245.0, width=62.0, height=135.0),
    properties=("sharp",),
)
