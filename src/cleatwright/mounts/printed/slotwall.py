"""Slotwall panel: one hook along the whole plate, in a level groove of the panel.

section

 panel ║
 ──────╜
  ╭────────┤│ plate
  │ bar    ││  ← rests on the lower lip of the groove
  │ ╷──────┤│
  ╰─┘╓     ││  nose, catches behind the lip
 ────╜     ││
           ││  bears on the panel
"""

from __future__ import annotations

from dataclasses import replace

from pydantic import Field

from cleatwright.base import said
from cleatwright.base.errors import DesignError
from cleatwright.base.source import Evidence, Source
from cleatwright.features.drop_hook import CHAMFER_MM, DropHook
from cleatwright.features.flat_back import flat_back
from cleatwright.mounts.mount import Mount, MountParams, MountSettings, promised, whole
from cleatwright.parts.holder import Front, HolderPart
from cleatwright.standards.table import Listed

SIZES = Source("slotted wall panel: mouth of 9 to 10 mm, 76.2 mm apart", "", Evidence.PRACTICE)
NOSE_MM = 3.0
DROP_SHARE = 0.36
EDGE_MM = 3.0
LEAST_DEPTH_MM = 40.0


class SlotwallParams(MountParams):
    """What a slotwall panel is like."""

    mouth_mm: float = Field(
        default=9.5, ge=6.0, le=20.0, description="of the groove; thin hooks bend"
    )
    lip_mm: float = Field(default=6.0, ge=1.0, le=12.0, description="thickness of the lower lip")
    groove_mm: float = Field(
        default=12.0, ge=5.0, le=25.0, description="from the panel's face to the groove's bottom"
    )
    pitch_mm: float = Field(
        default=76.2, ge=20.0, le=300.0, description="from groove to groove; holders hang in these"
    )
    play_mm: float = Field(default=0.5, ge=0.2, le=1.0, description="goes in, yet does not rattle")


VALUES = (
    Listed("Mounts", "slotted wall panel: mouth mm", SlotwallParams().mouth_mm, SIZES),
    Listed("Mounts", "slotted wall panel: pitch mm", SlotwallParams().pitch_mm, SIZES),
)

# lengths that were added in another order
ROUNDING_MM = 1e-6


def attach(family: str, front: Front, settings: MountSettings, p: SlotwallParams) -> HolderPart:
    """Return the part: front, plate and hook.

    Raises:
        DesignError: The groove is too shallow for the hook.
    """
    hook = hook_of(p)
    if hook.behind_mm > p.groove_mm - p.play_mm + ROUNDING_MM:
        raise DesignError(
            f"a groove {said.mm(p.groove_mm)} deep has no room for a hook behind its lip",
            allowed=f"at least {said.least(hook.behind_mm + p.play_mm)} behind a lip of "
            f"{said.mm(p.lip_mm)}",
            todo="Measure groove and lip again",
        )
    least = EDGE_MM + hook.bar_mm + LEAST_DEPTH_MM
    back = flat_back(front, plate_mm=settings.plate_mm, least_mm=least)
    if front.cuts:
        # what is cut through the front and its plate must not meet the hook
        back = replace(back, top_mm=back.top_mm + hook.bar_mm + hook.drop_mm + 2 * EDGE_MM)
    z = back.top_mm - EDGE_MM - hook.bar_mm
    return HolderPart(
        family=family,
        leading=front.leading,
        solid=whole(front, back.plate, hook.solid(0.0, front.width_mm).moved(0.0, 0.0, z)),
        seats=front.seats,
        genus=front.genus,
        bounds_mm=back.bounds(front, behind_mm=hook.behind_mm),
        min_wall_mm=min(front.min_wall_mm, hook.bar_mm, NOSE_MM - CHAMFER_MM),
        mark_places=back.mark_places,
        hanging=back.hanging(MOUNT.name),
        hardware=front.hardware,
        free_poses=promised(front, MOUNT.poses),
    )


def hook_of(p: SlotwallParams) -> DropHook:
    """Return the hook that goes into a groove of the panel."""
    return DropHook(p.mouth_mm, p.lip_mm, p.play_mm, DROP_SHARE * p.mouth_mm, NOSE_MM)


PUT_IN = (
    "To hang a holder, put its hook straight into the nearest groove until its plate lies flat on "
    "the panel, then let it down until it sits. To take it off, empty it, lift it straight up and "
    "draw it out."
)

MOUNT = Mount(
    name="slotwall",
    title="A hook in a groove of a slotwall panel",
    attach=attach,
    put_in=PUT_IN,
    openings="groove",
    pitch=lambda p: (0.0, p.pitch_mm),
    on_rail=False,
    params=SlotwallParams,
    # one profile along the wall
    poses=("on-its-side",),
)
