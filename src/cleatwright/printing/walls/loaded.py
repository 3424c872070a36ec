"""A part as it is printed and loaded, and the stress that its layers bear."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.kernels.mesh import MeshBody
from cleatwright.kernels.mesh.shell_cut import Axis, CutAxis, Shell
from cleatwright.mounts.mount import MountSettings
from cleatwright.parts.holder import HolderPart
from cleatwright.parts.tool import GRAVITY_M_S2
from cleatwright.statics.arm_strength import (
    ACROSS_HAND_MPA,
    IN_PLANE_HAND_MPA,
    IN_PLANE_YEARS_MPA,
    LASTING_MPA,
)
from cleatwright.statics.cleat import OwnWeight


@dataclass(frozen=True, eq=False)
class Loaded:
    """A part as it is printed and loaded.

    Args:
        body: The part in the frame of a holder.
        part: Its seats, and how it hangs.
        own: Its own weight on the heavy side.
        settings: The margin on weights, and what a hand does.
        shell: Walls and skins of its print.
    """

    body: MeshBody
    part: HolderPart
    own: OwnWeight
    settings: MountSettings
    shell: Shell

    def years_mpa(self, axis: CutAxis) -> float:
        """Return what the section of a cut bears for years, less the margin on weights."""
        borne = LASTING_MPA if axis == self.shell.layers else IN_PLANE_YEARS_MPA
        return borne / self.settings.margin

    def own_nmm(self, turning_mm4: float) -> float:
        """Return the moment of a part of its own weight, from volume times distance."""
        return self.own.mass_kg / self.body.facts.volume_mm3 * GRAVITY_M_S2 * turning_mm4

    def hand_mpa(self, axis: CutAxis) -> float:
        """Return what it bears while a hand pulls."""
        return ACROSS_HAND_MPA if axis == self.shell.layers else IN_PLANE_HAND_MPA


def places_mm(low_mm: float, high_mm: float, count: int) -> tuple[float, ...]:
    """Return places from the lowest to the highest, evenly apart; none where there is no room.

    >>> places_mm(0.0, 4.0, 3)
    (0.0, 2.0, 4.0)
    """
    if high_mm <= low_mm:
        return ()
    return tuple(low_mm + (high_mm - low_mm) * k / (count - 1) for k in range(count))


def axis_of(down: str) -> Axis:
    """Return the axis along which the layers of a pose are stacked, as "y" of "-y"."""
    return "x" if down.endswith("x") else "y" if down.endswith("y") else "z"
