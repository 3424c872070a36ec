"""French cleat in one piece: a hook on the back of the plate, and a foot where the plate is deep.

wall      rail face                     profile seen from the left
 │ ┌───────┬──┐ ← plate top
 │ │ hook  │p │
 │ └─╮     │l │  root
 │   ╲╲    │a │
 │     ╲╲  │t │
 │   rail╲╲│e │ ← bevel contact: z = contact
 │         │  │
 │  rail   │  │   depth = contact - bearing
 ├─┐       │  │
 │ └───────┤  │
 │ foot    │  │ ← bears on the wall when the plate reaches below the rail
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from cleatwright.base import said
from cleatwright.base.errors import DesignError
from cleatwright.features.mark_room import band_height_mm, has_room, plate_place
from cleatwright.mounts.mount import NO_PARAMS, Mount, MountSettings, NoParams, promised, whole
from cleatwright.parts.holder import Front, Hanging, HolderPart
from cleatwright.parts.tool import GRAVITY_M_S2
from cleatwright.shapes.outline import polygon
from cleatwright.shapes.solid import Solid, across
from cleatwright.standards.cautions import HOOK_IN
from cleatwright.statics.cleat import OwnWeight, depth_needed_mm, load_cases
from cleatwright.statics.take_out import resists, take_out_n

ROOT_MM = 12.0
LAND_MM = 2.0
WALL_GAP_MM = 1.5
FOOT_MM = 12.0
RAIL_PLAY_MM = 2.0
# the mark of an own weight that is not known before the part is evaluated
GUESSED_MASS_KG = 0.05


def attach(
    family: str, front: Front, settings: MountSettings, _params: NoParams = NO_PARAMS
) -> HolderPart:
    """Return the part: front, plate, hook and, when it is needed, a foot.

    Raises:
        DesignError: No depth of plate would hold, or the rail is too thin for a hook.
    """
    top = front.plate_high_mm
    contact = top - ROOT_MM
    needed = max(needed_depth_mm(front, contact, settings), settings.least_depth_mm)
    rail_low = contact - settings.rail_height_mm
    low = min(front.plate_low_mm - _band_mm(front), contact - needed)
    with_foot = low < rail_low
    if with_foot:
        # the foot must clear the rail from below while the hook is lifted off the bevel
        clear = slant_mm(settings) + RAIL_PLAY_MM
        foot = FOOT_MM + _sloped_mm(front, settings)
        low = min(low, contact - needed - FOOT_MM / 2, rail_low - clear - foot)
    depth = contact - low - (FOOT_MM / 2 if with_foot else 0.0)
    thickness = settings.rail_thickness_mm
    back = -thickness if with_foot else -(thickness - WALL_GAP_MM)
    return HolderPart(
        family=family,
        leading=front.leading,
        solid=whole(
            front,
            _back(
                front.width_mm,
                _Heights(low, top, with_foot, _sloped_mm(front, settings)),
                settings,
            ),
        ),
        seats=front.seats,
        genus=front.genus,
        bounds_mm=(
            (0.0, back, min(low, front.low_mm, _tip_mm(contact, settings))),
            (front.width_mm, max(front.reach_mm, settings.plate_mm), max(top, front.high_mm)),
        ),
        min_wall_mm=min(front.min_wall_mm, LAND_MM),
        mark_places=(front.mark_place, *plate_place(front, low, plate_mm=settings.plate_mm)),
        hanging=Hanging(
            mount=MOUNT.name,
            on_rail=True,
            contact_z_mm=contact,
            depth_below_mm=depth,
            bevel_deg=settings.bevel_deg,
            stand_off_mm=thickness,
            lock=front.lock,
        ),
        hardware=front.hardware,
        print_pose=promised(front, MOUNT.poses),
    )


def _band_mm(front: Front) -> float:
    """Return how far the plate must reach below the front so that the mark has a place."""
    if has_room(front.mark_place.width_mm, front.mark_place.height_mm):
        return 0.0
    below = front.plate_low_mm - min(front.low_mm, front.plate_low_mm)
    return below + band_height_mm(front.width_mm)


def needed_depth_mm(front: Front, contact: float, settings: MountSettings) -> float:
    """Return the depth below the contact that the statics ask for, margin included.

    Args:
        front: What hangs; a carrier has the seats of all its holders.
        contact: Height of the bevel contact.
        settings: The settings.

    Raises:
        DesignError: No depth would hold, or a tool must be pulled off what nothing locks.
    """
    if front.lock is None:
        _require_lifted(front, settings)
    # a holder without weight is the worst for its tools, one with weight for itself
    masses = (0.0, GUESSED_MASS_KG)
    owns = [OwnWeight(mass, front.reach_mm / 2) for mass in masses]
    cases = [
        case
        for own in owns
        for case in load_cases(front.seats, own, drag=settings.drag, sprung=False)
    ]
    needed = settings.margin * max(
        depth_needed_mm(case, contact_z_mm=contact, bevel_deg=settings.bevel_deg) for case in cases
    )
    if not math.isfinite(needed):
        raise DesignError(
            f"a hand that drags with {settings.drag:g} of a tool's weight pulls the holder off a "
            f"bevel of {settings.bevel_deg:g} degrees, however deep its plate",
            todo="Use a steeper bevel, a smaller drag or screw the holder to the wall",
        )
    return needed


def _require_lifted(front: Front, settings: MountSettings) -> None:
    """Refuse a tool that is pulled off springs or magnets: the pull can take the hook along."""
    held = [seat for seat in front.seats if resists(seat)]
    if not held:
        return
    worst = max(held, key=lambda seat: (take_out_n(seat), -seat.tool.mass_kg))
    weight = worst.tool.mass_kg * GRAVITY_M_S2
    keeps = weight * math.tan(math.radians(settings.bevel_deg))
    by = "springs" if worst.spring is not None else "magnets"
    raise DesignError(
        f"a {worst.tool.kind} {worst.tool.leading} comes off its {by} by a pull of up to "
        f"{take_out_n(worst):.1f} N, and its weight of {weight:.1f} N keeps a hook on a bevel of "
        f"{settings.bevel_deg:g} degrees against {keeps:.1f} N at most",
        todo='Screw the holder to the wall (mount = "wall-screws"), hang it on a [[carrier]] with '
        "screw_count = 2 or more, or choose another family",
    )


def _sloped_mm(front: Front, settings: MountSettings) -> float:
    """Return how much higher the foot begins at the plate: it prints upside-down only so."""
    return settings.rail_thickness_mm if front.print_pose == "upside-down" else 0.0


def _tip_mm(contact: float, settings: MountSettings) -> float:
    """Return the lowest point of the hook."""
    run = settings.rail_thickness_mm - WALL_GAP_MM - LAND_MM
    return contact - run * math.tan(math.radians(settings.bevel_deg))


def slant_mm(settings: MountSettings) -> float:
    """Return by how much the rail is lower at the wall than at its face."""
    return settings.rail_thickness_mm * math.tan(math.radians(settings.bevel_deg))


@dataclass(frozen=True)
class _Heights:
    """Heights of the back: lower and upper edge, whether it has a foot, and the foot's slope."""

    low_mm: float
    top_mm: float
    with_foot: bool
    slope_mm: float


