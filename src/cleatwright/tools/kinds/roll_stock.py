"""A long roll of paper, foil, film or cloth, on end.

┌────┐  ← z = length
│    │
│    │  outer; bore is that of the core (may be missing)
│    │
└────┘  ← z = 0
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import Grip, LyingBar, RollBore, RoundBody
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.rigid import shift, turn
from cleatwright.shapes.solid import Solid
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import (
    MassComponent,
    assembled,
    cylinder,
    free_opening_mm,
    ring_sectors,
    short,
)
from cleatwright.tools.kind import AtOdds, Kind, Measures, optional_mm, ordinary
from cleatwright.tools.material import PAPER

SECTORS = 16
LEAST_WALL_MM = 1.0


class RollStockMeasures(Measures):
    """What is measured on a long roll."""

    length_mm: float = Field(ge=40.0, le=1600.0, description="along the axis, core included")
    outer_mm: float = Field(ge=12.0, le=300.0, description="across the full roll")
    bore_mm: float = optional_mm(8.0, 160.0, description="the bore of its core, clear across")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one roll."""
        if self.bore_mm > self.outer_mm - 2.0 * LEAST_WALL_MM:
            yield self.at_odds("{bore} leaves nothing of {outer}: measure both again")


def body(m: RollStockMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body; a bore stays open."""
    pieces: tuple[Solid, ...] = (cylinder(m.outer_mm, 0.0, m.length_mm),)
    lying = turn("y", 90.0).then(shift(-m.length_mm / 2, 0.0, m.outer_mm / 2))
    grips: list[Grip] = []
    if m.bore_mm > 0.0:
        ring = ring_sectors(
            outer_mm=m.outer_mm,
            opening_mm=m.bore_mm,
            thickness_mm=m.length_mm,
            z_mm=0.0,
            count=SECTORS,
        )
        pieces = tuple(one.turned("x", -90.0).moved(dz=m.length_mm / 2) for one in ring)
        free = free_opening_mm(m.bore_mm, count=SECTORS)
        middle = turn("y", 90.0).then(shift(-m.length_mm / 2))
        # a chord of the bore looks along x of the tool, so that one lies level in this pose too
        grips.append(RollBore(middle, free, m.outer_mm, m.length_mm))
    grips += [
        LyingBar(lying, m.length_mm, m.outer_mm, m.outer_mm, round_section=True),
        RoundBody(z_mm=0.0, diameter_mm=m.outer_mm, height_mm=m.length_mm),
    ]
    return assembled(
        [MassComponent(one, PAPER) for one in pieces],
        weighed_kg,
        kind="roll-stock",
        leading=f"⌀{short(m.outer_mm)}×{short(m.length_mm)}",
        grips=tuple(grips),
        order_mm=m.outer_mm,
    )


def _dimensions(m: RollStockMeasures) -> tuple[Dimension, ...]:
    bore = (across("bore", m.bore_mm, z_mm=m.length_mm, view="above"),)
    return (
        along("length", 0.0, m.length_mm, x_mm=m.outer_mm / 2),
        across("outer", m.outer_mm, z_mm=0.0),
        *bore,
    )


KIND = Kind(
    name="roll-stock",
    title="Long roll of paper, foil or film",
    measures=RollStockMeasures,
    body=body,
    dimensions=_dimensions,
    caution="Where a roll of foil or film comes in a box with a cutting edge, that is as sharp as "
    "a saw: take the roll out of the box before it goes on a spindle.",
    example=ordinary(length=140.0, outer=60.0, bore=32.0),
)
