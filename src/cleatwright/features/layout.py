"""Laying seats out in a row."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class SeatLayout:
    """Centres of seats along x and the width of the plate that carries them."""

    centres_mm: tuple[float, ...]
    width_mm: float


def row(
    widths_mm: Sequence[float], *, gap_mm: float, margin_mm: float, least_mm: float = 0.0
) -> SeatLayout:
    """Return centres for seats of unequal widths, ``gap_mm`` apart and ``margin_mm`` from the ends.

    When the row is narrower than ``least_mm``, it is centred on that width.

    >>> row([10.0, 30.0], gap_mm=5.0, margin_mm=2.0)
    SeatLayout(centres_mm=(7.0, 32.0), width_mm=49.0)
    """
    total = sum(widths_mm) + gap_mm * (len(widths_mm) - 1) + 2 * margin_mm
    x = margin_mm + max(0.0, least_mm - total) / 2
    centres: list[float] = []
    for width in widths_mm:
        centres.append(x + width / 2)
        x += width + gap_mm
    return SeatLayout(tuple(centres), max(total, least_mm))


def screw_columns(width_mm: float, *, strip_mm: float, span_mm: float) -> tuple[float, ...]:
    """Return where screws stand along a plate: one, or evenly, at most ``span_mm`` apart.

    Args:
        width_mm: Width of the plate.
        strip_mm: Room that one screw takes, with its rim.
        span_mm: The most between two screws.

    >>> screw_columns(20.0, strip_mm=14.0, span_mm=110.0)
    (10.0,)
    >>> screw_columns(214.0, strip_mm=14.0, span_mm=110.0)
    (7.0, 107.0, 207.0)
    """
    if width_mm < 2 * strip_mm:
        return (width_mm / 2,)
    count = max(1, math.ceil((width_mm - strip_mm) / span_mm - 1e-9)) + 1
    step = (width_mm - strip_mm) / (count - 1)
    return tuple(strip_mm / 2 + k * step for k in range(count))
