"""A flat paint brush, bristles down, with a hole in its handle.

 ┌─┐    ← z = length
 │o│    hole, hole_rim above it
 │ │    handle, handle_width
╱   ╲
├───┤   ← z = bristle_length + ferrule_length
│   │   ferrule
├───┤   ← z = bristle_length
│   │   bristles, width
└───┘   ← z = 0
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import EyeHole
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import rectangle
from cleatwright.shapes.solid import Loft
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, flat, mass_and_centre, short
from cleatwright.tools.features.plates import free_hole_mm, pierced, round_hole
from cleatwright.tools.kind import AtOdds, Kind, Measures, at_odds
from cleatwright.tools.material import PLASTIC, STEEL, WOOD

# bristles stand loose; a ferrule is thin sheet around wood and glue (common practice, no source)
BRISTLE_SHARE = 0.3
FERRULE_SHARE = 0.15
LEAST_RIM_MM = 2.0
LEAST_TAPER_MM = 5.0


class PaintBrushMeasures(Measures):
    """What is measured on a flat paint brush."""

    length_mm: float = Field(ge=100.0, le=500.0, description="from the bristles' end to the top")
    width_mm: float = Field(
        ge=10.0, le=200.0, description="across the bristles or the ferrule, the wider of the two"
    )
    thickness_mm: float = Field(
        ge=5.0, le=60.0, description="through the bristles or the ferrule, the thicker of the two"
    )
    bristle_length_mm: float = Field(
        ge=15.0, le=120.0, description="the bristles out of the ferrule"
    )
    ferrule_length_mm: float = Field(ge=8.0, le=80.0, description="along the metal band")
    handle_width_mm: float = Field(ge=8.0, le=60.0, description="across the handle at its hole")
    handle_thickness_mm: float = Field(
        ge=4.0, le=40.0, description="through the handle at its hole"
    )
    hole_mm: float = Field(ge=3.0, le=30.0, description="the hole in the handle, clear across")
    hole_rim_mm: float = Field(
        ge=LEAST_RIM_MM, le=40.0, description="from the hole's edge to the end of the handle"
    )

    @property
    def foot_mm(self) -> float:
        """Return the height at which the handle begins."""
        return self.bristle_length_mm + self.ferrule_length_mm

    @property
    def straight_mm(self) -> float:
        """Return the height from which the handle counts as straight."""
        return self.length_mm - self.hole_mm - 2.0 * self.hole_rim_mm

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one brush."""
        if self.hole_mm > self.handle_width_mm - 2.0 * LEAST_RIM_MM:
            yield at_odds(
                f"hole {self.hole_mm:g} mm does not fit into handle_width "
                f"{self.handle_width_mm:g} mm: measure both again",
                "hole",
                "handle_width",
            )
        if self.straight_mm < self.foot_mm + LEAST_TAPER_MM:
            yield at_odds(
                f"length {self.length_mm:g} mm is too short for bristle_length "
                f"{self.bristle_length_mm:g} mm, ferrule_length {self.ferrule_length_mm:g} mm and "
                "the hole: measure the length end to end",
                "straight",
                "foot",
                "length",
                "bristle_length",
                "ferrule_length",
            )


def body(m: PaintBrushMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body; the handle tapers from the ferrule to its hole."""
    x, y, foot, low = m.width_mm / 2, m.thickness_mm / 2, m.foot_mm, m.straight_mm
    hx, hy = m.handle_width_mm / 2, m.handle_thickness_mm / 2
    middle, free = m.length_mm - m.hole_rim_mm - m.hole_mm / 2, free_hole_mm(m.hole_mm)
    taper = Loft(rectangle(-x, -y, x, y), rectangle(-hx, -hy, hx, hy), low - foot)
    ferrule = flat(rectangle(-x, m.bristle_length_mm, x, foot), m.thickness_mm)
    head = pierced(hx, low, m.length_mm, round_hole(m.hole_mm, middle))
    components = [
        MassComponent(
            flat(rectangle(-x, 0.0, x, m.bristle_length_mm), 2 * y), PLASTIC, BRISTLE_SHARE
        ),
        MassComponent(ferrule, STEEL, FERRULE_SHARE),
        MassComponent(taper.moved(0.0, 0.0, foot), WOOD),
        *(MassComponent(flat(outline, m.handle_thickness_mm), WOOD) for outline in head),
    ]
    mass_kg, com_mm = mass_and_centre(components, weighed_kg)
    rim = m.hole_rim_mm + (m.hole_mm - free) / 2
    return ToolBody(
        kind="paint-brush",
        leading=f"{short(m.width_mm)}×{short(m.length_mm)}",
        envelope=tuple(component.solid for component in components),
        mass_kg=mass_kg,
        com_mm=com_mm,
        grips=(EyeHole(middle + free / 2, free, m.handle_thickness_mm, rim),),
        order_mm=m.width_mm,
    )


def dimensions(m: PaintBrushMeasures) -> tuple[Dimension, ...]:
    """Return where each measure lies."""
    x, edge = m.width_mm / 2, m.length_mm - m.hole_rim_mm
    return (
        along("length", 0.0, m.length_mm, x_mm=x),
        across("width", m.width_mm, z_mm=m.bristle_length_mm),
        across("thickness", m.thickness_mm, z_mm=m.bristle_length_mm, view="side"),
        along("bristle_length", 0.0, m.bristle_length_mm, x_mm=-x),
        along("ferrule_length", m.bristle_length_mm, m.foot_mm, x_mm=-x),
        across("handle_width", m.handle_width_mm, z_mm=m.straight_mm),
        across("handle_thickness", m.handle_thickness_mm, z_mm=m.length_mm, view="side"),
        across("hole", m.hole_mm, z_mm=edge - m.hole_mm / 2),
        along("hole_rim", edge, m.length_mm),
    )


KIND = Kind(
    name="paint-brush",
    title="Flat paint brush with a hole in its handle",
    measures=PaintBrushMeasures,
    body=body,
    dimensions=dimensions,
    example=(
        ("length", 230.0),
        ("width", 50.0),
        ("thickness", 16.0),
        ("bristle_length", 55.0),
        ("ferrule_length", 30.0),
        ("handle_width", 24.0),
        ("handle_thickness", 10.0),
        ("hole", 9.0),
        ("hole_rim", 7.0),
    ),
)
