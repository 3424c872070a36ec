"""What wrenches with a movable jaw share, handle up: a hole, a flat handle, a wide head.

┌───┐  ← z = length
│ o │  hole (may be missing), hole_rim above it
│   │  handle
├┴─┴┴──┐  ← z = head_length
│ head │  stands out by head_out on one side
└──────┘  ← z = 0

The envelope stands out as far on the other side, so that either side may look left.
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import EyeHole, FlatEdge, Grip
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import rectangle
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, flat, mass_and_centre, short
from cleatwright.tools.features.plates import free_hole_mm, pierced, round_hole
from cleatwright.tools.kind import AtOdds, Measures, at_odds, optional_mm
from cleatwright.tools.material import STEEL

END_MM = 1.0
LEAST_RIM_MM = 2.0


class HoledWrenchMeasures(Measures):
    """What is measured on a wrench with a movable jaw, its jaws closed."""

    length_mm: float = Field(ge=80.0, le=950.0, description="overall, end to end")
    head_out_mm: float = Field(
        ge=3.0, le=150.0, description="from the line of the handle's edge to the head's outer side"
    )
    head_length_mm: float = Field(
        ge=20.0, le=300.0, description="from the jaws' end to where the handle is straight"
    )
    head_thickness_mm: float = Field(
        ge=5.0, le=90.0, description="through the thickest place of the head, with its nut"
    )
    handle_width_mm: float = Field(ge=8.0, le=80.0, description="across the handle's broad side")
    handle_thickness_mm: float = Field(ge=4.0, le=60.0, description="through the handle")
    hole_mm: float = optional_mm(
        3.0, 60.0, description="the hole at the handle's end, clear across its narrow way"
    )
    hole_rim_mm: float = optional_mm(
        LEAST_RIM_MM, 40.0, description="from the hole's edge to the end of the handle"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one wrench."""
        if (self.hole_mm > 0.0) != (self.hole_rim_mm > 0.0):
            yield at_odds(
                f"hole {self.hole_mm:g} mm and hole_rim {self.hole_rim_mm:g} mm go together: give "
                "both, or leave both out",
                "hole",
                "hole_rim",
            )
        if self.hole_mm > self.handle_width_mm - 2.0 * LEAST_RIM_MM:
            yield at_odds(
                f"hole {self.hole_mm:g} mm does not fit into handle_width "
                f"{self.handle_width_mm:g} mm: measure both again",
                "hole",
                "handle_width",
            )
        if self.handle_thickness_mm > self.head_thickness_mm:
            yield at_odds(
                f"handle_thickness {self.handle_thickness_mm:g} mm is more than head_thickness "
                f"{self.head_thickness_mm:g} mm: exchange the two",
                "handle_thickness",
                "head_thickness",
            )
        straight = self.length_mm - self.head_length_mm
        if straight < max(30.0, self.hole_mm + 2.0 * self.hole_rim_mm + 5.0):
            yield at_odds(
                f"length {self.length_mm:g} mm leaves too little handle above head_length "
                f"{self.head_length_mm:g} mm: measure the length end to end",
                "hole",
                "hole_rim",
                "length",
                "head_length",
            )


def wrench_body(
    m: HoledWrenchMeasures, weighed_kg: float | None, *, kind: str, head: float, handle: float
) -> ToolBody:
    """Return the tool body; so much of the boxes around ``head`` and ``handle`` is steel."""
    half, top, thick = m.handle_width_mm / 2, m.length_mm, m.handle_thickness_mm
    wide, foot = half + m.head_out_mm, m.head_length_mm
    low = top - m.hole_mm - 2.0 * m.hole_rim_mm
    outlines = [rectangle(-half, foot, half, low)]
    grips: list[Grip] = [FlatEdge(foot, top - END_MM, m.handle_width_mm, thick)]
    if m.hole_mm > 0.0:
        middle, free = top - m.hole_rim_mm - m.hole_mm / 2, free_hole_mm(m.hole_mm)
        outlines += pierced(half, low, top, round_hole(m.hole_mm, middle))
        rim = m.hole_rim_mm + (m.hole_mm - free) / 2
        grips.insert(0, EyeHole(middle + free / 2, free, thick, rim))
    components = [
        MassComponent(flat(rectangle(-wide, 0.0, wide, foot), m.head_thickness_mm), STEEL, head),
        *(MassComponent(flat(outline, thick), STEEL, handle) for outline in outlines),
    ]
    mass_kg, com_mm = mass_and_centre(components, weighed_kg)
    return ToolBody(
        kind=kind,
        leading=f"{short(m.length_mm)}×{short(m.handle_width_mm)}",
        envelope=tuple(component.solid for component in components),
        mass_kg=mass_kg,
        com_mm=com_mm,
        grips=tuple(grips),
        order_mm=m.length_mm,
    )


def wrench_dimensions(m: HoledWrenchMeasures) -> tuple[Dimension, ...]:
    """Return where each measure lies."""
    half, edge = m.handle_width_mm / 2, m.length_mm - m.hole_rim_mm
    hole = (
        across("hole", m.hole_mm, z_mm=edge - m.hole_mm / 2),
        along("hole_rim", edge, m.length_mm),
    )
    return (
        along("length", 0.0, m.length_mm, x_mm=half + m.head_out_mm),
        across("head_out", m.head_out_mm, z_mm=m.head_length_mm, at_mm=half + m.head_out_mm / 2),
        along("head_length", 0.0, m.head_length_mm, x_mm=-half - m.head_out_mm),
        across("head_thickness", m.head_thickness_mm, z_mm=0.0, view="side"),
        across("handle_width", m.handle_width_mm, z_mm=(m.head_length_mm + edge) / 2),
        across("handle_thickness", m.handle_thickness_mm, z_mm=m.length_mm, view="side"),
        *(hole if m.hole_mm > 0.0 else ()),
    )
