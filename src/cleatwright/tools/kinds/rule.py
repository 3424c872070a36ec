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

from cleatwright.parts.grips import EyeHole, FlatEdge, Grip, SteelFace, ThinPlate
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import rectangle
from cleatwright.shapes.rigid import turn
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, flat, mass_and_centre, short
from cleatwright.tools.features.plates import free_hole_mm, pierced, round_hole
from cleatwright.tools.kind import AtOdds, Kind, Measures, at_odds, optional_mm
from cleatwright.tools.material import STEEL

END_MM = 1.0
LEAST_RIM_MM = 1.0
# less than this below the hole is no face to speak of
LEAST_FACE_MM = 20.0


class RuleMeasures(Measures):
    """What is measured on a rule."""

    length_mm: float = Field(ge=60.0, le=990.0, description="overall, end to end")
    width_mm: float = Field(ge=8.0, le=80.0, description="across the broad side")
    thickness_mm: float = Field(ge=0.3, le=10.0, description="through the blade")
    hole_mm: float = optional_mm(2.0, 40.0, description="the hole at its end, clear across")
    hole_rim_mm: float = optional_mm(
        LEAST_RIM_MM, 60.0, description="from the hole's edge to the end of the rule"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one rule."""
        if (self.hole_mm > 0.0) != (self.hole_rim_mm > 0.0):
            yield at_odds(
                f"hole {self.hole_mm:g} mm and hole_rim {self.hole_rim_mm:g} mm go together: give "
                "both, or leave both out",
                "hole",
                "hole_rim",
            )
        if self.hole_mm > self.width_mm - 2.0 * LEAST_RIM_MM:
            yield at_odds(
                f"hole {self.hole_mm:g} mm does not fit into width {self.width_mm:g} mm: measure "
                "both again",
                "hole",
                "width",
            )
        if self.hole_mm + self.hole_rim_mm > self.length_mm / 2:
            yield at_odds(
                f"hole {self.hole_mm:g} mm and hole_rim {self.hole_rim_mm:g} mm reach past half of "
                f"length {self.length_mm:g} mm: measure the three again",
                "hole",
                "hole_rim",
                "length",
            )


def body(m: RuleMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body; a hole stays open."""
    half, top, thick = m.width_mm / 2, m.length_mm, m.thickness_mm
    low = top - m.hole_mm - 2.0 * m.hole_rim_mm
    grips: list[Grip] = [
        ThinPlate(turn("z", 90.0), thick, -half, half, top),
        FlatEdge(END_MM, top - END_MM, m.width_mm, thick),
    ]
    if low >= LEAST_FACE_MM:
        grips.append(SteelFace(-thick / 2, END_MM, low - END_MM, m.width_mm, thick))
    outlines = [rectangle(-half, 0.0, half, top)]
    if m.hole_mm > 0.0:
        middle, free = top - m.hole_rim_mm - m.hole_mm / 2, free_hole_mm(m.hole_mm)
        outlines = [
            rectangle(-half, 0.0, half, low),
            *pierced(half, low, top, round_hole(m.hole_mm, middle)),
        ]
        rim = m.hole_rim_mm + (m.hole_mm - free) / 2
        grips.insert(0, EyeHole(middle + free / 2, free, thick, rim))
    components = [MassComponent(flat(outline, thick), STEEL) for outline in outlines]
    mass_kg, com_mm = mass_and_centre(components, weighed_kg)
    return ToolBody(
        kind="rule",
        leading=f"{short(m.length_mm)}×{short(m.width_mm)}",
        envelope=tuple(component.solid for component in components),
        mass_kg=mass_kg,
        com_mm=com_mm,
        grips=tuple(grips),
        order_mm=m.length_mm,
    )


def dimensions(m: RuleMeasures) -> tuple[Dimension, ...]:
    """Return where each measure lies."""
    edge = m.length_mm - m.hole_rim_mm
    hole = (
        across("hole", m.hole_mm, z_mm=edge - m.hole_mm / 2),
        along("hole_rim", edge, m.length_mm),
    )
    return (
        along("length", 0.0, m.length_mm, x_mm=m.width_mm / 2),
        across("width", m.width_mm, z_mm=0.0),
        across("thickness", m.thickness_mm, z_mm=0.0, view="side"),
        *(hole if m.hole_mm > 0.0 else ()),
    )


KIND = Kind(
    name="rule",
    title="Steel rule or straightedge",
    measures=RuleMeasures,
    body=body,
    dimensions=dimensions,
    example=(
        ("length", 300.0),
        ("width", 28.0),
        ("thickness", 1.0),
        ("hole", 6.0),
        ("hole_rim", 5.0),
    ),
)
