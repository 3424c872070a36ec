"""A bottle with a neck and a cap, full of something as heavy as water, until it is weighed.

   ┌┐         neck with its cap, at its widest
  ┌┘└┐        ↕ neck_length
 ╱    ╲       ↕ shoulder: 0 when it is flat
│      │
│ body │      height over all
└──────┘
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import InvertedNeck, RoundBody
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import circle
from cleatwright.shapes.rigid import shift, turn
from cleatwright.shapes.solid import Loft, Solid
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, cylinder, mass_and_centre, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, optional_mm, ordinary
from cleatwright.tools.material import LIQUID

LEAST_BODY_MM = 15.0


class BottleMeasures(Measures):
    """What is measured on a bottle."""

    body_mm: float = Field(ge=15.0, le=200.0, description="across the body, at its widest")
    height_mm: float = Field(ge=40.0, le=500.0, description="from the base to the end of the cap")
    neck_mm: float = Field(ge=4.0, le=150.0, description="across the neck or its cap, the wider")
    neck_length_mm: float = Field(
        ge=5.0, le=200.0, description="from the end of the shoulder to the end of the cap"
    )
    shoulder_mm: float = optional_mm(
        1.0, 150.0, description="height over which the body narrows to the neck"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be: a neck as wide as the body, or no body at all."""
        if self.neck_mm > self.body_mm - 4.0:
            yield self.at_odds("{neck} is not narrower than {body} by {least}", least=4.0)
        straight = self.height_mm - self.neck_length_mm - self.shoulder_mm
        if straight < LEAST_BODY_MM:
            yield self.at_odds(
                "{height} leaves less than {least} of body below neck_length and shoulder, "
                "which are {above}",
                "neck_length",
                "shoulder",
                least=LEAST_BODY_MM,
                above=self.neck_length_mm + self.shoulder_mm,
            )


def body(m: BottleMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: cylinder, cone and cylinder, full to the cap."""
    neck_z = m.height_mm - m.neck_length_mm
    straight = neck_z - m.shoulder_mm
    cap = cylinder(m.neck_mm, neck_z, m.height_mm)
    pieces: list[Solid] = [cylinder(m.body_mm, 0.0, straight), cap]
    full = list(pieces)
    if m.shoulder_mm > 0.0:
        pieces.append(Loft(circle(m.body_mm), circle(m.neck_mm), m.shoulder_mm).moved(dz=straight))
        full.append(_like_cone(m, straight))
    mass_kg, com_mm = mass_and_centre([MassComponent(one, LIQUID) for one in full], weighed_kg)
    return ToolBody(
        kind="bottle",
        leading=f"⌀{short(m.body_mm)}×{short(m.height_mm)}",
        envelope=tuple(pieces),
        mass_kg=mass_kg,
        com_mm=com_mm,
        grips=(
            InvertedNeck(
                pose=turn("x", 180.0).then(shift(0.0, 0.0, neck_z)),
                neck_mm=m.neck_mm,
                neck_length_mm=m.neck_length_mm,
                body_mm=m.body_mm,
                shoulder_mm=m.shoulder_mm,
            ),
            RoundBody(z_mm=0.0, diameter_mm=m.body_mm, height_mm=straight),
        ),
        order_mm=m.body_mm,
    )


def _like_cone(m: BottleMeasures, low_mm: float) -> Solid:
    """Return a cylinder of the same height, volume and centre as the shoulder.

    Source: closed forms for the frustum of a cone.
    """
    a, b, high = m.body_mm, m.neck_mm, m.shoulder_mm
    square = (a * a + a * b + b * b) / 3
    middle = low_mm + high * (a * a + 2 * a * b + 3 * b * b) / (12 * square)
    return cylinder(math.sqrt(square), middle - high / 2, middle + high / 2)


def _dimensions(m: BottleMeasures) -> tuple[Dimension, ...]:
    neck_z = m.height_mm - m.neck_length_mm
    straight = neck_z - m.shoulder_mm
    shoulder = along("shoulder", straight, neck_z, x_mm=-m.body_mm / 2)
    return (
        across("body", m.body_mm, z_mm=straight / 2),
        along("height", 0.0, m.height_mm, x_mm=m.body_mm / 2),
        across("neck", m.neck_mm, z_mm=m.height_mm),
        along("neck_length", neck_z, m.height_mm, x_mm=-m.neck_mm / 2),
        shoulder,
    )


KIND = Kind(
    name="bottle",
    title="Bottle with a neck, upright or on its head",
    measures=BottleMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(body=62.0, height=190.0, neck=24.0, neck_length=40.0, shoulder=18.0),
    properties=("liquid",),
)
