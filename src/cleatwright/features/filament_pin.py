"""Pin of printing filament, pressed into a hole that is a trifle too small for it."""

from __future__ import annotations

from cleatwright.base import said
from cleatwright.base.source import Evidence, Source
from cleatwright.parts.holder import Hardware
from cleatwright.standards.table import Listed

PIN_MM = 1.75
HOLE_MM = 1.7
PINS = Source(
    "a hole a little narrower than the filament", "common practice, no source", Evidence.PRACTICE
)
VALUES = (
    Listed("Mounts", "pin of filament mm", PIN_MM, PINS),
    Listed("Mounts", "hole for a pin mm", HOLE_MM, PINS),
)


def pins(count: int, *, long_mm: float, note: str) -> Hardware:
    """Return pins for the list of hardware.

    Args:
        count: How many (>= 1).
        long_mm: How long each is (> 0).
        note: How they go in, for the reader.
    """
    name = f"pin of {said.metric(PIN_MM)} filament, {said.mm(long_mm, '.1f')} long"
    return Hardware(name=name, count=count, note=note, source=PINS)
