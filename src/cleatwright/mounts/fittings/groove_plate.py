"""Plates whose tongue slides into the groove of a holder's back, in place of a hanger.

section            from the front                 lower end of a plate with a bolt

 board │▓│ ABOVE     ┌─────┐                        │  plate   │
       │▓│ ◎         │  ◎  │ row                    │   ┌──┐   │ ← as the lower edge of a rail
       │▓╲___        │     │                        │   │  │   │
       │▓    │       ╞═════╡ tongue                 └───┘  └───┘
       │▓╱‾‾‾        │     │                        CHEEK  FORK
       │▓│ z = 0     │     │ as the bevel contact
       │▓│ -BELOW    └─────┘

It carries the front just where hangers would, so that the back of the holder stays as it is. It
lies flat between the back and the wall, and the pin of the groove keeps it there. A bolt goes
between its cheeks as it would go under a rail, and keeps the lower end from swinging sideways.
"""

from __future__ import annotations

from collections.abc import Sequence

from pydantic import Field

from cleatwright.features.filament_pin import HOLE_MM, PIN_MM
from cleatwright.features.screw_hole import screw_hole
from cleatwright.mounts.fittings import bolt
from cleatwright.mounts.fittings.board_hook import HEAD_MM, LAP_MM
from cleatwright.mounts.fittings.fitting_kind import FittingKind, FittingParams, fitting_part
from cleatwright.mounts.fittings.hanger import DEEP_MM, MIDDLE_MM, dovetail
from cleatwright.parts.holder import HolderPart
from cleatwright.shapes.outline import circle, polygon
from cleatwright.shapes.solid import Difference, Solid, across, block, joined, prism

FORK_PLAY_MM = 0.3
FORK_HALF_MM = bolt.WIDTH_MM / 2 + FORK_PLAY_MM
CHEEK_MM = 4.0
FORK_MM = 2 * (FORK_HALF_MM + CHEEK_MM)
# about the neck of a hook in its slot
SLOT_PLAY_MM = 0.1
PAST_MM = 1.0
WALL_MM = 2.0
# the outer corner of each of two plates that are not alike, so that none goes on the other side
CORNER_MM = 3.0
# above and below the middle of the groove it bears on all of the back that it covers there
BAND_MM = 8.5


class PlateParams(FittingParams):
    """A plate, its tongue, and the fork for a bolt; heights from the middle of a hanger's hook."""

    thick_mm: float = Field(ge=5.0, le=12.0, description="a tip of a bolt goes into it")
    width_mm: float = Field(ge=8.0, le=120.0, description="along the wall")
    tongue_from_mm: float = Field(ge=0.0, le=110.0, description="where its tongue begins")
    tongue_mm: float = Field(ge=10.0, le=40.0, description="as long as a hanger would be")
    above_mm: float = Field(ge=12.0, le=400.0, description="its upper end")
    below_mm: float = Field(ge=3.0, le=400.0, description="how far its lower end lies below")
    fork_mm: float = Field(
        default=0.0, ge=0.0, le=120.0, description="the middle of a bolt; 0 for none"
    )
    roof_mm: float = Field(
        default=0.0, ge=0.0, le=400.0, description="how far below the bolt's edge lies"
    )
    column_mm: float = Field(ge=0.0, le=120.0, description="where screws or hooks stand")
    half_mm: float = Field(
        ge=4.0, le=40.0, description="as wide on both sides of these, above and below its tongue"
    )
    upper_mm: float = Field(ge=-400.0, le=400.0, description="height of the upper one")
    lower_mm: float = Field(ge=-400.0, le=400.0, description="of the lower one; the same for one")
    rows: float = Field(ge=1.0, le=12.0, description="how many there are, evenly apart")
    corner: float = Field(
        default=0.0,
        ge=-1.0,
        le=1.0,
        description="1 for an upper corner cut off where x ends, -1 where it begins; 0 for none",
    )

    @property
    def heights_mm(self) -> tuple[float, ...]:
        """Return the heights of its screws or hooks, the upper one first."""
        count = round(self.rows)
        if count == 1:
            return (self.upper_mm,)
        step = (self.upper_mm - self.lower_mm) / (count - 1)
        return tuple(self.upper_mm - k * step for k in range(count))


class ScrewPlateParams(PlateParams):
    """A plate with holes for countersunk wood screws, or for machine screws."""

    screw_mm: float = Field(
        default=0.0, ge=0.0, le=6.0, description="wood screw; 0 for a machine screw"
    )
    bore_mm: float = Field(
        default=0.0, ge=0.0, le=12.0, description="plain hole for a machine screw"
    )


class HookPlateParams(PlateParams):
    """A plate with slots for hooks; a pin above the upper one keeps it from being lifted out."""

    wide_mm: float = Field(ge=2.0, le=60.0, description="of the hooks")
    bar_mm: float = Field(ge=1.5, le=50.0, description="height of their bars")
    drop_mm: float = Field(ge=0.8, le=10.0, description="of their noses")


