"""What hangs out of the reach of children who do not take it.

   child ●──╮  touched: how high the fingertips come, flat on the feet
         │  │
         │  ▼
   ── lowest point of the tool ── no lower than that

A child that climbs reaches higher: a height is no lock.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from cleatwright.base import said
from cleatwright.base.source import Evidence, Source
from cleatwright.design.equipment import OwnedTool
from cleatwright.parts.holder import Seat
from cleatwright.shapes.extent import joint_extent
from cleatwright.siting.people import KnownPerson, People
from cleatwright.standards.tool_properties import ToolProperty

KEPT: tuple[ToolProperty, ...] = ("sharp", "hot", "heavy", "liquid", "flammable")
PRACTICE = Source(
    "what is sharp, hot or heavy, and what holds a liquid, out of the reach of children",
    "common practice, no source; for chemicals precautionary statement P102 (from memory)",
    Evidence.PRACTICE,
)
CLIMBS = (
    "A child that climbs on a bench or a box reaches higher than it is taken to: a height is no "
    "lock. Lock away what must not come into its hands."
)


@dataclass(frozen=True)
class KeptOff:
    """From which child a tool is kept, and how high that child touches.

    Args:
        child: What the child is called.
        touches_mm: How high its fingertips come.
        what: What of the tool can hurt.
    """

    child: str
    touches_mm: float
    what: tuple[ToolProperty, ...]

    @property
    def by(self) -> str:
        """Return the bound without the tool, after "it"."""
        return (
            f"hangs out of the reach of {self.child}, who touches what is up to "
            f"{said.mm(self.touches_mm, '.0f')} above the floor"
        )


def can_hurt(tool: OwnedTool) -> tuple[ToolProperty, ...]:
    """Return what of a tool is to be kept from children."""
    return tuple(one for one in KEPT if one in tool.properties)


def kept_off(tool: OwnedTool, children: Iterable[KnownPerson]) -> KeptOff | None:
    """Return the child of some that touches highest, where a tool can hurt it; else None."""
    what, tallest = can_hurt(tool), max(children, key=lambda one: one.touches_mm, default=None)
    if not what or tallest is None:
        return None
    return KeptOff(tallest.name, tallest.touches_mm, what)


def below_hand_mm(seat: Seat, hand_z_mm: float) -> float:
    """Return how far a seated tool comes down below a hand on it, in the frame of its holder."""
    return hand_z_mm - joint_extent(seat.envelope())[0][2]


def takes_what_hurts(people: People, tools: Iterable[OwnedTool]) -> tuple[str, ...]:
    """Return a caution for each child that takes, by its name, what can hurt it."""
    told: list[str] = []
    risky = [tool for tool in tools if can_hurt(tool)]
    for one in people.everybody:
        named = [
            f"{tool.name} ({' and '.join(can_hurt(tool))})"
            for tool in risky
            if one.child and one.name in tool.taken_by
        ]
        if named:
            told.append(
                f"{one.name} is a child and takes what can hurt: {', '.join(named)}. Only with an "
                "adult beside who has shown how; it goes back to its place at once."
            )
    return tuple(told)
