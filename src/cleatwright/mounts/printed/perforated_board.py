"""Perforated board: buttons that go through round holes and drop behind the board.

section through one button            seen from behind

  board                                 ╭───╮
   ║║  plate                           ╭┴───┴╮ hole
  ╭╫╫──┤│                              │╰───╯│
  │╫╫  ││  ← bar, rests in the hole    │     │ ← button, lower by the drop
  │╫╫──┤│                              ╰─────╯
  ╰─╢║  │
   ↔ board + play

Put the buttons through the holes, then let the holder down by the drop.
"""

from __future__ import annotations

import math

from pydantic import Field

from cleatwright.base.source import Evidence, Source
from cleatwright.features.flat_back import HookRoom, flat_back, hook_rows, pitch_columns
from cleatwright.mounts.grooves.cleat_back import CleatBack
from cleatwright.mounts.grooves.holding import held
from cleatwright.mounts.grooves.hooked import BoardHooks, hook_ways, round_hole_hook
from cleatwright.mounts.mount import InGrooves, Mount, MountParams, MountSettings, whole
from cleatwright.parts.holder import Front, HolderPart
from cleatwright.shapes.outline import Outline, circle
from cleatwright.shapes.solid import Solid, prism
from cleatwright.standards.table import Listed

SIZES = Source(
    "perforated board: holes of 1/4 in, 1 in apart, board of 1/4 in", "", Evidence.PRACTICE
)
BUTTON_MM = 3.0
# the button catches behind the board by this share of the hole
DROP_SHARE = 0.28
SPAN_MM = 110.0
INTO_MM = 1.0
CHAMFER_MM = 0.8


class PerforatedBoardParams(MountParams):
    """What a perforated board is like; boards of 25 and 25.4 mm are easily taken for each other."""

    hole_mm: float = Field(default=6.35, ge=4.5, le=12.0, description="thin buttons shear off")
    pitch_mm: float = Field(
        default=25.4, ge=15.0, le=60.0, description="measure over ten holes: 25 is not 25.4"
    )
    board_mm: float = Field(default=6.35, ge=2.5, le=12.0, description="thickness of the board")
    play_mm: float = Field(default=0.4, ge=0.2, le=0.9, description="goes in, yet does not rattle")


VALUES = (
    Listed("Mounts", "perforated board: hole mm", PerforatedBoardParams().hole_mm, SIZES),
    Listed("Mounts", "perforated board: pitch mm", PerforatedBoardParams().pitch_mm, SIZES),
    Listed("Mounts", "perforated board: thickness mm", PerforatedBoardParams().board_mm, SIZES),
)


def attach(
    family: str, front: Front, settings: MountSettings, p: PerforatedBoardParams
) -> HolderPart:
    """Return the part: front, plate and two rows of buttons."""
    edge = p.hole_mm / 2 + 2.0
    room = HookRoom(above_mm=edge, below_mm=edge + drop_mm(p))
    back = flat_back(front, plate_mm=settings.plate_mm)
    back, upper, lower = hook_rows(front, back, room, pitch_mm=p.pitch_mm)
    columns = pitch_columns(front.width_mm, pitch_mm=p.pitch_mm, edge_mm=edge, span_mm=SPAN_MM)
    buttons = [
        piece.moved(x, 0.0, z) for z in (upper, lower) for x in columns for piece in _button(p)
    ]
    return HolderPart(
        family=family,
        leading=front.leading,
        solid=whole(front, back.plate, *buttons),
        seats=front.seats,
        genus=front.genus,
        bounds_mm=back.bounds(front, behind_mm=p.board_mm + p.play_mm + BUTTON_MM),
        min_wall_mm=min(front.min_wall_mm, BUTTON_MM - CHAMFER_MM),
        mark_places=back.mark_places,
        hanging=back.hanging(MOUNT.name),
        hardware=front.hardware,
    )


def drop_mm(p: PerforatedBoardParams) -> float:
    """Return how far a holder is let down after its buttons are through."""
    return DROP_SHARE * p.hole_mm


def _button(p: PerforatedBoardParams) -> tuple[Solid, Solid]:
    """Return bar and button for a hole whose middle is at x = z = 0."""
    across, drop = p.hole_mm - p.play_mm, drop_mm(p)
    deep = p.board_mm + p.play_mm
    bar = prism(_lens(across, drop), INTO_MM + deep + CHAMFER_MM)
    disc = prism(circle(across), BUTTON_MM, top_chamfer_mm=CHAMFER_MM)
    # turning about x lays the outline upright and draws it out towards the wall
    return (
        bar.turned("x", 90.0).moved(0.0, INTO_MM, 0.0),
        disc.turned("x", 90.0).moved(0.0, -deep, -drop),
    )


def _lens(diameter_mm: float, drop_mm: float) -> Outline:
    """Return what a circle and the same circle lower by the drop have in common."""
    radius, middle = diameter_mm / 2, -drop_mm / 2
    half = math.sqrt(radius**2 - middle**2)
    bulge = math.tan(math.acos(-middle / radius) / 2)
    return Outline(((-half, middle), (half, middle)), (bulge, bulge))


def _in_grooves(part: HolderPart, settings: MountSettings, p: PerforatedBoardParams) -> HolderPart:
    wide, bar, drop = round_hole_hook(p.hole_mm, p.play_mm)
    hooks = BoardHooks(wide, bar, drop, p.board_mm, p.play_mm, BUTTON_MM, p.pitch_mm)
    return held(part, MOUNT.name, settings, hook_ways(CleatBack(part), hooks))


PUT_IN = (
    "To hang a holder, put its buttons straight into the nearest holes until its plate lies flat "
    "on the board, then let it down until it sits. To take it off, empty it, lift it straight up "
    "and draw it out."
)

HOOKS_IN = (
    "A holder on hook plates: put the hooks through their plates from the front, slide the "
    "plates into the grooves of its back from the sides until they stop, and press a pin of "
    "filament into the hole above each. A corner that is cut off points outwards. A single plate "
    "locks below: before it, put the bolt into its guide and draw it to the front; then push it "
    "tight. Put all hooks straight into the nearest holes until the plates lie flat on the "
    "board, let the holder down until it sits, and push a pin of filament through the hole above "
    "each upper hook, so that nothing can lift it out. To take it off, empty it, draw these "
    "pins, lift it straight up and draw it out."
)

MOUNT = Mount(
    name="perforated-board",
    title="Buttons that drop behind a perforated board",
    attach=attach,
    put_in=PUT_IN,
    openings="holes",
    pitch=lambda p: (p.pitch_mm, p.pitch_mm),
    on_rail=False,
    params=PerforatedBoardParams,
    in_grooves=InGrooves(_in_grooves, HOOKS_IN),
)
