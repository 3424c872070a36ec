"""What goes on a bed at once: rectangles of parts packed into as few batches as found."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product
from typing import Any

import rectpack  # pyright: ignore[reportMissingTypeStubs] - it has none

from cleatwright.base import said
from cleatwright.base.errors import BedError, MeasureError
from cleatwright.printing.footprint import turn_to_fit, turned_size_mm

UNITS_PER_MM = 100
_NOISE = 1e-6

_UNTYPED: Any = rectpack  # the library ships no types

PACKERS: tuple[Any, ...] = (
    _UNTYPED.MaxRectsBssf,
    _UNTYPED.MaxRectsBl,
    _UNTYPED.MaxRectsBaf,
    _UNTYPED.SkylineBlWm,
    _UNTYPED.GuillotineBssfSas,
)
FILLS: tuple[Any, ...] = (_UNTYPED.PackingBin.BFF, _UNTYPED.PackingBin.BBF)
ORDERS: tuple[Any, ...] = (
    _UNTYPED.SORT_AREA,
    _UNTYPED.SORT_LSIDE,
    _UNTYPED.SORT_SSIDE,
    _UNTYPED.SORT_PERI,
)


@dataclass(frozen=True)
class Bed:
    """The bed of a printer in mm.

    Args:
        name: What the printer is called.
        width_mm: Extent along x (> 0).
        depth_mm: Extent along y (> 0).
        rim_mm: Strip along each edge that stays free (>= 0).
        spacing_mm: Gap between parts (>= 0).
    """

    name: str
    width_mm: float
    depth_mm: float
    rim_mm: float = 5.0
    spacing_mm: float = 5.0

    def __post_init__(self) -> None:
        """Raise MeasureError for a bed without room."""
        numbers = (self.width_mm, self.depth_mm, self.rim_mm, self.spacing_mm)
        if not all(math.isfinite(n) for n in numbers) or min(numbers[2:]) < 0.0:
            raise MeasureError(f"a bed with numbers {numbers}", where=self.name)
        if not min(self.room_mm) > 0.0:
            raise MeasureError(
                f"a bed of {said.number(self.width_mm)} by {said.mm(self.depth_mm)} with a rim of "
                f"{said.mm(self.rim_mm)} has no room",
                where=self.name,
            )

    @property
    def room_mm(self) -> tuple[float, float]:
        """Return the usable width and depth inside the rim."""
        return (self.width_mm - 2.0 * self.rim_mm, self.depth_mm - 2.0 * self.rim_mm)


@dataclass(frozen=True)
class BedPart:
    """A part as the bed sees it: its name and the rectangle that encloses it, in mm."""

    name: str
    width_mm: float
    depth_mm: float


@dataclass(frozen=True)
class BedPlace:
    """Where a part lies.

    Args:
        part: The part.
        x_mm: Left edge of the (turned) rectangle, from the left edge of the bed.
        y_mm: Front edge of the (turned) rectangle, from the front edge of the bed.
        turn_deg: Turn about z, counter-clockwise: 0 or 90, or any where only that fits.
    """

    part: BedPart
    x_mm: float
    y_mm: float
    turn_deg: float

    @property
    def size_mm(self) -> tuple[float, float]:
        """Return the extents along x and y as it lies."""
        return turned_size_mm((self.part.width_mm, self.part.depth_mm), self.turn_deg)


@dataclass(frozen=True)
class Batch:
    """What is printed at once, in the order of the places from front to back."""

    bed: Bed
    places: tuple[BedPlace, ...]


def pack_batches(parts: Sequence[BedPart], bed: Bed) -> tuple[Batch, ...]:
    """Return batches for one printer: the fewest found, with the last one the emptiest.

    Several methods and orders are tried in a fixed sequence, until one needs no
    more beds than the area demands. The order of the parts does not matter. A part that
    fits the bed only at an angle lies alone, in its middle.

    Raises:
        BedError: A part is larger than the bed at every angle.
        MeasureError: A part has no extent.
    """
    ordered = sorted(parts, key=lambda p: (-p.width_mm * p.depth_mm, -p.width_mm, p.name))
    turns = {part: _turn(part, bed) for part in ordered}
    alone = [[_in_the_middle(part, bed, turns[part])] for part in ordered if turns[part] % 90.0]
    ordered = [part for part in ordered if not turns[part] % 90.0]
    sizes = [_inflated(part, bed) for part in ordered]
    room = (
        _units_down(bed.room_mm[0] + bed.spacing_mm),
        _units_down(bed.room_mm[1] + bed.spacing_mm),
    )
    least = math.ceil(sum(w * d for w, d in sizes) / (room[0] * room[1]))
    best: list[list[BedPlace]] | None = None
    for method in product(PACKERS, ORDERS, FILLS):
        found = _pack(ordered, sizes, bed, room=room, method=method)
        if best is None or _score(found) < _score(best):
            best = found
        if len(best) == least:
            break
    return _as_batches([*(best or []), *alone], bed)


def _pack(
    parts: Sequence[BedPart],
    sizes: Sequence[tuple[int, int]],
    bed: Bed,
    *,
    room: tuple[int, int],
    method: tuple[Any, Any, Any],
) -> list[list[BedPlace]]:
    packer, order, fill = method
    work = _UNTYPED.newPacker(
        mode=_UNTYPED.PackingMode.Offline,
        bin_algo=fill,
        pack_algo=packer,
        sort_algo=order,
        rotation=True,
    )
    for number, (width, depth) in enumerate(sizes):
        work.add_rect(width, depth, number)
    work.add_bin(*room, count=max(1, len(sizes)))
    work.pack()
    batches: dict[int, list[BedPlace]] = {}
    for batch, x, y, width, _, number in work.rect_list():
        part = parts[int(number)]
        turn_deg = 0.0 if width == sizes[number][0] else 90.0
        left, front = bed.rim_mm + x / UNITS_PER_MM, bed.rim_mm + y / UNITS_PER_MM
        place = BedPlace(part, round(left, 6), round(front, 6), turn_deg)
        batches.setdefault(batch, []).append(place)
    return [batches[number] for number in sorted(batches)]


def _score(batches: list[list[BedPlace]]) -> tuple[int, float]:
    areas = [sum(p.part.width_mm * p.part.depth_mm for p in places) for places in batches]
    return (len(batches), round(min(areas, default=0.0), 2))


def _as_batches(found: list[list[BedPlace]], bed: Bed) -> tuple[Batch, ...]:
    fullest_first = sorted(
        found, key=lambda ps: -sum(p.part.width_mm * p.part.depth_mm for p in ps)
    )
    return tuple(
        Batch(bed, tuple(sorted(places, key=lambda p: (p.y_mm, p.x_mm, p.part.name))))
        for places in fullest_first
    )


def _inflated(part: BedPart, bed: Bed) -> tuple[int, int]:
    return _units_up(part.width_mm + bed.spacing_mm), _units_up(part.depth_mm + bed.spacing_mm)


def _units_up(length_mm: float) -> int:
    return math.ceil(length_mm * UNITS_PER_MM - _NOISE)


def _units_down(length_mm: float) -> int:
    return math.floor(length_mm * UNITS_PER_MM + _NOISE)


def _in_the_middle(part: BedPart, bed: Bed, turn_deg: float) -> BedPlace:
    width, depth = turned_size_mm((part.width_mm, part.depth_mm), turn_deg)
    left, front = (bed.width_mm - width) / 2.0, (bed.depth_mm - depth) / 2.0
    return BedPlace(part, round(left, 6), round(front, 6), turn_deg)


def _turn(part: BedPart, bed: Bed) -> float:
    """Return the turn after which a part fits the bed, or refuse."""
    size = (part.width_mm, part.depth_mm)
    if not all(math.isfinite(n) and n > 0.0 for n in size):
        raise MeasureError(
            f"a part of {said.number(size[0])} by {said.mm(size[1])}", where=part.name
        )
    # what fits only by less than a unit would not be packed
    whole = (_units_up(size[0]) / UNITS_PER_MM, _units_up(size[1]) / UNITS_PER_MM)
    turn_deg = turn_to_fit(whole, bed.room_mm)
    if turn_deg is not None:
        return turn_deg
    needed = f"{said.number(size[0], '.1f')} by {said.mm(size[1], '.1f')}"
    raise BedError(
        f'the part "{part.name}" needs {needed} on the bed of "{bed.name}"',
        allowed=f"up to {said.number(bed.room_mm[0], '.1f')} by {said.most(bed.room_mm[1], '.1f')} "
        f"inside the rim of {said.mm(bed.rim_mm)}, turned by any angle",
        todo="Choose a larger printer, a smaller rim, or a holder for fewer tools",
    )
