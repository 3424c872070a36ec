"""Does a rectangle fit into another, and after what turn?"""

from __future__ import annotations

import math

SLACK_MM = 1e-6


def turned_size_mm(size_mm: tuple[float, float], turn_deg: float) -> tuple[float, float]:
    """Return the extents along x and y of a rectangle after a turn.

    >>> turned_size_mm((30.0, 10.0), 90.0)
    (10.0, 30.0)
    """
    width, depth = size_mm
    if turn_deg % 180.0 == 0.0:
        return (width, depth)
    if turn_deg % 90.0 == 0.0:
        return (depth, width)
    cos, sin = abs(math.cos(math.radians(turn_deg))), abs(math.sin(math.radians(turn_deg)))
    return (width * cos + depth * sin, width * sin + depth * cos)


def turn_to_fit(size_mm: tuple[float, float], room_mm: tuple[float, float]) -> float | None:
    """Return the turn in degrees after which a rectangle fits into a room, or None.

    It is 0, else 90, else the middle of the turns that do; whole degrees where they do, too.

    Args:
        size_mm: Extents of the rectangle along x and y.
        room_mm: Extents of the room along x and y.

    Source: W. B. Carver, American Mathematical Monthly 64 (1957) 114-116 (from memory),
    tells when there is such a turn.

    >>> turn_to_fit((203.0, 41.0), (180.0, 180.0))
    45.0
    >>> turn_to_fit((260.0, 41.0), (180.0, 180.0)) is None
    True
    """
    for turn in (0.0, 90.0):
        if _inside(turned_size_mm(size_mm, turn), room_mm):
            return turn
    # with p the long side: p cos t + q sin t <= a from some turn on, p sin t + q cos t <= b up
    # to some turn, and both hold between the two
    (p, q), (a, b) = (max(size_mm), min(size_mm)), room_mm
    diagonal, lean = math.hypot(p, q), math.atan2(q, p)
    if min(a, b) >= diagonal:
        return 0.0
    least = math.acos(min(1.0, a / diagonal)) + lean
    most = math.asin(min(1.0, b / diagonal)) - lean
    if least > most + 1e-12:
        return None
    middle = math.degrees(least + most) / 2.0
    # the long side lies along x before the turn
    offset = 0.0 if size_mm[0] >= size_mm[1] else -90.0
    for turn in (float(round(middle)), middle):
        if _inside(turned_size_mm(size_mm, turn + offset), room_mm):
            return (turn + offset) % 180.0
    return None


def _inside(size_mm: tuple[float, float], room_mm: tuple[float, float]) -> bool:
    return size_mm[0] <= room_mm[0] + SLACK_MM and size_mm[1] <= room_mm[1] + SLACK_MM
