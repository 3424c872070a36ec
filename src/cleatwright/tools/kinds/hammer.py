"""A hammer, head up, the head along the wall.

     ┌──────────────┐  ← z = length
     │     head     │  head_height
     └────┬────┬────┘  ← the handle's neck begins
          │    │
         ╱      ╲
        │ handle │
        └────────┘     ← z = 0

The estimate takes a steel head on a wooden handle.
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.base import said
from cleatwright.parts.grips import Overhang
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import rectangle
from cleatwright.shapes.solid import Loft, block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, optional_mm, ordinary
from cleatwright.tools.material import STEEL, WOOD, Material

# a head of 500 g to DIN 1041 measures about 118 × 27 × 27 mm (from memory): three quarters
# of that block are steel
HEAD_SHARE = 0.75
# an oval fills pi / 4 of the rectangle around it
OVAL_SHARE = 0.785
NECK_LENGTH_MM = 25.0


class HammerMeasures(Measures):
    """What is measured on a hammer."""

    length_mm: float = Field(ge=120.0, le=950.0, description="from the top to the handle's end")
    head_length_mm: float = Field(ge=30.0, le=300.0, description="from the face to the peen")
    head_width_mm: float = Field(ge=10.0, le=150.0, description="across the head, front to back")
    head_height_mm: float = Field(
        ge=10.0, le=150.0, description="from the head's top to its underside at the handle"
    )
    neck_width_mm: float = Field(
        ge=6.0,
        le=60.0,
        description=f"the handle along the head, widest within {said.mm(25)} below it",
    )
    neck_depth_mm: float = Field(
        ge=6.0,
        le=60.0,
        description=f"the handle across the head, widest within {said.mm(25)} below it",
    )
    handle_width_mm: float = Field(
        ge=6.0, le=70.0, description="the handle's widest place, along the head"
    )
    handle_depth_mm: float = optional_mm(
        6.0, 70.0, description="the same across the head, if the handle is not round"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one hammer."""
        if self.neck_width_mm >= self.head_length_mm:
            yield self.at_odds(
                "{neck_width} is not less than {head_length}, so nothing can carry it: measure "
                "both again"
            )
        if self.length_mm < self.head_height_mm + 2.0 * NECK_LENGTH_MM:
            yield self.at_odds(
                "{length} leaves less than {least} of handle below {head_height}: measure "
                "the length overall",
                least=2.0 * NECK_LENGTH_MM,
            )


def body(m: HammerMeasures, weighed_kg: float | None) -> ToolBody:
    """Return a steel head on a neck and a handle of wood."""
    return headed_body(m, weighed_kg, kind="hammer", material=STEEL, share=HEAD_SHARE)


def headed_body(
    m: HammerMeasures, weighed_kg: float | None, *, kind: str, material: Material, share: float
) -> ToolBody:
    """Return a head on a straight neck, then a taper to the full handle of wood.

    Args:
        m: The measures.
        weighed_kg: The weighed mass, or None to estimate it.
        kind: Name of the kind.
        material: What the head is made of.
        share: How much of the head's box is material.
    """
    under = m.length_mm - m.head_height_mm
    neck_low = under - NECK_LENGTH_MM
    full = neck_low / 2
    nx, ny = m.neck_width_mm / 2, m.neck_depth_mm / 2
    hx = m.handle_width_mm / 2
    hy = m.handle_depth_mm / 2 or hx
    x, y = m.head_length_mm / 2, m.head_width_mm / 2
    taper = Loft(rectangle(-hx, -hy, hx, hy), rectangle(-nx, -ny, nx, ny), neck_low - full)
    components = (
        MassComponent(block(-x, -y, under, x, y, m.length_mm), material, share),
        MassComponent(block(-nx, -ny, neck_low, nx, ny, under), WOOD, OVAL_SHARE),
        MassComponent(taper.moved(0.0, 0.0, full), WOOD, OVAL_SHARE),
        MassComponent(block(-hx, -hy, 0.0, hx, hy, full), WOOD, OVAL_SHARE),
    )
    overhang = Overhang(
        z_mm=under,
        neck_x_mm=m.neck_width_mm,
        neck_y_mm=m.neck_depth_mm,
        neck_length_mm=NECK_LENGTH_MM,
        handle_x_mm=max(m.neck_width_mm, m.handle_width_mm),
        head_x_mm=m.head_length_mm,
        head_y_mm=m.head_width_mm,
    )
    return assembled(
        components,
        weighed_kg,
        kind=kind,
        leading=f"{short(m.head_length_mm)}×{short(m.head_width_mm)}",
        grips=(overhang,),
        order_mm=m.head_length_mm,
    )


def dimensions(m: HammerMeasures) -> tuple[Dimension, ...]:
    """Return where each measure lies."""
    under = m.length_mm - m.head_height_mm
    neck = under - NECK_LENGTH_MM / 2
    deep = m.handle_depth_mm
    return (
        along("length", 0.0, m.length_mm, x_mm=m.head_length_mm / 2),
        across("head_length", m.head_length_mm, z_mm=m.length_mm),
        across("head_width", m.head_width_mm, z_mm=m.length_mm, view="side"),
        along("head_height", under, m.length_mm, x_mm=-m.head_length_mm / 2),
        across("neck_width", m.neck_width_mm, z_mm=neck),
        across("neck_depth", m.neck_depth_mm, z_mm=neck, view="side"),
        across("handle_width", m.handle_width_mm, z_mm=under / 4),
        across("handle_depth", deep, z_mm=under / 4, view="side"),
    )


KIND = Kind(
    name="hammer",
    title="Hammer with a head across its handle",
    measures=HammerMeasures,
    body=body,
    dimensions=dimensions,
    example=ordinary(
        length=320.0,
        head_length=118.0,
        head_width=27.0,
        head_height=27.0,
        neck_width=22.0,
        neck_depth=16.0,
        handle_width=34.0,
        handle_depth=24.0,
    ),
)
