"""A coil of hose, cable or wire that hangs by its own opening.

       ╭───────╮   ← z = outer
      │ ╭─────╮ │  ↕ bundle
      │ │     │ │
      │ ╰─────╯ │  thickness is out of the page
       ╰───────╯   ← z = 0

Its fill is plastic tube and steel wire with air between the turns, 1400 kg/m3: weigh
a coil of solid wire.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import Loop
from cleatwright.parts.tool import ToolBody
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import (
    MassComponent,
    assembled,
    free_opening_mm,
    ring_sectors,
    short,
)
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import BUNDLE

SECTORS = 16
LEAST_OPENING_MM = 20.0
# the bundle is an oval within the rectangle of its two widths
OVAL_SHARE = math.pi / 4


class CoilMeasures(Measures):
    """What is measured on a coil."""

    outer_mm: float = Field(ge=40.0, le=900.0, description="across the whole coil")
    bundle_mm: float = Field(
        ge=3.0, le=200.0, description="the bundle of turns, from the opening outward"
    )
    thickness_mm: float = Field(ge=3.0, le=200.0, description="the bundle of turns, laid flat")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one coil."""
        opening = self.outer_mm - 2.0 * self.bundle_mm
        if opening < LEAST_OPENING_MM:
            yield self.at_odds(
                "{outer} and {bundle} leave an opening of {opening}, and it takes {least} "
                "to hang it: measure both again, or wind it wider",
                opening=opening,
                least=LEAST_OPENING_MM,
            )


def body(m: CoilMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body; the sectors leave a slightly smaller opening free than was measured."""
    opening = m.outer_mm - 2.0 * m.bundle_mm
    sectors = ring_sectors(
        outer_mm=m.outer_mm,
        opening_mm=opening,
        thickness_mm=m.thickness_mm,
        z_mm=m.outer_mm / 2,
        count=SECTORS,
    )
    free = free_opening_mm(opening, count=SECTORS)
    return assembled(
        [MassComponent(sector, BUNDLE, OVAL_SHARE) for sector in sectors],
        weighed_kg,
        kind="coil",
        leading=f"⌀{short(m.outer_mm)}×{short(m.thickness_mm)}",
        grips=(Loop(m.outer_mm / 2 + free / 2, free, free, m.thickness_mm),),
        order_mm=m.outer_mm,
    )


def _dimensions(m: CoilMeasures) -> tuple[Dimension, ...]:
    middle = m.outer_mm / 2
    return (
        along("outer", 0.0, m.outer_mm, x_mm=middle),
        along("bundle", m.outer_mm - m.bundle_mm, m.outer_mm),
        across("thickness", m.thickness_mm, z_mm=m.outer_mm, view="side"),
    )


KIND = Kind(
    name="coil",
    title="Coil of hose, cable, rope or wire, or a plain ring",
    measures=CoilMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(outer=220.0, bundle=25.0, thickness=30.0),
)
