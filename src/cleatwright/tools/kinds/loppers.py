"""Loppers, hedge shears or bolt cutters: long legs down, closed, the blades up.

They hang astride by what is below their joint. Give the gap where it is narrowest below that.
"""

from __future__ import annotations

from pydantic import Field

from cleatwright.parts.tool import ToolBody
from cleatwright.tools.features.two_legs import TwoLegMeasures, two_leg_body, two_leg_dimensions
from cleatwright.tools.kind import Kind, ordinary

# thin tubes or bars within the plates around the legs: loppers of 700 mm weigh 1.2 to 1.8 kg
# (common practice, no source)
METAL_SHARE = 0.08


class LoppersMeasures(TwoLegMeasures):
    """What is measured on closed loppers or shears."""

    length_mm: float = Field(
        ge=200.0, le=1400.0, description="from the blades' ends to the ends of the legs"
    )
    head_width_mm: float = Field(
        ge=20.0, le=200.0, description="across the joint, its widest place"
    )
    head_length_mm: float = Field(
        ge=30.0, le=400.0, description="from the blades' ends down to where the joint is widest"
    )
    leg_length_mm: float = Field(
        ge=120.0, le=1000.0, description="from where the legs meet below the joint to their ends"
    )
    gap_mm: float = Field(
        ge=6.0, le=120.0, description="clear between the closed legs, where it is narrowest"
    )
    spread_mm: float = Field(
        ge=40.0, le=500.0, description="over both closed legs, at their widest place"
    )
    thickness_mm: float = Field(ge=8.0, le=80.0, description="the thickest place, front to back")
    gap_below_mm: float = Field(
        20.0, ge=1.0, le=200.0, description="how far below the meeting point the gap is reached"
    )


def body(m: LoppersMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body, light for its size."""
    return two_leg_body(m, weighed_kg, kind="loppers", metal=METAL_SHARE)


KIND = Kind(
    name="loppers",
    title="Loppers, hedge shears or bolt cutters",
    measures=LoppersMeasures,
    body=body,
    dimensions=two_leg_dimensions,
    caution="Hang loppers and shears closed, below the height of a face.",
    example=ordinary(
        length=700.0,
        head_width=60.0,
        head_length=110.0,
        leg_length=540.0,
        gap=22.0,
        spread=180.0,
        thickness=32.0,
        gap_below=30.0,
        nose_width=30.0,
    ),
    properties=("sharp",),
)
