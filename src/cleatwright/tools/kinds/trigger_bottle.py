"""A bottle with a spray head and a trigger, upright, full of something as heavy as water.

seen from the front (its head along the wall)

 ┌──────────┐   ← z = height
 │   head   │   head_length; head_width is out of the page
 └──┬────┬──┘
   ┌┘    └┐     head_height, from the top down to where the body is straight
   │ body │     body_width; body_depth is out of the page, and 0 when it is round
   └──────┘     ← z = 0

It stands by its base: what is in it stays upright. Weigh one that is not full.
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import Footprint, RoundBody
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.solid import block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, cylinder, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, optional_mm, ordinary
from cleatwright.tools.material import LIQUID, PLASTIC

# a hollow head with a pump, and air around the trigger: 25 to 40 g (common practice, no source)
HEAD_SHARE = 0.12
LEAST_BODY_MM = 45.0


class TriggerBottleMeasures(Measures):
    """What is measured on a bottle with a trigger."""

    body_width_mm: float = Field(ge=35.0, le=200.0, description="across the body, its widest place")
    body_depth_mm: float = optional_mm(
        25.0, 200.0, description="across the body, the other way, when it is not round"
    )
    height_mm: float = Field(ge=110.0, le=450.0, description="from the base to the top of the head")
    head_height_mm: float = Field(
        ge=40.0, le=200.0, description="from the top down to where the body is straight"
    )
    head_length_mm: float = Field(
        ge=40.0, le=200.0, description="the head, from the nozzle to its back"
    )
    head_width_mm: float = Field(ge=10.0, le=100.0, description="across the head and the collar")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one bottle."""
        if self.height_mm - self.head_height_mm < LEAST_BODY_MM:
            yield self.at_odds(
                "{head_height} leaves less than {least} of straight body in {height}: measure "
                "both again",
                least=LEAST_BODY_MM,
            )


def body(m: TriggerBottleMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: the straight body full of liquid, and the block around the head."""
    straight, x = m.height_mm - m.head_height_mm, m.body_width_mm / 2
    hx, hy = max(m.head_length_mm / 2, x), m.head_width_mm / 2
    y = m.body_depth_mm / 2
    if y > 0.0:
        vessel = block(-x, -y, 0.0, x, y, straight)
        grip = Footprint(0.0, m.body_width_mm, m.body_depth_mm, m.height_mm)
    else:
        vessel = cylinder(m.body_width_mm, 0.0, straight)
        grip = RoundBody(0.0, m.body_width_mm, straight)
    head = block(-hx, -hy, straight, hx, hy, m.height_mm)
    return assembled(
        (MassComponent(vessel, LIQUID), MassComponent(head, PLASTIC, HEAD_SHARE)),
        weighed_kg,
        kind="trigger-bottle",
        leading=f"{short(m.body_width_mm)}×{short(m.height_mm)}",
        grips=(grip,),
        order_mm=m.body_width_mm,
    )


def _dimensions(m: TriggerBottleMeasures) -> tuple[Dimension, ...]:
    straight = m.height_mm - m.head_height_mm
    return (
        across("body_width", m.body_width_mm, z_mm=0.0),
        across("body_depth", m.body_depth_mm, z_mm=0.0, view="side"),
        along("height", 0.0, m.height_mm, x_mm=m.body_width_mm / 2),
        along("head_height", straight, m.height_mm, x_mm=-m.body_width_mm / 2),
        across("head_length", m.head_length_mm, z_mm=m.height_mm),
        across("head_width", m.head_width_mm, z_mm=m.height_mm, view="side"),
    )


KIND = Kind(
    name="trigger-bottle",
    title="Bottle with a spray head and a trigger",
    measures=TriggerBottleMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(
        body_width=82.0,
        height=245.0,
        head_height=95.0,
        head_length=105.0,
        head_width=34.0,
    ),
    properties=("liquid",),
)
