"""What tools with two legs share, legs down and closed.

   ╱‾‾╲      ← nose, z = length
  │head│
  │    │     joint
  ╰┐  ┌╯     ← the legs meet, z = leg_length
 ╱ │  │ ╲
│ │gap │ │
└─┘    └─┘   ← z = 0
↔ spread ↔
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import Straddle
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import Outline, Point, polygon
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, flat, short
from cleatwright.tools.kind import AtOdds, Measures, optional_mm
from cleatwright.tools.material import STEEL

LEAST_LEG_MM = 3.0


class TwoLegMeasures(Measures):
    """What is measured on a closed tool with two legs."""

    length_mm: float = Field(ge=60.0, le=900.0, description="from the nose to the ends of the legs")
    head_width_mm: float = Field(ge=8.0, le=120.0, description="across the joint, its widest place")
    head_length_mm: float = Field(
        ge=8.0, le=300.0, description="from the nose down to where the joint begins to widen"
    )
    leg_length_mm: float = Field(
        ge=40.0, le=600.0, description="from where the legs meet below the joint to their ends"
    )
    gap_mm: float = Field(
        ge=1.0, le=60.0, description="the narrowest clear width between the closed legs"
    )
    spread_mm: float = Field(
        ge=10.0, le=250.0, description="over both closed legs, at their widest place"
    )
    thickness_mm: float = Field(ge=3.0, le=60.0, description="the thickest place, front to back")
    gap_below_mm: float = Field(
        10.0, ge=1.0, le=100.0, description="how far below the meeting point the gap is reached"
    )
    nose_width_mm: float = optional_mm(1.0, 120.0, description="across the nose, if it tapers")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one tool with two legs."""
        if self.head_length_mm + self.leg_length_mm > self.length_mm:
            yield self.at_odds(
                "{head_length} and {leg_length} are together more than {length}: measure the "
                "three again"
            )
        widest = min(self.head_width_mm, self.spread_mm) - 2 * LEAST_LEG_MM
        if self.gap_mm > widest:
            yield self.at_odds(
                "{gap} leaves less than {least} for each leg within {head_width} and "
                "{spread}: measure the gap inside the closed legs, and the others outside",
                least=LEAST_LEG_MM,
            )
        if self.gap_below_mm >= self.leg_length_mm / 2:
            yield self.at_odds(
                "{gap_below} is not less than half of {leg_length}: measure the gap closer to the "
                "joint"
            )
        if self.nose_width_mm > self.head_width_mm:
            yield self.at_odds(
                "{nose_width} is more than {head_width}: measure head_width at the widest place "
                "above the legs"
            )


def outlines(m: TwoLegMeasures) -> list[Outline]:
    """Return the convex outlines in the xz plane: two legs, the crotch, the joint, the head."""
    meet, open_at = m.leg_length_mm, m.leg_length_mm - m.gap_below_mm
    joint, wide, inner = m.head_width_mm / 2, m.spread_mm / 2, m.gap_mm / 2
    # the legs bow out no faster than straight to their widest place, halfway down
    slope = max(0.0, wide - joint) / (meet / 2)
    crotch = min(joint, wide) + slope * m.gap_below_mm
    leg: list[Point] = [(inner, 0.0), (wide, 0.0), (crotch, open_at), (inner, open_at)]
    if slope > 0.0:
        leg.insert(2, (wide, meet / 2))
    mirrored: list[Point] = [(-x, z) for x, z in reversed(leg)]
    nose = m.nose_width_mm / 2 or joint
    shoulder = m.length_mm - m.head_length_mm
    pieces = [
        polygon(leg),
        polygon(mirrored),
        polygon([(-crotch, open_at), (crotch, open_at), (joint, meet), (-joint, meet)]),
        polygon([(-joint, shoulder), (joint, shoulder), (nose, m.length_mm), (-nose, m.length_mm)]),
    ]
    if shoulder - meet > 1e-6:
        block = [(-joint, meet), (joint, meet), (joint, shoulder), (-joint, shoulder)]
        pieces.insert(3, polygon(block))
    return pieces


def two_leg_body(
    m: TwoLegMeasures, weighed_kg: float | None, *, kind: str, metal: float
) -> ToolBody:
    """Return the tool body; the gap stays free, and so much of the plates around it is steel."""
    components = [
        MassComponent(flat(outline, m.thickness_mm), STEEL, metal) for outline in outlines(m)
    ]
    straddle = Straddle(
        z_mm=m.leg_length_mm,
        gap_mm=m.gap_mm,
        gap_below_mm=m.gap_below_mm,
        leg_length_mm=m.leg_length_mm,
        thickness_mm=m.thickness_mm,
        spread_mm=m.spread_mm,
    )
    return assembled(
        components,
        weighed_kg,
        kind=kind,
        leading=f"{short(m.length_mm)}×{short(m.spread_mm)}",
        grips=(straddle,),
        order_mm=m.length_mm,
    )


def two_leg_dimensions(m: TwoLegMeasures) -> tuple[Dimension, ...]:
    """Return where each measure lies."""
    wide, open_at = m.spread_mm / 2, m.leg_length_mm - m.gap_below_mm
    shoulder = m.length_mm - m.head_length_mm
    nose = m.nose_width_mm
    return (
        along("length", 0.0, m.length_mm, x_mm=wide),
        across("head_width", m.head_width_mm, z_mm=shoulder),
        along("head_length", shoulder, m.length_mm, x_mm=-m.head_width_mm / 2),
        along("leg_length", 0.0, m.leg_length_mm, x_mm=-wide),
        across("gap", m.gap_mm, z_mm=open_at / 2),
        across("spread", m.spread_mm, z_mm=0.0),
        across("thickness", m.thickness_mm, z_mm=shoulder, view="side"),
        along("gap_below", open_at, m.leg_length_mm, x_mm=m.gap_mm / 2),
        across("nose_width", nose, z_mm=m.length_mm),
    )
