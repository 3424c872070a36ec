"""Where the reaches of several people meet who take the same thing.

    A ├────────────┤            from the elbow to the shoulder of each
    B        ├────────────┤
             ├─────┤            easy for both: from the highest elbow to the lowest shoulder

Where they do not meet, the height between is taken that is as far from the one as from the other.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.base.errors import DesignError
from cleatwright.wall.reach import Hand, ReachBand


@dataclass(frozen=True)
class NamedBand:
    """Where one person reaches.

    Args:
        name: What the person is called.
        band: The reach on one panel.
        hand: The hand that takes tools.
    """

    name: str
    band: ReachBand
    hand: Hand = "either"


@dataclass(frozen=True)
class SharedReach:
    """Where everybody reaches who takes something.

    Args:
        band: The heights of easy reach that all share, and those that all reach at all; where the
            heights of easy reach do not meet, the one that is as near to all as can be.
        who: The names.
        meets: Whether the heights of easy reach meet.
    """

    band: ReachBand
    who: tuple[str, ...]
    meets: bool


def shared_reach(people: Sequence[NamedBand]) -> SharedReach:
    """Return where all of some people reach.

    The better hand counts where all who have one have the same; of several places for it the
    middle is taken.

    Raises:
        DesignError: There is nobody.

    >>> bands = ReachBand(1000.0, 1300.0, 500.0, 1800.0), ReachBand(1100.0, 1500.0, 600.0, 2000.0)
    >>> shared_reach([NamedBand("A", bands[0]), NamedBand("B", bands[1])]).band
    ReachBand(low_mm=1100.0, high_mm=1300.0, lowest_mm=600.0, highest_mm=1800.0, easy_x_mm=None)
    """
    if not people:
        raise DesignError("nobody takes it", where="shared_reach")
    bands = [one.band for one in people]
    low, high = max(one.low_mm for one in bands), min(one.high_mm for one in bands)
    meets = low <= high
    if not meets:
        low = high = (low + high) / 2
    return SharedReach(
        ReachBand(
            low_mm=low,
            high_mm=high,
            lowest_mm=max(one.lowest_mm for one in bands),
            highest_mm=min(one.highest_mm for one in bands),
            easy_x_mm=_shared_x_mm(people),
        ),
        tuple(one.name for one in people),
        meets,
    )


def _shared_x_mm(people: Sequence[NamedBand]) -> float | None:
    """Return the middle of the places of the better hand, or None where hands differ."""
    places = [one.band.easy_x_mm for one in people if one.band.easy_x_mm is not None]
    if not places or len({one.hand for one in people} - {"either"}) > 1:
        return None
    return math.fsum(places) / len(places)
