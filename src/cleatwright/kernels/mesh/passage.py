"""Convex pieces on their way: what they pass through, what they meet and what would free them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from cleatwright.base.errors import KernelError
from cleatwright.kernels.mesh.body import Floats, MeshBody, apart
from cleatwright.kernels.mesh.convex import Convex
from cleatwright.shapes.rigid import Vector, shift

FINE_MM = 0.005


@dataclass(frozen=True, eq=False)
class Passage:
    """Convex pieces that together go along straight moves, one after the other.

    Args:
        pieces: The pieces before the first move.
        moves: The moves, in mm.

    Raises:
        KernelError: There is no piece or no move.
    """

    pieces: tuple[Convex, ...]
    moves: tuple[Vector, ...]

    def __post_init__(self) -> None:
        """Refuse what goes nowhere."""
        if not (self.pieces and self.moves):
            raise KernelError(
                f"a passage of {len(self.pieces)} pieces along {len(self.moves)} moves"
            )

    @cached_property
    def starts(self) -> tuple[tuple[Convex, ...], ...]:
        """Return the pieces before each move."""
        found = [self.pieces]
        for move in self.moves[:-1]:
            found.append(tuple(piece.placed(shift(*move)) for piece in found[-1]))
        return tuple(found)

    @cached_property
    def legs(self) -> tuple[tuple[Convex, ...], ...]:
        """Return what each piece passes through along each move."""
        return tuple(
            tuple(piece.swept(move) for piece in pieces)
            for pieces, move in zip(self.starts, self.moves, strict=True)
        )

    @cached_property
    def boxes_mm(self) -> Floats:
        """Return the boxes around everything passed through, shape (n, 2, 3)."""
        return np.stack([piece.box_mm for leg in self.legs for piece in leg])

    def meets(self, bodies: Sequence[MeshBody], *, touch_mm3: float) -> bool:
        """Tell whether more than ``touch_mm3`` of the bodies is in the way along any one move."""
        return any(_overlap_mm3(leg, bodies) > touch_mm3 for leg in self.legs)

    def travel_mm(self, bodies: Sequence[MeshBody], *, touch_mm3: float) -> float:
        """Return how far it comes before ``touch_mm3`` of the bodies was in its way, else infinity.

        What was passed through only grows, so that halving finds the place, to
        ``FINE_MM``; zero when the pieces overlap the bodies before the first move.
        """
        behind = 0.0
        for pieces, move, leg in zip(self.starts, self.moves, self.legs, strict=True):
            length = math.hypot(*move)
            if _overlap_mm3(leg, bodies) > touch_mm3:
                return behind + length * _share_met(pieces, move, bodies, touch_mm3=touch_mm3)
            behind += length
        return math.inf

    def freeing_shift(
        self, directions: Sequence[Vector], bodies: Sequence[MeshBody], *, touch_mm3: float
    ) -> tuple[int, float]:
        """Return the direction, by its number, in which the least shift frees the whole way.

        The second number is that shift in mm, from above to ``FINE_MM``. Between two convex
        things it is exact; past a hollow body it is one that frees the way and no longer does
        when it is a little less.

        Args:
            directions: Unit vectors.
            bodies: What is in the way.
            touch_mm3: Shared volume along one move that still counts as touching.
        """
        far = [self._apart_mm(direction, bodies) for direction in directions]
        nearest = sorted(range(len(far)), key=lambda number: far[number])
        best, least = nearest[0], math.inf
        for number in nearest:
            high = min(far[number], least)
            if least < math.inf and not self._clear(directions[number], high, bodies, touch_mm3):
                continue
            low = 0.0
            while high - low > FINE_MM:
                middle = (low + high) / 2
                if self._clear(directions[number], middle, bodies, touch_mm3):
                    high = middle
                else:
                    low = middle
            if high < least - FINE_MM:
                best, least = number, high
        return best, least

    def _apart_mm(self, direction: Vector, bodies: Sequence[MeshBody]) -> float:
        """Return the shift after which nothing can overlap, since the spans lie apart."""
        ahead = np.array(direction)
        own = min(float((piece.corners_mm @ ahead).min()) for leg in self.legs for piece in leg)
        return max(float((body.vertices_mm @ ahead).max()) for body in bodies) - own

    def _clear(
        self, direction: Vector, mm: float, bodies: Sequence[MeshBody], touch_mm3: float
    ) -> bool:
        motion = shift(*(part * mm for part in direction))
        return all(
            sum(piece.body.placed(motion).overlap_mm3(body) for piece in leg for body in bodies)
            <= touch_mm3
            for leg in self.legs
        )


def _overlap_mm3(pieces: Sequence[Convex], bodies: Sequence[MeshBody]) -> float:
    return sum(
        piece.body.overlap_mm3(body)
        for piece in pieces
        for body in bodies
        if not apart(piece.box_mm, body.box_mm)
    )


def _share_met(
    pieces: Sequence[Convex], move: Vector, bodies: Sequence[MeshBody], *, touch_mm3: float
) -> float:
    """Return after which share of a move the overlap is reached."""
    if _overlap_mm3(pieces, bodies) > touch_mm3:
        return 0.0
    free, met = 0.0, 1.0
    while (met - free) * math.hypot(*move) > FINE_MM:
        share = (free + met) / 2
        part = (move[0] * share, move[1] * share, move[2] * share)
        if _overlap_mm3([piece.swept(part) for piece in pieces], bodies) > touch_mm3:
            met = share
        else:
            free = share
    return met
