"""A bar clamp, its fixed jaw up, both jaws towards the wall, its spindle down.

wall                    ┌──┐  ← z = length
  ┌─────────────────────┤  │
  │     fixed jaw       │  │  jaw_height
  └┬─┬──────────────────┤  │
   └─┘ pad              │  │  bar_depth; bar_thickness is out of the page
↔ throat ↔              │  │  opening
  ┌─────────────────────┤  │
  │    sliding jaw      │  │  slide_height
  └┬─┬──────────────────┤  │
   ║ ║ handle           │  │
   └─┘                  └──┘  ← z = 0
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import HookedArm
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import rectangle
from cleatwright.shapes.solid import block, prism
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import (
    MassComponent,
    assembled,
    cylinder,
    short,
)
from cleatwright.tools.kind import AtOdds, Kind, Measures, optional_mm, ordinary
from cleatwright.tools.material import STEEL, WOOD

# malleable jaws like I-beams on a solid bar; one of 300 by 80 mm weighs 0.8 to 1.2 kg
# (common practice, no source)
JAW_SHARE = 0.3


class BarClampMeasures(Measures):
    """What is measured on a bar clamp as it is put away."""

    length_mm: float = Field(ge=100.0, le=990.0, description="the bar with its fixed jaw, overall")
    bar_depth_mm: float = Field(ge=6.0, le=60.0, description="the bar along the jaws")
    bar_thickness_mm: float = Field(ge=3.0, le=40.0, description="the bar across the jaws")
    throat_mm: float = Field(ge=20.0, le=200.0, description="from the bar to the end of the jaws")
    jaw_height_mm: float = Field(
        ge=8.0, le=90.0, description="the fixed jaw along the bar, without its pad"
    )
    jaw_width_mm: float = Field(ge=6.0, le=80.0, description="across the wider of both jaws")
    opening_mm: float = Field(
        ge=5.0, le=400.0, description="from the fixed jaw to what lies next below it, as put away"
    )
    slide_height_mm: float = Field(
        ge=10.0, le=150.0, description="from there to the sliding jaw's lower edge"
    )
    handle_mm: float = optional_mm(10.0, 60.0, description="across the handle of the spindle")
    handle_length_mm: float = optional_mm(
        20.0, 200.0, description="from the sliding jaw to the end of the handle"
    )
    pad_mm: float = optional_mm(0.5, 20.0, description="how far the fixed jaw's pad stands out")
    pad_depth_mm: float = optional_mm(5.0, 80.0, description="the pad along the jaw")

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one bar clamp."""
        yield from self.together("handle", "handle_length")
        yield from self.together("pad", "pad_depth")
        if self.pad_depth_mm > self.throat_mm - 5.0:
            yield self.at_odds(
                "{pad_depth} does not fit before the bar within {throat}: measure both again"
            )
        if self.handle_mm / 2 > self.throat_mm - 2.0:
            yield self.at_odds("{handle} would meet the bar within {throat}: measure both again")
        if self.pad_mm > self.opening_mm - 1.0:
            yield self.at_odds("{pad} fills {opening}: measure both again")
        least = self.jaw_height_mm + self.opening_mm + self.slide_height_mm + self.handle_length_mm
        if self.length_mm < least:
            yield self.at_odds(
                "{length} is less than jaw_height, opening, slide_height and handle_length "
                "together, {least}: measure the length down to the lowest end",
                "jaw_height",
                "opening",
                "slide_height",
                "handle_length",
                least=least,
            )


def _handle_y(m: BarClampMeasures) -> float:
    """Return where the spindle stands: its handle ends at the jaws' end, or its axis does."""
    return -m.bar_depth_mm / 2 - m.throat_mm + min(m.handle_mm / 2, m.throat_mm / 2)


def body(m: BarClampMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body; between the jaws it is free behind the bar."""
    x, y, w = m.bar_thickness_mm / 2, m.bar_depth_mm / 2, m.jaw_width_mm / 2
    back, top = -y - m.throat_mm, m.length_mm
    under = top - m.jaw_height_mm
    slide = under - m.opening_mm
    foot = slide - m.slide_height_mm
    components = [
        MassComponent(block(-x, -y, 0.0, x, y, top), STEEL),
        MassComponent(block(-w, back, under, w, -y, top), STEEL, JAW_SHARE),
        MassComponent(block(-w, back, foot, w, -y, slide), STEEL, JAW_SHARE),
    ]
    if m.pad_mm > 0.0:
        pad = rectangle(-w, back, w, back + m.pad_depth_mm)
        components.append(
            MassComponent(prism(pad, m.pad_mm).moved(0.0, 0.0, under - m.pad_mm), STEEL, JAW_SHARE)
        )
    if m.handle_mm > 0.0:
        handle = cylinder(m.handle_mm, foot - m.handle_length_mm, foot)
        components.append(MassComponent(handle.moved(0.0, _handle_y(m), 0.0), WOOD))
    arm = HookedArm(
        z_mm=under,
        bar_y_mm=m.bar_depth_mm,
        arm_x_mm=m.jaw_width_mm,
        reach_mm=m.throat_mm,
        free_mm=m.opening_mm,
        nose_mm=m.pad_mm,
        nose_y_mm=m.pad_depth_mm,
    )
    return assembled(
        components,
        weighed_kg,
        kind="bar-clamp",
        leading=f"{short(m.length_mm)}×{short(m.throat_mm)}",
        grips=(arm,),
        order_mm=m.length_mm,
    )


def _dimensions(m: BarClampMeasures) -> tuple[Dimension, ...]:
    y, top = m.bar_depth_mm / 2, m.length_mm
    under = top - m.jaw_height_mm
    slide = under - m.opening_mm
    foot, back, w = slide - m.slide_height_mm, -y - m.throat_mm, m.jaw_width_mm / 2
    end = foot - m.handle_length_mm
    middle = (foot + end) / 2
    handle = (
        across("handle", m.handle_mm, z_mm=middle, view="side", at_mm=_handle_y(m)),
        along("handle_length", end, foot, x_mm=_handle_y(m), view="side"),
    )
    inner = back + m.pad_depth_mm / 2
    pad = (
        along("pad", under - m.pad_mm, under, x_mm=back, view="side"),
        across("pad_depth", m.pad_depth_mm, z_mm=under - m.pad_mm, view="side", at_mm=inner),
    )
    return (
        along("length", 0.0, top, x_mm=y, view="side"),
        across("bar_depth", m.bar_depth_mm, z_mm=0.0, view="side"),
        across("bar_thickness", m.bar_thickness_mm, z_mm=0.0),
        across("throat", m.throat_mm, z_mm=top, view="side", at_mm=-y - m.throat_mm / 2),
        along("jaw_height", under, top, x_mm=back, view="side"),
        across("jaw_width", m.jaw_width_mm, z_mm=top),
        along("opening", slide, under, x_mm=-y, view="side"),
        along("slide_height", foot, slide, x_mm=w),
        *handle,
        *pad,
    )


KIND = Kind(
    name="bar-clamp",
    title="Bar clamp with a fixed jaw",
    measures=BarClampMeasures,
    body=body,
    dimensions=_dimensions,
    caution="Tighten the sliding jaw before the clamp goes on the wall: it can run down the bar "
    "onto a hand.",
    example=ordinary(
        length=420.0,
        bar_depth=22.0,
        bar_thickness=8.0,
        throat=80.0,
        jaw_height=24.0,
        jaw_width=20.0,
        opening=90.0,
        slide_height=40.0,
        handle=32.0,
        handle_length=130.0,
        pad=2.0,
        pad_depth=22.0,
    ),
    properties=("heavy",),
)
