"""What a grip is: a feature by which a tool can be held, in the frame of the tool.

The frame of a tool is that of its hanging pose: z up along its length, x along the
wall, y out of the wall. Its axis is x = y = 0.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from cleatwright.shapes.rigid import STILL, Rigid


@dataclass(frozen=True)
class Grip:
    """Base of all grips."""

    title: ClassVar[str] = "grip"


@dataclass(frozen=True)
class TurnedGrip(Grip):
    """Base of grips by which a tool is held in another pose than hanging.

    Args:
        pose: From the frame of the tool to the frame in which the grip is measured.
    """

    pose: Rigid = STILL
