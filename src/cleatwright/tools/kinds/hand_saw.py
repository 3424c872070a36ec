"""A hand saw, toe down, its teeth on the right for the reader.

 ┌──────────┐
 │  handle  │
 └─┬──────┬─┘  ← z = plate_length
   │     │▒
   │    │▒     plate from heel_width to toe_width, the back upright
   └──│▒       ← toe, z = 0

Cover the teeth with a strip of split hose or wood before you reach past them.
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import ThinPlate
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import polygon
from cleatwright.shapes.rigid import turn
from cleatwright.tools.dimension import Dimension, across
from cleatwright.tools.features.pieces import MassComponent, assembled, flat, short
from cleatwright.tools.features.saws import (
    SawMeasures,
    handle,
    handle_grips,
    saw_dimensions,
    toothed,
)
from cleatwright.tools.kind import AtOdds, Kind, ordinary
from cleatwright.tools.material import STEEL, WOOD

# horns and cheeks are cut out of the block of a handle
HANDLE_SHARE = 0.75


class HandSawMeasures(SawMeasures):
    """What is measured on a hand saw."""

    heel_width_mm: float = Field(
        ge=30.0, le=220.0, description="across the plate where it meets the handle"
    )
    toe_width_mm: float = Field(ge=10.0, le=150.0, description="across the plate at its toe")
    plate_mm: float = Field(
        ge=0.4, le=3.0, description="through the teeth, where their set is widest"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one hand saw."""
        yield from super().faults()
        if self.toe_width_mm > self.heel_width_mm:
            yield self.at_odds("{toe_width} is more than {heel_width}: exchange the two")


def body(m: HandSawMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: a steel plate and a wooden handle whose hole stays open."""
    half, toe, foot = m.heel_width_mm / 2, m.toe_width_mm, m.plate_length_mm
    outline = polygon([(half - toe, 0.0), (half, 0.0), (half, foot), (-half, foot)])
    plate = MassComponent(flat(outline, m.plate_mm), STEEL)
    wood = [MassComponent(flat(o, m.handle_thickness_mm), WOOD, HANDLE_SHARE) for o in handle(m)]
    return assembled(
        [plate, *wood],
        weighed_kg,
        kind="hand-saw",
        leading=f"{short(foot)}×{short(m.heel_width_mm)}",
        grips=(
            *handle_grips(m),
            # on its toe, the teeth to the wall
            ThinPlate(turn("z", 90.0), m.plate_mm, half - toe, half, foot),
            *toothed(m, width_mm=m.heel_width_mm, thickness_mm=m.plate_mm),
        ),
        order_mm=foot,
    )


def _dimensions(m: HandSawMeasures) -> tuple[Dimension, ...]:
    half = m.heel_width_mm / 2
    return (
        *saw_dimensions(m),
        across("heel_width", m.heel_width_mm, z_mm=m.plate_length_mm),
        across("toe_width", m.toe_width_mm, z_mm=0.0, at_mm=half - m.toe_width_mm / 2),
        across("plate", m.plate_mm, z_mm=0.0, view="side"),
    )


KIND = Kind(
    name="hand-saw",
    title="Hand saw or panel saw with a closed handle",
    measures=HandSawMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(
        plate_length=500.0,
        handle_width=130.0,
        handle_length=110.0,
        handle_thickness=22.0,
        hole_width=90.0,
        hole_height=42.0,
        heel_width=115.0,
        toe_width=55.0,
        plate=1.4,
    ),
    properties=("sharp",),
)
