"""The first of several layouts of plates that holds, and the part that it makes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from cleatwright.base.errors import RailHoldError
from cleatwright.features.filament_pin import pins
from cleatwright.mounts.grooves.plates import LaidPlates
from cleatwright.mounts.mount import GUESSED_MASS_KG, MountSettings
from cleatwright.mounts.printed import rail_back
from cleatwright.parts.fitting import Fitting
from cleatwright.parts.groove_hold import GrooveHold
from cleatwright.parts.holder import Hanging, Hardware, HolderPart, ScrewRows
from cleatwright.statics.cleat import OwnWeight
from cleatwright.statics.groove_borne import GrooveLoads, PieceBorne, all_borne

PIECES = {
    "tongue": "the tongues of its plates",
    "back": "its back before the grooves",
    "lip": "the lips of its grooves",
    "plate": "its plates",
    "hook": "its hooks",
    "hook pin": "the pins above its hooks",
    "groove pin": "the pins of its grooves",
    "screw": "its screws",
}


@dataclass(frozen=True)
class Way:
    """One way to hold a back by plates.

    Args:
        laid: The plates.
        hold: How they hold.
        fittings: The plates, and all that goes with them.
        hardware: What has to be bought for them.
        screws: The wood screws, for the wall behind them.
    """

    laid: LaidPlates
    hold: GrooveHold
    fittings: tuple[Fitting, ...]
    hardware: tuple[Hardware, ...]
    screws: ScrewRows | None = None


def held(part: HolderPart, mount: str, settings: MountSettings, ways: Iterable[Way]) -> HolderPart:
    """Return a holder that was made for a rail, on the first plates that hold it.

    Args:
        part: The holder on its rail.
        mount: The name of the mount.
        settings: What it shall stand, and its own weight where that is known.
        ways: The ways to hold it, the lightest first; at least one.

    Raises:
        RailHoldError: No plates hold it.
    """
    loads = GrooveLoads(
        part.seats, _owns(part, settings), settings.margin, settings.hand, settings.knock_n
    )
    nearest: tuple[PieceBorne, Way] | None = None
    for way in ways:
        worst = max(all_borne(loads, way.hold), key=lambda one: one.share)
        if worst.share <= 1.0:
            return _part(part, mount, way)
        if nearest is None or worst.share < nearest[0].share:
            nearest = worst, way
    if nearest is None:
        raise RailHoldError("nothing leaves room for plates in its grooves", todo=ELSE)
    worst, _ = nearest
    raise RailHoldError(
        f"{PIECES[worst.piece]} can bear {worst.allowed:.3g} {worst.unit}, and weights and hands "
        f"ask for {worst.asked:.3g} ({worst.case})",
        todo=ELSE,
    )


ELSE = 'Write joint = "one-piece" for this holder, let it hold fewer tools, or hang it on a rail'


def _owns(part: HolderPart, settings: MountSettings) -> tuple[OwnWeight, ...]:
    """Return own weights to hold: none is the worst for a lift, some for itself."""
    wide, reach, _ = part.bounds_mm[1]
    found = [OwnWeight(mass, reach / 2, wide / 2) for mass in (0.0, GUESSED_MASS_KG)]
    if settings.own_kg:
        found.append(settings.own_in(wide))
    return tuple(found)


def _part(part: HolderPart, mount: str, way: Way) -> HolderPart:
    hold = way.hold
    # its own, then the pins of its hangers, then screws into a rail
    rail_only = 1 if part.hanging.rail_screws is None else 2
    bought = (groove_pins(len(hold.tongues_mm)), *way.hardware)
    return replace(
        part,
        hanging=Hanging(
            mount=mount,
            on_rail=False,
            contact_z_mm=hold.high_mm,
            depth_below_mm=hold.high_mm - hold.low_mm,
            bevel_deg=0.0,
            stand_off_mm=hold.plate_mm,
            screws=way.screws,
            in_grooves=hold,
            on_rail_as=part.hanging,
        ),
        hardware=(
            *part.hardware[:-rail_only],
            *(replace(one, of_fittings=True) for one in bought),
        ),
        fittings=way.fittings,
    )


def groove_pins(count: int) -> Hardware:
    """Return the pins that keep plates in their grooves."""
    return pins(
        count,
        long_mm=rail_back.pin_mm(),
        note="one above each plate, so that it cannot slide out of its groove",
    )
