"""A bucket, a lantern or a watering can that hangs by its bail, empty.

  ┌────────┐    ← z = height + bail_height + bail
  │        │    bail, through its grip; bail_thickness is out of the page
  │        │    bail_height, clear, from the rim to the underside of the bail
┌─┴────────┴─┐  ← z = height
│            │  width by depth
└────────────┘  ← z = 0

A spout counts in the width. The estimate takes walls of thin sheet: weigh what is heavier.
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.solid import block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.openings import Opening
from cleatwright.tools.features.pieces import MassComponent, assembled, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import PLASTIC, STEEL

# a bucket of sheet for 12 litres, in a box 290 by 290 by 260 mm, weighs about 1.2 kg (common
# practice, no source)
WALLS_SHARE = 0.007
BAIL_SHARE = 0.3
WIRE_MM = 6.0
LEAST_OPENING_MM = 34.0


class BucketMeasures(Measures):
    """What is measured on a thing with a bail."""

    width_mm: float = Field(ge=50.0, le=500.0, description="along the bail, its widest place")
    depth_mm: float = Field(ge=30.0, le=400.0, description="across the bail, the deepest place")
    height_mm: float = Field(
        ge=50.0, le=600.0, description="from the base to where the bail is fixed, or the rim"
    )
    bail_height_mm: float = Field(
        ge=LEAST_OPENING_MM, le=350.0, description="clear below the raised bail, at its middle"
    )
    bail_mm: float = Field(ge=4.0, le=45.0, description="through the grip of the bail, upright")
    bail_thickness_mm: float = Field(
        ge=4.0, le=45.0, description="through the grip of the bail, the other way"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one bail."""
        if self.bail_thickness_mm > self.depth_mm:
            yield self.at_odds("{bail_thickness} is more than {depth}: measure both again")


def body(m: BucketMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: a block, and a bail over its whole width."""
    x, y, t = m.width_mm / 2, m.depth_mm / 2, m.bail_thickness_mm / 2
    low, under = m.height_mm, m.height_mm + m.bail_height_mm
    inner = x - WIRE_MM
    components = (
        MassComponent(block(-x, -y, 0.0, x, y, low), STEEL, WALLS_SHARE),
        MassComponent(block(-x, -t, low, -inner, t, under), STEEL, BAIL_SHARE),
        MassComponent(block(inner, -t, low, x, t, under), STEEL, BAIL_SHARE),
        MassComponent(block(-x, -t, under, x, t, under + m.bail_mm), PLASTIC, BAIL_SHARE),
    )
    opening = Opening(
        half_mm=x,
        low_mm=low,
        top_mm=under + m.bail_mm,
        width_mm=2.0 * inner,
        z0_mm=low,
        z1_mm=under,
        thickness_mm=m.bail_thickness_mm,
    )
    return assembled(
        components,
        weighed_kg,
        kind="bucket",
        leading=f"{short(m.width_mm)}×{short(m.height_mm)}",
        grips=opening.grips(),
        order_mm=m.width_mm,
    )


def _dimensions(m: BucketMeasures) -> tuple[Dimension, ...]:
    under = m.height_mm + m.bail_height_mm
    return (
        across("width", m.width_mm, z_mm=0.0),
        across("depth", m.depth_mm, z_mm=0.0, view="side"),
        along("height", 0.0, m.height_mm, x_mm=m.width_mm / 2),
        along("bail_height", m.height_mm, under, x_mm=m.width_mm / 2),
        along("bail", under, under + m.bail_mm),
        across("bail_thickness", m.bail_thickness_mm, z_mm=under, view="side"),
    )


KIND = Kind(
    name="bucket",
    title="Bucket, lantern or watering can with a bail",
    measures=BucketMeasures,
    body=body,
    dimensions=_dimensions,
    caution="Hang what has a bail empty.",
    example=ordinary(
        width=290.0,
        depth=285.0,
        height=260.0,
        bail_height=130.0,
        bail=22.0,
        bail_thickness=22.0,
    ),
)
