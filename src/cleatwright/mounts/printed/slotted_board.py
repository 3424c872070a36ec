"""Slotted board: tabs that go through upright slots and drop behind the board.

section through one tab

  board
   ║║  plate
  ╭╨╨──┤│
  │ bar││  ← rests on the lower end of the slot
  │╥╥──┤│
  ╰╢║  ││  nose, catches behind the board
"""

from __future__ import annotations

from pydantic import Field

from cleatwright.features.drop_hook import CHAMFER_MM, DropHook
from cleatwright.features.flat_back import HookRoom, flat_back, hook_rows, pitch_columns
from cleatwright.mounts.grooves.cleat_back import CleatBack
from cleatwright.mounts.grooves.holding import held
from cleatwright.mounts.grooves.hooked import BoardHooks, hook_ways
from cleatwright.mounts.mount import InGrooves, Mount, MountParams, MountSettings, whole
from cleatwright.parts.holder import Front, HolderPart

NOSE_MM = 3.5
MOST_DROP_MM = 5.0
DROP_SHARE = 0.3
SPAN_MM = 130.0
EDGE_MM = 4.0


class SlottedBoardParams(MountParams):
    """What a slotted board is like; no standard gives its measures, so they are the owner's."""

    slot_width_mm: float = Field(ge=3.5, le=15.0, description="thin tabs shear off")
    slot_height_mm: float = Field(ge=9.0, le=60.0, description="room for a hook")
    pitch_mm: float = Field(
        ge=20.0, le=100.0, description="between slots, along and up; measure over ten"
    )
    board_mm: float = Field(ge=0.7, le=25.0, description="thickness of the board")
    play_mm: float = Field(default=0.5, ge=0.2, le=1.0, description="goes in, yet does not rattle")


def attach(family: str, front: Front, settings: MountSettings, p: SlottedBoardParams) -> HolderPart:
    """Return the part: front, plate and two rows of tabs."""
    hook = hook_of(p)
    room = HookRoom(above_mm=EDGE_MM + hook.bar_mm, below_mm=EDGE_MM + hook.drop_mm)
    back = flat_back(front, plate_mm=settings.plate_mm)
    back, upper, lower = hook_rows(front, back, room, pitch_mm=p.pitch_mm)
    half = (p.slot_width_mm - p.play_mm) / 2
    columns = pitch_columns(
        front.width_mm, pitch_mm=p.pitch_mm, edge_mm=half + EDGE_MM, span_mm=SPAN_MM
    )
    tabs = [hook.solid(x - half, x + half).moved(0, 0, z) for z in (upper, lower) for x in columns]
    return HolderPart(
        family=family,
        leading=front.leading,
        solid=whole(front, back.plate, *tabs),
        seats=front.seats,
        genus=front.genus,
        bounds_mm=back.bounds(front, behind_mm=hook.behind_mm),
        min_wall_mm=min(front.min_wall_mm, 2 * half, NOSE_MM - CHAMFER_MM),
        mark_places=back.mark_places,
        hanging=back.hanging(MOUNT.name),
        hardware=front.hardware,
    )


def hook_of(p: SlottedBoardParams) -> DropHook:
    """Return the hook that goes through a slot of the board."""
    drop = min(MOST_DROP_MM, DROP_SHARE * p.slot_height_mm)
    return DropHook(p.slot_height_mm, p.board_mm, p.play_mm, drop, NOSE_MM)


def _in_grooves(part: HolderPart, settings: MountSettings, p: SlottedBoardParams) -> HolderPart:
    hook, wide = hook_of(p), p.slot_width_mm - p.play_mm
    hooks = BoardHooks(wide, hook.bar_mm, hook.drop_mm, p.board_mm, p.play_mm, NOSE_MM, p.pitch_mm)
    return held(part, MOUNT.name, settings, hook_ways(CleatBack(part), hooks))


PUT_IN = (
    "To hang a holder, put its tabs straight into the nearest slots until its plate lies flat on "
    "the board, then let it down until it sits. To take it off, empty it, lift it straight up and "
    "draw it out."
)

HOOKS_IN = (
    "A holder on hook plates: put the hooks through their plates from the front, slide the "
    "plates into the grooves of its back from the sides until they stop, and press a pin of "
    "filament into the hole above each. A corner that is cut off points outwards. A single plate "
    "locks below: before it, put the bolt into its guide and draw it to the front; then push it "
    "tight. Put all hooks straight into the nearest slots until the plates lie flat on the "
    "board, let the holder down until it sits, and push a pin of filament through the hole above "
    "each upper hook, so that nothing can lift it out. To take it off, empty it, draw these "
    "pins, lift it straight up and draw it out."
)

MOUNT = Mount(
    name="slotted-board",
    title="Tabs that drop behind a slotted board",
    attach=attach,
    put_in=PUT_IN,
    openings="slots",
    pitch=lambda p: (p.pitch_mm, p.pitch_mm),
    on_rail=False,
    params=SlottedBoardParams,
    in_grooves=InGrooves(_in_grooves, HOOKS_IN),
    example=(
        ("board_mm", 6.0),
        ("pitch_mm", 37.0),
        ("slot_height_mm", 19.0),
        ("slot_width_mm", 4.5),
    ),
)
