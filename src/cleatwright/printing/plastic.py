"""How much plastic a part takes as it is printed: walls, floors and roofs, and infill.

Walls and skins are closed; of what lies behind them a share is filled. The volume behind them comes
from cuts through the part as it lies on the bed, each offset inwards by its walls.
Source: common practice of filament printing, no source.
"""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.keys import content_key
from cleatwright.base.stages.codec import JsonCodec
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.kernels.mesh import MeshBody
from cleatwright.kernels.mesh.layers import inside_mm3
from cleatwright.shapes.rigid import Rigid

# of a part 60 mm high a cut each 0.45 mm, that is two in each skin
MOST_CUTS = 160


@dataclass(frozen=True)
class Filling:
    """How the inside of a part is printed.

    Args:
        walls: How many lines make a wall (>= 1).
        line_mm: Width of one of them.
        skin_mm: Thickness of floors and roofs.
        infill: Share of the rest that is filled, 0 to 1.
    """

    walls: int
    line_mm: float
    skin_mm: float
    infill: float


@dataclass(frozen=True, eq=False)
class ToFill:
    """A part as it lies on the bed.

    Args:
        body: The part in its own frame.
        shape_key: The key of its mesh.
        turned: How it is turned on the bed.
        filling: How its inside is printed.
    """

    body: MeshBody
    shape_key: str
    turned: Rigid
    filling: Filling


def _plastic(_: Run, given: ToFill) -> float:
    how = given.filling
    inside = inside_mm3(
        given.body,
        given.turned,
        walls_mm=how.walls * how.line_mm,
        skin_mm=how.skin_mm,
        most_cuts=MOST_CUTS,
    )
    return given.body.facts.volume_mm3 - (1.0 - how.infill) * inside


def _key(given: ToFill) -> str:
    return content_key((given.shape_key, given.turned, given.filling))


PLASTIC = Stage("plastic of a part", _plastic, _key, codec=JsonCodec(float))
"""From a part on the bed to the volume of the plastic that it takes, in mm3."""
