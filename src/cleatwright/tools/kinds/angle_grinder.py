"""A cordless angle grinder, upright on the flat end of its battery, its disc to the person.

seen from the front                 seen from the side (the wall on the left)

      ╭───────╮    ← z = length      ┌──┬─────┐
  ════│ guard │                      │  │     │▌ guard, guard_thickness
      ╰───────╯                      │  └─────┘▌
side_  ┌─────┐                       │     │        ← head_depth, from the motor's
handle │     │ body                  │     │          back to the guard's front
       └─────┘     ← z = 0           └─────┘

One with a cable at its end cannot stand: give it a holder of its own kind.
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import RoundBody
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import circle
from cleatwright.shapes.solid import block, prism
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import (
    MassComponent,
    assembled,
    cylinder,
    short,
)
from cleatwright.tools.kind import AtOdds, Kind, Measures, optional_mm, ordinary
from cleatwright.tools.material import MOTOR, PLASTIC, STEEL

# a guard and a disc are sheets with air between them, a gear case is an aluminium shell, and
# the barrel is thinner than the battery end (common practice, no source)
GUARD_SHARE = 0.15
HEAD_SHARE = 0.2
BARREL_SHARE = 0.6
BODY_BELOW_MM = 40.0


class AngleGrinderMeasures(Measures):
    """What is measured on an angle grinder."""

    length_mm: float = Field(
        ge=180.0, le=600.0, description="from the battery's flat end to the top of the guard"
    )
    body_mm: float = Field(
        ge=40.0, le=140.0, description="across the thickest place of motor body and battery"
    )
    head_mm: float = Field(ge=30.0, le=140.0, description="across the gear head, left to right")
    head_depth_mm: float = Field(
        ge=60.0, le=220.0, description="from the gear head's back to the front of guard and disc"
    )
    guard_mm: float = Field(ge=70.0, le=260.0, description="across the guard or the disc")
    guard_thickness_mm: float = Field(
        ge=5.0, le=60.0, description="from the guard's back to the front of the disc's nut"
    )
    side_handle_mm: float = optional_mm(15.0, 60.0, description="across the side handle")
    side_handle_length_mm: float = optional_mm(
        50.0, 200.0, description="from the gear head to the side handle's end"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one grinder."""
        if self.length_mm < self.guard_mm + BODY_BELOW_MM:
            yield self.at_odds(
                "{length} leaves less than {least} of body below {guard}: measure the length "
                "overall",
                least=BODY_BELOW_MM,
            )
        if self.head_mm > self.guard_mm:
            yield self.at_odds("{head} is wider than {guard}: measure both again")
        if self.guard_thickness_mm > self.head_depth_mm - 20.0:
            yield self.at_odds(
                "{guard_thickness} leaves less than {least} of gear head on {head_depth}: measure "
                "both again",
                least=20.0,
            )
        yield from self.together("side_handle", "side_handle_length")


def body(m: AngleGrinderMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: the spindle at the guard's middle, the gear head about it."""
    middle, half = m.length_mm - m.guard_mm / 2, m.head_mm / 2
    back = -m.body_mm / 2
    front = back + m.head_depth_mm
    rear = front - m.guard_thickness_mm
    guard = prism(circle(m.guard_mm), m.guard_thickness_mm).turned("x", -90.0)
    components = [
        MassComponent(cylinder(m.body_mm, 0.0, middle), MOTOR, BARREL_SHARE),
        MassComponent(
            block(-half, back, middle - half, half, rear, middle + half), STEEL, HEAD_SHARE
        ),
        MassComponent(guard.moved(0.0, rear, middle), STEEL, GUARD_SHARE),
    ]
    if m.side_handle_mm > 0.0:
        bar = prism(circle(m.side_handle_mm), m.side_handle_length_mm).turned("y", 90.0)
        components.append(MassComponent(bar.moved(half, (back + rear) / 2, middle), PLASTIC))
    return assembled(
        components,
        weighed_kg,
        kind="angle-grinder",
        leading=f"⌀{short(m.guard_mm)}×{short(m.length_mm)}",
        # above that height the guard stands out
        grips=(RoundBody(0.0, m.body_mm, height_mm=m.length_mm - m.guard_mm),),
        order_mm=m.guard_mm,
    )


def _dimensions(m: AngleGrinderMeasures) -> tuple[Dimension, ...]:
    middle, half = m.length_mm - m.guard_mm / 2, m.head_mm / 2
    back = -m.body_mm / 2
    front = back + m.head_depth_mm
    rear, low = front - m.guard_thickness_mm, middle - m.guard_mm / 2
    r, y = m.side_handle_mm / 2, (back + rear) / 2
    end = half + m.side_handle_length_mm
    bar = (
        Dimension("side_handle", "front", (end, y, middle - r), (end, y, middle + r)),
        Dimension("side_handle_length", "front", (half, y, middle), (end, y, middle)),
    )
    return (
        along("length", 0.0, m.length_mm, x_mm=-m.guard_mm / 2),
        across("body", m.body_mm, z_mm=0.0),
        across("head", m.head_mm, z_mm=middle - half),
        Dimension("head_depth", "side", (0.0, back, m.length_mm), (0.0, front, m.length_mm)),
        across("guard", m.guard_mm, z_mm=m.length_mm),
        Dimension("guard_thickness", "side", (0.0, rear, low), (0.0, front, low)),
        *bar,
    )


KIND = Kind(
    name="angle-grinder",
    title="Cordless angle grinder that stands on its battery",
    measures=AngleGrinderMeasures,
    body=body,
    dimensions=_dimensions,
    # an ordinary grinder for discs of 125 mm: common practice, no source
    example=ordinary(
        length=400.0,
        body=84.0,
        head=74.0,
        head_depth=105.0,
        guard=132.0,
        guard_thickness=24.0,
        side_handle=34.0,
        side_handle_length=120.0,
    ),
    properties=("cell",),
)
