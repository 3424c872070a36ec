"""Is a clip's arm strained less than its plastic bears again and again?"""

from __future__ import annotations

from collections.abc import Sequence

from cleatwright.checks.result import CheckResult
from cleatwright.parts.holder import Seat
from cleatwright.standards.materials.printed_strain import OFTEN, frequent_strain
from cleatwright.statics.spring_beam import strain

BRITTLE = "PLA"
"""What is taken as long as nobody says what the part is printed of."""
BRITTLEST = ", the most brittle of the four"


def check_springs(seats: Sequence[Seat], *, polymer: str = BRITTLE) -> tuple[CheckResult, ...]:
    """Return the result of the most strained arm; nothing when no seat has arms.

    Args:
        seats: The seats of a holder.
        polymer: "PLA", "PETG", "ABS" or "ASA".

    Source: closed form of a thin curved beam; permissible strains of snap-fits, from memory.
    """
    strains = [
        (
            strain(seat.spring),
            f"seat {number}, taken as {polymer}{BRITTLEST if polymer == BRITTLE else ''}",
        )
        for number, seat in enumerate(seats, start=1)
        if seat.spring is not None
    ]
    if not strains:
        return ()
    worst, note = max(strains)
    return (
        CheckResult("spring strain", 100 * worst, 100 * frequent_strain(polymer), "%", OFTEN, note),
    )
