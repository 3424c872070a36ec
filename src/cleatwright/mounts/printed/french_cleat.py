"""French cleat: hangers in the back of a holder hook onto the rail, and a bolt keeps it there.

The plate is as high as the front needs it; a column reaches down to the lower edge of the rail,
where the guide of the bolt is.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from cleatwright.base import said
from cleatwright.base.errors import DesignError, NoRoomError, RailHoldError
from cleatwright.features.filament_pin import pins
from cleatwright.features.mark_clear import RIM_MM, clear_places
from cleatwright.features.mark_room import band_height_mm, has_room
from cleatwright.features.moved_front import set_forward, widened
from cleatwright.mounts.fittings import bolt, hanger
from cleatwright.mounts.mount import NO_PARAMS, Mount, MountSettings, NoParams, promised
from cleatwright.mounts.printed import rail_back as back
from cleatwright.mounts.printed.bolt_places import board_mm, guides_for, meet, taken_boxes
from cleatwright.mounts.printed.guide_floor import floors_for
from cleatwright.mounts.printed.rail_back import Guide, Hangers
from cleatwright.mounts.printed.rail_layout import THICK_MM, RailLayout, on_hangers, room_mm
from cleatwright.mounts.printed.rail_loads import BOLT_HAND_N, BOLT_YEARS_N
from cleatwright.mounts.printed.rail_screws import as_parts, rail_screw, screw_rows
from cleatwright.parts.holder import (
    Front,
    Hanging,
    Hardware,
    HolderPart,
    MarkPlace,
    RailHold,
    front_mark,
)
from cleatwright.shapes.extent import extent
from cleatwright.shapes.facts import Bounds
from cleatwright.shapes.solid import Difference, Solid, block, joined
from cleatwright.standards.cautions import HANGERS_IN, HOOK_IN
from cleatwright.statics.captured import most_play_mm

MOST_BOLTS = 2
# its bolt stands less aside each time
WIDENINGS = 8
OVERLAP_MM = 0.5
RAISES = 16
RAISE_MM = 5.0
FORWARD_MM = 0.5
SCREW_FORWARDS_MM = (0.0, 2.0, 4.0, 6.0, 8.0)
SCREW_BESIDE_MM = 2.0
FORWARDS = 4
SETTLINGS = 3
# what a bolt beside a front takes, and more, so that it stands less near the end of its plate
BOTH_MM = tuple(back.GUIDE_WIDTH_MM + 2.0 + more for more in (0.0, 8.0))
BESIDE_MM = (*BOTH_MM, BOTH_MM[0] + 20.0)
NO_ROOM = "nothing leaves room for the bolt that keeps it on its rail"
ELSE = 'Screw the holder to the wall (mount = "wall-screws"), or choose another family'


def attach(
    family: str, front: Front, settings: MountSettings, _params: NoParams = NO_PARAMS
) -> HolderPart:
    """Return the part: front, plate with its grooves, and guides of bolts.

    Raises:
        DesignError: The rail is too thin, nothing leaves room for a bolt, or no bolt is enough.
    """
    try:
        laid = _laid_out(front, settings)
    except RailHoldError:
        found = None if front.anchored else _screwed(front, settings)
        if found is None:
            raise
        laid = found
    front, guides, contact = laid.front, laid.guides, laid.contact_mm
    thick, plate = laid.thick_mm, max(laid.plate_mm, back.LEAST_PLATE_MM)
    low, places, columns = _marked(laid, thick_mm=plate)
    board = max([board_mm(front), plate, *(extent(one)[1][1] for one in columns)])
    windows = [guide.window(low, board) for guide in guides]
    solid = joined(
        front.solid,
        block(0.0, 0.0, low, front.width_mm, laid.plate_mm, laid.top_mm),
        block(0.0, 0.0, contact - back.UNDER_MM, front.width_mm, thick, laid.top_mm),
        *columns,
        *(guide.solid(board) for guide in guides),
        *(pad.solid(low) for pad in laid.pads),
    )
    cuts = (
        *laid.hangers.cuts(contact),
        *(cut for guide in guides for cut in guide.cuts(board)),
        *(cut for opening, _ in windows for cut in opening),
        *(pad.hole for pad in laid.pads),
        *front.cuts,
    )
    lowest = min([low, front.low_mm, *(one.low_mm for one in (*guides, *laid.pads))])
    ends = (thick, bolt.GUIDE_MM, *(pad.screw.pad_mm for pad in laid.pads))
    deepest = max([front.reach_mm, *ends, *(extent(one)[1][1] for one in columns)])
    return HolderPart(
        family=family,
        leading=front.leading,
        solid=Difference(solid, cuts),
        seats=front.seats,
        genus=front.genus
        + len(laid.hangers.lefts_mm)
        + len(guides)
        + len(laid.pads)
        + sum(holes for _, holes in windows),
        bounds_mm=(
            (0.0, 0.0, lowest),
            (front.width_mm, deepest, max(laid.top_mm, front.high_mm)),
        ),
        min_wall_mm=min(
            front.min_wall_mm, thick - hanger.DEEP_MM - hanger.PLAY_MM, back.LEAST_WALL_MM
        ),
        mark_places=places,
        hanging=_hanging(laid, settings, low),
        hardware=(*front.hardware, _pins(laid.hangers), *_screws(laid)),
        free_poses=promised(front, MOUNT.poses),
        fittings=(
            *laid.hangers.fittings(
                thickness_mm=settings.rail_thickness_mm,
                bevel_deg=settings.bevel_deg,
                contact_mm=contact,
            ),
            *(guide.fitting for guide in guides),
        ),
    )


def _laid_out(front: Front, settings: MountSettings) -> RailLayout:
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


def _screwed(front: Front, settings: MountSettings) -> RailLayout | None:
    """Return a front with screws into the rail in place of bolts, or None where none will do.

    It is set forward, or its plate is wider, where nothing else leaves room for their pads.
    """
    for forward in SCREW_FORWARDS_MM:
        how = replace(settings, plate_mm=settings.plate_mm + forward)
        plate = max(how.plate_mm, back.LEAST_PLATE_MM)
        screw = rail_screw(settings.rail_thickness_mm, plate_mm=plate)
        if screw is None:
            return None
        for beside in (0.0, 2 * screw.half_mm + SCREW_BESIDE_MM):
            width = max(front.width_mm + beside, back.LEAST_WIDTH_MM)
            wide = widened(front, width, share=0.0 if beside else 0.5)
            laid = on_hangers(set_forward(wide, forward), how)
            hangers = back.hangers_for(laid.front.width_mm)
            for pads in screw_rows(laid.front, laid.section, how, screw):
                screws = as_parts(pads, laid.section, hangers.ends_mm)
                if laid.loads.screws_bear(screws):
                    return replace(laid, hangers=hangers, thick_mm=plate, pads=pads)
    return None


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
    for count in range(1, MOST_BOLTS + 1):
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


def _hanging(laid: RailLayout, settings: MountSettings, low_mm: float) -> Hanging:
    half = back.GUIDE_WIDTH_MM / 2
    screwed = as_parts(laid.pads, laid.section, laid.hangers.ends_mm) if laid.pads else None
    return Hanging(
        mount=MOUNT.name,
        on_rail=True,
        contact_z_mm=laid.contact_mm,
        depth_below_mm=laid.section.depth_mm,
        bevel_deg=settings.bevel_deg,
        stand_off_mm=settings.rail_thickness_mm,
        lock=laid.front.lock,
        rail_screws=screwed,
        hold=None
        if screwed
        else RailHold(
            tip_mm=laid.section.tip_mm,
            hangers_mm=laid.hangers.spans_mm,
            wide_mm=(0.0, laid.front.width_mm),
            back_mm=min(laid.contact_mm - low_mm, laid.section.depth_mm),
            feet_mm=tuple((one.x_mm - half, one.x_mm + half) for one in laid.guides),
            bolts_mm=laid.bolts_mm,
            bolt_years_n=BOLT_YEARS_N,
            bolt_hand_n=BOLT_HAND_N,
            play_mm=max((_loose_mm(one) for one in laid.guides), default=0.0),
            under_mm=min((bolt.under_mm(one.lead_mm) for one in laid.guides), default=0.0),
            rail_mm=settings.rail_height_mm,
            rail_off_mm=bolt.RAIL_OFF_MM,
            groove=back.groove_for(
                laid.hangers,
                thick_mm=max(laid.thick_mm, board_mm(laid.front)),
                bedded=laid.front.print_pose == back.BEDDED_POSE,
            ),
        ),
    )


def _loose_mm(guide: Guide) -> float:
    return bolt.loose_mm(guide.lead_mm, guide_play_mm=back.HEIGHT_PLAY_MM)


def _columns(laid: RailLayout, low_mm: float, *, thick_mm: float) -> tuple[Solid, ...]:
    """Return the columns between the plate and the guides below it, as light as there is room."""
    below = [guide for guide in laid.guides if guide.low_mm < low_mm]
    if not below:
        return ()
    rail_low = laid.contact_mm - laid.loads.settings.rail_height_mm
    modulus = laid.loads.modulus_mm3(low_mm - rail_low, laid.bolts_mm) / len(laid.guides)
    width = laid.front.width_mm
    taken = tuple(taken_boxes(laid.front))
    sizes = back.column_sizes_mm(modulus, thick_mm=thick_mm, most_wide_mm=width)
    board = board_mm(laid.front)
    if board and sizes[0][1] > board:
        # holders hang before a board
        sizes = back.column_sizes_mm(modulus, thick_mm=board, most_wide_mm=width)[-1:]
    found: list[Solid] = []
    for guide in below:
        tries = [_column(guide, wide, deep, width_mm=width, high_mm=low_mm) for wide, deep in sizes]
        free = [one for one in tries if not any(meet(_below(one, low_mm), box) for box in taken)]
        found.append((free or tries[-1:])[0])
    return tuple(found)


def _column(
    guide: Guide, wide_mm: float, deep_mm: float, *, width_mm: float, high_mm: float
) -> Solid:
    """Return a column as near to its bolt as the plate lets it stand."""
    half = wide_mm / 2
    x = guide.x_mm if wide_mm >= width_mm else min(max(guide.x_mm, half), width_mm - half)
    return block(x - half, 0.0, guide.low_mm, x + half, deep_mm, high_mm + OVERLAP_MM)


def _below(column: Solid, high_mm: float) -> Bounds:
    """Return the box of a column without what of it is buried in the front above."""
    low, (x, y, _) = extent(column)
    return low, (x, y, high_mm)


def _screws(laid: RailLayout) -> tuple[Hardware, ...]:
    return (laid.pads[0].screw.bought(len(laid.pads)),) if laid.pads else ()


def _pins(hangers: Hangers) -> Hardware:
    return pins(
        len(hangers.lefts_mm),
        long_mm=back.pin_mm(),
        note="press it into the hole in the top edge when the hanger is in",
    )


def _marked(
    laid: RailLayout, *, thick_mm: float
) -> tuple[float, tuple[MarkPlace, ...], tuple[Solid, ...]]:
    """Return how low the plate reaches, where the mark may go, and the columns below the plate.

    The mark goes where the front wants it, or on a column, or below the front: the wall before a
    groove is too thin for letters, and bolts come through the plate.
    """
    front, width, plate = laid.front, laid.front.width_mm, laid.plate_mm
    low = min(front.plate_low_mm, laid.contact_mm - back.UNDER_MM)
    under = laid.contact_mm + hanger.MIDDLE_MM - hanger.WIDE_MM / 2 - hanger.PLAY_MM
    # where the plate is thicker before its groove, all of that stands before its face
    edge = laid.contact_mm - back.UNDER_MM if laid.thick_mm > plate else under
    band: Bounds = ((0.0, 0.0, edge), (width, plate, laid.top_mm))
    boxes = (band, *(guide.room for guide in laid.guides), *(pad.box for pad in laid.pads))
    wanted, height = [front.mark_place], band_height_mm(width)
    highs = [min(low, front.low_mm, under), *(box[0][2] for box in boxes[1:])]
    while True:
        columns = _columns(laid, low, thick_mm=thick_mm)
        taken = (*boxes, *(extent(one) for one in columns))
        on_columns = (_on_column(one, laid.guides, low) for one in columns)
        places = (
            *(one for place in wanted for one in clear_places(place, taken, plate_mm=plate)),
            *(one for one in on_columns if one.height_mm > 0.0),
        )
        roomy = tuple(one for one in places if has_room(one.width_mm, one.height_mm))
        if roomy or not highs:
            return low, roomy or places, columns
        low = min(low, highs.pop(0)) - RIM_MM - height
        wanted.append(front_mark(0.0, width, z0=low, z1=low + height, y_mm=plate))


def _on_column(column: Solid, guides: Sequence[Guide], high_mm: float) -> MarkPlace:
    """Return the face of a column above its guide."""
    (x0, _, low), (x1, y, _) = extent(column)
    z0 = max(one.high_mm for one in guides if one.low_mm <= low + OVERLAP_MM)
    return front_mark(x0, x1, z0=min(z0, high_mm), z1=high_mm, y_mm=y)


MOUNT = Mount(
    name="french-cleat",
    title="Hangers on a French cleat, kept there by a bolt",
    attach=attach,
    put_in=f"{HANGERS_IN} {HOOK_IN}",
    on_rail=True,
    # a flat back with grooves that bridge
    poses=(back.BEDDED_POSE,),
)
