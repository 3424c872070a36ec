"""How many disc magnets a tool with a steel face takes, and where they lie on it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from cleatwright.features.clearance import CLEAR_MM
from cleatwright.holders.families.magnet_bar.magnet_pad import Discs
from cleatwright.parts.grips import Blade, SteelFace
from cleatwright.parts.tool import GRAVITY_M_S2, ToolBody
from cleatwright.statics.disc_magnet import derated_pull_n, strongest_pull_n
from cleatwright.statics.magnet_need import carrying_n, tipping_n_mm

# a toe ledge further below the balance point costs more plate than magnets cost money
MOST_TOE_MM = 100.0
MOST_TOE_WIDTH_MM = 40.0
MOST_DISCS = 40
# what a pad is taller at the largest correction of a printer
_CORRECTION_MM = 1.0


@dataclass(frozen=True)
class Stack:
    """The magnets of one tool, and where its pad's lower edge lies in the tool's frame.

    ``pull_n`` is what may be relied on, ``most_n`` what a hand may have to overcome.
    """

    discs: Discs
    pull_n: float
    low_mm: float
    most_n: float


def behind_mm(tool: ToolBody) -> float:
    """Return how far parts of the tool reach behind its face, above or below it."""
    return tool.needed_grip(SteelFace).y_mm - tool.extent_mm[0][1]


def toe_half_mm(tool: ToolBody) -> float:
    """Return half the width of the ledge below a tool; zero for a sharp or a long one."""
    if tool.grip(Blade) is not None or tool.com_mm[2] - tool.extent_mm[0][2] > MOST_TOE_MM:
        return 0.0
    return min(tool.width_mm, MOST_TOE_WIDTH_MM) / 2


def stack_for(tool: ToolBody, one: Discs, *, spare: float = 1.0) -> Stack | None:
    """Return the fewest discs that hold a tool, or None when its face has no room for them.

    Args:
        tool: The tool, with a steel face.
        one: One disc.
        spare: How many times the needed pull must be there (>= 1).
    """
    grip, weight = tool.needed_grip(SteelFace), tool.mass_kg * GRAVITY_M_S2
    pull = derated_pull_n(
        one.diameter_mm,
        one.thickness_mm,
        gap_mm=one.gap_mm,
        steel_mm=grip.thickness_mm,
        width_mm=grip.width_mm,
    )
    strongest = strongest_pull_n(
        one.diameter_mm, one.thickness_mm, gap_mm=one.skin_mm, width_mm=grip.width_mm
    )
    out = tool.com_mm[1] - grip.y_mm
    friction = 0.0 if toe_half_mm(tool) else carrying_n(weight)
    room = behind_mm(tool) + CLEAR_MM
    for count in range(1, MOST_DISCS + 1):
        discs = replace(one, count=count)
        height = discs.height_mm(_CORRECTION_MM)
        highest = grip.high_mm - room - height
        # the pull should act at the balance point or above it, or the tool swings round
        low = max(grip.low_mm + room, tool.com_mm[2] - discs.middle_mm)
        if low > highest:
            return None
        there = count * pull / spare
        if there >= friction and there * discs.middle_mm >= tipping_n_mm(weight, out_mm=out):
            return Stack(discs, count * pull, low, count * strongest)
    return None
