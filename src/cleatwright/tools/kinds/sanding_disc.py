"""A sanding disc, a cutting disc or a round saw blade, or a stack of equal ones, on edge.

   ╭─────╮   ← z = diameter
  │   o   │  bore (may be missing); thickness is out of the page
   ╰─────╯   ← z = 0

The estimate takes steel. Weigh discs of paper, which are lighter.
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import Disc, EyeHole, Grip
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import circle
from cleatwright.shapes.rigid import shift, turn
from cleatwright.shapes.solid import Solid
from cleatwright.tools.dimension import Dimension, across
from cleatwright.tools.features.pieces import (
    MassComponent,
    assembled,
    flat,
    free_opening_mm,
    ring_sectors,
    short,
)
from cleatwright.tools.kind import AtOdds, Kind, Measures, optional_mm, ordinary
from cleatwright.tools.material import STEEL

SECTORS = 16
LEAST_WALL_MM = 4.0


class SandingDiscMeasures(Measures):
    """What is measured on a disc."""

    diameter_mm: float = Field(ge=30.0, le=420.0, description="across the disc, teeth included")
    thickness_mm: float = Field(
        ge=0.5, le=60.0, description="through the disc or the stack, set of the teeth included"
    )
    bore_mm: float = optional_mm(4.0, 130.0, description="the hole in its middle, clear across")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one disc."""
        if self.bore_mm > self.diameter_mm - 2.0 * LEAST_WALL_MM:
            yield self.at_odds(
                "{bore} leaves less than {least} of {diameter}: measure both again",
                least=LEAST_WALL_MM,
            )


def body(m: SandingDiscMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body; a bore stays open."""
    middle, thick = m.diameter_mm / 2, m.thickness_mm
    pieces: tuple[Solid, ...] = (flat(circle(m.diameter_mm, at=(0.0, middle)), thick),)
    edge = shift(0.0, 0.0, -middle).then(turn("z", 90.0))
    grips: list[Grip] = [Disc(edge, m.diameter_mm, thick)]
    if m.bore_mm > 0.0:
        pieces = ring_sectors(
            outer_mm=m.diameter_mm,
            opening_mm=m.bore_mm,
            thickness_mm=thick,
            z_mm=middle,
            count=SECTORS,
        )
        free = free_opening_mm(m.bore_mm, count=SECTORS)
        grips.append(EyeHole(middle + free / 2, free, thick, middle - free / 2))
    return assembled(
        [MassComponent(one, STEEL) for one in pieces],
        weighed_kg,
        kind="sanding-disc",
        leading=f"⌀{short(m.diameter_mm)}×{short(m.thickness_mm)}",
        grips=tuple(grips),
        order_mm=m.diameter_mm,
    )


def _dimensions(m: SandingDiscMeasures) -> tuple[Dimension, ...]:
    middle = m.diameter_mm / 2
    bore = (across("bore", m.bore_mm, z_mm=middle),)
    return (
        across("diameter", m.diameter_mm, z_mm=0.0),
        across("thickness", m.thickness_mm, z_mm=m.diameter_mm, view="side"),
        *bore,
    )


KIND = Kind(
    name="sanding-disc",
    title="Sanding disc, cutting disc or round saw blade",
    measures=SandingDiscMeasures,
    body=body,
    dimensions=_dimensions,
    caution="Wear gloves to take out round saw blades, or cover their teeth. A cutting disc that "
    "has fallen or is cracked may burst: throw it away.",
    example=ordinary(diameter=150.0, thickness=3.0, bore=20.0),
)
