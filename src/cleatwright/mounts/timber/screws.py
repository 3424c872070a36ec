"""A plain board of wood, screwed straight to the wall by countersunk holes above and below."""

from __future__ import annotations

from dataclasses import replace

from cleatwright.base import said
from cleatwright.base.errors import DesignError
from cleatwright.mounts.carrier import CarrierParams
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed.wall_screws import RIM_MM, screwed
from cleatwright.mounts.timber.front import WoodenFront, clear_columns
from cleatwright.parts.holder import HolderPart
from cleatwright.parts.joinery import Bore
from cleatwright.standards.fasteners.iso_273 import clearance_hole_mm
from cleatwright.standards.fasteners.wood_screws import countersink_mm


def attach(
    family: str, wooden: WoodenFront, settings: MountSettings, chosen: CarrierParams
) -> HolderPart:
    """Return the carrier: a board that goes on above and below its front, with screw holes.

    Raises:
        DesignError: The load is too much for the screws, or they find no room.
    """
    if chosen.screw_count:
        raise DesignError(
            "a wooden carrier on wall-screws is screwed to the wall already",
            allowed="screw_count = 0",
            todo="Leave screw_count out",
        )
    front, thick = wooden.front, settings.rail_thickness_mm
    screwing = screwed(front, replace(settings, plate_mm=thick))
    back, screw = screwing.back, screwing.diameter_mm
    head = countersink_mm(screw)
    edge = head / 2 + RIM_MM
    # the upper row passes beside the grooves, which run out of the top edge
    upper = clear_columns(
        screwing.columns_mm,
        wooden.board.grooves,
        width_mm=front.width_mm,
        edge_mm=edge,
        room_mm=head / 2 + RIM_MM,
    )
    rows = ((back.top_mm - edge, upper), (back.low_mm + edge, screwing.columns_mm))
    holes = tuple(
        Bore(
            x_mm=x,
            z_mm=z,
            diameter_mm=clearance_hole_mm(f"M{screw:g}", "medium"),
            what=f"screw {said.mm(screw)} into the wall",
            countersink_mm=head,
        )
        for z, columns in rows
        for x in columns
    )
    board = replace(
        wooden.board,
        low_mm=back.low_mm,
        high_mm=back.top_mm,
        bores=(*wooden.board.bores, *holes),
    )
    return HolderPart(
        family=family,
        leading=front.leading,
        solid=board.solid,
        seats=front.seats,
        genus=len(board.bores),
        bounds_mm=((0.0, 0.0, back.low_mm), (front.width_mm, thick, back.top_mm)),
        min_wall_mm=min(front.min_wall_mm, RIM_MM),
        mark_places=(),
        hanging=screwing.hanging,
        hardware=(
            *front.hardware,
            screwing.bought(len(holes), f"through a wooden carrier of {said.mm(thick)}"),
        ),
        joinery=board,
    )
