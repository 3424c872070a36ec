"""A nut driver with a round handle, its head down; it hangs by its handle.

┌───┐  ← z = head_length + shank_length + handle_length
│   │  handle
└┬─┬┘  ← shoulder
 │ │   shank
┌┴─┴┐
│   │  head, open below
└───┘  ← z = 0

The head is no end to stand on: it is short under a long handle, and the driver would lean.
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import Shoulder
from cleatwright.parts.tool import ToolBody
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import (
    MassComponent,
    assembled,
    cylinder,
    short,
)
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import PLASTIC, STEEL

# the slot of a shelf must pass this much of the shank, else it must pass the head
FREE_SHANK_MM = 40.0
# the opening for the nut takes away about half of the head (common practice, no source)
HEAD_SHARE = 0.5


class NutDriverMeasures(Measures):
    """What is measured on a nut driver."""

    head_mm: float = Field(ge=4.0, le=40.0, description="across the outside of the head")
    head_length_mm: float = Field(ge=5.0, le=80.0, description="from the head's end to the shank")
    shank_mm: float = Field(ge=3.0, le=25.0, description="across the shank, corners included")
    shank_length_mm: float = Field(
        ge=10.0, le=400.0, description="from the head to the underside of the handle"
    )
    handle_mm: float = Field(ge=12.0, le=80.0, description="across the handle's widest place")
    handle_length_mm: float = Field(ge=30.0, le=250.0, description="from the shank to its end")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one nut driver."""
        if self.handle_mm <= max(self.head_mm, self.shank_mm):
            yield self.at_odds(
                "{handle} is not thicker than {head} and {shank}, so nothing can carry it: "
                "measure all three again"
            )


def body(m: NutDriverMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body; the handle counts as solid plastic."""
    foot = m.head_length_mm + m.shank_length_mm
    components = (
        MassComponent(cylinder(m.head_mm, 0.0, m.head_length_mm), STEEL, HEAD_SHARE),
        MassComponent(cylinder(m.shank_mm, m.head_length_mm, foot), STEEL),
        MassComponent(cylinder(m.handle_mm, foot, foot + m.handle_length_mm), PLASTIC),
    )
    free = m.head_mm <= m.shank_mm or m.shank_length_mm >= FREE_SHANK_MM
    neck = m.shank_mm if free else m.head_mm
    below = m.shank_length_mm if m.head_mm > neck else foot
    shoulder = Shoulder(z_mm=foot, neck_mm=neck, shoulder_mm=m.handle_mm, neck_length_mm=below)
    return assembled(
        components,
        weighed_kg,
        kind="nut-driver",
        leading=f"⌀{short(m.head_mm)}×{short(m.shank_length_mm)}",
        grips=(shoulder,),
        order_mm=m.head_mm,
    )


def _dimensions(m: NutDriverMeasures) -> tuple[Dimension, ...]:
    foot = m.head_length_mm + m.shank_length_mm
    half, top = m.handle_mm / 2, foot + m.handle_length_mm
    return (
        across("head", m.head_mm, z_mm=0.0),
        along("head_length", 0.0, m.head_length_mm, x_mm=-half),
        across("shank", m.shank_mm, z_mm=foot - m.shank_length_mm / 2),
        along("shank_length", m.head_length_mm, foot, x_mm=half),
        across("handle", m.handle_mm, z_mm=top),
        along("handle_length", foot, top, x_mm=half),
    )


KIND = Kind(
    name="nut-driver",
    title="Nut driver with a round handle",
    measures=NutDriverMeasures,
    body=body,
    dimensions=_dimensions,
    # a driver for nuts of 8 mm across flats: common practice, no source
    example=ordinary(
        head=12.0, head_length=20.0, shank=7.0, shank_length=105.0, handle=30.0, handle_length=100.0
    ),
)
