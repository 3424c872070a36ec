"""A back saw, toe down: tenon saw, dovetail saw, with a closed handle.

 ┌──────────┐
 │  handle  │
 └─┬─┬────┬─┘  ← z = plate_length
   │s│    │
   │p│plate▒   plate_width, the spine within it
   │i│    │▒
   └─┴────┘    ← toe, z = 0

Cover the teeth before you reach past them.
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.solid import block
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

HANDLE_SHARE = 0.75


class BackSawMeasures(SawMeasures):
    """What is measured on a back saw."""

    plate_width_mm: float = Field(
        ge=25.0, le=160.0, description="from the teeth to the top of the spine"
    )
    plate_mm: float = Field(
        ge=0.4, le=3.0, description="through the teeth, where their set is widest"
    )
    spine_mm: float = Field(ge=3.0, le=20.0, description="through the spine")
    spine_height_mm: float = Field(
        ge=5.0, le=40.0, description="across the spine, from its top to its lower edge"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one back saw."""
        yield from super().faults()
        if self.spine_height_mm > self.plate_width_mm - 10.0:
            yield self.at_odds(
                "{spine_height} leaves less than {least} of plate within {plate_width}: measure "
                "plate_width over all",
                least=10.0,
            )


def body(m: BackSawMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: steel plate and spine, a wooden handle whose hole stays open."""
    half, y, s, foot = m.plate_width_mm / 2, m.plate_mm / 2, m.spine_mm / 2, m.plate_length_mm
    low = half - m.spine_height_mm
    steel = [
        MassComponent(block(-half, -y, 0.0, low, y, foot), STEEL),
        MassComponent(block(low, -s, 0.0, half, s, foot), STEEL),
    ]
    wood = [MassComponent(flat(o, m.handle_thickness_mm), WOOD, HANDLE_SHARE) for o in handle(m)]
    return assembled(
        [*steel, *wood],
        weighed_kg,
        kind="back-saw",
        leading=f"{short(foot)}×{short(m.plate_width_mm)}",
        grips=(
            *handle_grips(m),
            *toothed(m, width_mm=m.plate_width_mm, thickness_mm=max(m.plate_mm, m.spine_mm)),
        ),
        order_mm=foot,
    )


def _dimensions(m: BackSawMeasures) -> tuple[Dimension, ...]:
    half = m.plate_width_mm / 2
    spine = half - m.spine_height_mm / 2
    return (
        *saw_dimensions(m),
        across("plate_width", m.plate_width_mm, z_mm=m.plate_length_mm / 2),
        across("plate", m.plate_mm, z_mm=m.plate_length_mm / 2, view="side"),
        across("spine", m.spine_mm, z_mm=0.0, view="side"),
        across("spine_height", m.spine_height_mm, z_mm=0.0, at_mm=spine),
    )


KIND = Kind(
    name="back-saw",
    title="Back saw: tenon or dovetail saw with a closed handle",
    measures=BackSawMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(
        plate_length=250.0,
        handle_width=120.0,
        handle_length=105.0,
        handle_thickness=22.0,
        hole_width=85.0,
        hole_height=42.0,
        plate_width=85.0,
        plate=1.0,
        spine=7.0,
        spine_height=20.0,
    ),
    properties=("sharp",),
)
