"""A torch, standing on its tail with its head up.

┌───┐   ← z = length
│   │   head (may be missing)
└┬─┬┘
 │ │    barrel
 └─┘    ← z = 0
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import RoundBody
from cleatwright.parts.tool import ToolBody
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import (
    MassComponent,
    assembled,
    cylinder,
    short,
)
from cleatwright.tools.kind import AtOdds, Kind, Measures, optional_mm, ordinary
from cleatwright.tools.material import PLASTIC, STEEL

# cells in a metal barrel: 1900 kg/m3; a torch of 24 x 120 mm weighs about 0.1 kg (from memory)
STEEL_SHARE = 0.25
# the head is a mirror, a lens and air
HEAD_SHARE = 0.6
LEAST_BARREL_MM = 30.0


class TorchMeasures(Measures):
    """What is measured on a torch."""

    diameter_mm: float = Field(ge=10.0, le=65.0, description="across the barrel's widest place")
    length_mm: float = Field(
        ge=60.0, le=450.0, description="from the tail to the front of the head"
    )
    head_mm: float = optional_mm(
        10.0, 130.0, description="across the head, when it is wider than the barrel"
    )
    head_length_mm: float = optional_mm(
        5.0, 150.0, description="from the front to where the barrel begins"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one torch."""
        yield from self.together("head", "head_length")
        if self.head_length_mm > self.length_mm - LEAST_BARREL_MM:
            yield self.at_odds(
                "{head_length} leaves less than {least} of barrel "
                "in a length of {length}: measure both again",
                "length",
                least=LEAST_BARREL_MM,
                length=self.length_mm,
            )


def body(m: TorchMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: a barrel full of cells and a hollow head."""
    straight = m.length_mm - m.head_length_mm
    components = [MassComponent(cylinder(m.diameter_mm, 0.0, straight), STEEL, STEEL_SHARE)]
    if m.head_mm > 0.0:
        components.append(
            MassComponent(cylinder(m.head_mm, straight, m.length_mm), PLASTIC, HEAD_SHARE)
        )
    return assembled(
        components,
        weighed_kg,
        kind="torch",
        leading=f"⌀{short(m.diameter_mm)}×{short(m.length_mm)}",
        grips=(RoundBody(z_mm=0.0, diameter_mm=m.diameter_mm, height_mm=straight),),
        order_mm=m.diameter_mm,
    )


def _dimensions(m: TorchMeasures) -> tuple[Dimension, ...]:
    straight = m.length_mm - m.head_length_mm
    head = (
        across("head", m.head_mm, z_mm=straight + 0.7 * m.head_length_mm),
        along("head_length", straight, m.length_mm, x_mm=-m.head_mm / 2),
    )
    return (
        across("diameter", m.diameter_mm, z_mm=0.4 * straight),
        along("length", 0.0, m.length_mm, x_mm=m.diameter_mm / 2),
        *head,
    )


KIND = Kind(
    name="torch",
    title="Torch that stands on its tail",
    measures=TorchMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(diameter=26.0, length=150.0, head=36.0, head_length=35.0),
    properties=("cell",),
)
