"""Boards and strips of wooden carriers as pieces of the rail stock.

A board of the stock counts as one rail strip of the rail's height. What is higher is glued up
from as many widths as it needs, or cut from a wider board.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from cleatwright.base import said
from cleatwright.parts.joinery import Joinery, Strip
from cleatwright.timber.boards import Piece
from cleatwright.wall.rail import Profile


@dataclass(frozen=True)
class CarrierWood:
    """One carrier of wood: its mark and what it is made of."""

    mark: str
    joinery: Joinery


@dataclass(frozen=True)
class HookStrip:
    """The bevelled strip behind a carrier: its name, length and profile."""

    name: str
    length_mm: float
    profile: Profile


@dataclass(frozen=True)
class SquareRip:
    """Strips with square edges: what for, how high and thick each is, how many, how long."""

    name: str
    height_mm: float
    thickness_mm: float
    count: int
    length_mm: float


def widths_needed(height_mm: float, *, rail_height_mm: float) -> int:
    """Return how many rail strips are as high as that together.

    >>> widths_needed(150.0, rail_height_mm=70.0), widths_needed(70.0, rail_height_mm=70.0)
    (3, 1)
    """
    return max(1, math.ceil(height_mm / rail_height_mm - 1e-9))


def carrier_pieces(carriers: Sequence[CarrierWood], *, rail_height_mm: float) -> tuple[Piece, ...]:
    """Return the pieces that are cut to length for all carriers."""
    return tuple(
        Piece(name if count == 1 else f"{name} {number} of {count}", one.joinery.width_mm)
        for one in carriers
        for name, height in _heights(one)
        for count in (widths_needed(height, rail_height_mm=rail_height_mm),)
        for number in range(1, count + 1)
    )


def hook_strips(carriers: Sequence[CarrierWood]) -> tuple[HookStrip, ...]:
    """Return the bevelled strips, each with its own profile."""
    return tuple(
        HookStrip(
            _strip_name(one, strip),
            one.joinery.width_mm,
            Profile(strip.height_mm, strip.thickness_mm, strip.bevel_deg),
        )
        for one in carriers
        for strip in one.joinery.strips
        if strip.bevel_deg
    )


def square_rips(carriers: Sequence[CarrierWood], *, rail_height_mm: float) -> tuple[SquareRip, ...]:
    """Return the strips without a bevel, those of a board that is glued up included."""
    found: list[SquareRip] = []
    for one in carriers:
        board = one.joinery
        bevelled = {_strip_name(one, strip) for strip in board.strips if strip.bevel_deg}
        for name, height in _heights(one):
            if name in bevelled:
                continue
            count = widths_needed(height, rail_height_mm=rail_height_mm)
            found.append(SquareRip(name, height / count, board.thickness_mm, count, board.width_mm))
    return tuple(found)


def carrier_notes(carriers: Sequence[CarrierWood], *, rail_height_mm: float) -> tuple[str, ...]:
    """Return what must be said about boards that are higher than a rail strip, and on the order."""
    notes = [
        f"{name} is {said.mm(height, '.1f')} high and a rail strip {said.mm(rail_height_mm)}: glue "
        f"it up from {count} widths, each ripped a little higher to plane the joints, or cut it "
        f"from a wider board; then one piece stands for these {count}."
        for one in carriers
        for name, height in _heights(one)
        for count in (widths_needed(height, rail_height_mm=rail_height_mm),)
        if count > 1
    ]
    flats = sorted({s.flat_mm for one in carriers for s in one.joinery.strips if s.flat_mm})
    if carriers:
        notes.append(
            "A carrier's pieces may share a board with rails of another profile: cut such a board "
            "to length first, then rip each piece to its own height."
        )
    notes += [
        f"Plane the sharp edge of each hook strip {said.mm(flat)} flat, so that it does not jam in "
        "the corner of rail and wall."
        for flat in flats
    ]
    return tuple(dict.fromkeys(notes))


def _heights(one: CarrierWood) -> Iterator[tuple[str, float]]:
    yield f"carrier {one.mark} board", one.joinery.height_mm
    for strip in one.joinery.strips:
        yield _strip_name(one, strip), strip.height_mm


def _strip_name(one: CarrierWood, strip: Strip) -> str:
    return f"carrier {one.mark} {strip.name}"
