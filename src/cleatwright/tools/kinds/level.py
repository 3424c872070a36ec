"""A spirit level, on end, its hole up.

┌────┐  ← z = length
│ o  │  hole (may be missing)
│    │
│    │  height, from one long edge to the other
└────┘  ← z = 0
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import FlatEdge, LyingBar
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import rectangle
from cleatwright.shapes.rigid import shift, turn
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, flat, short
from cleatwright.tools.features.plates import EndHole
from cleatwright.tools.kind import AtOdds, Kind, Measures, optional_mm, ordinary
from cleatwright.tools.material import ALUMINIUM

# the box of extruded walls and webs around air and the vials (a choice)
BOX_SHARE = 0.25
END_MM = 2.0
LEAST_RIM_MM = 2.0


class LevelMeasures(Measures):
    """What is measured on a level."""

    length_mm: float = Field(ge=150.0, le=2000.0, description="overall, end caps included")
    height_mm: float = Field(ge=15.0, le=120.0, description="from one long edge to the other")
    thickness_mm: float = Field(ge=8.0, le=60.0, description="through it, covers included")
    hole_mm: float = optional_mm(4.0, 60.0, description="the hole to hang it by, clear across")
    hole_rim_mm: float = optional_mm(
        LEAST_RIM_MM, 80.0, description="from the hole's edge to the end of the level"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one level."""
        yield from self.together("hole", "hole_rim")
        if self.hole_mm > self.height_mm - 2.0 * LEAST_RIM_MM:
            yield self.at_odds("{hole} does not fit into {height}: measure both again")
        if self.hole_mm + 2.0 * self.hole_rim_mm > self.length_mm - LEAST_RIM_MM:
            yield self.at_odds("{hole} and {hole_rim} reach past {length}: measure the three again")


def body(m: LevelMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body; a hole stays open."""
    half, top, thick = m.height_mm / 2, m.length_mm, m.thickness_mm
    hole = _hole(m)
    outlines = [rectangle(-half, 0.0, half, hole.low_mm), *hole.outlines()]
    components = [MassComponent(flat(outline, thick), ALUMINIUM, BOX_SHARE) for outline in outlines]
    lying = LyingBar(
        pose=turn("y", 90.0).then(shift(-top / 2, 0.0, half)),
        length_mm=top,
        depth_mm=thick,
        height_mm=m.height_mm,
    )
    return assembled(
        components,
        weighed_kg,
        kind="level",
        leading=f"{short(m.length_mm)}×{short(m.height_mm)}",
        grips=(
            lying,
            FlatEdge(END_MM, top - END_MM, m.height_mm, thick),
            *hole.grips(thick),
        ),
        order_mm=m.length_mm,
    )


def _hole(m: LevelMeasures) -> EndHole:
    return EndHole(m.height_mm / 2, m.length_mm, m.hole_mm, m.hole_rim_mm)


def _dimensions(m: LevelMeasures) -> tuple[Dimension, ...]:
    return (
        along("length", 0.0, m.length_mm, x_mm=m.height_mm / 2),
        across("height", m.height_mm, z_mm=0.0),
        across("thickness", m.thickness_mm, z_mm=0.0, view="side"),
        *_hole(m).dimensions(),
    )


KIND = Kind(
    name="level",
    title="Spirit level",
    measures=LevelMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(length=600.0, height=50.0, thickness=23.0, hole=20.0, hole_rim=14.0),
)
