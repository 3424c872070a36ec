"""A cartridge of glue or sealant with its nozzle, full until it is weighed: 1500 kg/m3.

  ▯        nozzle with its cap
  ▯        ↕ nozzle_length
┌────┐
│tube│     ↕ length
└────┘
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import InvertedNeck, RoundBody
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.rigid import shift, turn
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, cylinder, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import SEALANT


class CartridgeMeasures(Measures):
    """What is measured on a cartridge."""

    tube_mm: float = Field(ge=25.0, le=100.0, description="across the tube, its rims included")
    length_mm: float = Field(ge=80.0, le=400.0, description="of the tube, without the nozzle")
    nozzle_mm: float = Field(ge=5.0, le=60.0, description="across the nozzle or thread, the wider")
    nozzle_length_mm: float = Field(
        ge=5.0, le=200.0, description="from the tube to the end of the nozzle or its cap"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be: a nozzle as wide as the tube."""
        if self.nozzle_mm > self.tube_mm - 8.0:
            yield self.at_odds("{nozzle} is not narrower than {tube} by {least}", least=8.0)


def body(m: CartridgeMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: a full tube and its nozzle."""
    tube = cylinder(m.tube_mm, 0.0, m.length_mm)
    nozzle = cylinder(m.nozzle_mm, m.length_mm, m.length_mm + m.nozzle_length_mm)
    return assembled(
        [MassComponent(tube, SEALANT)],
        weighed_kg,
        kind="cartridge",
        leading=f"⌀{short(m.tube_mm)}×{short(m.length_mm)}",
        weightless=(nozzle,),
        grips=(
            InvertedNeck(
                pose=turn("x", 180.0).then(shift(0.0, 0.0, m.length_mm)),
                neck_mm=m.nozzle_mm,
                neck_length_mm=m.nozzle_length_mm,
                body_mm=m.tube_mm,
            ),
            RoundBody(z_mm=0.0, diameter_mm=m.tube_mm, height_mm=m.length_mm),
        ),
        order_mm=m.tube_mm,
    )


def _dimensions(m: CartridgeMeasures) -> tuple[Dimension, ...]:
    end = m.length_mm + m.nozzle_length_mm
    return (
        across("tube", m.tube_mm, z_mm=m.length_mm / 2),
        along("length", 0.0, m.length_mm, x_mm=m.tube_mm / 2),
        across("nozzle", m.nozzle_mm, z_mm=m.length_mm + m.nozzle_length_mm / 2),
        along("nozzle_length", m.length_mm, end, x_mm=-m.nozzle_mm / 2),
    )


KIND = Kind(
    name="cartridge",
    title="Cartridge of glue or sealant with its nozzle",
    measures=CartridgeMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(tube=50.0, length=215.0, nozzle=18.0, nozzle_length=60.0),
    caution="What is in a cartridge may harm skin and lungs: its own label says how to keep it.",
    properties=("liquid",),
)
