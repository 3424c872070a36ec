"""A spokeshave, on end: a short body with a sole between two handles in line.

  │      ← z = length
  │ handle
┌─┴─┐
│   │    body_length along the sole, body_height from the sole
└─┬─┘
  │
  │      ← z = 0
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import LyingBar
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.rigid import shift, turn
from cleatwright.shapes.solid import block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import (
    MassComponent,
    assembled,
    cylinder,
    short,
)
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import STEEL

# a cast body is mostly a sole and a bed, a handle an oval that tapers (a choice)
BODY_SHARE = 0.3
HANDLE_SHARE = 0.6


class SpokeshaveMeasures(Measures):
    """What is measured on a spokeshave."""

    length_mm: float = Field(ge=120.0, le=400.0, description="from one handle's end to the other")
    handle_mm: float = Field(ge=8.0, le=40.0, description="across a handle's thickest place")
    body_length_mm: float = Field(
        ge=30.0, le=140.0, description="the sole in the direction of the handles"
    )
    body_depth_mm: float = Field(ge=10.0, le=70.0, description="the sole from front to rear")
    body_height_mm: float = Field(
        ge=10.0, le=70.0, description="from the sole to the top of the iron or its cap"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one spokeshave."""
        if self.handle_mm > self.body_height_mm:
            yield self.at_odds("{handle} is thicker than {body_height}: measure both again")
        if self.body_length_mm > self.length_mm - 40.0:
            yield self.at_odds("{body_length} leaves no handles on {length}: measure both again")


def body(m: SpokeshaveMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: handles in the middle of the body's height; the sole looks along x."""
    low, high = (m.length_mm - m.body_length_mm) / 2, (m.length_mm + m.body_length_mm) / 2
    x, y = m.body_height_mm / 2, m.body_depth_mm / 2
    components = (
        MassComponent(cylinder(m.handle_mm, 0.0, low), STEEL, HANDLE_SHARE),
        MassComponent(block(-x, -y, low, x, y, high), STEEL, BODY_SHARE),
        MassComponent(cylinder(m.handle_mm, high, m.length_mm), STEEL, HANDLE_SHARE),
    )
    sole = LyingBar(
        pose=turn("y", 90.0).then(shift(-m.length_mm / 2, 0.0, x)),
        length_mm=m.body_length_mm,
        depth_mm=m.body_depth_mm,
        height_mm=m.body_height_mm,
    )
    return assembled(
        components,
        weighed_kg,
        kind="spokeshave",
        leading=f"{short(m.length_mm)}×{short(m.body_depth_mm)}",
        grips=(sole,),
        order_mm=m.length_mm,
    )


def _dimensions(m: SpokeshaveMeasures) -> tuple[Dimension, ...]:
    low, high = (m.length_mm - m.body_length_mm) / 2, (m.length_mm + m.body_length_mm) / 2
    return (
        along("length", 0.0, m.length_mm, x_mm=m.body_height_mm / 2),
        across("handle", m.handle_mm, z_mm=low / 2),
        along("body_length", low, high, x_mm=-m.body_height_mm / 2),
        across("body_depth", m.body_depth_mm, z_mm=m.length_mm / 2, view="side"),
        across("body_height", m.body_height_mm, z_mm=m.length_mm / 2),
    )


KIND = Kind(
    name="spokeshave",
    title="Spokeshave or another shave with two handles",
    measures=SpokeshaveMeasures,
    body=body,
    dimensions=_dimensions,
    caution="Draw back the irons of planes and shaves before they go on the wall.",
    example=ordinary(
        length=255.0, handle=24.0, body_length=56.0, body_depth=28.0, body_height=34.0
    ),
    properties=("sharp",),
)
