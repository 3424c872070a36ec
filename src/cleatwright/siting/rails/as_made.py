"""Rails that are planned again where they were on the papers keep their names."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from cleatwright.wall.rail import Rail
from cleatwright.wall.tolerances import SAME_MM
from cleatwright.workshop.ledger.made_wall import MadeRail


def rails_made(made: Sequence[MadeRail], rails: Iterable[Rail]) -> tuple[Rail, ...]:
    """Return rails with the numbers of those that were made where they lie.

    One that lies in the place of a rail of the papers is that rail; else one that has most of
    its length in common with it, at the same height. What hangs has its number.

    Args:
        made: The rails of the papers that do not hang.
        rails: The rails of one panel; those with the number 0 have none yet.
    """
    found = list(rails)
    taken = {rail.number for rail in found if rail.number}
    pairs = sorted(
        (-shared, before.number, place)
        for place, rail in enumerate(found)
        if not rail.number
        for before in made
        if before.panel == rail.panel and abs(before.z_top_mm - rail.z_top_mm) <= SAME_MM
        if (shared := min(rail.x1_mm, before.x1_mm) - max(rail.x0_mm, before.x0_mm)) > 0.0
    )
    named: set[int] = set()
    for _, number, place in pairs:
        if number not in taken and place not in named:
            found[place] = replace(found[place], number=number)
            taken.add(number)
            named.add(place)
    return tuple(found)
