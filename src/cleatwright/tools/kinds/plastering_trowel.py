"""A plastering trowel, a float or another plate with a handle along it, hung by its handle.

  ┌──────────┐     ← z = blade_thickness + handle_height
  ╞══════════╡     handle, handle_length; handle_thickness is out of the page
  │ opening  │     opening_length by opening_height
══╧══════════╧══   ← z = blade_thickness, blade_length; blade_width is out of the page

A handle on one post is closed by a post of its own here: it hangs by its middle all the same.
A blade of up to 3 mm counts as steel, a thicker one as wood.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from pydantic import Field

from cleatwright.base import said
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.solid import block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.openings import Opening
from cleatwright.tools.features.pieces import MassComponent, assembled, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import STEEL, WOOD

THICKEST_STEEL_MM = 3.0
# an oval grip and its posts within the plate around the opening
HANDLE_SHARE = math.pi / 4
LEAST_RIM_MM = 6.0


class PlasteringTrowelMeasures(Measures):
    """What is measured on a plate with a handle along it."""

    blade_length_mm: float = Field(ge=100.0, le=600.0, description="along the plate")
    blade_width_mm: float = Field(ge=50.0, le=200.0, description="across the plate")
    blade_thickness_mm: float = Field(ge=0.5, le=30.0, description="through the plate")
    handle_length_mm: float = Field(ge=90.0, le=200.0, description="the handle, end to end")
    handle_height_mm: float = Field(
        ge=35.0, le=120.0, description="from the plate to the top of the handle"
    )
    handle_thickness_mm: float = Field(ge=15.0, le=50.0, description="across the handle's grip")
    opening_length_mm: float = Field(
        ge=70.0, le=160.0, description="clear between handle and plate, along the handle"
    )
    opening_height_mm: float = Field(
        ge=20.0, le=80.0, description="clear between handle and plate, upright"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one trowel."""
        for inner, outer, rims in (
            ("opening_length", "handle_length", 2),
            ("opening_height", "handle_height", 1),
        ):
            if self.value_mm(inner) > self.value_mm(outer) - rims * LEAST_RIM_MM:
                yield self.at_odds(
                    f"{{{inner}}} leaves less than {said.mm(LEAST_RIM_MM)} of handle within "
                    f"{{{outer}}}: measure the opening inside, and the handle outside"
                )
        if self.handle_length_mm > self.blade_length_mm:
            yield self.at_odds("{handle_length} is more than {blade_length}: exchange the two")


def _opening(m: PlasteringTrowelMeasures) -> Opening:
    low = m.blade_thickness_mm
    return Opening(
        half_mm=m.handle_length_mm / 2,
        low_mm=low,
        top_mm=low + m.handle_height_mm,
        width_mm=m.opening_length_mm,
        z0_mm=low,
        z1_mm=low + m.opening_height_mm,
        thickness_mm=m.handle_thickness_mm,
    )


def body(m: PlasteringTrowelMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body; the opening below the handle stays free."""
    x, y, low = m.blade_length_mm / 2, m.blade_width_mm / 2, m.blade_thickness_mm
    h, top, z1 = m.handle_length_mm / 2, low + m.handle_height_mm, low + m.opening_height_mm
    t, inner = m.handle_thickness_mm / 2, m.opening_length_mm / 2
    metal = STEEL if low <= THICKEST_STEEL_MM else WOOD
    components = (
        MassComponent(block(-x, -y, 0.0, x, y, low), metal),
        MassComponent(block(-h, -t, z1, h, t, top), WOOD, HANDLE_SHARE),
        MassComponent(block(-h, -t, low, -inner, t, z1), WOOD, HANDLE_SHARE),
        MassComponent(block(inner, -t, low, h, t, z1), WOOD, HANDLE_SHARE),
    )
    return assembled(
        components,
        weighed_kg,
        kind="plastering-trowel",
        leading=f"{short(m.blade_length_mm)}×{short(m.blade_width_mm)}",
        grips=_opening(m).grips(),
        order_mm=m.blade_length_mm,
    )


def _dimensions(m: PlasteringTrowelMeasures) -> tuple[Dimension, ...]:
    low, x = m.blade_thickness_mm, m.blade_length_mm / 2
    top, z1 = low + m.handle_height_mm, low + m.opening_height_mm
    return (
        across("blade_length", m.blade_length_mm, z_mm=0.0),
        across("blade_width", m.blade_width_mm, z_mm=0.0, view="side"),
        along("blade_thickness", 0.0, low, x_mm=x),
        across("handle_length", m.handle_length_mm, z_mm=top),
        along("handle_height", low, top, x_mm=m.handle_length_mm / 2),
        across("handle_thickness", m.handle_thickness_mm, z_mm=top, view="side"),
        across("opening_length", m.opening_length_mm, z_mm=z1),
        along("opening_height", low, z1, x_mm=-m.opening_length_mm / 2),
    )


KIND = Kind(
    name="plastering-trowel",
    title="Plastering trowel, float or another plate with a handle along it",
    measures=PlasteringTrowelMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(
        blade_length=280.0,
        blade_width=120.0,
        blade_thickness=1.0,
        handle_length=130.0,
        handle_height=72.0,
        handle_thickness=32.0,
        opening_length=95.0,
        opening_height=40.0,
    ),
    properties=("sharp",),
)
