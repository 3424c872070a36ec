"""A front on a plate that is wide enough for hangers and bolts to hold it on its rail.

What bears it depends on where its bolts have room, that on how wide and how far forward it is, and
these on what bears it.
"""

from __future__ import annotations

import math
from dataclasses import replace

from cleatwright.base import said
from cleatwright.base.errors import DesignError, NoRoomError, RailHoldError
from cleatwright.features.moved_front import set_forward, widened
from cleatwright.mounts.fittings import bolt
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import rail_back as back
from cleatwright.mounts.printed.bolt_places import guides_for
from cleatwright.mounts.printed.guide_floor import floors_for
from cleatwright.mounts.printed.rail_layout import THICK_MM, RailLayout, on_hangers, room_mm
from cleatwright.mounts.printed.rail_loads import BOLT_HAND_N
from cleatwright.parts.holder import Front
from cleatwright.statics.captured import most_play_mm

MOST_BOLTS = 2
# its bolt stands less aside each time
WIDENINGS = 8
RAISES = 16
RAISE_MM = 5.0
FORWARD_MM = 0.5
FORWARDS = 4
SETTLINGS = 3
# what a bolt beside a front takes, and more, so that it stands less near the end of its plate
BOTH_MM = tuple(back.GUIDE_WIDTH_MM + 2.0 + more for more in (0.0, 8.0))
BESIDE_MM = (*BOTH_MM, BOTH_MM[0] + 20.0)
NO_ROOM = "nothing leaves room for the bolt that keeps it on its rail"
ELSE = 'Screw the holder to the wall (mount = "wall-screws"), or choose another family'


def bolted(front: Front, settings: MountSettings) -> RailLayout:
    """Return a front on a plate wide enough for its bolts, and against a knock at a tool.

    Where nothing before the front leaves room for a bolt, it stands beside the front, or one on
    both sides; of such plates the lightest is taken.

    Raises:
        DesignError: The rail is too thin, nothing leaves room for a bolt, or no bolt is enough.
    """
    found: list[RailLayout] = []
    fault: DesignError = NoRoomError(NO_ROOM, todo=ELSE)
    try:
        found.append(_steady(front, settings))
    except NoRoomError:
        if front.anchored:
            return _raised(front, settings)
    if found and (front.anchored or found[0].thick_mm <= THICK_MM):
        return found[0]
    # a bolt near the end of a plate holds the other end by a short lever, and needs thick plates
    for wide, share in (*((one, 0.0) for one in BESIDE_MM), *((2 * one, 0.5) for one in BOTH_MM)):
        if share and found:
            break
        try:
            laid = _steady(widened(front, front.width_mm + wide, share=share), settings)
        except DesignError as error:
            fault = error
            continue
        if found and laid.back_mm3 >= found[-1].back_mm3:
            break
        found.append(laid)
    if not found:
        raise fault
    return min(found, key=lambda one: one.back_mm3)


def _raised(front: Front, settings: MountSettings) -> RailLayout:
    """Return a carrier whose board reaches so far up that its bolt passes between its holes."""
    step = 1
    while True:
        higher = replace(front, plate_high_mm=front.plate_high_mm + step * RAISE_MM)
        try:
            return _steady(higher, settings)
        except NoRoomError:
            step += 1
            if step > RAISES:
                raise


def _steady(front: Front, settings: MountSettings) -> RailLayout:
    """Return a front on a plate wide enough for its hangers, and that no knock turns it off."""
    width = max(front.width_mm, back.LEAST_WIDTH_MM)
    for _ in range(WIDENINGS):
        laid = _in_width(front if front.anchored else widened(front, width), settings)
        needed = laid.enough_mm
        if math.isinf(needed):
            break
        if laid.guides:
            middle = laid.front.width_mm / 2
            aside = abs(sum(one.x_mm for one in laid.guides) / len(laid.guides) - middle)
            needed = max(needed, laid.loads.width_mm(len(laid.guides), aside))
        if needed <= laid.front.width_mm:
            return laid
        if front.anchored:
            raise RailHoldError(
                f"a carrier {said.mm(front.width_mm, '.0f')} wide has too short hangers, or a "
                "knock at a tool turns it off its rail",
                allowed=f"a width of at least {said.least(math.ceil(needed))}",
                todo="Widen the carrier, or screw it to the wall with screw_count",
            )
        width = needed
    raise RailHoldError(
        "no hangers bear what its tools ask of them, or a knock turns it off its rail, however "
        "wide it is",
        todo=ELSE,
    )


