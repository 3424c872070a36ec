"""A dibber, a gimlet or another pin with a knob or a cross handle, point down.

┌──────┐  ← z = length
│      │  head_width; head_depth is out of the page, and 0 when the head is round
└─┬──┬─┘  head_height
  │  │
  │  │    pin
   ╲╱     ← z = 0

All of it counts as wood: weigh one of steel.
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import Grip, Overhang, Shoulder
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.solid import block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, cylinder, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, optional_mm, ordinary
from cleatwright.tools.material import WOOD

# a pin runs to a point
PIN_SHARE = 0.75
LEAST_KNOB_MM = 2.0
LEAST_CROSS_MM = 6.0
LEAST_PIN_MM = 40.0


class DibberMeasures(Measures):
    """What is measured on a pin with a head."""

    length_mm: float = Field(ge=80.0, le=700.0, description="overall, from the point to the top")
    pin_mm: float = Field(ge=4.0, le=70.0, description="across the pin's thickest place")
    head_width_mm: float = Field(
        ge=18.0, le=250.0, description="the knob, or the cross handle its longest way"
    )
    head_depth_mm: float = optional_mm(
        10.0, 90.0, description="the cross handle the other way, when it is no round knob"
    )
    head_height_mm: float = Field(ge=8.0, le=150.0, description="knob or handle, along the pin")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one tool."""
        least = LEAST_CROSS_MM if self.head_depth_mm > 0.0 else LEAST_KNOB_MM
        if self.head_width_mm < self.pin_mm + 2.0 * least:
            yield self.at_odds(
                "{head_width} reaches less than {least} over {pin} on each side, so nothing "
                "can carry it: measure both again",
                least=least,
            )
        if self.length_mm - self.head_height_mm < LEAST_PIN_MM:
            yield self.at_odds(
                "{length} leaves less than {least} of pin below {head_height}: measure the "
                "length end to end",
                least=LEAST_PIN_MM,
            )


def body(m: DibberMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: a round pin, and a round or a square head."""
    under = m.length_mm - m.head_height_mm
    x, y = m.head_width_mm / 2, m.head_depth_mm / 2
    pin = MassComponent(cylinder(m.pin_mm, 0.0, under), WOOD, PIN_SHARE)
    resting = Overhang(
        z_mm=under,
        neck_x_mm=m.pin_mm,
        neck_y_mm=m.pin_mm,
        neck_length_mm=under,
        handle_x_mm=m.pin_mm,
        head_x_mm=m.head_width_mm,
        head_y_mm=m.head_depth_mm or m.head_width_mm,
    )
    grips: tuple[Grip, ...] = (resting,)
    if y > 0.0:
        head = block(-x, -y, under, x, y, m.length_mm)
    else:
        head = cylinder(m.head_width_mm, under, m.length_mm)
        grips = (resting, Shoulder(under, m.pin_mm, m.head_width_mm, under))
    return assembled(
        (pin, MassComponent(head, WOOD)),
        weighed_kg,
        kind="dibber",
        leading=f"⌀{short(m.pin_mm)}×{short(m.length_mm)}",
        grips=grips,
        order_mm=m.pin_mm,
    )


def _dimensions(m: DibberMeasures) -> tuple[Dimension, ...]:
    under = m.length_mm - m.head_height_mm
    return (
        along("length", 0.0, m.length_mm, x_mm=m.head_width_mm / 2),
        across("pin", m.pin_mm, z_mm=under / 2),
        across("head_width", m.head_width_mm, z_mm=m.length_mm),
        across("head_depth", m.head_depth_mm, z_mm=m.length_mm, view="side"),
        along("head_height", under, m.length_mm, x_mm=-m.head_width_mm / 2),
    )


KIND = Kind(
    name="dibber",
    title="Dibber, gimlet or another pin with a knob or cross handle",
    measures=DibberMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(length=280.0, pin=32.0, head_width=120.0, head_depth=34.0, head_height=34.0),
)
