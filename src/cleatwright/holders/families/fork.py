"""Two prongs per tool, for heads that are wider than the neck below them.

seen from above                  section beside the neck

══════════ plate ═════════       ║plate
  │  │   ┌────┐   │  │           ║              ╱─┐  ← lip
  │  │   │neck│   │  │           ║─────────────╱  │  ← prong top, z = 0: the head rests here
  │  │   └────┘   │  │           ║────────────────┘
  └──╲            ╱──┘           ║ ╲ web
      slot = neck + play           way out: up over the lips, then out
"""

from __future__ import annotations

from collections.abc import Sequence

from pydantic import Field

from cleatwright.base import said
from cleatwright.features.clearance import CLEAR_MM
from cleatwright.features.lipped_row import ArmShape, Hung, LippedRow, lipped_row
from cleatwright.features.root import COVE_MM
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import Overhang
from cleatwright.parts.holder import Front
from cleatwright.parts.tool import FittedTool, ToolBody
from cleatwright.shapes.outline import Outline, polygon
from cleatwright.shapes.solid import Difference, PrismRow, Solid, Union, across

LEAST_OVERHANG_MM = 6.0
MOST_BEARING_MM = 12.0
# the thickest prong, the highest lip and the most lift must pass the neck before it swells
LEAST_NECK_MM = 24.0
# a loose fit and a large correction widen the slot by less
MOST_PLAY_MM = 2.0
# the thickest prong, the highest lip and the most lift: how far a neck goes past the webs
PAST_PRONG_MM = 12.0 + 7.0 + 4.0
FLARE_MM = 2.0
WEB_MM = 4.0
# cuts go on so far outside of what they cut
PAST_MM = 1.0


class Params(FamilyParams):
    """What can be chosen about a fork."""

    prong_mm: float = Field(default=8.0, ge=6.0, le=12.0, description="thin prongs bend")
    lip_mm: float = Field(default=4.0, ge=2.5, le=7.0, description="kept, yet soon lifted over")
    lift_mm: float = Field(default=1.0, ge=0.5, le=4.0, description="room above the lip")


def build(group: Sequence[FittedTool], p: Params, ctx: BuildContext) -> Front:
    """Return the front for a row of tools with heads."""
    hung: list[Hung] = []
    for tool in group:
        grip = tool.body.needed_grip(Overhang)
        slot = tool.size("slot", grip.neck_x_mm)
        depth = tool.size("prong length", grip.head_y_mm)
        arms = slot.made_mm + 2 * _bearing_mm(tool.body, grip, slot.made_mm)
        hung.append(Hung(tool, grip.z_mm, slot, depth, arms))
    shape = ArmShape(p.prong_mm, p.lip_mm, p.lift_mm, ctx.plate_mm)
    row = lipped_row(hung, shape, hand_room_mm=ctx.hand_room_mm)
    least = min((h.arms_mm - h.across.made_mm) / 2 for h in hung)
    return row.front(_prongs(row), min_wall_mm=min(WEB_MM, least - FLARE_MM))


def _beside_mm(tool: ToolBody, grip: Overhang) -> float:
    """Return what must pass between the webs: the neck alone where it goes on past them."""
    half = (grip.head_y_mm + MOST_PLAY_MM) / 2
    webs = CLEAR_MM + max(-tool.extent_mm[0][1], half) + half
    return grip.neck_x_mm if grip.neck_length_mm >= webs + PAST_PRONG_MM else grip.handle_x_mm


def _bearing_mm(tool: ToolBody, grip: Overhang, slot_mm: float) -> float:
    """Return how wide a prong is: enough to carry, and its web beside a swollen handle."""
    beside = (_beside_mm(tool, grip) - slot_mm) / 2 + CLEAR_MM + WEB_MM
    return min(max(MOST_BEARING_MM, beside), (grip.head_x_mm - slot_mm) / 2)


def _prongs(row: LippedRow) -> Solid:
    """Return all prongs: one profile for each pair, less the slots and the room between webs."""
    inside = row.shape.plate_mm - PAST_MM
    whole: list[Solid] = []
    slots: list[Outline] = []
    bays: list[Solid] = []
    for h, x, lip_y in zip(row.hung, row.line.centres_mm, row.lips_mm, strict=True):
        half, slot = h.arms_mm / 2, h.across.made_mm / 2
        whole.append(across(row.webbed(lip_y), x - half, x + half))
        slots.append(_slot(slot, y0=inside, end=row.end_mm(lip_y)).moved(x, 0.0))
        # the webs keep to the outside, so that a neck which swells lower down has room
        bays.append(across(_bay(row), x - half + WEB_MM, x + half - WEB_MM))
    low, high = row.low_mm - PAST_MM, row.shape.lip_mm + PAST_MM
    cut = PrismRow(tuple(slots), high - low).moved(0.0, 0.0, low)
    return Difference(Union(tuple(whole)), (cut, *bays))


def _slot(half_mm: float, *, y0: float, end: float) -> Outline:
    """Return a slot from above, about x = 0, flared where the neck enters."""
    wide = half_mm + FLARE_MM + PAST_MM
    mouth = [(half_mm, end - FLARE_MM), (wide, end + PAST_MM)]
    return polygon([(half_mm, y0), *mouth, *((-x, y) for x, y in mouth[::-1]), (-half_mm, y0)])


def _bay(row: LippedRow) -> Outline:
    """Return the (y, z) profile of the room below the prongs, which leaves a cove at the plate."""
    under, plate = -row.shape.thick_mm, row.shape.plate_mm
    low, far = row.low_mm - PAST_MM, row.reach_mm + PAST_MM
    return polygon(
        [
            (plate - PAST_MM, low),
            (far, low),
            (far, under),
            (plate + COVE_MM, under),
            (plate - PAST_MM, under - COVE_MM - PAST_MM),
        ]
    )


def refuses(tool: ToolBody) -> str | None:
    """Return why a tool with a head cannot hang here, or None."""
    grip = tool.needed_grip(Overhang)
    overhang = (grip.head_x_mm - grip.neck_x_mm) / 2
    if overhang < LEAST_OVERHANG_MM:
        return (
            f"its head reaches only {said.mm(overhang)} over its neck on each side, and less than "
            f"{said.mm(LEAST_OVERHANG_MM)} does not rest safely on a prong"
        )
    if grip.head_x_mm < _beside_mm(tool, grip) + 2 * (CLEAR_MM + WEB_MM) + MOST_PLAY_MM:
        return (
            f"its handle swells to {said.mm(grip.handle_x_mm)}, which leaves no room for webs "
            f"beside it under a head of {said.mm(grip.head_x_mm)}"
        )
    if grip.neck_length_mm < LEAST_NECK_MM:
        return (
            f"its neck keeps its size for {said.mm(grip.neck_length_mm)} only, and the slot must "
            f"pass {said.mm(LEAST_NECK_MM)} of it while the head is lifted over the lip"
        )
    return None


FAMILY = Family(
    name="fork",
    title="Two prongs on which a head rests, its neck between them",
    grip=Overhang,
    params=Params,
    build=build,
    refuses=refuses,
)
