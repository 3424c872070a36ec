"""How large the hand is that takes a tool off the wall."""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Listed

HAND_MM = 97.0
HAND = Source("DIN 33402, EN 547-3: breadth of a hand, 95th percentile", "", Evidence.MEMORY)
FINGER_MM = 21.0
FINGER = Source("EN 547-3: breadth of an index finger, 95th percentile", "", Evidence.MEMORY)

VALUES = (
    Listed("Hand", "breadth mm", HAND_MM, HAND),
    Listed("Hand", "finger mm", FINGER_MM, FINGER),
)
