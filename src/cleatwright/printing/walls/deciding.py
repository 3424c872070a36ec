"""How many lines the walls of a part need."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.keys import content_key
from cleatwright.base.stages.codec import JsonCodec
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.kernels.mesh import MeshBody
from cleatwright.kernels.mesh.shell_cut import Shell
from cleatwright.mounts.mount import MountSettings
from cleatwright.parts.holder import HolderPart
from cleatwright.printing.walls.arms import arms_share
from cleatwright.printing.walls.loaded import Loaded, axis_of
from cleatwright.printing.walls.plate import back_share
from cleatwright.printing.walls.twist import twist_share
from cleatwright.statics.cleat import OwnWeight


@dataclass(frozen=True)
class LinesOf:
    """The lines of a printer.

    Args:
        least: How many make a wall at the least.
        most: How many make one where nothing shows that fewer do.
        line_mm: Width of one.
        skin_mm: Thickness of floors and roofs.
    """

    least: int
    most: int
    line_mm: float
    skin_mm: float


@dataclass(frozen=True, eq=False)
class ToWall:
    """A part whose walls are asked for.

    Args:
        key: Its content key.
        body: The part in the frame of a holder.
        part: Its seats, and how it hangs.
        own: Its own weight on the heavy side.
        settings: The margin on weights, and what a hand does.
        down: The side that lies on the bed, as "-y".
        lines: The lines of its printer.
    """

    key: str
    body: MeshBody
    part: HolderPart
    own: OwnWeight
    settings: MountSettings
    down: str
    lines: LinesOf


@dataclass(frozen=True)
class Walls:
    """How many lines make the walls of a part.

    Args:
        count: How many.
        share: The worst stress of its sections with so many, as a share of what they bear; None
            where it was not asked.
        fewest: Whether its printer has more lines to give, and so many are enough.
        twist: The same of its plate between tools, hangers and feet, where it hangs on hangers.
    """

    count: int
    share: float | None
    fewest: bool = False
    twist: float | None = None


def _walls(_: Run, given: ToWall) -> Walls:
    lines, body = given.lines, given.body.at_hand()
    share, twist = 0.0, None
    for count in range(min(lines.least, lines.most), lines.most + 1):
        shell = Shell(axis_of(given.down), count * lines.line_mm, lines.skin_mm)
        loaded = Loaded(body, given.part, given.own, given.settings, shell)
        share = max(arms_share(loaded), back_share(loaded))
        hold = given.part.hanging.hold
        twist = None if hold is None else twist_share(loaded, hold)
        if max(share, twist or 0.0) <= 1.0:
            return Walls(count, share, count < lines.most, twist)
    return Walls(lines.most, share, twist=twist)


def _key(given: ToWall) -> str:
    return content_key((given.key, given.down, given.lines))


WALLS_OF_PART = Stage("walls of a part", _walls, _key, codec=JsonCodec(Walls))
"""From a part on the bed to how many lines make its walls."""
