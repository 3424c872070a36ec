"""A pad before a plate with a pocket for a stack of disc magnets, one above the other.

from the front         section

┌──┬────┬──┐          ║┌─┐│    the pocket is open at the top: the discs slide in
│  │ () │  │          ║│█││
│  │ () │  │          ║│█││ ← skin towards the tool
│  ╰────╯  │          ║└─┘│
└──────────┘          ║───┘
                      ║ ╱  45 degrees
"""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.features.outward import outward
from cleatwright.features.root import gusset
from cleatwright.shapes.outline import Outline
from cleatwright.shapes.solid import Difference, Solid, block, joined

POCKET_PLAY_MM = 0.3
SIDE_MM = 2.0
BOTTOM_MM = 2.0
# glue covers the uppermost disc
TOP_MM = 1.0


@dataclass(frozen=True)
class Discs:
    """A stack of equal disc magnets behind a skin.

    Args:
        diameter_mm: Diameter of a disc.
        thickness_mm: Thickness of a disc.
        skin_mm: Plastic between the pocket and the tool.
        count: Discs in the stack.
    """

    diameter_mm: float
    thickness_mm: float
    skin_mm: float
    count: int = 1

    @property
    def gap_mm(self) -> float:
        """Return the skin and all of the pocket's play, since a disc may lie at the back."""
        return self.skin_mm + POCKET_PLAY_MM

    @property
    def depth_mm(self) -> float:
        """Return how deep a pad must be, from the plate to its face."""
        return self.thickness_mm + self.gap_mm

    @property
    def middle_mm(self) -> float:
        """Return the height of the stack's middle above the pad's lower edge."""
        return BOTTOM_MM + self.count * self.diameter_mm / 2

    def height_mm(self, correction_mm: float = 0.0) -> float:
        """Return the height of the pad."""
        play = POCKET_PLAY_MM + correction_mm
        return BOTTOM_MM + self.count * self.diameter_mm + play + TOP_MM

    def width_mm(self, correction_mm: float = 0.0) -> float:
        """Return the width of the pad."""
        return self.diameter_mm + POCKET_PLAY_MM + correction_mm + 2 * SIDE_MM


def pad(discs: Discs, x: float, *, plate_mm: float, face_mm: float, correction_mm: float) -> Solid:
    """Return the pad about ``x`` with its lower edge at z = 0 and its face at ``face_mm``.

    Args:
        discs: The magnets.
        x: Middle of the pad.
        plate_mm: The plate's front.
        face_mm: The y on which the tool lies, at least the discs' depth before the plate.
        correction_mm: The printer's own correction of an opening.
    """
    half, height = discs.width_mm(correction_mm) / 2, discs.height_mm(correction_mm)
    hole = half - SIDE_MM
    foot = BOTTOM_MM + hole
    pocket = Outline(
        ((-hole, foot), (hole, foot), (hole, height + 1.0), (-hole, height + 1.0)),
        (1.0, 0.0, 0.0, 0.0),
    )
    front = face_mm - discs.skin_mm
    back = front - discs.thickness_mm - POCKET_PLAY_MM - correction_mm
    body = block(x - half, 0.0, 0.0, x + half, face_mm, height)
    web = gusset(x - half, x + half, plate_mm=plate_mm, reach_mm=face_mm - plate_mm, z_mm=0.0)
    return joined(Difference(body, (outward(pocket, x, y0=back, y1=front),)), web)
