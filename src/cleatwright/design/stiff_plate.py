"""How thick a plate on hangers must be between its tools, its hangers and its foot."""

from __future__ import annotations

import math

from cleatwright.kernels.mesh import MeshBody
from cleatwright.kernels.mesh.shell_cut import Shell
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed.guide_floor import SKIN_MM, WALLS_MM
from cleatwright.parts.holder import HolderPart
from cleatwright.printing.walls.loaded import Loaded
from cleatwright.printing.walls.plate import plate_alone_share, plate_share
from cleatwright.printing.walls.twist import twist_share
from cleatwright.statics.cleat import OwnWeight

STEP_MM = 0.5
# a thicker plate weighs more, and a mark is cut into it
MOST = 0.95


def stiff_plate_mm(
    part: HolderPart, body: MeshBody, own: OwnWeight, settings: MountSettings
) -> float:
    """Return how thick the plate of a holder must be with three walls; as it is where that bears.

    It is bent between its tools, its hangers and its foot, where mostly the plate alone is enough,
    and twisted.

    Args:
        part: The holder.
        body: Its mesh; it counts as flat on its back on the bed.
        own: Its own weight on the heavy side.
        settings: How thick its plate is, and what it must bear.
    """
    thick = settings.plate_mm
    hold = part.hanging.hold
    if hold is None:
        return thick
    shell = Shell("y", WALLS_MM, SKIN_MM)
    loaded = Loaded(body, part, own, settings, shell)
    share = twist_share(loaded, hold) / MOST
    if plate_alone_share(loaded, hold) > MOST:
        share = max(share, plate_share(loaded, hold) / MOST)
    if share <= 1.0:
        return thick
    # its strength grows by less than the square of its thickness where ribs stand on it
    return thick + STEP_MM * max(1, math.floor(thick * (math.sqrt(share) - 1.0) / STEP_MM))