def screw_shape(p: ScrewPlateParams) -> HolderPart:
    """Return a plate that is screwed on."""
    if p.screw_mm:
        hole: Solid = screw_hole(p.screw_mm, plate_mm=p.thick_mm).moved(0.0, -p.thick_mm, 0.0)
    else:
        hole = prism(circle(p.bore_mm), p.thick_mm + 2 * PAST_MM).turned("x", -90.0)
        hole = hole.moved(0.0, -p.thick_mm - PAST_MM, 0.0)
    cuts = [hole.moved(p.column_mm, 0.0, z) for z in p.heights_mm]
    return _plate(SCREW_PLATE.name, p, cuts, genus=len(cuts))


def hook_shape(p: HookPlateParams) -> HolderPart:
    """Return a plate that takes hooks; the rows are the heights of the undersides of their bars."""
    half = p.wide_mm / 2 + SLOT_PLAY_MM
    low, top = -p.drop_mm - SLOT_PLAY_MM, p.bar_mm + SLOT_PLAY_MM
    slot = block(-half, -p.thick_mm - PAST_MM, low, half, PAST_MM, top)
    pocket = block(-half, -HEAD_MM, low - LAP_MM - SLOT_PLAY_MM, half, PAST_MM, top)
    pin = prism(circle(HOLE_MM), p.thick_mm + 2 * PAST_MM).turned("x", -90.0)
    rows = p.heights_mm
    cuts = [cut.moved(p.column_mm, 0.0, z) for z in rows for cut in (slot, pocket)]
    at = p.upper_mm + pin_above_mm(p.bar_mm)
    cuts.append(pin.moved(p.column_mm, -p.thick_mm - PAST_MM, at))
    return _plate(HOOK_PLATE.name, p, cuts, genus=len(rows))


def pin_above_mm(bar_mm: float) -> float:
    """Return how far above the underside of a bar the middle of the pin lies that holds it down."""
    return bar_mm + PIN_MM / 2


def _plate(name: str, p: PlateParams, cuts: Sequence[Solid], *, genus: int) -> HolderPart:
    tail = dovetail(MIDDLE_MM, play_mm=0.0, behind_mm=0.0)
    near, far = p.column_mm - p.half_mm, p.column_mm + p.half_mm
    left, right = near, far
    if p.fork_mm:
        # down to a bolt as wide as its cheeks, and as the hooks that it passes
        hooked = p.heights_mm[-1] < MIDDLE_MM
        left, right = p.fork_mm - FORK_MM / 2, p.fork_mm + FORK_MM / 2
        left, right = (min(left, near), max(right, far)) if hooked else (left, right)
    # behind the groove, where it is as wide as all of it
    low, high = max(-p.below_mm, MIDDLE_MM - BAND_MM), min(p.above_mm, MIDDLE_MM + BAND_MM)
    body = joined(
        block(near, -p.thick_mm, low, far, 0.0, p.above_mm),
        block(0.0, -p.thick_mm, low, p.width_mm, 0.0, high),
        block(left, -p.thick_mm, -p.below_mm, right, 0.0, high),
        across(
            polygon([*tail, (-1.0, tail[-1][1]), (-1.0, tail[0][1])]),
            p.tongue_from_mm,
            p.tongue_from_mm + p.tongue_mm,
        ),
    )
    fork: tuple[Solid, ...] = ()
    if p.fork_mm:
        x0, x1 = p.fork_mm - FORK_HALF_MM, p.fork_mm + FORK_HALF_MM
        y0 = -p.thick_mm - PAST_MM
        fork = (block(x0, y0, -p.below_mm - PAST_MM, x1, PAST_MM, -p.roof_mm),)
    return fitting_part(
        name,
        f"{p.width_mm:g}x{p.above_mm + p.below_mm:g}",
        Difference(body, (*cuts, *fork, *_corner(p, near, far))),
        bounds_mm=((0.0, -p.thick_mm, -p.below_mm), (p.width_mm, DEEP_MM, p.above_mm)),
        min_wall_mm=WALL_MM,
        genus=genus,
        pose="on-its-back",
    )


def _corner(p: PlateParams, near_mm: float, far_mm: float) -> tuple[Solid, ...]:
    """Return what is cut off the outer upper corner of a plate, if anything is."""
    if not p.corner:
        return ()
    x, out = (far_mm, 1.0) if p.corner > 0.0 else (near_mm, -1.0)
    beyond = CORNER_MM + PAST_MM
    # a prism turned on its side has its outline upside down
    corners = [
        (x - out * beyond, -p.above_mm - PAST_MM),
        (x + out * PAST_MM, -p.above_mm - PAST_MM),
        (x + out * PAST_MM, -p.above_mm + beyond),
    ]
    triangle = polygon(corners if out > 0.0 else corners[::-1])
    cut = prism(triangle, p.thick_mm + 2 * PAST_MM).turned("x", -90.0)
    return (cut.moved(0.0, -p.thick_mm - PAST_MM, 0.0),)


SCREW_PLATE = FittingKind(
    name="screw-plate",
    title="Plate that is screwed to a wall or a profile and carries a holder by its groove",
    params=ScrewPlateParams,
    shape=screw_shape,
)
HOOK_PLATE = FittingKind(
    name="hook-plate",
    title="Plate that takes the hooks of a board and carries a holder by its groove",
    params=HookPlateParams,
    shape=hook_shape,
)
