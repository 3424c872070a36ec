"""How plates in the grooves of a back hold it on a board, a profile or a wall."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.parts.hanger_groove import HangerGroove
from cleatwright.parts.screw_strength import ScrewStrength


@dataclass(frozen=True)
class HookBar:
    """The bar of a hook that goes through a board and rests in its hole or slot.

    Args:
        wide_mm: Its width along the board.
        high_mm: Its height.
        drop_mm: How far its nose catches below it behind the board.
        lever_mm: How far before the plate's back the board carries it.
    """

    wide_mm: float
    high_mm: float
    drop_mm: float
    lever_mm: float


@dataclass(frozen=True)
class GrooveHold:
    """Plates whose tongues sit in the grooves of a back; heights in the frame of the holder.

    Args:
        groove: All tongues where they sit in the back.
        tongues_mm: The middle of each tongue along the back.
        tongue_mm: Length of each.
        middle_mm: Height of the middle of the grooves.
        low_mm: The lowest height at which the back bears on the plates.
        foot_mm: The lowest height at which the plates bear on the wall.
        high_mm: The highest height at which the plates bear on the wall.
        rows_mm: Heights of the rows of screws or hooks, the upper one first.
        columns_mm: Where these stand along the back, one column in each plate.
        plate_mm: Thickness of the plates.
        pin_mm: Diameter of the pins that keep them in, and hooks down.
        section_mm: Width of all plates where they are weakest.
        bolt_mm: Height of the bolt that locks the lower end sideways; None without one.
        hook: The hooks, for a board.
        screw: What each screw may bear, where that is known.
    """

    groove: HangerGroove
    tongues_mm: tuple[float, ...]
    tongue_mm: float
    middle_mm: float
    low_mm: float
    foot_mm: float
    high_mm: float
    rows_mm: tuple[float, ...]
    columns_mm: tuple[float, ...]
    plate_mm: float
    pin_mm: float
    section_mm: float
    bolt_mm: float | None = None
    hook: HookBar | None = None
    screw: ScrewStrength | None = None