def _back(width_mm: float, heights: _Heights, settings: MountSettings) -> Solid:
    """Return plate, hook and foot as one profile along x."""
    reach = settings.rail_thickness_mm - WALL_GAP_MM
    if reach < 2 * LAND_MM:
        raise DesignError(
            f"a rail {said.mm(settings.rail_thickness_mm)} thick leaves no room for a hook",
            allowed=f"at least {said.least(2 * LAND_MM + WALL_GAP_MM)}",
            todo="Use thicker rails or screw the holder to the wall",
        )
    low, top, front = heights.low_mm, heights.top_mm, settings.plate_mm
    contact = top - ROOT_MM
    tip = _tip_mm(contact, settings)
    hook = [(-reach, top), (-reach, tip), (-reach + LAND_MM, tip), (0.0, contact)]
    wall = -settings.rail_thickness_mm
    under = [(0.0, low)]
    if heights.with_foot:
        under = [(0.0, low + FOOT_MM + heights.slope_mm), (wall, low + FOOT_MM), (wall, low)]
    return across(polygon([(front, low), (front, top), *hook, *under]), 0.0, width_mm)


MOUNT = Mount(
    name="french-cleat",
    title="Hook on a French cleat, in one piece with the holder",
    attach=attach,
    put_in=HOOK_IN,
    on_rail=True,
    # one profile along the wall; upside-down the hook grows from the bed, and the foot slopes
    poses=("on-its-side", "upside-down"),
)
