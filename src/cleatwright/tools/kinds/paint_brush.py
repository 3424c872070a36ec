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

from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import rectangle
from cleatwright.shapes.solid import Loft
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, flat, short
from cleatwright.tools.features.plates import EndHole
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
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
    def hole(self) -> EndHole:
        """Return the hole; the handle counts as straight from where its pieces begin."""
        return EndHole(self.handle_width_mm / 2, self.length_mm, self.hole_mm, self.hole_rim_mm)

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one brush."""
        if self.hole_mm > self.handle_width_mm - 2.0 * LEAST_RIM_MM:
            yield self.at_odds("{hole} does not fit into {handle_width}: measure both again")
        if self.hole.low_mm < self.foot_mm + LEAST_TAPER_MM:
            yield self.at_odds(
                "{length} is too short for {bristle_length}, {ferrule_length} and the hole: "
                "measure the length end to end",
                "hole",
                "hole_rim",
            )


def body(m: PaintBrushMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body; the handle tapers from the ferrule to its hole."""
    x, y, foot, low = m.width_mm / 2, m.thickness_mm / 2, m.foot_mm, m.hole.low_mm
    hx, hy = m.handle_width_mm / 2, m.handle_thickness_mm / 2
    taper = Loft(rectangle(-x, -y, x, y), rectangle(-hx, -hy, hx, hy), low - foot)
    ferrule = flat(rectangle(-x, m.bristle_length_mm, x, foot), m.thickness_mm)
    components = [
        MassComponent(
            flat(rectangle(-x, 0.0, x, m.bristle_length_mm), 2 * y), PLASTIC, BRISTLE_SHARE
        ),
        MassComponent(ferrule, STEEL, FERRULE_SHARE),
        MassComponent(taper.moved(0.0, 0.0, foot), WOOD),
        *(
            MassComponent(flat(outline, m.handle_thickness_mm), WOOD)
            for outline in m.hole.outlines()
        ),
    ]
    return assembled(
        components,
        weighed_kg,
        kind="paint-brush",
        leading=f"{short(m.width_mm)}×{short(m.length_mm)}",
        grips=m.hole.grips(m.handle_thickness_mm),
        order_mm=m.width_mm,
    )


def _dimensions(m: PaintBrushMeasures) -> tuple[Dimension, ...]:
    x = m.width_mm / 2
    return (
        along("length", 0.0, m.length_mm, x_mm=x),
        across("width", m.width_mm, z_mm=m.bristle_length_mm),
        across("thickness", m.thickness_mm, z_mm=m.bristle_length_mm, view="side"),
        along("bristle_length", 0.0, m.bristle_length_mm, x_mm=-x),
        along("ferrule_length", m.bristle_length_mm, m.foot_mm, x_mm=-x),
        across("handle_width", m.handle_width_mm, z_mm=m.hole.low_mm),
        across("handle_thickness", m.handle_thickness_mm, z_mm=m.length_mm, view="side"),
        *m.hole.dimensions(),
    )


KIND = Kind(
    name="paint-brush",
    title="Flat paint brush with a hole in its handle",
    measures=PaintBrushMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(
        length=230.0,
        width=50.0,
        thickness=16.0,
        bristle_length=55.0,
        ferrule_length=30.0,
        handle_width=24.0,
        handle_thickness=10.0,
        hole=9.0,
        hole_rim=7.0,
    ),
)
