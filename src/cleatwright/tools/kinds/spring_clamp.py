"""A spring clamp, closed, its jaws up and its handles down.

    ┌──┐      ← z = length
   ╱jaws╲
  └┐    ┌┘    ← the handles meet at the spring, z = handle_length
 ╱ │gap │ ╲
└──┘    └──┘  ← z = 0
 ↔ spread  ↔
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.base import said
from cleatwright.parts.grips import Straddle
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import Outline, polygon
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, flat, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import PLASTIC

# ribbed plastic with a steel spring: one of 160 mm weighs 100 to 180 g (common practice,
# no source)
FILLED_SHARE = 0.55
GAP_BELOW_MM = 15.0
LEAST_LEG_MM = 4.0


class SpringClampMeasures(Measures):
    """What is measured on a closed spring clamp."""

    length_mm: float = Field(
        ge=60.0, le=350.0, description="from the jaws' tips to the handles' ends"
    )
    handle_length_mm: float = Field(
        ge=40.0, le=220.0, description="from below the spring to the handles' ends"
    )
    head_width_mm: float = Field(ge=15.0, le=120.0, description="over both jaws, at their widest")
    gap_mm: float = Field(
        ge=4.0, le=80.0, description=f"between the handles, {said.mm(15)} below where they meet"
    )
    spread_mm: float = Field(ge=20.0, le=200.0, description="over the handles' ends")
    thickness_mm: float = Field(ge=6.0, le=60.0, description="through the thickest place")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one spring clamp."""
        if self.handle_length_mm > self.length_mm - 15.0:
            yield self.at_odds(
                "{handle_length} leaves less than {least} of jaws within {length}: measure both "
                "again",
                least=15.0,
            )
        if self.gap_mm > min(self.spread_mm, self.head_width_mm) - 2.0 * LEAST_LEG_MM:
            yield self.at_odds(
                "{gap} leaves less than {least} for each handle within {spread} and "
                "{head_width}: measure the gap inside the handles",
                least=LEAST_LEG_MM,
            )


def _outlines(m: SpringClampMeasures) -> list[Outline]:
    """Return two handles, the place where they meet, and the jaws, in the xz plane."""
    meet, open_at = m.handle_length_mm, m.handle_length_mm - GAP_BELOW_MM
    inner, wide, head = m.gap_mm / 2, m.spread_mm / 2, m.head_width_mm / 2
    knee = head + (wide - head) * GAP_BELOW_MM / meet
    handle = [(inner, 0.0), (wide, 0.0), (knee, open_at), (inner, open_at)]
    return [
        polygon(handle),
        polygon([(-x, z) for x, z in reversed(handle)]),
        polygon([(-knee, open_at), (knee, open_at), (head, meet), (-head, meet)]),
        polygon([(-head, meet), (head, meet), (head, m.length_mm), (-head, m.length_mm)]),
    ]


def body(m: SpringClampMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body; the gap between the handles stays free."""
    outlines = _outlines(m)
    components = [
        MassComponent(flat(outline, m.thickness_mm), PLASTIC, FILLED_SHARE) for outline in outlines
    ]
    straddle = Straddle(
        z_mm=m.handle_length_mm,
        gap_mm=m.gap_mm,
        gap_below_mm=GAP_BELOW_MM,
        leg_length_mm=m.handle_length_mm,
        thickness_mm=m.thickness_mm,
        spread_mm=m.spread_mm,
    )
    return assembled(
        components,
        weighed_kg,
        kind="spring-clamp",
        leading=f"{short(m.length_mm)}×{short(m.spread_mm)}",
        grips=(straddle,),
        order_mm=m.length_mm,
    )


def _dimensions(m: SpringClampMeasures) -> tuple[Dimension, ...]:
    wide, head = m.spread_mm / 2, m.head_width_mm / 2
    return (
        along("length", 0.0, m.length_mm, x_mm=max(wide, head)),
        along("handle_length", 0.0, m.handle_length_mm, x_mm=-wide),
        across("head_width", m.head_width_mm, z_mm=m.length_mm),
        across("gap", m.gap_mm, z_mm=m.handle_length_mm - GAP_BELOW_MM),
        across("spread", m.spread_mm, z_mm=0.0),
        across("thickness", m.thickness_mm, z_mm=m.length_mm, view="side"),
    )


KIND = Kind(
    name="spring-clamp",
    title="Spring clamp",
    measures=SpringClampMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(
        length=160.0, handle_length=85.0, head_width=45.0, gap=14.0, spread=90.0, thickness=24.0
    ),
)
