"""A ratchet, head up, its drive square to the front.

┌──────┐  ← z = length
│ head │  head_width by head_depth, head_height
└─┬──┬─┘
  │  │    neck
 ╱    ╲
│handle│
└──────┘  ← z = 0
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
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import PLASTIC, STEEL

# a round head with its square in a box, a round neck in a square; one of 1/2 in, 250 mm long,
# weighs 450 to 650 g (common practice, no source)
HEAD_SHARE = 0.5
ROUND_SHARE = 0.785
# the handle is a steel bar in a sleeve of plastic
HANDLE_SHARE = 1.6
NECK_LENGTH_MM = 25.0


class RatchetMeasures(Measures):
    """What is measured on a ratchet."""

    length_mm: float = Field(ge=80.0, le=800.0, description="from the head's top to the other end")
    head_width_mm: float = Field(ge=15.0, le=100.0, description="across the head's broad side")
    head_depth_mm: float = Field(
        ge=12.0, le=110.0, description="through the head, its drive square included"
    )
    head_height_mm: float = Field(
        ge=12.0, le=110.0, description="from the head's top to where it has become the neck"
    )
    neck_mm: float = Field(
        ge=5.0, le=40.0, description=f"widest within {said.mm(25)} below the head"
    )
    handle_mm: float = Field(ge=8.0, le=60.0, description="across the handle's widest place")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one ratchet."""
        if self.neck_mm >= min(self.head_width_mm, self.head_depth_mm):
            yield self.at_odds(
                "{neck} is not less than {head_width} and {head_depth}: measure the three again"
            )
        if self.length_mm < self.head_height_mm + 2.0 * NECK_LENGTH_MM:
            yield self.at_odds(
                "{length} leaves less than {least} of handle below {head_height}: measure "
                "the length overall",
                least=2.0 * NECK_LENGTH_MM,
            )


def body(m: RatchetMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: a straight neck below the head, then a taper to the full handle."""
    under = m.length_mm - m.head_height_mm
    low = under - NECK_LENGTH_MM
    full = 0.75 * low
    n, h, x, y = m.neck_mm / 2, m.handle_mm / 2, m.head_width_mm / 2, m.head_depth_mm / 2
    taper = Loft(rectangle(-h, -h, h, h), rectangle(-n, -n, n, n), low - full)
    components = (
        MassComponent(block(-x, -y, under, x, y, m.length_mm), STEEL, HEAD_SHARE),
        MassComponent(block(-n, -n, low, n, n, under), STEEL, ROUND_SHARE),
        MassComponent(taper.moved(0.0, 0.0, full), PLASTIC, HANDLE_SHARE),
        MassComponent(block(-h, -h, 0.0, h, h, full), PLASTIC, HANDLE_SHARE),
    )
    overhang = Overhang(
        z_mm=under,
        neck_x_mm=m.neck_mm,
        neck_y_mm=m.neck_mm,
        neck_length_mm=NECK_LENGTH_MM,
        handle_x_mm=max(m.neck_mm, m.handle_mm),
        head_x_mm=m.head_width_mm,
        head_y_mm=m.head_depth_mm,
    )
    return assembled(
        components,
        weighed_kg,
        kind="ratchet",
        leading=f"{short(m.head_width_mm)}×{short(m.length_mm)}",
        grips=(overhang,),
        order_mm=m.length_mm,
    )


def _dimensions(m: RatchetMeasures) -> tuple[Dimension, ...]:
    under, x = m.length_mm - m.head_height_mm, m.head_width_mm / 2
    return (
        along("length", 0.0, m.length_mm, x_mm=x),
        across("head_width", m.head_width_mm, z_mm=m.length_mm),
        across("head_depth", m.head_depth_mm, z_mm=m.length_mm, view="side"),
        along("head_height", under, m.length_mm, x_mm=-x),
        across("neck", m.neck_mm, z_mm=under - NECK_LENGTH_MM / 2),
        across("handle", m.handle_mm, z_mm=under / 4),
    )


KIND = Kind(
    name="ratchet",
    title="Ratchet for sockets",
    measures=RatchetMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(
        length=250.0, head_width=42.0, head_depth=40.0, head_height=48.0, neck=16.0, handle=28.0
    ),
)
