"""Two ledges per bin, between fins, for bins that hang by the rim on their sides.

seen from the front (section)            seen from the side

 ╔═══════════════════╗  rim             ║plate           ┌╲  ← stop
 ╟┐                 ┌╢                  ║────────────────┘ │ ← ledge, z = 0
 ┃├─╲             ╱─┤┃  ← ledge         ║                  │
 ┃│  │    body   │  │┃                  ║                ╱
 ┃    slot = body + play                ║   fin        ╱ 45 degrees
 ┃ fin, shared with the neighbour       ║     ◇     ╱
   way out: up over the stops, then out
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

from pydantic import Field

from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.footed import diamond
from cleatwright.parts.grips import Rim
from cleatwright.parts.holder import Front, Seat
from cleatwright.parts.mark_room import mark_below
from cleatwright.parts.outward import group_leading
from cleatwright.parts.tool import FittedTool, ToolBody
from cleatwright.shapes.outline import polygon
from cleatwright.shapes.rigid import Rigid, shift
from cleatwright.shapes.solid import Solid, Union, across, prism

LEAST_RIM_MM = 3.0
# a wider rim lies on a ledge that is no wider than this
MOST_LEDGE_MM = 12.0
MOST_DEPTH_MM = 260.0
TIP_MM = 2.4
STOP_MM = 3.0
LEAD_IN_MM = 1.0
CLEAR_MM = 1.0
# a bin is pulled by its front, so that between two bins no hand has to go: a fin is enough
WINDOW_RIM_MM = 12.0
LEAST_WINDOW_MM = 8.0
_BURIED_MM = 0.5
_ACROSS = ((0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0))


class Params(FamilyParams):
    """What can be chosen about rim ledges."""

    fin_mm: float = Field(default=3.0, ge=2.4, le=6.0, description="thin fins sway")
    stop_mm: float = Field(default=5.0, ge=3.0, le=10.0, description="kept, yet soon lifted over")
    lift_mm: float = Field(default=1.0, ge=0.5, le=4.0, description="room above the stop")


@dataclass(frozen=True)
class _Bay:
    """One bin between its fins: from x0 to x1 inside, ledges, and where the stops begin."""

    x0: float
    x1: float
    ledge_mm: float
    front_mm: float


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a row of bins."""
    grips = [_grip(tool.body) for tool in group]
    sizes = [
        (
            tool.size("slot between the ledges", g.body_x_mm),
            tool.size("room for the rim", g.rim_x_mm),
            tool.size("ledge length", g.rim_y_mm),
        )
        for tool, g in zip(group, grips, strict=True)
    ]
    starts = list(accumulate((wide.made_mm + p.fin_mm for _, wide, _ in sizes), initial=p.fin_mm))
    back = ctx.plate_mm + CLEAR_MM
    bays = [
        _Bay(
            x0=x,
            x1=x + wide.made_mm,
            ledge_mm=min((wide.made_mm - slot.made_mm) / 2, MOST_LEDGE_MM),
            front_mm=back + long.made_mm,
        )
        for x, (slot, wide, long) in zip(starts, sizes, strict=False)
    ]
    reach = max(bay.front_mm for bay in bays) + STOP_MM
    fins = [
        _Fin(
            x=start - p.fin_mm,
            front_mm=max(bay.front_mm for bay in beside) + STOP_MM,
            drop_mm=max(bay.ledge_mm for bay in beside) + TIP_MM + 2 * _BURIED_MM,
        )
        for k, start in enumerate(starts)
        for beside in [bays[max(k - 1, 0) : k + 1]]
    ]
    seats = tuple(
        Seat(
            tool.body,
            shift((bay.x0 + bay.x1) / 2, back + three[2].made_mm / 2, -grip.z_mm),
            (
                (0.0, 0.0, p.stop_mm + p.lift_mm),
                (0.0, reach - back + CLEAR_MM, 0.0),
            ),
            three,
        )
        for tool, grip, bay, three in zip(group, grips, bays, sizes, strict=True)
    )
    low = min(fin.low_mm(ctx.plate_mm) for fin in fins)
    width = starts[-1]
    place, plate_low = mark_below(width, low_mm=low, plate_mm=ctx.plate_mm)
    return Front(
        solid=Union(
            (
                *(fin.solid(p, plate_mm=ctx.plate_mm) for fin in fins),
                *(part for bay in bays for part in _ledges(bay, p)),
            )
        ),
        width_mm=width,
        plate_low_mm=plate_low,
        plate_high_mm=p.stop_mm,
        reach_mm=reach,
        low_mm=low,
        high_mm=p.stop_mm,
        seats=seats,
        genus=sum(fin.window_mm(ctx.plate_mm) > 0.0 for fin in fins),
        min_wall_mm=min(p.fin_mm, TIP_MM, STOP_MM - LEAD_IN_MM),
        mark_place=place,
        leading=group_leading([grip.rim_x_mm for grip in grips]),
    )


