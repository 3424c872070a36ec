"""A bow saw, a coping saw or another saw in a frame, teeth down.

┌──────────────┐  ← z = height
│┌────────────┐│  frame, its sides and its back
││            ││
│└────────────┘│  blade_width
└──────────────┘  ← z = 0, length; frame_thickness is out of the page
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import rectangle
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.openings import Opening
from cleatwright.tools.features.pieces import MassComponent, assembled, flat, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import STEEL

# a frame is a thin tube or a flat bar; a blade is thin beside the frame (common practice, no
# source: a bow saw of 610 mm weighs 0.6 to 0.9 kg)
FRAME_SHARE = 0.16
BLADE_MM = 0.8
LEAST_OPENING_MM = 30.0


class BowSawMeasures(Measures):
    """What is measured on a saw in a frame."""

    length_mm: float = Field(ge=120.0, le=1200.0, description="over the frame, along the blade")
    height_mm: float = Field(
        ge=60.0, le=450.0, description="from the teeth to the top of the frame, where it is highest"
    )
    frame_mm: float = Field(
        ge=4.0, le=50.0, description="through the back of the frame, towards the blade"
    )
    frame_thickness_mm: float = Field(
        ge=4.0, le=50.0, description="through the thickest place of frame or handle, laid flat"
    )
    blade_width_mm: float = Field(ge=1.0, le=60.0, description="across the blade, with its teeth")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one saw."""
        if self.height_mm - self.frame_mm - self.blade_width_mm < LEAST_OPENING_MM:
            yield self.at_odds(
                "{height} leaves less than {least} between {frame} and {blade_width}: measure "
                "the height from the teeth to the top",
                least=LEAST_OPENING_MM,
            )
        if self.length_mm - 2.0 * self.frame_mm < LEAST_OPENING_MM:
            yield self.at_odds("{frame} leaves no room within {length}: measure both again")


def _opening(m: BowSawMeasures) -> Opening:
    return Opening(
        half_mm=m.length_mm / 2,
        low_mm=0.0,
        top_mm=m.height_mm,
        width_mm=m.length_mm - 2.0 * m.frame_mm,
        z0_mm=m.blade_width_mm,
        z1_mm=m.height_mm - m.frame_mm,
        thickness_mm=m.frame_thickness_mm,
    )


def body(m: BowSawMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: back, two sides and the blade of the frame; the middle stays free."""
    half, thick, wide = m.length_mm / 2, m.frame_thickness_mm, m.frame_mm
    low, high = m.blade_width_mm, m.height_mm - wide
    frame = (
        rectangle(-half, high, half, m.height_mm),
        rectangle(-half, low, wide - half, high),
        rectangle(half - wide, low, half, high),
    )
    strip = rectangle(-half, 0.0, half, low)
    return assembled(
        (
            *(MassComponent(flat(one, thick), STEEL, FRAME_SHARE) for one in frame),
            MassComponent(flat(strip, BLADE_MM), STEEL),
        ),
        weighed_kg,
        kind="bow-saw",
        leading=f"{short(m.length_mm)}×{short(m.height_mm)}",
        grips=_opening(m).grips(),
        order_mm=m.length_mm,
        # the ends of the blade are held in the frame
        weightless=(flat(strip, thick),),
    )


def _dimensions(m: BowSawMeasures) -> tuple[Dimension, ...]:
    half = m.length_mm / 2
    return (
        across("length", m.length_mm, z_mm=m.height_mm),
        along("height", 0.0, m.height_mm, x_mm=half),
        along("frame", m.height_mm - m.frame_mm, m.height_mm),
        across("frame_thickness", m.frame_thickness_mm, z_mm=m.height_mm, view="side"),
        along("blade_width", 0.0, m.blade_width_mm),
    )


KIND = Kind(
    name="bow-saw",
    title="Bow saw, coping saw or another saw in a frame",
    measures=BowSawMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(
        length=640.0, height=210.0, frame=22.0, frame_thickness=22.0, blade_width=22.0
    ),
    properties=("sharp",),
)
