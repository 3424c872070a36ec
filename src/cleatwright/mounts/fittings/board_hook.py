"""Hook of a board, which is put through its plate from the front.

profile along x, seen from the left

     board  plate
      ║║   │▒▒▒│
  ╭───╨╨───┴───┤ BAR
  │  ┌──────┐  │        z = 0: rests in the hole
  ╰──┘║║   └─┐ │ -DROP
      ║║   │▒└─┘ head, LAP lower
             -THICK  y = 0: the back of the holder, which keeps it in

Printed on its side it has its layers along all forces. A hook that breaks is one small print.
"""

from __future__ import annotations

from pydantic import Field

from cleatwright.mounts.fittings.fitting_kind import FittingKind, FittingParams, fitting_part
from cleatwright.parts.holder import HolderPart
from cleatwright.shapes.outline import polygon
from cleatwright.shapes.solid import across

# flush, so that a plate never stands on the heads of its hooks
SUNK_MM = 0.2
HEAD_MM = 2.0
LAP_MM = 2.0
CHAMFER_MM = 0.6


class BoardHookParams(FittingParams):
    """The opening of a board, and the plate through which its hook is put."""

    wide_mm: float = Field(ge=2.0, le=60.0, description="goes through the opening")
    bar_mm: float = Field(ge=1.5, le=50.0, description="height of its bar")
    drop_mm: float = Field(ge=0.8, le=10.0, description="of its nose behind the board")
    lip_mm: float = Field(ge=0.5, le=26.0, description="thickness of the board, and play")
    nose_mm: float = Field(ge=2.0, le=6.0, description="thickness of its nose")
    thick_mm: float = Field(ge=5.0, le=12.0, description="of its plate")


def shape(p: BoardHookParams) -> HolderPart:
    """Return a hook; y = 0 is the front of its plate, z = 0 the underside of its bar."""
    deep = p.thick_mm + p.lip_mm
    end = deep + p.nose_mm
    profile = polygon(
        [
            (-SUNK_MM, -p.drop_mm - LAP_MM),
            (-SUNK_MM, p.bar_mm),
            (-end + CHAMFER_MM, p.bar_mm),
            (-end, p.bar_mm - CHAMFER_MM),
            (-end, -p.drop_mm + CHAMFER_MM),
            (-end + CHAMFER_MM, -p.drop_mm),
            (-deep, -p.drop_mm),
            (-deep, 0.0),
            (-p.thick_mm, 0.0),
            (-p.thick_mm, -p.drop_mm),
            (-HEAD_MM, -p.drop_mm),
            (-HEAD_MM, -p.drop_mm - LAP_MM),
        ]
    )
    return fitting_part(
        KIND.name,
        f"{p.wide_mm:g}x{p.bar_mm:g}",
        across(profile, 0.0, p.wide_mm),
        bounds_mm=(
            (0.0, -end, -p.drop_mm - LAP_MM),
            (p.wide_mm, -SUNK_MM, p.bar_mm),
        ),
        min_wall_mm=min(p.bar_mm, p.wide_mm, p.nose_mm, HEAD_MM - SUNK_MM),
    )


KIND = FittingKind(
    name="board-hook",
    title="Hook of a board",
    params=BoardHookParams,
    shape=shape,
)