@dataclass(frozen=True)
class _Fin:
    """A fin from x on: its front end, and how deep the ledges beside it reach there."""

    x: float
    front_mm: float
    drop_mm: float

    def low_mm(self, plate_mm: float) -> float:
        return -self.drop_mm - (self.front_mm - plate_mm)

    def window_mm(self, plate_mm: float) -> float:
        """Return half the diagonal of the window in the fin, or zero."""
        half = (self.front_mm - plate_mm - (2 + 2**0.5) * WINDOW_RIM_MM) / 3
        return half if half >= LEAST_WINDOW_MM else 0.0

    def solid(self, p: Params, *, plate_mm: float) -> Solid:
        low, half = self.low_mm(plate_mm), self.window_mm(plate_mm)
        profile = polygon(
            [
                (0.0, low),
                (plate_mm, low),
                (self.front_mm, -self.drop_mm),
                (self.front_mm, p.stop_mm),
                (0.0, p.stop_mm),
            ]
        )
        centre = (plate_mm + WINDOW_RIM_MM + half, -self.drop_mm - WINDOW_RIM_MM - half)
        windows = (diamond(half, at=centre),) if half else ()
        return prism(profile, p.fin_mm, holes=windows).placed(Rigid(_ACROSS, (self.x, 0.0, 0.0)))


def _ledges(bay: _Bay, p: Params) -> list[Solid]:
    """Return both ledges of a bay with their stops; their undersides fall to the fins."""
    wide, length = bay.ledge_mm, bay.front_mm + STOP_MM
    deep = TIP_MM + wide + _BURIED_MM
    left = [(-_BURIED_MM, 0.0), (-_BURIED_MM, -deep), (wide, -TIP_MM), (wide, 0.0)]
    right = [(-x, z) for x, z in left[::-1]]
    lead = LEAD_IN_MM
    stop = polygon(
        [
            (bay.front_mm, -TIP_MM),
            (length, -TIP_MM),
            (length, p.stop_mm),
            (bay.front_mm + lead, p.stop_mm),
            (bay.front_mm, p.stop_mm - lead),
        ]
    )
    arms = [
        prism(polygon(corners), length).turned("x", 90.0).moved(x, length, 0.0)
        for corners, x in ((left, bay.x0), (right, bay.x1))
    ]
    stops = [
        across(stop, bay.x0 - _BURIED_MM, bay.x0 + wide),
        across(stop, bay.x1 - wide, bay.x1 + _BURIED_MM),
    ]
    return [*arms, *stops]


def _grip(tool: ToolBody) -> Rim:
    grip = tool.grip(Rim)
    assert grip is not None  # noqa: S101 - the registry asks why_not() before it builds
    return grip


def refuses(tool: ToolBody) -> str | None:
    """Return why a bin cannot hang here, or None."""
    grip = _grip(tool)
    rim = (grip.rim_x_mm - grip.body_x_mm) / 2
    if rim < LEAST_RIM_MM:
        return (
            f"its rim stands out by {rim:g} mm on each side, and less than {LEAST_RIM_MM:g} mm "
            f"does not rest safely on a ledge"
        )
    if grip.rim_y_mm > MOST_DEPTH_MM:
        return f"its rim is {grip.rim_y_mm:g} mm deep, and ledges over {MOST_DEPTH_MM:g} mm sag"
    return None


FAMILY = Family(
    name="rim-ledge",
    title="Ledges between fins, for bins that hang by their rim",
    grip=Rim,
    params=Params,
    build=build,
    refuses=refuses,
)
