"""Is a clip's arm strained less than its plastic bears again and again?"""

from __future__ import annotations

from collections.abc import Sequence

from cleatwright.checks.result import CheckResult
from cleatwright.parts.holder import Seat
from cleatwright.standards.materials.printed_strain import OFTEN
from cleatwright.statics.spring_beam import strain


def check_springs(seats: Sequence[Seat]) -> tuple[CheckResult, ...]:
    """Return the result of the most strained arm; nothing when no seat has arms.

    Args:
        seats: The seats of a holder.

    Source: closed form of a thin curved beam; permissible strains of snap-fits, from memory.
    """
    strains = [
        (strain(arms), f"seat {number}, {arms.plastic.why}", arms.plastic.strain)
        for number, arms in enumerate((seat.spring for seat in seats), start=1)
        if arms is not None
    ]
    if not strains:
        return ()
    worst, note, borne = max(strains, key=lambda one: one[0] / one[2])
    return (CheckResult("spring strain", 100 * worst, 100 * borne, "%", OFTEN, note),)
