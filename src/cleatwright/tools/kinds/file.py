"""A file or a rasp in its handle, tip down.

┌───┐  ← handle, z = length + handle_length
│   │  handle
└┬─┬┘
 │ │   width by thickness, or round
 └─┘   ← z = 0
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import FlatEdge, Grip, Shoulder
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.solid import Solid, block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import (
    MassComponent,
    assembled,
    cylinder,
    short,
)
from cleatwright.tools.kind import AtOdds, Kind, Measures, optional_mm, ordinary
from cleatwright.tools.material import STEEL, WOOD

# files taper to tip and tang
FILE_SHARE = 0.85
END_MM = 1.0


class FileMeasures(Measures):
    """What is measured on a file in its handle."""

    length_mm: float = Field(ge=60.0, le=500.0, description="from the tip to the handle")
    width_mm: float = Field(
        ge=2.0, le=60.0, description="across the widest place of the file itself"
    )
    thickness_mm: float = optional_mm(
        1.0, 30.0, description="through the thickest place of a flat or half-round file"
    )
    handle_mm: float = Field(ge=8.0, le=90.0, description="across the handle's widest place")
    handle_length_mm: float = Field(
        ge=30.0, le=200.0, description="from where the file goes in to the handle's end"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one file."""
        if self.thickness_mm > self.width_mm:
            yield self.at_odds("{thickness} is more than {width}: exchange the two")
        if self.handle_mm <= neck_mm(self):
            yield self.at_odds(
                "{handle} is not wider than the {around} around {width} and {thickness}, so "
                "nothing can carry it: measure the three again, or fit a larger handle",
                around=neck_mm(self),
            )


def neck_mm(m: FileMeasures) -> float:
    """Return the circle around the section of a file."""
    return math.hypot(m.width_mm, m.thickness_mm) if m.thickness_mm > 0.0 else m.width_mm


def body(m: FileMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: a steel file in a wooden handle."""
    x, y, top = m.width_mm / 2, m.thickness_mm / 2, m.length_mm + m.handle_length_mm
    grips: list[Grip] = [Shoulder(m.length_mm, neck_mm(m), m.handle_mm, m.length_mm)]
    steel: Solid = cylinder(m.width_mm, 0.0, m.length_mm)
    leading = f"⌀{short(m.width_mm)}"
    if y > 0.0:
        steel = block(-x, -y, 0.0, x, y, m.length_mm)
        leading = f"{short(m.width_mm)}×{short(m.thickness_mm)}"
        grips.append(FlatEdge(END_MM, m.length_mm - END_MM, m.width_mm, m.thickness_mm))
    components = (
        MassComponent(steel, STEEL, FILE_SHARE),
        MassComponent(cylinder(m.handle_mm, m.length_mm, top), WOOD),
    )
    return assembled(
        components,
        weighed_kg,
        kind="file",
        leading=leading,
        grips=tuple(grips),
        order_mm=m.width_mm,
    )


def _dimensions(m: FileMeasures) -> tuple[Dimension, ...]:
    top, thick = m.length_mm + m.handle_length_mm, m.thickness_mm
    return (
        along("length", 0.0, m.length_mm, x_mm=m.width_mm / 2),
        across("width", m.width_mm, z_mm=0.0),
        across("thickness", thick, z_mm=0.0, view="side"),
        across("handle", m.handle_mm, z_mm=top),
        along("handle_length", m.length_mm, top, x_mm=m.handle_mm / 2),
    )


KIND = Kind(
    name="file",
    title="File or rasp with a round handle",
    measures=FileMeasures,
    body=body,
    dimensions=_dimensions,
    caution="A file without a handle has a tang that goes through a hand: fit a handle first.",
    example=ordinary(length=200.0, width=20.0, thickness=5.0, handle=32.0, handle_length=110.0),
)
