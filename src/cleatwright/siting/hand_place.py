"""Where a hand takes a tool that hangs on the wall, and the room that it needs there.

Only a pistol grip says where its tool is taken, along its handle. For all others the place
follows from how the tool hangs:

    upright    above the holder, where three fingers have room; else on that side, above
               or below, on which more of the tool stands free; else anywhere on it
    lying      anywhere along its length, from the middle outwards

The hand takes as much of that stretch as its breadth, where the tool fills it well, so that a
handle goes before a shaft; of such places any will do that has room, the one next to the
holder first. Fingers need their room at both sides of the tool and before it, but none
between the tool and its own holder.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from cleatwright.kernels.mesh import Convex, MeshBody
from cleatwright.shapes.rigid import Axis, Vector
from cleatwright.standards.people.hands import FINGER_MM, HAND_MM

# with three fingers a tool is lifted; with less than one it is not taken at all
HOLD_MM = 3 * FINGER_MM
# a place is as good as another when the hand is at least that much as full there
FULL_SHARE = 0.75
AWAY_MM = 1e4


@dataclass(frozen=True)
class _Stretch:
    """A stretch of a tool along an axis, and where on it a hand is tried first."""

    axis: Axis
    low_mm: float
    high_mm: float
    first_mm: float

    def windows(self) -> Iterator[tuple[float, float]]:
        """Yield the places of a hand, the next to ``first_mm`` first, at most half a hand apart."""
        spare = self.high_mm - self.low_mm - HAND_MM
        if spare <= 0.0:
            yield self.low_mm, self.high_mm
            return
        # an even number of steps, so that the middle is among them
        steps = 2 * math.ceil(spare / HAND_MM)
        starts = [self.low_mm + spare * k / steps for k in range(steps + 1)]
        for start in sorted(starts, key=lambda s: (abs(s + HAND_MM / 2 - self.first_mm), s)):
            yield start, start + HAND_MM


def hand_places(
    pieces: Sequence[Convex],
    holder: MeshBody,
    *,
    room_mm: float,
    handle: tuple[float, float] | None = None,
) -> Iterator[tuple[Convex, ...]]:
    """Yield what a hand and the tool in it fill at each place where the hand may take it.

    Args:
        pieces: The tool at rest, in the frame of the wall.
        holder: Its own holder there.
        room_mm: Room that the fingers need, > 0.
        handle: From which height to which its handle reaches, when the tool says so.
    """
    stretch = _stretch(pieces, holder) if handle is None else _Stretch("z", *handle, handle[1])
    steps = _room(stretch.axis, room_mm)
    places = [
        [part for piece in pieces if (part := piece.between(stretch.axis, low, high)) is not None]
        for low, high in stretch.windows()
    ]
    fills = [sum(part.body.facts.volume_mm3 for part in place) for place in places]
    for place, fill in zip(places, fills, strict=True):
        if fill >= FULL_SHARE * max(fills):
            yield tuple(part.spread(steps) for part in place)


def _room(axis: Axis, room_mm: float) -> tuple[Vector, ...]:
    """Return the corners of the room across the axis of the stretch: both sides and before."""
    return tuple(
        (side, before, 0.0) if axis == "z" else (0.0, before, side)
        for side in (-room_mm, room_mm)
        for before in (0.0, room_mm)
    )


def _stretch(pieces: Sequence[Convex], holder: MeshBody) -> _Stretch:
    low = np.min([piece.box_mm[0] for piece in pieces], axis=0)
    high = np.max([piece.box_mm[1] for piece in pieces], axis=0)
    if high[0] - low[0] > high[2] - low[2]:
        return _Stretch("x", float(low[0]), float(high[0]), float(low[0] + high[0]) / 2)
    bottom, top = float(low[2]), float(high[2])
    held = _held(low, high, holder)
    if held is None:
        return _Stretch("z", bottom, top, (bottom + top) / 2)
    above, below = top - held[1], held[0] - bottom
    if above >= min(HOLD_MM, max(below, FINGER_MM)):
        return _Stretch("z", held[1], top, held[1])
    if below >= FINGER_MM:
        return _Stretch("z", bottom, held[0], held[0])
    return _Stretch("z", bottom, top, top)


def _held(
    low: Sequence[float], high: Sequence[float], holder: MeshBody
) -> tuple[float, float] | None:
    """Return from which height to which the holder lies beside or before the tool."""
    (x0, y0, z0), (x1, _, z1) = low, high
    corners = [(x, y, z) for x in (x0, x1) for y in (y0, y0 + AWAY_MM) for z in (z0, z1)]
    shared = holder.shared_box_mm(Convex(np.array(corners)).body)
    return None if shared is None else (float(shared[0][2]), float(shared[1][2]))
