"""A roll of tape, wire or solder on a core, seen along its axis.

 ╭───────╮   ← z = outer
│  ╭───╮  │
│  │bore│ │  width is out of the page
│  ╰───╯  │
 ╰───────╯   ← z = 0
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import Loop, RollBore
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.rigid import shift, turn
from cleatwright.tools.dimension import Dimension, across
from cleatwright.tools.features.pieces import (
    MassComponent,
    assembled,
    free_opening_mm,
    ring_sectors,
    short,
)
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import TAPE

SECTORS = 16
LEAST_WALL_MM = 1.0


class TapeRollMeasures(Measures):
    """What is measured on a roll of tape."""

    outer_mm: float = Field(ge=20.0, le=320.0, description="across the full roll")
    bore_mm: float = Field(ge=8.0, le=200.0, description="the bore of its core, clear across")
    width_mm: float = Field(ge=3.0, le=120.0, description="along the axis, core included")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one roll."""
        if self.bore_mm > self.outer_mm - 2.0 * LEAST_WALL_MM:
            yield self.at_odds("{bore} leaves nothing of {outer}: measure both again")


def body(m: TapeRollMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body; the sectors leave a slightly smaller bore than was measured."""
    middle = m.outer_mm / 2
    sectors = ring_sectors(
        outer_mm=m.outer_mm,
        opening_mm=m.bore_mm,
        thickness_mm=m.width_mm,
        z_mm=middle,
        count=SECTORS,
    )
    free = free_opening_mm(m.bore_mm, count=SECTORS)
    bore = RollBore(
        pose=shift(0.0, 0.0, -middle).then(turn("z", 90.0)),
        bore_mm=free,
        outer_mm=m.outer_mm,
        width_mm=m.width_mm,
    )
    return assembled(
        [MassComponent(one, TAPE) for one in sectors],
        weighed_kg,
        kind="tape-roll",
        leading=f"⌀{short(m.outer_mm)}×{short(m.width_mm)}",
        grips=(bore, Loop(middle + free / 2, free, free, m.width_mm)),
        order_mm=m.outer_mm,
    )


def _dimensions(m: TapeRollMeasures) -> tuple[Dimension, ...]:
    middle = m.outer_mm / 2
    return (
        across("outer", m.outer_mm, z_mm=0.0),
        across("bore", m.bore_mm, z_mm=middle),
        across("width", m.width_mm, z_mm=m.outer_mm, view="side"),
    )


KIND = Kind(
    name="tape-roll",
    title="Roll of tape, wire or solder on a core",
    measures=TapeRollMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(outer=105.0, bore=76.0, width=50.0),
)