def _in_width(front: Front, settings: MountSettings) -> RailLayout:
    """Return a front with its hangers and bolts.

    A front whose tools stand before its groove, where the plate must be thicker, is set forward.

    What bears it depends on where its bolts have room, and that on how it is borne.

    Raises:
        DesignError: There is no room for bolts, or no bolt is enough.
    """
    laid = _bolted(_forward(front, settings), settings)
    for _ in range(SETTLINGS):
        if laid.holds:
            break
        laid = _bolted(_forward(front, settings, laid.bolts_mm), settings)
    return laid


def _forward(front: Front, settings: MountSettings, bolts_mm: tuple[float, ...] = ()) -> RailLayout:
    """Return a front on its hangers, set forward as far as the plate is thick at their groove."""
    laid = on_hangers(front, settings, bolts_mm)
    for _ in range(FORWARDS):
        more = laid.thick_mm - room_mm(laid.front, laid.plate_mm, laid.top_mm)
        if front.anchored or more <= 0.0 or math.isinf(more):
            break
        plate = laid.plate_mm + math.ceil(more / FORWARD_MM) * FORWARD_MM
        forward = set_forward(front, plate - settings.plate_mm)
        laid = on_hangers(forward, replace(settings, plate_mm=plate), bolts_mm)
    return laid


def _bolted(laid: RailLayout, settings: MountSettings) -> RailLayout:
    """Return the same with bolts, where no screws keep it down.

    Raises:
        DesignError: There is no room for bolts, or no bolt is enough.
    """
    front, loads = laid.front, laid.loads
    if front.lock is not None:
        return laid
    lead = bolt.lead_mm(settings.rail_thickness_mm)
    if lead is None:
        raise DesignError(
            f"a rail {said.mm(settings.rail_thickness_mm)} thick leaves no room for a bolt below",
            allowed=f"at least {said.least(bolt.LEAST_LEAD_MM + bolt.RUN_MM + 1.0)}",
            todo="Use thicker rails or screw the holder to the wall",
        )
    under = bolt.under_mm(lead)
    most = most_play_mm(laid.section, under_mm=under, rail_mm=settings.rail_height_mm)
    if bolt.loose_mm(lead, guide_play_mm=back.HEIGHT_PLAY_MM) > most:
        raise RailHoldError(
            f"on a rail {said.mm(settings.rail_height_mm)} high and "
            f"{said.mm(settings.rail_thickness_mm)} thick a bolt below comes out before its hook "
            "does",
            todo=f"{ELSE}, or use lower or thicker rails",
        )
    asked = math.inf
    for count in range(min(int(settings.least_bolts), MOST_BOLTS), MOST_BOLTS + 1):
        guides = guides_for(
            front,
            rail_low_mm=laid.contact_mm - settings.rail_height_mm,
            lead_mm=lead,
            count=count,
        )
        if len(guides) < count:
            raise NoRoomError(NO_ROOM, todo=ELSE)
        placed = replace(laid, guides=guides)
        asked = loads.bolt_share(laid.hangers, placed.bolts_mm)
        if floors_for(asked) <= 1.0:
            return placed
    raise RailHoldError(
        f"weights and hands ask for {asked * BOLT_HAND_N:.0f} N from each of {MOST_BOLTS} bolts "
        f"that keep it on its rail, and their guides bear {BOLT_HAND_N / floors_for(1.0):.0f} N",
        todo=ELSE,
    )
