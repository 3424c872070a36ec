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
    cylinder,
    free_opening_mm,
    mass_and_centre,
    ring_sectors,
    short,
)
from cleatwright.tools.kind import AtOdds, Kind, Measures, at_odds, optional_mm
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
            yield at_odds(
                f"bore {self.bore_mm:g} mm leaves nothing of outer {self.outer_mm:g} mm: measure "
                "both again",
                "bore",
                "outer",
            )


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
    mass_kg, com_mm = mass_and_centre([MassComponent(one, PAPER) for one in pieces], weighed_kg)
    grips += [
        LyingBar(lying, m.length_mm, m.outer_mm, m.outer_mm, round_section=True),
        RoundBody(z_mm=0.0, diameter_mm=m.outer_mm, height_mm=m.length_mm),
    ]
    return ToolBody(
        kind="roll-stock",
        leading=f"⌀{short(m.outer_mm)}×{short(m.length_mm)}",
        envelope=pieces,
        mass_kg=mass_kg,
        com_mm=com_mm,
        grips=tuple(grips),
        order_mm=m.outer_mm,
    )


def dimensions(m: RollStockMeasures) -> tuple[Dimension, ...]:
    """Return where each measure lies."""
    bore = (across("bore", m.bore_mm, z_mm=m.length_mm, view="above"),)
    return (
        along("length", 0.0, m.length_mm, x_mm=m.outer_mm / 2),
        across("outer", m.outer_mm, z_mm=0.0),
        *(bore if m.bore_mm > 0.0 else ()),
    )


KIND = Kind(
    name="roll-stock",
    title="Long roll of paper, foil or film",
    measures=RollStockMeasures,
    body=body,
    dimensions=dimensions,
    caution="Where a roll of foil or film comes in a box with a cutting edge, that is as sharp as "
    "a saw: take the roll out of the box before it goes on a spindle.",
    example=(("length", 140.0), ("outer", 60.0), ("bore", 32.0)),
)
