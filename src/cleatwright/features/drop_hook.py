"""Hooks that go straight into an opening and drop behind its lower edge."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.shapes.outline import polygon
from cleatwright.shapes.solid import Solid, across

INTO_MM = 1.0
CHAMFER_MM = 0.8


@dataclass(frozen=True)
class DropHook:
    """The profile of a hook for an opening whose lower edge is at z = 0.

    Args:
        opening_mm: Height of the opening.
        lip_mm: Thickness of what the hook reaches through.
        play_mm: Play, both through and over the lip.
        drop_mm: How far it drops behind the lower edge.
        nose_mm: Thickness of the nose.
    """

    opening_mm: float
    lip_mm: float
    play_mm: float
    drop_mm: float
    nose_mm: float

    @property
    def bar_mm(self) -> float:
        """Return the height of the bar; bar and drop go through the opening together."""
        return self.opening_mm - self.play_mm - self.drop_mm

    @property
    def behind_mm(self) -> float:
        """Return how far it reaches behind the plate."""
        return self.lip_mm + self.play_mm + self.nose_mm

    def solid(self, x0: float, x1: float) -> Solid:
        """Return the hook between two places along the wall."""
        deep, end = self.lip_mm + self.play_mm, self.behind_mm
        top, low = self.bar_mm, -self.drop_mm
        profile = polygon(
            [
                (INTO_MM, 0.0),
                (INTO_MM, top),
                (-end + CHAMFER_MM, top),
                (-end, top - CHAMFER_MM),
                (-end, low + CHAMFER_MM),
                (-end + CHAMFER_MM, low),
                (-deep, low),
                (-deep, 0.0),
            ]
        )
        return across(profile, x0, x1)
