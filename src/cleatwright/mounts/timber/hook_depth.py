"""How deep a hook without a bolt must bear below its bevel: that of a carrier of wood."""

from __future__ import annotations

import math

from cleatwright.base.errors import DesignError
from cleatwright.mounts.mount import MountSettings, guessed_weights
from cleatwright.parts.holder import Front
from cleatwright.parts.tool import GRAVITY_M_S2
from cleatwright.statics.cleat import depth_needed_mm, load_cases
from cleatwright.statics.take_out import resists, take_out_n

RAIL_PLAY_MM = 2.0


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
    cases = [
        case
        for own in guessed_weights(front)
        for case in load_cases(front.seats, own, drag=settings.drag, sprung=False)
    ]
    needed = settings.margin * max(
        depth_needed_mm(case, contact_z_mm=contact, bevel_deg=settings.bevel_deg) for case in cases
    )
    if not math.isfinite(needed):
        raise DesignError(
            f"a hand that drags with {settings.drag:g} of a tool's weight pulls the holder off a "
            f"bevel of {settings.bevel_deg:g} degrees, however deep its plate",
            todo="Use a steeper bevel, a smaller drag or screw it to the wall",
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


def slant_mm(settings: MountSettings) -> float:
    """Return by how much the rail is lower at the wall than at its face."""
    return settings.rail_thickness_mm * math.tan(math.radians(settings.bevel_deg))
