"""Holders next to each other on one carrier."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from cleatwright.parts.holder import HolderPart, Seat
from cleatwright.shapes.extent import joint_extent
from cleatwright.shapes.rigid import Vector, shift


@dataclass(frozen=True)
class Span:
    """How far something reaches along x, in the frame of a holder."""

    low_mm: float
    high_mm: float


def span_of(part: HolderPart) -> Span:
    """Return how far a holder with its tools reaches along the wall."""
    boxes = [joint_extent(seat.envelope()) for seat in part.seats]
    (x0, _, _), (x1, _, _) = part.bounds_mm
    return Span(min([x0, *(low[0] for low, _ in boxes)]), max([x1, *(h[0] for _, h in boxes)]))


def side_by_side(parts: Sequence[HolderPart], *, gap_mm: float) -> tuple[float, ...]:
    """Return the least x of each plate on a carrier whose own first plate starts at 0.

    Neighbouring holders, their tools included, stay ``gap_mm`` apart; so do their plates
    when ``gap_mm`` is more than the tools need.
    """
    spans = [span_of(part) for part in parts]
    starts = [0.0]
    for left, right in pairwise(spans):
        starts.append(starts[-1] + left.high_mm + gap_mm - right.low_mm)
    return tuple(starts)


def carried(seat: Seat, offset_mm: Vector) -> Seat:
    """Return a seat of a holder in the frame of its carrier."""
    return replace(
        seat, pose=seat.pose.then(shift(*offset_mm)), rest_z_mm=seat.rest_z_mm + offset_mm[2]
    )
