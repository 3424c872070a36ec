"""Each tool tried in its seat: along its way out, falling, and slipping to the front."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.base.keys import content_key
from cleatwright.base.stages.codec import JsonCodec
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.checks.way_out import DROP_MM, NUDGE_MM, SeatTrial
from cleatwright.design.bodies import PLAIN
from cleatwright.kernels.mesh import Convex, MeshBody, MeshKernel
from cleatwright.parts.holder import HolderPart, Seat
from cleatwright.shapes.rigid import Vector, shift
from cleatwright.shapes.solid import Solid, Union

# a seat touches its tool; lifting by this much frees the faces that carry it
REST_GAP_MM = 0.01
EDGE_STEPS = 6
EDGE_MM3 = 1e-3


def seat_trials(part: HolderPart, *, chord_error_mm: float, run: Run) -> tuple[SeatTrial, ...]:
    """Return what is measured at each seat of a part.

    Args:
        part: The part.
        chord_error_mm: Largest distance of a chord from its arc.
        run: The run that keeps what was measured before.
    """
    return tuple(
        [
            run.need(TRIAL, _Seated(seat, number, part.solid, chord_error_mm))
            for number, seat in enumerate(part.seats, 1)
        ]
    )


@dataclass(frozen=True, eq=False)
class _Seated:
    """A seat with its number, from 1, in a holder."""

    seat: Seat
    number: int
    holder: Solid
    chord_error_mm: float


def _trial(run: Run, given: _Seated) -> SeatTrial:
    seat = given.seat
    holder = run.need(PLAIN, (given.holder, given.chord_error_mm))
    kernel = MeshKernel(chord_error_mm=given.chord_error_mm)
    pose = seat.pose.then(shift(0.0, 0.0, REST_GAP_MM))
    resting = [Convex(kernel.corners(piece)).placed(pose) for piece in seat.tool.envelope]
    return SeatTrial(
        name=f"seat {given.number}",
        swept_mm3=_swept_overlap(seat, resting, _unsprung(seat, holder, kernel)),
        fall_mm=_travel(resting, (0.0, 0.0, -DROP_MM), holder),
        slip_mm=_travel(resting, (0.0, NUDGE_MM, 0.0), holder),
        kept=seat.kept,
        pulled=seat.magnet is not None,
    )


def _trial_key(given: _Seated) -> str:
    seat = given.seat
    moving = None if seat.spring is None else seat.spring.moving
    return content_key(
        (
            (given.number, given.holder.content_key, given.chord_error_mm),
            (seat.pose, seat.tool.envelope, seat.way_out, moving),
            (seat.kept, seat.magnet is not None),
        )
    )


TRIAL = Stage("trial of a seat", _trial, _trial_key, codec=JsonCodec(SeatTrial))
"""From a seat in a holder to what is measured there."""


def _unsprung(seat: Seat, holder: MeshBody, kernel: MeshKernel) -> MeshBody:
    """Return the holder without the arms that bend aside for this tool."""
    if seat.spring is None:
        return holder
    return holder.without(kernel.evaluate(Union(seat.spring.moving)))


def _swept_overlap(seat: Seat, pieces: Sequence[Convex], holder: MeshBody) -> float:
    total = 0.0
    here: list[Convex] = list(pieces)
    for move in seat.way_out:
        total += sum(piece.swept_overlap_mm3(move, holder) for piece in here)
        here = [piece.placed(shift(*move)) for piece in here]
    return total


def _travel(pieces: Sequence[Convex], move: Vector, holder: MeshBody) -> float:
    """Return how far the tool comes along a move until it meets the holder, else infinity.

    Corners are tried first, then edges; where neither meets squarely, as a corner that
    runs into a corner, the overlap along the move is halved down to the place.
    """
    nearest = min(piece.travel_mm(move, holder) for piece in pieces)
    if not math.isfinite(nearest):
        nearest = min(piece.edge_travel_mm(move, holder) for piece in pieces)
    if math.isfinite(nearest):
        return nearest
    if not _meets(pieces, move, holder):
        return math.inf
    free, met = 0.0, 1.0
    for _ in range(EDGE_STEPS):
        share = (free + met) / 2
        if _meets(pieces, (move[0] * share, move[1] * share, move[2] * share), holder):
            met = share
        else:
            free = share
    return math.hypot(*move) * met


def _meets(pieces: Sequence[Convex], move: Vector, holder: MeshBody) -> bool:
    return any(piece.swept_overlap_mm3(move, holder) > EDGE_MM3 for piece in pieces)
