"""Anything that is wider above than below, in a head and a neck, to hang by its head.

┌──────┐  ← z = length
│ head │  head_width; head_depth is out of the page
└─┬──┬─┘  head_height
  │  │    neck, its widest place below the head
  └──┘    ← z = 0
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import Overhang
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.solid import block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import MIXED

# webs and play beside the neck, under the head
LEAST_OVER_MM = 8.0
LEAST_NECK_MM = 25.0


class ThingWithNeckMeasures(Measures):
    """What is measured on a thing with a head and a neck."""

    length_mm: float = Field(ge=35.0, le=1500.0, description="from the lower end to the top")
    head_width_mm: float = Field(ge=20.0, le=500.0, description="the upper part, its longest way")
    head_depth_mm: float = Field(ge=3.0, le=200.0, description="the upper part, the other way")
    head_height_mm: float = Field(ge=3.0, le=600.0, description="the upper part, upright")
    neck_mm: float = Field(ge=2.0, le=200.0, description="the lower part, its widest place")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one thing."""
        if self.head_width_mm < self.neck_mm + 2.0 * LEAST_OVER_MM:
            yield self.at_odds(
                "{head_width} reaches less than {least} over {neck} on each side, so nothing "
                "can carry it: measure both again, or choose another plain shape",
                least=LEAST_OVER_MM,
            )
        if self.length_mm - self.head_height_mm < LEAST_NECK_MM:
            yield self.at_odds(
                "{length} leaves less than {least} below {head_height}: measure both again",
                least=LEAST_NECK_MM,
            )


def body(m: ThingWithNeckMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: a block for the head, another for the neck."""
    under = m.length_mm - m.head_height_mm
    x, y, n = m.head_width_mm / 2, m.head_depth_mm / 2, m.neck_mm / 2
    grip = Overhang(
        z_mm=under,
        neck_x_mm=m.neck_mm,
        neck_y_mm=m.neck_mm,
        neck_length_mm=under,
        handle_x_mm=m.neck_mm,
        head_x_mm=m.head_width_mm,
        head_y_mm=m.head_depth_mm,
    )
    return assembled(
        (
            MassComponent(block(-n, -n, 0.0, n, n, under), MIXED),
            MassComponent(block(-x, -y, under, x, y, m.length_mm), MIXED),
        ),
        weighed_kg,
        kind="thing-with-neck",
        leading=f"{short(m.head_width_mm)}×{short(m.length_mm)}",
        grips=(grip,),
        order_mm=m.head_width_mm,
    )


def _dimensions(m: ThingWithNeckMeasures) -> tuple[Dimension, ...]:
    under = m.length_mm - m.head_height_mm
    return (
        along("length", 0.0, m.length_mm, x_mm=m.head_width_mm / 2),
        across("head_width", m.head_width_mm, z_mm=m.length_mm),
        across("head_depth", m.head_depth_mm, z_mm=m.length_mm, view="side"),
        along("head_height", under, m.length_mm, x_mm=-m.head_width_mm / 2),
        across("neck", m.neck_mm, z_mm=under / 2),
    )


KIND = Kind(
    name="thing-with-neck",
    title="Anything that is wider above than below, to hang by its upper part",
    measures=ThingWithNeckMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(length=200.0, head_width=70.0, head_depth=30.0, head_height=40.0, neck=20.0),
    plain="with a neck",
)
