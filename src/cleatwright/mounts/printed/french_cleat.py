"""French cleat: hangers in the back of a holder hook onto the rail, and a bolt keeps it there.

The plate is as high as the front needs it; a column reaches down to the lower edge of the rail,
where the guide of the bolt is.
"""

from __future__ import annotations

from collections.abc import Sequence

from cleatwright.base.errors import RailHoldError
from cleatwright.features.filament_pin import pins
from cleatwright.features.mark_clear import RIM_MM, clear_places
from cleatwright.features.mark_room import band_height_mm, has_room
from cleatwright.mounts.fittings import bolt, hanger
from cleatwright.mounts.mount import NO_PARAMS, Mount, MountSettings, NoParams, promised
from cleatwright.mounts.printed import rail_back as back
from cleatwright.mounts.printed.bolt_places import board_mm, meet, taken_boxes
from cleatwright.mounts.printed.bolted_layout import bolted
from cleatwright.mounts.printed.rail_back import Guide, Hangers
from cleatwright.mounts.printed.rail_layout import RailLayout
from cleatwright.mounts.printed.rail_loads import BOLT_HAND_N, BOLT_YEARS_N
from cleatwright.mounts.printed.rail_screws import as_parts
from cleatwright.mounts.printed.screwed_layout import screwed_on
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

OVERLAP_MM = 0.5


def attach(
    family: str, front: Front, settings: MountSettings, _params: NoParams = NO_PARAMS
) -> HolderPart:
    """Return the part: front, plate with its grooves, and guides of bolts.

    Raises:
        DesignError: The rail is too thin, nothing leaves room for a bolt, or no bolt is enough.
    """
    try:
        laid = bolted(front, settings)
    except RailHoldError:
        found = None if front.anchored else screwed_on(front, settings)
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


def _hanging(laid: RailLayout, settings: MountSettings, low_mm: float) -> Hanging:
    half = back.GUIDE_WIDTH_MM / 2
    screwed = None
    if laid.pads:
        plate = ((0.0, 0.0, low_mm), (laid.front.width_mm, laid.plate_mm, laid.top_mm))
        screwed = as_parts(laid.pads, laid.section, laid.hangers.ends_mm, plate=plate)
    return Hanging(
        mount=MOUNT.name,
        on_rail=True,
        contact_z_mm=laid.contact_mm,
        # what screws hold bears with its own lower end, which may lie far above the rail's
        depth_below_mm=screwed.foot_mm if screwed else laid.section.depth_mm,
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
            plate_mm=laid.plate_mm,
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
        # a pad that stands before the plate reaches up its face a little
        pads = (pad.solid(low) for pad in laid.pads)
        taken = (*boxes, *(extent(one) for one in (*columns, *pads)))
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
