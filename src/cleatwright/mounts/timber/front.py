"""The front of a carrier of wood: the holders placed on a board of rail timber, with room to work.

Widths of wood that must be left, and the sizes of bits, are common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from cleatwright.base import said
from cleatwright.base.errors import DesignError
from cleatwright.base.source import Evidence, Source
from cleatwright.features.side_by_side import carried
from cleatwright.mounts.carrier import CarrierParams, Placing, placed
from cleatwright.parts.holder import Front, Hardware, HolderPart, front_mark
from cleatwright.parts.joinery import Groove, Joinery
from cleatwright.shapes.rigid import Vector
from cleatwright.shapes.solid import block
from cleatwright.standards.table import Listed

LEFT_WOOD = Source(
    "10 mm of wood below a groove, 8 mm between and behind grooves and counterbores",
    "common practice, no source",
    Evidence.PRACTICE,
)
SIDE_MM = 10.0
WEB_MM = 8.0
# a screw from behind stays this far from a groove
SCREW_ROOM_MM = 5.0
SCREWS_APART_MM = 10.0
ROUNDING_MM = 1e-6
# beside a cut, so that a countersunk screw of 4 mm has room with 3 mm of wood on both sides
SCREW_STRIP_MM = 14.4
VALUES = (
    Listed("Mounts", "wood below a groove mm", SIDE_MM, LEFT_WOOD),
    Listed("Mounts", "wood between grooves mm", WEB_MM, LEFT_WOOD),
)


@dataclass(frozen=True)
class WoodenFront:
    """A board with what its joint needs, ready for its back.

    Args:
        front: The board as a front, for the statics and the mounts.
        board: The board with its grooves and holes, without strips.
        offsets_mm: Where the frame of each holder lies in that of the carrier.
    """

    front: Front
    board: Joinery
    offsets_mm: tuple[Vector, ...]


def roomy(
    parts: Sequence[HolderPart], chosen: CarrierParams, *, thick_mm: float, wide_mm: float
) -> Placing:
    """Return the holders placed so that wood is left beside what is cut for each.

    Where neighbours lie too close for that, the gap between all of them grows.

    Args:
        parts: The holders, by growing x.
        chosen: What is chosen about the carrier.
        thick_mm: Thickness of the board.
        wide_mm: Width of what is cut for each interface.

    Raises:
        DesignError: The wished width leaves too little wood, or two cuts lie too close.
    """
    least = wide_mm + 2 * SCREW_STRIP_MM
    placing = placed(parts, chosen, thick_mm=thick_mm, least_mm=least)
    short = wide_mm + WEB_MM - _least_apart(placing)
    if short > 0.0:
        chosen = chosen.model_copy(update={"gap_mm": chosen.gap_mm + short})
        placing = placed(parts, chosen, thick_mm=thick_mm, least_mm=least)
    rim = wide_mm / 2 + SCREW_STRIP_MM
    xs = _columns(placing)
    lack = max(rim - xs[0], xs[-1] + rim - placing.width_mm, 0.0)
    if lack > 0.0:
        needed = placing.width_mm + 2 * lack
        if chosen.width_mm:
            raise DesignError(
                f"a wooden carrier {said.mm(chosen.width_mm)} wide leaves less than "
                f"{said.mm(SCREW_STRIP_MM)} of wood beside what is cut into it",
                allowed=f"at least {said.least(math.ceil(needed - 1e-9))}, or 0 for as much as is "
                "needed",
                todo="Widen it, or hang fewer holders on it",
            )
        wider = chosen.model_copy(update={"width_mm": needed})
        placing = placed(parts, wider, thick_mm=thick_mm, least_mm=least)
    apart = _least_apart(placing)
    if apart < wide_mm + WEB_MM - 1e-6:
        raise DesignError(
            f"two cuts {said.mm(wide_mm)} wide for one holder on a wooden carrier lie "
            f"{said.mm(apart, '.1f')} apart, centre to centre",
            allowed=f"at least {said.least(wide_mm + WEB_MM)}",
            todo="Choose a narrower bit, another joint, or a wider holder",
        )
    return placing


def _least_apart(placing: Placing) -> float:
    xs = _columns(placing)
    return min((b - a for a, b in pairwise(xs) if b - a > 1e-6), default=math.inf)


def _columns(placing: Placing) -> list[float]:
    return sorted(
        dx + one.x_mm
        for part, (dx, _, _) in zip(placing.parts, placing.offsets_mm, strict=True)
        for one in part.interfaces
    )


def wooden_front(
    placing: Placing, board: Joinery, *, min_wall_mm: float, hardware: tuple[Hardware, ...] = ()
) -> WoodenFront:
    """Return a board as a front with the seats of its holders."""
    width, low, high, thick = board.width_mm, board.low_mm, board.high_mm, board.thickness_mm
    front = Front(
        solid=block(0.0, 0.0, low, width, thick, high),
        width_mm=width,
        plate_low_mm=low,
        plate_high_mm=high,
        reach_mm=thick,
        low_mm=low,
        high_mm=high,
        seats=tuple(
            carried(seat, offset)
            for one, offset in zip(placing.parts, placing.offsets_mm, strict=True)
            for seat in one.seats
        ),
        genus=0,
        min_wall_mm=min_wall_mm,
        # the mark is written on it, for which any place will do
        mark_place=front_mark(0.0, width, z0=low, z1=high, y_mm=thick),
        leading=f"{len(placing.parts)}x{width:.0f}",
        hardware=hardware,
    )
    return WoodenFront(front, board, placing.offsets_mm)


def clear_columns(
    columns_mm: Sequence[float],
    grooves: Sequence[Groove],
    *,
    width_mm: float,
    edge_mm: float,
    room_mm: float = SCREW_ROOM_MM,
) -> tuple[float, ...]:
    """Return columns of screws moved as little as needed to clear all grooves.

    Args:
        columns_mm: Where the screws would stand without grooves.
        grooves: The grooves.
        width_mm: Width of the board.
        edge_mm: The least from a screw to the edge.
        room_mm: The least from the middle of a screw to the widest place of a groove.

    Raises:
        DesignError: There is no room for as many screws between the grooves.

    >>> clear_columns((10.0, 50.0, 90.0), (Groove(50.0, -60.0, 12.0, 8.0, 14.0),),
    ...               width_mm=100.0, edge_mm=10.0)
    (10.0, 39.0, 90.0)
    """
    barred = sorted(
        (g.x_mm - g.bit_mm / 2 - room_mm, g.x_mm + g.bit_mm / 2 + room_mm) for g in grooves
    )
    free: list[tuple[float, float]] = []
    start = edge_mm
    for low, high in barred:
        if low >= start - ROUNDING_MM:
            free.append((start, max(start, low)))
        start = max(start, high)
    if start <= width_mm - edge_mm + ROUNDING_MM:
        free.append((start, max(start, width_mm - edge_mm)))
    found: list[float] = []
    for column in columns_mm:
        places = [min(max(column, low), high) for low, high in free]
        if places:
            found.append(min(places, key=lambda x: (abs(x - column), x)))
    crowded = any(b - a < SCREWS_APART_MM for a, b in pairwise(found))
    if crowded or len(found) < len(columns_mm):
        raise DesignError(
            f"{len(columns_mm)} screws in a row find no room between the grooves of a wooden "
            f"carrier {said.mm(width_mm, '.0f')} wide",
            todo="Give the carrier a larger width or a larger gap",
        )
    return tuple(found)
