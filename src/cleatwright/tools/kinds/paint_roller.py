"""A paint roller on a cranked wire, handle up.

    ┌┐         ← z = roller/2 + crank + stem + handle_length
    ││ handle
    └┘         ← z = roller/2 + crank + stem
    │  stem, wire
 ┌──┘          ← the wire that runs across, crank above the roller's middle
 │ ┌────────┐
 └─┤ roller │  roller_length
   └────────┘  ← z = 0

The roller lies about the line of the handle. Let it dry, or wrap it, before it goes on the wall.
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import Overhang, Shoulder
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import circle
from cleatwright.shapes.solid import block, prism
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, cylinder, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import PLASTIC, STEEL

# a pile over a tube over a cage: 60 to 120 g for 180 mm by 50 mm (common practice, no source)
ROLLER_SHARE = 0.2
# a handle is a hollow shell with ribs
HANDLE_SHARE = 0.5
LEAST_LEDGE_MM = 4.0


class PaintRollerMeasures(Measures):
    """What is measured on a paint roller."""

    roller_mm: float = Field(ge=15.0, le=120.0, description="across the roller, its pile included")
    roller_length_mm: float = Field(ge=40.0, le=350.0, description="along the roller")
    wire_mm: float = Field(ge=4.0, le=14.0, description="through the wire that carries the roller")
    crank_mm: float = Field(
        ge=15.0,
        le=160.0,
        description="from the middle of the roller up to the middle of the wire that runs across",
    )
    stem_mm: float = Field(
        ge=35.0, le=300.0, description="from the wire that runs across up to the handle"
    )
    handle_mm: float = Field(ge=12.0, le=50.0, description="across the handle's lower end")
    handle_length_mm: float = Field(ge=60.0, le=600.0, description="along the handle")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one roller."""
        if self.handle_mm < self.wire_mm + LEAST_LEDGE_MM:
            yield self.at_odds(
                "{handle} is not {least} thicker than {wire}, so nothing can carry it: "
                "measure both again",
                least=LEAST_LEDGE_MM,
            )
        if self.crank_mm < (self.roller_mm + self.wire_mm) / 2:
            yield self.at_odds(
                "{crank} lies inside of {roller}: measure from the middle of the roller to the "
                "middle of the wire above it",
                "wire",
            )


def _heights(m: PaintRollerMeasures) -> tuple[float, float, float]:
    """Return the heights of the wire that runs across, of the handle's foot and of its top."""
    crank = m.roller_mm / 2 + m.crank_mm
    return crank, crank + m.stem_mm, crank + m.stem_mm + m.handle_length_mm


def body(m: PaintRollerMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: a roller, its wire in three pieces and a handle."""
    crank, foot, top = _heights(m)
    x, w, middle = m.roller_length_mm / 2, m.wire_mm / 2, m.roller_mm / 2
    roller = prism(circle(m.roller_mm), m.roller_length_mm).turned("y", 90.0)
    components = (
        MassComponent(roller.moved(-x, 0.0, middle), PLASTIC, ROLLER_SHARE),
        MassComponent(block(x, -w, middle - w, x + 2 * w, w, crank + w), STEEL),
        MassComponent(block(-w, -w, crank - w, x, w, crank + w), STEEL),
        MassComponent(cylinder(m.wire_mm, crank + w, foot), STEEL),
        MassComponent(cylinder(m.handle_mm, foot, top), PLASTIC, HANDLE_SHARE),
    )
    shoulder = Shoulder(
        z_mm=foot,
        neck_mm=m.wire_mm,
        shoulder_mm=m.handle_mm,
        neck_length_mm=m.stem_mm - w,
    )
    handle = Overhang(
        z_mm=foot,
        neck_x_mm=m.wire_mm,
        neck_y_mm=m.wire_mm,
        neck_length_mm=m.stem_mm - w,
        handle_x_mm=2.0 * (x + 2.0 * w),
        head_x_mm=m.handle_mm,
        head_y_mm=m.handle_mm,
    )
    return assembled(
        components,
        weighed_kg,
        kind="paint-roller",
        leading=f"⌀{short(m.roller_mm)}×{short(m.roller_length_mm)}",
        grips=(handle, shoulder),
        order_mm=m.roller_length_mm,
    )


def _dimensions(m: PaintRollerMeasures) -> tuple[Dimension, ...]:
    crank, foot, top = _heights(m)
    x, middle = m.roller_length_mm / 2, m.roller_mm / 2
    return (
        along("roller", 0.0, m.roller_mm, x_mm=-x),
        across("roller_length", m.roller_length_mm, z_mm=0.0),
        across("wire", m.wire_mm, z_mm=(crank + foot) / 2),
        along("crank", middle, crank, x_mm=x),
        along("stem", crank, foot),
        across("handle", m.handle_mm, z_mm=top),
        along("handle_length", foot, top, x_mm=m.handle_mm / 2),
    )


KIND = Kind(
    name="paint-roller",
    title="Paint roller on a cranked handle",
    measures=PaintRollerMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(
        roller=48.0,
        roller_length=180.0,
        wire=8.0,
        crank=50.0,
        stem=80.0,
        handle=30.0,
        handle_length=130.0,
    ),
)
