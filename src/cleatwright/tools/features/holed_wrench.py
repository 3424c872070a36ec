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

from cleatwright.parts.grips import FlatEdge
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import rectangle
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, flat, short
from cleatwright.tools.features.plates import EndHole
from cleatwright.tools.kind import AtOdds, Measures, optional_mm
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
        yield from self.together("hole", "hole_rim")
        if self.hole_mm > self.handle_width_mm - 2.0 * LEAST_RIM_MM:
            yield self.at_odds("{hole} does not fit into {handle_width}: measure both again")
        if self.handle_thickness_mm > self.head_thickness_mm:
            yield self.at_odds("{handle_thickness} is more than {head_thickness}: exchange the two")
        straight = self.length_mm - self.head_length_mm
        if straight < max(30.0, self.hole_mm + 2.0 * self.hole_rim_mm + 5.0):
            yield self.at_odds(
                "{length} leaves too little handle above {head_length}: measure the length end to "
                "end",
                "hole",
                "hole_rim",
            )


def wrench_body(
    m: HoledWrenchMeasures, weighed_kg: float | None, *, kind: str, head: float, handle: float
) -> ToolBody:
    """Return the tool body; so much of the boxes around ``head`` and ``handle`` is steel."""
    half, top, thick = m.handle_width_mm / 2, m.length_mm, m.handle_thickness_mm
    wide, foot = half + m.head_out_mm, m.head_length_mm
    hole = _hole(m)
    outlines = [rectangle(-half, foot, half, hole.low_mm), *hole.outlines()]
    components = [
        MassComponent(flat(rectangle(-wide, 0.0, wide, foot), m.head_thickness_mm), STEEL, head),
        *(MassComponent(flat(outline, thick), STEEL, handle) for outline in outlines),
    ]
    return assembled(
        components,
        weighed_kg,
        kind=kind,
        leading=f"{short(m.length_mm)}×{short(m.handle_width_mm)}",
        grips=(
            *hole.grips(thick),
            FlatEdge(foot, top - END_MM, m.handle_width_mm, thick),
        ),
        order_mm=m.length_mm,
    )


def _hole(m: HoledWrenchMeasures) -> EndHole:
    return EndHole(m.handle_width_mm / 2, m.length_mm, m.hole_mm, m.hole_rim_mm)


def wrench_dimensions(m: HoledWrenchMeasures) -> tuple[Dimension, ...]:
    """Return where each measure lies."""
    half, edge = m.handle_width_mm / 2, m.length_mm - m.hole_rim_mm
    return (
        along("length", 0.0, m.length_mm, x_mm=half + m.head_out_mm),
        across("head_out", m.head_out_mm, z_mm=m.head_length_mm, at_mm=half + m.head_out_mm / 2),
        along("head_length", 0.0, m.head_length_mm, x_mm=-half - m.head_out_mm),
        across("head_thickness", m.head_thickness_mm, z_mm=0.0, view="side"),
        across("handle_width", m.handle_width_mm, z_mm=(m.head_length_mm + edge) / 2),
        across("handle_thickness", m.handle_thickness_mm, z_mm=m.length_mm, view="side"),
        *_hole(m).dimensions(),
    )
