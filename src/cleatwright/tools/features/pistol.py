"""What tools with a pistol grip and a cord share, upright, their nose to the person.

seen from the side (the wall on the left)

      ┌───────────┬──┐
      │   body    │  ├─ nose       ← body_height
      └──┬───┬────┴──┘  ← z = cord + handle_length
         │   │ handle
         └─┬─┘          ← z = cord
           │ cord, as it hangs
                        ← z = 0
      ↔ handle_back     the axis is the middle of the handle
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import PistolGrip
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import circle
from cleatwright.shapes.solid import Solid, block, prism
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, short
from cleatwright.tools.kind import AtOdds, Measures, optional_mm
from cleatwright.tools.material import MOTOR, PLASTIC, STEEL

# a chuck or a nozzle is half air, a handle is a shell around a switch (common practice, no source)
NOSE_SHARE = 0.5
HANDLE_SHARE = 0.5
# across the sleeve at the end of a cord
CORD_MM = 14.0


class PistolMeasures(Measures):
    """What is measured on a tool with a pistol grip and a cord."""

    body_length_mm: float = Field(
        ge=60.0, le=320.0, description="from the body's rear end to where the nose begins"
    )
    body_width_mm: float = Field(ge=30.0, le=140.0, description="across the body's widest place")
    body_height_mm: float = Field(
        ge=25.0, le=140.0, description="from the body's top to its underside beside the handle"
    )
    nose_mm: float = optional_mm(5.0, 120.0, description="across the chuck or the nozzle")
    nose_length_mm: float = optional_mm(
        5.0, 200.0, description="the chuck or the nozzle, out of the body"
    )
    handle_back_mm: float = optional_mm(
        1.0, 200.0, description="from the body's rear end to the rear of the handle"
    )
    handle_width_mm: float = Field(
        ge=15.0, le=70.0, description="across the handle below the body, left to right"
    )
    handle_depth_mm: float = Field(
        ge=20.0, le=110.0, description="from the handle's rear to its front, trigger included"
    )
    handle_length_mm: float = Field(
        ge=60.0, le=220.0, description="from the body's underside to where the cord comes out"
    )
    cord_mm: float = Field(
        ge=20.0, le=250.0, description="from the handle down to where the cord has turned"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one tool."""
        yield from self.together("nose", "nose_length")
        if self.handle_back_mm + self.handle_depth_mm > self.body_length_mm + 20.0:
            yield self.at_odds(
                "{handle_back} and {handle_depth} reach past {body_length}: measure all three again"
            )
        if self.handle_width_mm >= self.body_width_mm:
            yield self.at_odds(
                "{handle_width} is not less than {body_width}, so nothing can carry it: measure "
                "both again"
            )
        if self.nose_mm > self.body_height_mm:
            yield self.at_odds("{nose} is thicker than {body_height}: measure both again")


def _heights(m: PistolMeasures) -> tuple[float, float]:
    under = m.cord_mm + m.handle_length_mm
    return under, under + m.body_height_mm


def _ends(m: PistolMeasures) -> tuple[float, float]:
    """Return where the body begins and ends along y."""
    rear = -m.handle_depth_mm / 2 - m.handle_back_mm
    return rear, rear + m.body_length_mm


def pistol_body(
    m: PistolMeasures, weighed_kg: float | None, *, kind: str, filled: float
) -> ToolBody:
    """Return the tool body; so much of its body is motor, copper and steel."""
    under, top = _heights(m)
    rear, front = _ends(m)
    hx, hy, bx = m.handle_width_mm / 2, m.handle_depth_mm / 2, m.body_width_mm / 2
    components = [
        MassComponent(block(-bx, rear, under, bx, front, top), MOTOR, filled),
        MassComponent(block(-hx, -hy, m.cord_mm, hx, hy, under), PLASTIC, HANDLE_SHARE),
    ]
    if m.nose_mm > 0.0:
        nose = prism(circle(m.nose_mm), m.nose_length_mm).turned("x", -90.0)
        nose = nose.moved(0.0, front, (under + top) / 2)
        components.append(MassComponent(nose, STEEL, NOSE_SHARE))
    sleeve = CORD_MM / 2
    cord: Solid = block(-sleeve, -sleeve, 0.0, sleeve, sleeve, m.cord_mm)
    grip = PistolGrip(
        z_mm=under,
        body_x_mm=m.body_width_mm,
        front_y_mm=front,
        back_y_mm=max(0.0, -rear),
        handle_x_mm=m.handle_width_mm,
        handle_y_mm=m.handle_depth_mm,
        handle_length_mm=m.handle_length_mm,
    )
    return assembled(
        components,
        weighed_kg,
        kind=kind,
        leading=f"{short(m.body_length_mm + m.nose_length_mm)}×{short(m.body_width_mm)}",
        grips=(grip,),
        order_mm=m.body_length_mm,
        weightless=(cord,),
    )


def pistol_dimensions(m: PistolMeasures) -> tuple[Dimension, ...]:
    """Return where each measure lies."""
    under, top = _heights(m)
    rear, front = _ends(m)
    handle, grip, middle = -m.handle_depth_mm / 2, m.cord_mm + m.handle_length_mm / 2, top + under
    nose = m.nose_mm / 2
    return (
        _level("body_length", rear, front, z_mm=top),
        across("body_width", m.body_width_mm, z_mm=top),
        along("body_height", under, top, x_mm=rear, view="side"),
        along("nose", middle / 2 - nose, middle / 2 + nose, x_mm=front, view="side"),
        _level("nose_length", front, front + m.nose_length_mm, z_mm=middle / 2 + nose),
        _level("handle_back", rear, handle, z_mm=under),
        across("handle_width", m.handle_width_mm, z_mm=grip),
        across("handle_depth", m.handle_depth_mm, z_mm=grip, view="side"),
        along("handle_length", m.cord_mm, under, x_mm=-handle, view="side"),
        along("cord", 0.0, m.cord_mm, x_mm=CORD_MM / 2, view="side"),
    )


def _level(measure: str, y0: float, y1: float, *, z_mm: float) -> Dimension:
    return Dimension(measure, "side", (0.0, y0, z_mm), (0.0, y1, z_mm))
