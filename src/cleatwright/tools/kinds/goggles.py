"""Goggles, ear defenders or anything with a strap, hung by the middle of its strap.

┌─────────┐  ← z = height + strap_height
│┌───────┐│  strap, strap_thickness; strap_width is out of the page
││       ││
├┴───────┴┤  ← z = height
│  body   │  width by depth
└─────────┘  ← z = 0

A soft strap hangs in a slope within that box, and gives way beside a hook.
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.base import said
from cleatwright.parts.grips import Loop
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.solid import block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import PLASTIC

# a hollow frame or two cups with foam: 100 to 300 g (common practice, no source)
BODY_SHARE = 0.12
LEAST_OPENING_MM = 10.0


class GogglesMeasures(Measures):
    """What is measured on a thing with a strap that hangs from a finger."""

    width_mm: float = Field(ge=40.0, le=300.0, description="across the body as it hangs")
    depth_mm: float = Field(ge=15.0, le=200.0, description="through the body, front to back")
    height_mm: float = Field(ge=20.0, le=300.0, description="the body, from its lower end up")
    strap_height_mm: float = Field(
        ge=20.0, le=400.0, description="from the body up to the outside of the strap, as it hangs"
    )
    strap_width_mm: float = Field(ge=5.0, le=90.0, description="across the strap's broad side")
    strap_thickness_mm: float = Field(
        ge=1.0, le=25.0, description="through the strap or the headband at its middle"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one strap."""
        for name, size in (
            ("strap_height", self.strap_height_mm - self.strap_thickness_mm),
            ("width", self.width_mm - 2.0 * self.strap_thickness_mm),
        ):
            if size < LEAST_OPENING_MM:
                yield self.at_odds(
                    f"{{strap_thickness}} leaves an opening of {said.mm(size)} along {name}: "
                    "measure both again",
                    name,
                )


def body(m: GogglesMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body; the opening of the strap stays free."""
    x, y, s = m.width_mm / 2, m.depth_mm / 2, m.strap_width_mm / 2
    low, top, thick = m.height_mm, m.height_mm + m.strap_height_mm, m.strap_thickness_mm
    components = (
        MassComponent(block(-x, -y, 0.0, x, y, low), PLASTIC, BODY_SHARE),
        MassComponent(block(-x, -s, low, -x + thick, s, top - thick), PLASTIC),
        MassComponent(block(x - thick, -s, low, x, s, top - thick), PLASTIC),
        MassComponent(block(-x, -s, top - thick, x, s, top), PLASTIC),
    )
    loop = Loop(
        z_mm=top - thick,
        width_mm=m.width_mm - 2.0 * thick,
        height_mm=m.strap_height_mm - thick,
        bundle_mm=m.strap_width_mm,
    )
    return assembled(
        components,
        weighed_kg,
        kind="goggles",
        leading=f"{short(m.width_mm)}×{short(m.height_mm)}",
        grips=(loop,),
        order_mm=m.width_mm,
    )


def _dimensions(m: GogglesMeasures) -> tuple[Dimension, ...]:
    x, top = m.width_mm / 2, m.height_mm + m.strap_height_mm
    return (
        across("width", m.width_mm, z_mm=0.0),
        across("depth", m.depth_mm, z_mm=0.0, view="side"),
        along("height", 0.0, m.height_mm, x_mm=x),
        along("strap_height", m.height_mm, top, x_mm=x),
        across("strap_width", m.strap_width_mm, z_mm=top, view="side"),
        along("strap_thickness", top - m.strap_thickness_mm, top),
    )


KIND = Kind(
    name="goggles",
    title="Goggles, ear defenders or a mask with a strap",
    measures=GogglesMeasures,
    body=body,
    dimensions=_dimensions,
    caution="Replace what protects eyes, ears or lungs when it is damaged or past its date.",
    example=ordinary(
        width=170.0,
        depth=80.0,
        height=85.0,
        strap_height=130.0,
        strap_width=25.0,
        strap_thickness=3.0,
    ),
)
