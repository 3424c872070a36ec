"""A pole, or a broom, a rake, a brush, a squeegee or another head on a handle, head up.

┌──────────────┐  ← z = length
│     head     │  head_height (may be missing)
└─────┬──┬─────┘
      │  │
      │  │ handle
      └──┘         ← z = 0

The estimate takes wood throughout. Weigh a rake of steel or a pole of metal.
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import Grip, LyingBar, Overhang
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.rigid import shift, turn
from cleatwright.shapes.solid import block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, cylinder, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, optional_mm, ordinary
from cleatwright.tools.material import WOOD

# bristles and tines leave most of the block around a head empty (a choice)
HEAD_SHARE = 0.3
LEAST_HANDLE_MM = 50.0


class PoleMeasures(Measures):
    """What is measured on a pole."""

    length_mm: float = Field(ge=100.0, le=2500.0, description="overall, from end to end")
    handle_mm: float = Field(
        ge=8.0, le=70.0, description="across the widest place of pole or handle"
    )
    head_width_mm: float = optional_mm(20.0, 900.0, description="across the head, its longest way")
    head_depth_mm: float = optional_mm(8.0, 300.0, description="across the head, the other way")
    head_height_mm: float = optional_mm(
        5.0, 400.0, description="along the handle, with bristles, tines or blade"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one pole."""
        yield from self.together("head_width", "head_depth", "head_height")
        if 0.0 < self.head_width_mm <= self.handle_mm:
            yield self.at_odds(
                "{head_width} is not more than {handle}: measure both again, or leave the head out"
            )
        if self.length_mm - self.head_height_mm < LEAST_HANDLE_MM:
            yield self.at_odds(
                "{length} leaves less than {least} of handle below {head_height}: measure "
                "the length overall",
                least=LEAST_HANDLE_MM,
            )


def body(m: PoleMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: a straight pole and the block around its head."""
    under = m.length_mm - m.head_height_mm
    components = [MassComponent(cylinder(m.handle_mm, 0.0, under), WOOD)]
    grips: list[Grip] = []
    if m.head_width_mm > 0.0:
        x, y = m.head_width_mm / 2, m.head_depth_mm / 2
        components.append(MassComponent(block(-x, -y, under, x, y, m.length_mm), WOOD, HEAD_SHARE))
        grips.append(
            Overhang(
                z_mm=under,
                neck_x_mm=m.handle_mm,
                neck_y_mm=m.handle_mm,
                neck_length_mm=under,
                handle_x_mm=m.handle_mm,
                head_x_mm=m.head_width_mm,
                head_y_mm=m.head_depth_mm,
            )
        )
    lying = LyingBar(
        pose=turn("y", 90.0).then(shift(-under / 2, 0.0, m.handle_mm / 2)),
        length_mm=under,
        depth_mm=m.handle_mm,
        height_mm=m.handle_mm,
        round_section=True,
    )
    return assembled(
        components,
        weighed_kg,
        kind="pole",
        leading=f"⌀{short(m.handle_mm)}×{short(m.length_mm)}",
        grips=(lying, *grips),
        order_mm=m.length_mm,
    )


def _dimensions(m: PoleMeasures) -> tuple[Dimension, ...]:
    under, half = m.length_mm - m.head_height_mm, m.head_width_mm / 2
    head = (
        across("head_width", m.head_width_mm, z_mm=m.length_mm),
        across("head_depth", m.head_depth_mm, z_mm=m.length_mm, view="side"),
        along("head_height", under, m.length_mm, x_mm=-half),
    )
    return (
        along("length", 0.0, m.length_mm, x_mm=half),
        across("handle", m.handle_mm, z_mm=under / 2),
        *head,
    )


KIND = Kind(
    name="pole",
    title="Pole, broom, rake, brush, squeegee or anything on a handle",
    measures=PoleMeasures,
    body=body,
    dimensions=_dimensions,
    caution="Turn the tines of rakes and forks to the wall, and hang nothing long across a way out "
    "of the room.",
    example=ordinary(
        length=1300.0, handle=25.0, head_width=280.0, head_depth=55.0, head_height=90.0
    ),
    plain="on a handle",
)
