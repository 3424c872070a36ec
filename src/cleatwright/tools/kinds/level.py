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

from cleatwright.parts.grips import EyeHole, FlatEdge, Grip, LyingBar
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import rectangle
from cleatwright.shapes.rigid import shift, turn
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, flat, mass_and_centre, short
from cleatwright.tools.features.plates import free_hole_mm, pierced, round_hole
from cleatwright.tools.kind import AtOdds, Kind, Measures, at_odds, optional_mm
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
        if (self.hole_mm > 0.0) != (self.hole_rim_mm > 0.0):
            yield at_odds(
                f"hole {self.hole_mm:g} mm and hole_rim {self.hole_rim_mm:g} mm go together: give "
                "both, or leave both out",
                "hole",
                "hole_rim",
            )
        if self.hole_mm > self.height_mm - 2.0 * LEAST_RIM_MM:
            yield at_odds(
                f"hole {self.hole_mm:g} mm does not fit into height {self.height_mm:g} mm: measure "
                "both again",
                "hole",
                "height",
            )
        if self.hole_mm + 2.0 * self.hole_rim_mm > self.length_mm - LEAST_RIM_MM:
            yield at_odds(
                f"hole {self.hole_mm:g} mm and hole_rim {self.hole_rim_mm:g} mm reach past "
                f"length {self.length_mm:g} mm: measure the three again",
                "hole",
                "length",
                "hole_rim",
            )


def body(m: LevelMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body; a hole stays open."""
    half, top, thick = m.height_mm / 2, m.length_mm, m.thickness_mm
    grips: list[Grip] = [FlatEdge(END_MM, top - END_MM, m.height_mm, thick)]
    outlines = [rectangle(-half, 0.0, half, top)]
    if m.hole_mm > 0.0:
        low = top - m.hole_mm - 2.0 * m.hole_rim_mm
        middle, free = top - m.hole_rim_mm - m.hole_mm / 2, free_hole_mm(m.hole_mm)
        outlines = [
            rectangle(-half, 0.0, half, low),
            *pierced(half, low, top, round_hole(m.hole_mm, middle)),
        ]
        rim = m.hole_rim_mm + (m.hole_mm - free) / 2
        grips.append(EyeHole(middle + free / 2, free, thick, rim))
    components = [MassComponent(flat(outline, thick), ALUMINIUM, BOX_SHARE) for outline in outlines]
    mass_kg, com_mm = mass_and_centre(components, weighed_kg)
    lying = LyingBar(
        pose=turn("y", 90.0).then(shift(-top / 2, 0.0, half)),
        length_mm=top,
        depth_mm=thick,
        height_mm=m.height_mm,
        off_centre_mm=abs(com_mm[2] - top / 2),
    )
    return ToolBody(
        kind="level",
        leading=f"{short(m.length_mm)}×{short(m.height_mm)}",
        envelope=tuple(component.solid for component in components),
        mass_kg=mass_kg,
        com_mm=com_mm,
        grips=(lying, *grips),
        order_mm=m.length_mm,
    )


def dimensions(m: LevelMeasures) -> tuple[Dimension, ...]:
    """Return where each measure lies."""
    edge = m.length_mm - m.hole_rim_mm
    hole = (
        across("hole", m.hole_mm, z_mm=edge - m.hole_mm / 2),
        along("hole_rim", edge, m.length_mm),
    )
    return (
        along("length", 0.0, m.length_mm, x_mm=m.height_mm / 2),
        across("height", m.height_mm, z_mm=0.0),
        across("thickness", m.thickness_mm, z_mm=0.0, view="side"),
        *(hole if m.hole_mm > 0.0 else ()),
    )


KIND = Kind(
    name="level",
    title="Spirit level",
    measures=LevelMeasures,
    body=body,
    dimensions=dimensions,
    example=(
        ("length", 600.0),
        ("height", 50.0),
        ("thickness", 23.0),
        ("hole", 20.0),
        ("hole_rim", 14.0),
    ),
)
