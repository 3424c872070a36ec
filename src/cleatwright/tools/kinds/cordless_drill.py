"""A cordless drill or driver, upright, its chuck to the person and its battery down.

seen from the side (the wall on the left)

      ┌───────────┬──┐
      │   body    │  ├─ chuck      ← body_height
      └──┬───┬────┴──┘  ← z = battery_height + handle_length
         │   │ handle
       ┌─┴───┴──┐       ← z = battery_height
       │ battery│
       └────────┘       ← z = 0
      ↔ handle_back     the axis is the middle of the handle
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.parts.grips import PistolGrip
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import circle
from cleatwright.shapes.solid import block, prism
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.pieces import MassComponent, assembled, short
from cleatwright.tools.kind import AtOdds, Kind, Measures, optional_mm, ordinary
from cleatwright.tools.material import CELLS, MOTOR, PLASTIC, STEEL

# jaws and their thread leave air in a chuck, a handle is a shell around a switch (common
# practice, no source)
CHUCK_SHARE = 0.6
HANDLE_SHARE = 0.5


class CordlessDrillMeasures(Measures):
    """What is measured on a cordless drill."""

    body_length_mm: float = Field(
        ge=60.0, le=300.0, description="from the body's rear end to where the chuck begins"
    )
    body_width_mm: float = Field(ge=30.0, le=130.0, description="across the body's widest place")
    body_height_mm: float = Field(
        ge=30.0, le=130.0, description="from the body's top to its underside beside the handle"
    )
    chuck_mm: float = Field(ge=8.0, le=70.0, description="across the chuck")
    chuck_length_mm: float = Field(ge=5.0, le=150.0, description="from the body to the jaws' end")
    handle_back_mm: float = optional_mm(
        1.0, 200.0, description="from the body's rear end to the rear of the handle"
    )
    handle_width_mm: float = Field(
        ge=20.0, le=70.0, description="across the handle below the body, left to right"
    )
    handle_depth_mm: float = Field(
        ge=25.0, le=110.0, description="from the handle's rear to its front, trigger included"
    )
    handle_length_mm: float = Field(
        ge=60.0, le=200.0, description="from the body's underside to the battery"
    )
    battery_width_mm: float = Field(ge=25.0, le=120.0, description="across the battery")
    battery_length_mm: float = Field(ge=30.0, le=220.0, description="the battery, rear to front")
    battery_height_mm: float = Field(ge=15.0, le=150.0, description="the battery, foot included")
    battery_back_mm: float = optional_mm(
        1.0, 100.0, description="from the battery's rear end to the rear of the handle"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one drill."""
        if self.handle_back_mm + self.handle_depth_mm > self.body_length_mm + 20.0:
            yield self.at_odds(
                "{handle_back} and {handle_depth} reach past {body_length}: measure all three again"
            )
        if self.handle_width_mm >= self.body_width_mm:
            yield self.at_odds(
                "{handle_width} is not less than {body_width}, so nothing can carry it: measure "
                "both again"
            )
        if self.chuck_mm > self.body_height_mm:
            yield self.at_odds("{chuck} is thicker than {body_height}: measure both again")
        if self.battery_back_mm > self.battery_length_mm:
            yield self.at_odds("{battery_back} is more than {battery_length}: measure both again")


def body(m: CordlessDrillMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body: blocks for body, handle and battery, a cylinder for the chuck."""
    under = m.battery_height_mm + m.handle_length_mm
    top = under + m.body_height_mm
    rear, front, foot_rear = _ends(m)
    hx, hy = m.handle_width_mm / 2, m.handle_depth_mm / 2
    bx, fx = m.body_width_mm / 2, m.battery_width_mm / 2
    chuck = prism(circle(m.chuck_mm), m.chuck_length_mm).turned("x", -90.0)
    foot = (-fx, foot_rear, 0.0, fx, foot_rear + m.battery_length_mm, m.battery_height_mm)
    components = (
        MassComponent(block(-bx, rear, under, bx, front, top), MOTOR),
        MassComponent(chuck.moved(0.0, front, (under + top) / 2), STEEL, CHUCK_SHARE),
        MassComponent(block(-hx, -hy, m.battery_height_mm, hx, hy, under), PLASTIC, HANDLE_SHARE),
        MassComponent(block(*foot), CELLS),
    )
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
        kind="cordless-drill",
        leading=f"{short(m.body_length_mm + m.chuck_length_mm)}×{short(m.body_width_mm)}",
        grips=(grip,),
        order_mm=m.body_length_mm,
    )


def _ends(m: CordlessDrillMeasures) -> tuple[float, float, float]:
    """Return where the body begins and ends and the battery begins, along y."""
    rear = -m.handle_depth_mm / 2 - m.handle_back_mm
    return rear, rear + m.body_length_mm, -m.handle_depth_mm / 2 - m.battery_back_mm


def _dimensions(m: CordlessDrillMeasures) -> tuple[Dimension, ...]:
    under = m.battery_height_mm + m.handle_length_mm
    top, chuck = under + m.body_height_mm, under + m.body_height_mm / 2
    rear, front, foot = _ends(m)
    handle, grip = -m.handle_depth_mm / 2, m.battery_height_mm + m.handle_length_mm / 2
    nose = Dimension(
        "chuck", "side", (0.0, front, chuck - m.chuck_mm / 2), (0.0, front, chuck + m.chuck_mm / 2)
    )
    return (
        _level("body_length", rear, front, z_mm=top),
        across("body_width", m.body_width_mm, z_mm=top),
        along("body_height", under, top, x_mm=rear, view="side"),
        nose,
        _level("chuck_length", front, front + m.chuck_length_mm, z_mm=top),
        _level("handle_back", rear, handle, z_mm=under),
        across("handle_width", m.handle_width_mm, z_mm=grip),
        across("handle_depth", m.handle_depth_mm, z_mm=grip, view="side"),
        along("handle_length", m.battery_height_mm, under, x_mm=-handle, view="side"),
        across("battery_width", m.battery_width_mm, z_mm=0.0),
        _level("battery_length", foot, foot + m.battery_length_mm, z_mm=0.0),
        along("battery_height", 0.0, m.battery_height_mm, x_mm=foot, view="side"),
        _level("battery_back", foot, handle, z_mm=m.battery_height_mm),
    )


def _level(measure: str, y0: float, y1: float, *, z_mm: float) -> Dimension:
    return Dimension(measure, "side", (0.0, y0, z_mm), (0.0, y1, z_mm))


KIND = Kind(
    name="cordless-drill",
    title="Cordless drill or driver with a battery below its handle",
    measures=CordlessDrillMeasures,
    body=body,
    dimensions=_dimensions,
    # an ordinary drill of 18 V: common practice, no source
    example=ordinary(
        body_length=130.0,
        body_width=68.0,
        body_height=70.0,
        chuck=44.0,
        chuck_length=60.0,
        handle_back=42.0,
        handle_width=38.0,
        handle_depth=52.0,
        handle_length=112.0,
        battery_width=76.0,
        battery_length=115.0,
        battery_height=62.0,
        battery_back=30.0,
    ),
    properties=("cell",),
)
