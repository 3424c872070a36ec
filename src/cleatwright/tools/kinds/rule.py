"""A steel rule or a straightedge, its hole up.

┌───┐  ← z = length
│ o │  hole (may be missing)
│   │
│   │  width
└───┘  ← z = 0
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import FlatEdge, Grip, SteelFace, ThinPlate
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import rectangle
from cleatwright.shapes.rigid import turn
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, flat, short
from cleatwright.tools.features.plates import EndHole
from cleatwright.tools.kind import AtOdds, Kind, Measures, optional_mm, ordinary
from cleatwright.tools.material import STEEL

END_MM = 1.0
LEAST_RIM_MM = 1.0
# less than this below the hole is no face to speak of
LEAST_FACE_MM = 20.0


class RuleMeasures(Measures):
    """What is measured on a rule."""

    length_mm: float = Field(ge=60.0, le=2100.0, description="overall, end to end")
    width_mm: float = Field(ge=8.0, le=120.0, description="across the broad side")
    thickness_mm: float = Field(ge=0.3, le=10.0, description="through the blade")
    hole_mm: float = optional_mm(2.0, 40.0, description="the hole at its end, clear across")
    hole_rim_mm: float = optional_mm(
        LEAST_RIM_MM, 60.0, description="from the hole's edge to the end of the rule"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one rule."""
        yield from self.together("hole", "hole_rim")
        if self.hole_mm > self.width_mm - 2.0 * LEAST_RIM_MM:
            yield self.at_odds("{hole} does not fit into {width}: measure both again")
        if self.hole_mm + self.hole_rim_mm > self.length_mm / 2:
            yield self.at_odds(
                "{hole} and {hole_rim} reach past half of {length}: measure the three again"
            )


def body(m: RuleMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body; a hole stays open."""
    half, top, thick = m.width_mm / 2, m.length_mm, m.thickness_mm
    hole = _hole(m)
    grips: list[Grip] = [
        *hole.grips(thick),
        ThinPlate(turn("z", 90.0), thick, -half, half, top),
        FlatEdge(END_MM, top - END_MM, m.width_mm, thick),
    ]
    if hole.low_mm >= LEAST_FACE_MM:
        grips.append(SteelFace(-thick / 2, END_MM, hole.low_mm - END_MM, m.width_mm, thick))
    outlines = [rectangle(-half, 0.0, half, hole.low_mm), *hole.outlines()]
    components = [MassComponent(flat(outline, thick), STEEL) for outline in outlines]
    return assembled(
        components,
        weighed_kg,
        kind="rule",
        leading=f"{short(m.length_mm)}×{short(m.width_mm)}",
        grips=tuple(grips),
        order_mm=m.length_mm,
    )


def _hole(m: RuleMeasures) -> EndHole:
    return EndHole(m.width_mm / 2, m.length_mm, m.hole_mm, m.hole_rim_mm)


def _dimensions(m: RuleMeasures) -> tuple[Dimension, ...]:
    return (
        along("length", 0.0, m.length_mm, x_mm=m.width_mm / 2),
        across("width", m.width_mm, z_mm=0.0),
        across("thickness", m.thickness_mm, z_mm=0.0, view="side"),
        *_hole(m).dimensions(),
    )


KIND = Kind(
    name="rule",
    title="Rule or straightedge, up to two metres",
    measures=RuleMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(length=300.0, width=28.0, thickness=1.0, hole=6.0, hole_rim=5.0),
)
