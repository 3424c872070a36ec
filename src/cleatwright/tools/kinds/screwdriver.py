"""A screwdriver, blade down; also an awl, a nut driver or a chisel with a round handle.

┌───┐  ← handle, z = shank_length + ferrule_length + handle_length
│   │  handle
└┬─┬┘  ← shoulder
 ├─┤   ferrule (may be missing)
 │ │   shank
 └─┘   ← z = 0
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import Shoulder
from cleatwright.parts.tool import ToolBody
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import (
    MassComponent,
    assembled,
    cylinder,
    short,
)
from cleatwright.tools.kind import AtOdds, Kind, Measures, optional_mm, ordinary
from cleatwright.tools.material import PLASTIC, STEEL

# a shorter ferrule sinks into its recess, and the handle comes to rest instead
LEAST_LEDGE_MM = 5.0


class ScrewdriverMeasures(Measures):
    """What is measured on a screwdriver."""

    shank_mm: float = Field(ge=1.0, le=30.0, description="across the blade's widest place")
    shank_length_mm: float = Field(
        ge=10.0,
        le=600.0,
        description="from the tip to the ferrule, or to the handle if it has none",
    )
    handle_mm: float = Field(ge=5.0, le=80.0, description="across the handle's widest place")
    handle_length_mm: float = Field(
        ge=15.0, le=250.0, description="from the ferrule or blade to the end of the handle"
    )
    ferrule_mm: float = optional_mm(1.0, 60.0, description="across the ferrule or bolster")
    ferrule_length_mm: float = optional_mm(1.0, 100.0, description="along the ferrule or bolster")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one screwdriver."""
        if self.handle_mm <= self.shank_mm:
            yield self.at_odds(
                "{handle} is not thicker than {shank}, so nothing can carry it: measure both "
                "again, or exchange them"
            )
        yield from self.together("ferrule", "ferrule_length")
        if self.ferrule_length_mm > 0.0 and 0.0 < self.ferrule_mm < self.shank_mm:
            yield self.at_odds(
                "{ferrule} is thinner than {shank}: measure both again, or leave the ferrule out",
                "ferrule_length",
            )
        if self.ferrule_mm > self.handle_mm:
            yield self.at_odds(
                "{ferrule} is thicker than {handle}: measure both again; count a wide bolster as "
                "part of the handle"
            )


def body(m: ScrewdriverMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body; the handle counts as solid plastic."""
    foot = m.shank_length_mm + m.ferrule_length_mm
    shank = cylinder(m.shank_mm, 0.0, m.shank_length_mm)
    handle = cylinder(m.handle_mm, foot, foot + m.handle_length_mm)
    components = [MassComponent(shank, STEEL), MassComponent(handle, PLASTIC)]
    neck = max(m.shank_mm, m.ferrule_mm)
    shoulders = [
        Shoulder(z_mm=foot, neck_mm=neck, shoulder_mm=m.handle_mm, neck_length_mm=foot),
    ]
    if m.ferrule_mm > 0.0:
        components.insert(1, MassComponent(cylinder(m.ferrule_mm, m.shank_length_mm, foot), STEEL))
    if m.ferrule_mm > m.shank_mm and m.ferrule_length_mm >= LEAST_LEDGE_MM:
        low = m.shank_length_mm
        shoulders.append(
            Shoulder(z_mm=low, neck_mm=m.shank_mm, shoulder_mm=m.ferrule_mm, neck_length_mm=low)
        )
    # the widest ledge carries best; it comes first, because families take the first
    shoulders.sort(key=lambda s: s.neck_mm - s.shoulder_mm)
    return assembled(
        components,
        weighed_kg,
        kind="screwdriver",
        leading=f"⌀{short(m.shank_mm)}×{short(m.shank_length_mm)}",
        grips=tuple(s for s in shoulders if s.shoulder_mm > s.neck_mm),
        order_mm=m.shank_mm,
    )


def _dimensions(m: ScrewdriverMeasures) -> tuple[Dimension, ...]:
    foot = m.shank_length_mm + m.ferrule_length_mm
    handle, top = m.handle_mm / 2, foot + m.handle_length_mm
    ferrule = (
        across("ferrule", m.ferrule_mm, z_mm=m.shank_length_mm + m.ferrule_length_mm / 2),
        along("ferrule_length", m.shank_length_mm, foot, x_mm=-handle),
    )
    return (
        across("shank", m.shank_mm, z_mm=m.shank_length_mm / 2),
        along("shank_length", 0.0, m.shank_length_mm, x_mm=handle),
        across("handle", m.handle_mm, z_mm=top),
        along("handle_length", foot, top, x_mm=handle),
        *ferrule,
    )


KIND = Kind(
    name="screwdriver",
    title="Screwdriver, awl or nut driver with a round handle",
    measures=ScrewdriverMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(
        shank=6.0,
        shank_length=100.0,
        handle=30.0,
        handle_length=105.0,
        ferrule=10.0,
        ferrule_length=6.0,
    ),
)
