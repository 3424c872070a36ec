"""What saws share: a closed handle with a hole for the hand, above a plate.

┌──────────┐  ← z = plate_length + handle_length
│  ╭────╮  │
│  ╰────╯  │  hole_width by hole_height, in the middle of the handle
└─┬──────┬─┘  ← z = plate_length
"""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from cleatwright.base import said
from cleatwright.parts.grips import Blade, EyeHole, Grip, Loop
from cleatwright.shapes.outline import Outline
from cleatwright.tools.dimension import Dimension, across, along
from cleatwright.tools.features.plates import hand_hole, pierced
from cleatwright.tools.kind import AtOdds, Measures

LEAST_RIM_MM = 6.0
# a hand hole is for four fingers, so it is a good deal wider than high
LEAST_SLENDER = 1.3


class SawMeasures(Measures):
    """What is measured on a saw with a closed handle."""

    plate_length_mm: float = Field(
        ge=80.0, le=800.0, description="from the toe to the handle, along the teeth"
    )
    handle_width_mm: float = Field(
        ge=60.0, le=220.0, description="the handle's largest size across the saw"
    )
    handle_length_mm: float = Field(
        ge=45.0, le=220.0, description="from where the plate comes out to the handle's end"
    )
    handle_thickness_mm: float = Field(ge=10.0, le=50.0, description="through the handle")
    hole_width_mm: float = Field(
        ge=40.0, le=150.0, description="the hole for the hand, where it is longest"
    )
    hole_height_mm: float = Field(
        ge=20.0, le=80.0, description="the hole for the hand, where it is narrowest"
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield what cannot be one saw."""
        if self.hole_width_mm < LEAST_SLENDER * self.hole_height_mm:
            yield self.at_odds(
                f"{{hole_width}} is less than {LEAST_SLENDER:g} times {{hole_height}}: measure the "
                "hole where it is longest and where it is narrowest"
            )
        for hole, outer in (("hole_width", "handle_width"), ("hole_height", "handle_length")):
            if self.value_mm(hole) > self.value_mm(outer) - 2.0 * LEAST_RIM_MM:
                yield self.at_odds(
                    f"the hole of {said.mm(self.value_mm(hole))} leaves less than "
                    f"{said.mm(LEAST_RIM_MM)} of wood on each side within {self.shown(outer)}: "
                    "measure both again",
                    hole,
                    outer,
                )


def _middle(m: SawMeasures) -> float:
    return m.plate_length_mm + m.handle_length_mm / 2


def handle(m: SawMeasures) -> list[Outline]:
    """Return the convex outlines of the handle in the xz plane; its hole stays open."""
    low, high = m.plate_length_mm, m.plate_length_mm + m.handle_length_mm
    hole = hand_hole(m.hole_width_mm, m.hole_height_mm, _middle(m))
    return pierced(m.handle_width_mm / 2, low, high, hole)


def handle_grips(m: SawMeasures) -> tuple[Grip, ...]:
    """Return the hole as a loop and as a hole to hang by."""
    top, thick = _middle(m) + m.hole_height_mm / 2, m.handle_thickness_mm
    rim = (m.handle_length_mm - m.hole_height_mm) / 2
    return (
        Loop(top, m.hole_width_mm, m.hole_height_mm, thick),
        EyeHole(top, m.hole_height_mm, thick, rim),
    )


def toothed(m: SawMeasures, *, width_mm: float, thickness_mm: float) -> tuple[Blade, ...]:
    """Return the plate as a blade below the handle, if the handle stands out past it."""
    if m.handle_width_mm <= width_mm and m.handle_thickness_mm <= thickness_mm:
        return ()
    foot = m.plate_length_mm
    return (Blade(foot, foot, width_mm, thickness_mm, m.handle_width_mm, m.handle_thickness_mm),)


def saw_dimensions(m: SawMeasures) -> tuple[Dimension, ...]:
    """Return where the measures that all saws share lie."""
    low, high = m.plate_length_mm, m.plate_length_mm + m.handle_length_mm
    hole, edge = m.hole_height_mm / 2, m.handle_width_mm / 2
    return (
        along("plate_length", 0.0, low, x_mm=edge),
        across("handle_width", m.handle_width_mm, z_mm=high),
        along("handle_length", low, high, x_mm=edge),
        across("handle_thickness", m.handle_thickness_mm, z_mm=high, view="side"),
        across("hole_width", m.hole_width_mm, z_mm=_middle(m)),
        along("hole_height", _middle(m) - hole, _middle(m) + hole),
    )
