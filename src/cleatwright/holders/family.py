"""What a holder family is."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from cleatwright.parts.grips import Grip
from cleatwright.parts.holder import Front
from cleatwright.parts.params import PartParams
from cleatwright.parts.tool import FittedTool, ToolBody


class FamilyParams(PartParams):
    """Base of a family's parameters."""


@dataclass(frozen=True)
class BuildContext:
    """What a family must know of the outside.

    Args:
        plate_mm: Thickness of the plate that the mount will put behind.
        line_mm: Width of one printed line; walls come as multiples of it.
        hand_room_mm: Free room between neighbouring tools for fingers.
        material: The word for the material of the filament; "" when it is not known.
    """

    plate_mm: float = 5.0
    line_mm: float = 0.45
    hand_room_mm: float = 12.0
    material: str = ""


@dataclass(frozen=True)
class Family:
    """A way of holding.

    Args:
        name: Registry name, lower case with hyphens.
        title: One line for people.
        grip: The grip that a tool must offer.
        params: The parameter model.
        build: Makes the front for one or more tools, in the order given.
        refuses: Says in one clause why a tool cannot be held, or returns None.
        guards: True when it covers the edge of a blade.
        by_wish: True when it is never chosen unless the owner names it.
        caution: What can hurt or spoil when a tool hangs in such a holder, or "".
    """

    name: str
    title: str
    grip: type[Grip]
    params: type[FamilyParams]
    build: Callable[[Sequence[FittedTool], Any, BuildContext], Front]
    refuses: Callable[[ToolBody], str | None]
    guards: bool = False
    by_wish: bool = False
    caution: str = ""

    def why_not(self, tool: ToolBody) -> str | None:
        """Return why this family cannot hold the tool, or None when it can."""
        if tool.grip(self.grip) is None:
            return f"it needs a {self.grip.title}, which a {tool.kind} does not offer"
        return self.refuses(tool)
