"""Shelf with square posts, for sockets that stand over them on their driving square.

seen from the front                 section through a post

  ┌────┐  ┌──────┐                  ║plate │ socket │
  │ ╱╲ │  │ ╱──╲ │  ← post          ║      │  ╱──╲  │  ← lead-in
  │ ││ │  │ │  │ │                  ║      │  │  │  │  ← post
──┴─┴┴─┴──┴─┴──┴─┴──  ← z = 0       ║──────┴──┴──┴┴─┐   ← shelf
 │     │     │     │                ║ ╲_____________│
                                    ║  ╲ ribs, near enough to bridge
     post = square - play            way out: up past the post, then out
"""

from __future__ import annotations

from collections.abc import Sequence

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.clearance import CLEAR_MM, up_and_out
from cleatwright.features.layout import row
from cleatwright.features.mark_room import mark_below
from cleatwright.features.outward import LEAST_PLATE_MM, group_leading
from cleatwright.features.ribs import RIB_MM, ribs
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import SquareDrive
from cleatwright.parts.holder import Front, Seat
from cleatwright.parts.tool import FittedTool, Size, ToolBody
from cleatwright.shapes.outline import rectangle
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid, Union, block, prism

# a post is thinner than its square by play and correction, and must not snap
SMALLEST_MM = 6.0
SHALLOWEST_MM = 6.0
MARGIN_MM = 1.0
LEAD_IN_MM = 1.0
# the shelf carries a socket to this share of its width in front of its axis
BEARING_SHARE = 0.3
LEAST_BEARING_MM = 3.0


class Params(FamilyParams):
    """What can be chosen about a rail of square posts.

    Sockets are taken from above by finger tips, which need much less room than a hand; the
    gap is therefore a parameter of its own.
    """

    gap_mm: float = Field(
        default=5.0, ge=3.0, le=30.0, description="two finger tips take one socket among others"
    )
    share: float = Field(
        default=0.8, ge=0.6, le=0.9, description="part of the square's depth that the post fills"
    )
    most_mm: float = Field(
        default=14.0, ge=8.0, le=25.0, description="a higher post means a longer lift"
    )
    shelf_mm: float = Field(default=4.0, ge=3.0, le=12.0, description="thinner shelves bend")
    lift_mm: float = Field(
        default=1.0, ge=0.5, le=10.0, description="room above the post on the way"
    )


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a row of sockets."""
    grips = [tool.body.needed_grip(SquareDrive) for tool in group]
    sizes = [_post(tool, grip) for tool, grip in zip(group, grips, strict=True)]
    line = row(
        [tool.body.width_mm for tool in group],
        gap_mm=p.gap_mm,
        margin_mm=MARGIN_MM,
        least_mm=LEAST_PLATE_MM,
    )
    axis = ctx.plate_mm + CLEAR_MM + max(-tool.body.extent_mm[0][1] for tool in group)
    bearings = [
        max(size.made_mm / 2 + LEAST_BEARING_MM, BEARING_SHARE * grip.body_mm)
        for size, grip in zip(sizes, grips, strict=True)
    ]
    reach = axis + max(bearings)
    pieces: list[Solid] = [
        block(0.0, 0.0, -p.shelf_mm, line.width_mm, reach, 0.0),
        ribs(
            line.width_mm,
            plate_mm=ctx.plate_mm,
            tops=[
                (reach, -p.shelf_mm),
                (reach, -p.shelf_mm / 2),
                (0.0, -p.shelf_mm / 2),
            ],
        ),
    ]
    seats: list[Seat] = []
    for tool, grip, size, x in zip(group, grips, sizes, line.centres_mm, strict=True):
        high = min(p.share * grip.depth_mm, p.most_mm)
        half, root = size.made_mm / 2, p.shelf_mm / 2
        square = rectangle(x - half, axis - half, x + half, axis + half)
        post = prism(square, high + root, top_chamfer_mm=LEAD_IN_MM)
        pieces.append(post.moved(0.0, 0.0, -root))
        moves = up_and_out(tool.body, up_mm=high + p.lift_mm, axis_mm=axis, reach_mm=reach)
        seats.append(Seat(tool.body, shift(x, axis, -grip.z_mm), moves, (size,)))
    highest = max(min(p.share * grip.depth_mm, p.most_mm) for grip in grips)
    low = -p.shelf_mm - (reach - ctx.plate_mm)
    mark, plate_low = mark_below(line.width_mm, low_mm=low, plate_mm=ctx.plate_mm)
    return Front(
        solid=Union(tuple(pieces)),
        width_mm=line.width_mm,
        plate_low_mm=plate_low,
        plate_high_mm=0.0,
        reach_mm=reach,
        low_mm=low,
        high_mm=highest,
        seats=tuple(seats),
        genus=0,
        min_wall_mm=min(RIB_MM, p.shelf_mm),
        mark_place=mark,
        leading=group_leading([grip.square_mm for grip in grips]),
    )


def _post(tool: FittedTool, grip: SquareDrive) -> Size:
    """Return the width of the post: play and correction are taken off what goes inside."""
    opening = tool.size("square post", grip.square_mm)
    return Size(opening.label, opening.measured_mm, -opening.play_mm, -opening.correction_mm)


def refuses(tool: ToolBody) -> str | None:
    """Return why a socket cannot stand here, or None."""
    grip = tool.needed_grip(SquareDrive)
    if grip.square_mm < SMALLEST_MM:
        return (
            f"its square of {said.mm(grip.square_mm)} is less than {said.mm(SMALLEST_MM)}, and a "
            "post in it would snap"
        )
    if grip.depth_mm < SHALLOWEST_MM:
        return (
            f"its square is {said.mm(grip.depth_mm)} deep only, and a post of less than "
            f"{said.mm(SHALLOWEST_MM)} does not keep it"
        )
    return None


FAMILY = Family(
    name="square-post-rail",
    title="Shelf with square posts, for sockets that stand over them",
    grip=SquareDrive,
    params=Params,
    build=build,
    refuses=refuses,
)
