"""A slide calliper, closed, jaws up.

     ┌───┬─┬───────┐  ← z = length
     │ small jaw │ long jaw   jaws_height
     └─┬─┴─┴─┬─────┘
       │slider│       slider_width by slider_thickness
       └┬───┬┘
        │   │         beam, beam_width by beam_thickness
        └───┘         ← z = 0

Its long jaw and its small jaw stand out left and right of the slider, and carry it.
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import FlatEdge, Overhang
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.solid import block
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, ordinary
from cleatwright.tools.material import STEEL

# jaws run to a point; a slider is a box around the beam, of steel or of plastic
JAW_SHARE = 0.5
SLIDER_SHARE = 0.4
LEAST_BEAM_MM = 20.0
END_MM = 1.0


class CalliperMeasures(Measures):
    """What is measured on a closed slide calliper."""

    length_mm: float = Field(ge=80.0, le=900.0, description="overall, along the beam")
    beam_width_mm: float = Field(ge=6.0, le=50.0, description="across the beam's broad side")
    beam_thickness_mm: float = Field(ge=1.5, le=20.0, description="through the beam and the jaws")
    long_jaw_mm: float = Field(
        ge=10.0, le=250.0, description="from the beam's edge to the tip of a long jaw"
    )
    small_jaw_mm: float = Field(
        ge=4.0, le=100.0, description="from the beam's other edge to the tip of a small jaw"
    )
    jaws_height_mm: float = Field(
        ge=8.0, le=100.0, description="over both closed jaws, along the beam"
    )
    slider_width_mm: float = Field(
        ge=8.0, le=80.0, description="across the slider below the jaws, with any roller"
    )
    slider_length_mm: float = Field(
        ge=20.0, le=200.0, description="along the beam, from below the jaws to the slider's end"
    )
    slider_thickness_mm: float = Field(
        ge=3.0, le=40.0, description="through the slider, with its screw or display"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one calliper."""
        if self.slider_width_mm < self.beam_width_mm:
            yield self.at_odds("{slider_width} is less than {beam_width}: measure both again")
        if self.slider_thickness_mm < self.beam_thickness_mm:
            yield self.at_odds(
                "{slider_thickness} is less than {beam_thickness}: measure both again"
            )
        least = min(self.small_jaw_mm, self.long_jaw_mm)
        if self.slider_width_mm > self.beam_width_mm + 2.0 * least - 2.0:
            yield self.at_odds(
                "{slider_width} hides a jaw of {least} beside {beam_width}: measure the "
                "three again",
                "small_jaw",
                "long_jaw",
                least=least,
            )
        if self.length_mm < self.jaws_height_mm + self.slider_length_mm + LEAST_BEAM_MM:
            yield self.at_odds(
                "{length} leaves less than {least} of beam below {jaws_height} and "
                "{slider_length}: measure the length overall, closed",
                least=LEAST_BEAM_MM,
            )


def body(m: CalliperMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: beam, slider and both pairs of jaws."""
    x, y = m.beam_width_mm / 2, m.beam_thickness_mm / 2
    sx, sy = m.slider_width_mm / 2, m.slider_thickness_mm / 2
    under = m.length_mm - m.jaws_height_mm
    foot = under - m.slider_length_mm
    left, right = -x - m.small_jaw_mm, x + m.long_jaw_mm
    components = (
        MassComponent(block(left, -y, under, right, y, m.length_mm), STEEL, JAW_SHARE),
        MassComponent(block(-sx, -sy, foot, sx, sy, under), STEEL, SLIDER_SHARE),
        MassComponent(block(-x, -y, 0.0, x, y, foot), STEEL),
    )
    overhang = Overhang(
        z_mm=under,
        neck_x_mm=m.slider_width_mm,
        neck_y_mm=m.slider_thickness_mm,
        neck_length_mm=m.slider_length_mm,
        handle_x_mm=m.slider_width_mm,
        head_x_mm=2.0 * min(-left, right),
        head_y_mm=m.beam_thickness_mm,
    )
    return assembled(
        components,
        weighed_kg,
        kind="calliper",
        leading=f"{short(m.length_mm)}×{short(m.long_jaw_mm)}",
        grips=(
            overhang,
            FlatEdge(END_MM, foot, m.beam_width_mm, m.beam_thickness_mm),
        ),
        order_mm=m.length_mm,
    )


def _dimensions(m: CalliperMeasures) -> tuple[Dimension, ...]:
    x, under = m.beam_width_mm / 2, m.length_mm - m.jaws_height_mm
    foot, slider = under - m.slider_length_mm, m.slider_width_mm / 2
    long, small = x + m.long_jaw_mm / 2, -x - m.small_jaw_mm / 2
    return (
        along("length", 0.0, m.length_mm),
        across("beam_width", m.beam_width_mm, z_mm=0.0),
        across("beam_thickness", m.beam_thickness_mm, z_mm=0.0, view="side"),
        across("long_jaw", m.long_jaw_mm, z_mm=m.length_mm, at_mm=long),
        across("small_jaw", m.small_jaw_mm, z_mm=m.length_mm, at_mm=small),
        along("jaws_height", under, m.length_mm, x_mm=x + m.long_jaw_mm),
        across("slider_width", m.slider_width_mm, z_mm=(foot + under) / 2),
        along("slider_length", foot, under, x_mm=slider),
        across("slider_thickness", m.slider_thickness_mm, z_mm=foot, view="side"),
    )


KIND = Kind(
    name="calliper",
    title="Slide calliper",
    measures=CalliperMeasures,
    body=body,
    dimensions=_dimensions,
    example=ordinary(
        length=235.0,
        beam_width=16.0,
        beam_thickness=3.5,
        long_jaw=40.0,
        small_jaw=17.0,
        jaws_height=28.0,
        slider_width=24.0,
        slider_length=60.0,
        slider_thickness=12.0,
    ),
)
