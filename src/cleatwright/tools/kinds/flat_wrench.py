"""A flat wrench, bigger head up: open, ring or both ends.

╭───╮   ← z = length; `ring` is the clear opening, when this head is a ring
│ o │   bigger head
╰┐ ┌╯
 │ │    shaft
╭┘ └╮
╰───╯   ← other head, z = 0
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import FlatEdge, Grip, Loop, SteelFace
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import circle
from cleatwright.shapes.solid import Solid, block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import (
    MassComponent,
    flat,
    free_opening_mm,
    mass_and_centre,
    ring_sectors,
    short,
)
from cleatwright.tools.kind import AtOdds, Kind, Measures, optional_mm, ordinary
from cleatwright.tools.material import STEEL

# a jaw or a ring takes away about two fifths of its disc: with a head of 2.1 s + 7
# (ISO 3318:2016, seen in a secondary source) the opening is about half the head's width
HEAD_SHARE = 0.6
SECTORS = 12


class FlatWrenchMeasures(Measures):
    """What is measured on a flat wrench."""

    length_mm: float = Field(ge=40.0, le=900.0, description="overall, end to end")
    shaft_width_mm: float = Field(ge=3.0, le=60.0, description="across the shaft's broad side")
    shaft_thickness_mm: float = Field(ge=1.0, le=30.0, description="through the shaft")
    head_width_mm: float = Field(ge=6.0, le=150.0, description="across the bigger head")
    other_head_width_mm: float = Field(ge=5.0, le=150.0, description="across the smaller head")
    head_thickness_mm: float = Field(ge=1.0, le=50.0, description="through the thicker head")
    opening_mm: float = optional_mm(1.0, 100.0, description="the size stamped on it")
    ring_mm: float = optional_mm(
        4.0, 120.0, description="clear hole in the bigger head, when that is a ring"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one wrench."""
        if self.other_head_width_mm > self.head_width_mm:
            yield self.at_odds("{other_head_width} is more than {head_width}: exchange the two")
        if self.other_head_width_mm < self.shaft_width_mm:
            yield self.at_odds(
                "{other_head_width} is less than {shaft_width}: measure both again; a plain end "
                "is as wide as the shaft"
            )
        if self.head_width_mm <= self.shaft_width_mm:
            yield self.at_odds(
                "{head_width} is not more than {shaft_width}, so nothing can carry it: measure "
                "both again"
            )
        if self.length_mm < self.head_width_mm + self.other_head_width_mm + 10.0:
            yield self.at_odds(
                "{length} leaves less than {least} of shaft between {head_width} and "
                "{other_head_width}: measure the length end to end",
                least=10.0,
            )
        for name, least_mm in (("opening", 1.0), ("ring", 2.0)):
            if self.value_mm(name) > self.head_width_mm - least_mm:
                yield self.at_odds(
                    f"{self.shown(name)} does not fit into {{head_width}}: measure both again", name
                )


def body(m: FlatWrenchMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body; a ring in the bigger head stays open."""
    top, low = m.length_mm - m.head_width_mm / 2, m.other_head_width_mm / 2
    x, y = m.shaft_width_mm / 2, m.shaft_thickness_mm / 2
    straight = (m.other_head_width_mm, m.length_mm - m.head_width_mm)
    head = flat(circle(m.head_width_mm, at=(0.0, top)), m.head_thickness_mm)
    other = flat(circle(m.other_head_width_mm, at=(0.0, low)), m.head_thickness_mm)
    components = [
        MassComponent(head, STEEL, HEAD_SHARE),
        MassComponent(block(-x, -y, straight[0], x, y, straight[1]), STEEL),
        MassComponent(other, STEEL, HEAD_SHARE),
    ]
    grips: list[Grip] = [
        FlatEdge(*straight, m.shaft_width_mm, m.shaft_thickness_mm),
        SteelFace(-y, *straight, m.shaft_width_mm, m.shaft_thickness_mm),
    ]
    upper: tuple[Solid, ...] = (head,)
    # the shaft runs into the heads, so that the necks of the real tool are enclosed too
    shaft_top = top
    if m.ring_mm > 0.0:
        ring = {"opening_mm": m.ring_mm, "thickness_mm": m.head_thickness_mm}
        upper = ring_sectors(outer_mm=m.head_width_mm, z_mm=top, count=SECTORS, **ring)
        free = free_opening_mm(m.ring_mm, count=SECTORS)
        grips.append(Loop(top + free / 2, free, free, m.head_thickness_mm))
        shaft_top = top - m.ring_mm / 2
    mass_kg, com_mm = mass_and_centre(components, weighed_kg)
    plain = f"{short(m.shaft_width_mm)}×{short(m.shaft_thickness_mm)}"
    return ToolBody(
        kind="flat-wrench",
        leading=f"SW{short(m.opening_mm)}" if m.opening_mm > 0.0 else plain,
        envelope=(*upper, block(-x, -y, low, x, y, shaft_top), other),
        mass_kg=mass_kg,
        com_mm=com_mm,
        grips=tuple(grips),
        order_mm=m.head_width_mm,
    )


def _dimensions(m: FlatWrenchMeasures) -> tuple[Dimension, ...]:
    middle = m.length_mm / 2
    top, low = m.length_mm - m.head_width_mm / 2, m.other_head_width_mm / 2
    inside = (("opening", m.opening_mm), ("ring", m.ring_mm))
    return (
        along("length", 0.0, m.length_mm, x_mm=m.head_width_mm / 2),
        across("shaft_width", m.shaft_width_mm, z_mm=middle),
        across("shaft_thickness", m.shaft_thickness_mm, z_mm=middle, view="side"),
        across("head_width", m.head_width_mm, z_mm=top),
        across("other_head_width", m.other_head_width_mm, z_mm=low),
        across("head_thickness", m.head_thickness_mm, z_mm=top, view="side"),
        *(across(name, size, z_mm=top) for name, size in inside if size > 0.0),
    )


KIND = Kind(
    name="flat-wrench",
    title="Flat wrench: open, ring or one of each",
    measures=FlatWrenchMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(
        length=170.0,
        shaft_width=11.5,
        shaft_thickness=5.0,
        head_width=29.0,
        other_head_width=20.0,
        head_thickness=8.0,
        opening=13.0,
    ),
)
