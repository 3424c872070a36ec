"""A marker, a pen or a pencil, standing on its blunt end.

┌─┐   ← z = length
│ │   cap (may be missing)
├─┤
│ │   barrel
└─┘   ← z = 0
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import RoundBody, ShaftEnd
from cleatwright.parts.tool import ToolBody
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, cylinder, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, optional_mm, ordinary
from cleatwright.tools.material import PLASTIC

# a pencil of 7.5 x 175 mm weighs about 5 g, a marker of 17 x 140 mm about 20 g (from memory)
SOLID_SHARE = 0.5
LEAST_BARREL_MM = 20.0


class MarkerMeasures(Measures):
    """What is measured on a marker."""

    diameter_mm: float = Field(
        ge=4.0,
        le=40.0,
        description="across the barrel's widest place, over the corners of a pencil",
    )
    length_mm: float = Field(
        ge=50.0, le=220.0, description="from end to end, cap or point included"
    )
    cap_mm: float = optional_mm(
        4.0, 45.0, description="across the cap's widest place, clip included"
    )
    cap_length_mm: float = optional_mm(5.0, 90.0, description="along the cap")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one marker."""
        yield from self.together("cap", "cap_length")
        if self.cap_length_mm > self.length_mm - LEAST_BARREL_MM:
            yield self.at_odds(
                "{cap_length} leaves less than {least} of barrel "
                "in a length of {length}: measure the length with the cap on",
                "length",
                least=LEAST_BARREL_MM,
                length=self.length_mm,
            )


def body(m: MarkerMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: a barrel that is half solid, and its cap."""
    straight = m.length_mm - m.cap_length_mm
    pieces = [cylinder(m.diameter_mm, 0.0, straight)]
    if m.cap_mm > 0.0:
        pieces.append(cylinder(m.cap_mm, straight, m.length_mm))
    # the last millimetres of a pencil are its point, which no bore can guide
    guided = straight - (0.0 if m.cap_mm > 0.0 else LEAST_BARREL_MM)
    return assembled(
        [MassComponent(piece, PLASTIC, SOLID_SHARE) for piece in pieces],
        weighed_kg,
        kind="marker",
        leading=f"⌀{short(m.diameter_mm)}×{short(m.length_mm)}",
        grips=(
            RoundBody(z_mm=0.0, diameter_mm=m.diameter_mm, height_mm=straight),
            ShaftEnd(z_mm=0.0, diameter_mm=m.diameter_mm, length_mm=guided),
        ),
        order_mm=m.diameter_mm,
    )


def _dimensions(m: MarkerMeasures) -> tuple[Dimension, ...]:
    straight, right = m.length_mm - m.cap_length_mm, m.diameter_mm / 2
    cap = (
        across("cap", m.cap_mm, z_mm=straight + 0.7 * m.cap_length_mm),
        along("cap_length", straight, m.length_mm, x_mm=-m.cap_mm / 2),
    )
    return (
        across("diameter", m.diameter_mm, z_mm=0.4 * straight),
        along("length", 0.0, m.length_mm, x_mm=right),
        *cap,
    )


KIND = Kind(
    name="marker",
    title="Marker, pen or pencil that stands on its blunt end",
    measures=MarkerMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(diameter=16.0, length=138.0, cap=18.0, cap_length=45.0),
)
