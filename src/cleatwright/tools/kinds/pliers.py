"""Pliers of any sort, legs down and closed; also shears and cutters with two legs."""

from __future__ import annotations

from cleatwright.parts.tool import ToolBody
from cleatwright.tools.features.two_legs import TwoLegMeasures, two_leg_body, two_leg_dimensions
from cleatwright.tools.kind import Kind, ordinary

# the box around the head and legs is about half metal: combination pliers of 180 mm
# weigh about 250 g (common practice, no source)
METAL_SHARE = 0.55


class PliersMeasures(TwoLegMeasures):
    """What is measured on closed pliers."""


def body(m: PliersMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body, half of it metal."""
    return two_leg_body(m, weighed_kg, kind="pliers", metal=METAL_SHARE)


KIND = Kind(
    name="pliers",
    title="Pliers, cutters or shears with two legs",
    measures=PliersMeasures,
    body=body,
    dimensions=two_leg_dimensions,
    example=ordinary(
        length=180.0,
        head_width=26.0,
        head_length=45.0,
        leg_length=110.0,
        gap=9.0,
        spread=50.0,
        thickness=11.0,
        nose_width=18.0,
    ),
)
