"""A flat thing of any outline, drawn as it hangs; as heavy as solid steel until it is weighed.

seen from the front                 seen from the side

   ┌────┐                            ┌┐
   │ ┌──┘   the outline, as in       ││
   │ │      the drawing              ││
   └─┘                               └┘
                                     ↔ thickness
"""

from __future__ import annotations

from pydantic import Field

from cleatwright.base import said
from cleatwright.base.errors import MeasureError
from cleatwright.parts.grips import FlatOutline
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import Outline, polygon
from cleatwright.tools.dimension import Dimension
from cleatwright.tools.features.convex import CHORD_MM, MOST_PIECES, convex_parts
from cleatwright.tools.features.pieces import MassComponent, flat, mass_and_centre, short
from cleatwright.tools.kind import Kind, Measures
from cleatwright.tools.material import STEEL

LEAST_MM = 10.0
MOST_MM = 600.0


class FlatThingMeasures(Measures):
    """What is measured on a flat thing; the rest is drawn."""

    thickness_mm: float = Field(ge=2.0, le=60.0, description="at the thickest place, lying flat")


def body(m: FlatThingMeasures, weighed_kg: float | None, outline: Outline) -> ToolBody:
    """Return the tool body: the outline, as thick everywhere as at its thickest place.

    Raises:
        MeasureError: The outline is too small, too large or too rugged.
    """
    x0, z0, x1, z1 = outline.bounds
    if min(x1 - x0, z1 - z0) < LEAST_MM or max(x1 - x0, z1 - z0) > MOST_MM:
        raise MeasureError(
            f"the outline is {said.number(x1 - x0)} by {said.mm(z1 - z0)}",
            allowed=f"each side from {said.number(LEAST_MM)} to {said.mm(MOST_MM)}",
        )
    own = polygon(outline.polygon(CHORD_MM)).moved(-(x0 + x1) / 2, -z0)
    parts = convex_parts(own)
    if len(parts) > MOST_PIECES:
        raise MeasureError(
            f"the outline falls into {len(parts)} convex pieces",
            allowed=f"up to {MOST_PIECES}",
            todo="Leave out small notches in the drawing",
        )
    mass_kg, com_mm = mass_and_centre([MassComponent(flat(own, m.thickness_mm), STEEL)], weighed_kg)
    return ToolBody(
        kind="flat-thing",
        leading=f"{short(x1 - x0)}×{short(z1 - z0)}",
        envelope=tuple(flat(part, m.thickness_mm) for part in parts),
        mass_kg=mass_kg,
        com_mm=com_mm,
        grips=(FlatOutline(own, -m.thickness_mm / 2, m.thickness_mm),),
        order_mm=m.thickness_mm,
    )


def _dimensions(m: FlatThingMeasures) -> tuple[Dimension, ...]:
    half = m.thickness_mm / 2
    return (Dimension("thickness", "side", (0.0, -half, 0.0), (0.0, half, 0.0)),)


KIND = Kind(
    name="flat-thing",
    title="Flat thing of any outline, from a drawing",
    measures=FlatThingMeasures,
    body=body,
    dimensions=_dimensions,
    example=(("thickness", 12.0),),
    # an angle with a slanting end, 70 by 150 mm
    example_outline=polygon(
        [(10.0, 0.0), (32.0, 0.0), (36.0, 105.0), (70.0, 115.0), (70.0, 150.0), (14.0, 150.0)]
    ),
)
