"""A spade, a fork or another tool with a D or T handle, its handle up.

┌──────────┐  ← z = length
│┌────────┐│  handle_width by handle_height; handle_thickness is out of the page
│└────────┘│  opening_width by opening_height (missing in a T handle)
└───┬──┬───┘
    │  │      shaft
 ┌──┴──┴──┐   ← z = blade_length
 │        │   blade_width; blade_depth, with its dish, is out of the page
 └────────┘   ← z = 0

The blade counts as a plate of steel 3 mm thick, with its socket; shaft and handle as wood.
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.base import said
from cleatwright.parts.grips import Grip, Overhang
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import Outline, rectangle
from cleatwright.shapes.solid import block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.openings import Opening
from cleatwright.tools.features.pieces import MassComponent, assembled, cylinder, flat, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, optional_mm, ordinary
from cleatwright.tools.material import STEEL, WOOD

PLATE_MM = 3.0
LEAST_RIM_MM = 3.0
LEAST_OVER_MM = 8.0
LEAST_SHAFT_MM = 60.0


class SpadeMeasures(Measures):
    """What is measured on a tool with a D or T handle."""

    length_mm: float = Field(ge=250.0, le=1500.0, description="overall, from end to end")
    handle_width_mm: float = Field(ge=60.0, le=220.0, description="the handle, its longest way")
    handle_height_mm: float = Field(
        ge=26.0, le=180.0, description="the handle, along the shaft, to where the shaft is straight"
    )
    handle_thickness_mm: float = Field(ge=15.0, le=60.0, description="through the handle")
    opening_width_mm: float = optional_mm(
        40.0, 180.0, description="the opening of a D handle, clear across"
    )
    opening_height_mm: float = optional_mm(
        20.0, 140.0, description="the opening of a D handle, clear along the shaft"
    )
    shaft_mm: float = Field(ge=12.0, le=60.0, description="across the shaft")
    blade_width_mm: float = Field(ge=20.0, le=400.0, description="across blade or tines")
    blade_length_mm: float = Field(
        ge=40.0, le=500.0, description="from the lower end to where the shaft is bare"
    )
    blade_depth_mm: float = Field(
        ge=5.0, le=250.0, description="blade or tines out of a flat floor, dish and tread included"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one tool."""
        yield from self.together("opening_width", "opening_height")
        for inner, outer in (
            ("opening_width", "handle_width"),
            ("opening_height", "handle_height"),
        ):
            if self.value_mm(inner) > self.value_mm(outer) - 2.0 * LEAST_RIM_MM:
                yield self.at_odds(
                    f"{{{inner}}} leaves less than {said.mm(LEAST_RIM_MM)} of handle on each side "
                    f"within {{{outer}}}: measure both again"
                )
        if self.handle_width_mm < self.shaft_mm + 2.0 * LEAST_OVER_MM:
            yield self.at_odds(
                "{handle_width} reaches less than {least} over {shaft} on each side, so "
                "nothing can carry it: measure both again",
                least=LEAST_OVER_MM,
            )
        if self.length_mm - self.handle_height_mm - self.blade_length_mm < LEAST_SHAFT_MM:
            yield self.at_odds(
                "{length} leaves less than {least} of shaft between {handle_height} and "
                "{blade_length}: measure the length end to end",
                least=LEAST_SHAFT_MM,
            )


def _opening(m: SpadeMeasures) -> Opening:
    low = m.length_mm - m.handle_height_mm
    rim = (m.handle_height_mm - m.opening_height_mm) / 2
    return Opening(
        half_mm=m.handle_width_mm / 2,
        low_mm=low,
        top_mm=m.length_mm,
        width_mm=m.opening_width_mm,
        z0_mm=low + rim,
        z1_mm=m.length_mm - rim,
        thickness_mm=m.handle_thickness_mm,
    )


def body(m: SpadeMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body; the opening of a D handle stays free."""
    low, foot = m.length_mm - m.handle_height_mm, m.blade_length_mm
    x, y, half = m.blade_width_mm / 2, m.blade_depth_mm / 2, m.handle_width_mm / 2
    opening = _opening(m) if m.opening_width_mm > 0.0 else None
    handle: list[Outline] = [rectangle(-half, low, half, m.length_mm)]
    grips: tuple[Grip, ...] = (
        Overhang(
            z_mm=low,
            neck_x_mm=m.shaft_mm,
            neck_y_mm=m.shaft_mm,
            neck_length_mm=low - foot,
            handle_x_mm=max(m.shaft_mm, m.blade_width_mm),
            head_x_mm=m.handle_width_mm,
            head_y_mm=m.handle_thickness_mm,
        ),
    )
    if opening is not None:
        handle, grips = opening.outlines(), opening.grips()
    components = (
        MassComponent(flat(rectangle(-x, 0.0, x, foot), PLATE_MM), STEEL),
        MassComponent(cylinder(m.shaft_mm, foot, low), WOOD),
        *(MassComponent(flat(one, m.handle_thickness_mm), WOOD) for one in handle),
    )
    return assembled(
        components,
        weighed_kg,
        kind="spade",
        leading=f"{short(m.blade_width_mm)}×{short(m.length_mm)}",
        grips=grips,
        order_mm=m.length_mm,
        weightless=(block(-x, -y, 0.0, x, y, foot),),
    )


def _dimensions(m: SpadeMeasures) -> tuple[Dimension, ...]:
    low, foot = m.length_mm - m.handle_height_mm, m.blade_length_mm
    x, opening = m.blade_width_mm / 2, _opening(m)
    return (
        along("length", 0.0, m.length_mm, x_mm=max(x, m.handle_width_mm / 2)),
        across("handle_width", m.handle_width_mm, z_mm=m.length_mm),
        along("handle_height", low, m.length_mm, x_mm=-m.handle_width_mm / 2),
        across("handle_thickness", m.handle_thickness_mm, z_mm=m.length_mm, view="side"),
        across("opening_width", m.opening_width_mm, z_mm=opening.z1_mm),
        along("opening_height", opening.z0_mm, opening.z0_mm + m.opening_height_mm),
        across("shaft", m.shaft_mm, z_mm=(low + foot) / 2),
        across("blade_width", m.blade_width_mm, z_mm=0.0),
        along("blade_length", 0.0, foot, x_mm=-x),
        across("blade_depth", m.blade_depth_mm, z_mm=0.0, view="side"),
    )


KIND = Kind(
    name="spade",
    title="Spade, digging fork or another tool with a D or T handle",
    measures=SpadeMeasures,
    body=body,
    dimensions=_dimensions,
    caution="Hang nothing long across a way out of the room.",
    example=ordinary(
        length=1000.0,
        handle_width=120.0,
        handle_height=115.0,
        handle_thickness=36.0,
        opening_width=88.0,
        opening_height=70.0,
        shaft=37.0,
        blade_width=185.0,
        blade_length=290.0,
        blade_depth=70.0,
    ),
    properties=("sharp",),
)
