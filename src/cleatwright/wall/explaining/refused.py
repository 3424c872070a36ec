"""What is in the way of a holder that is left over, height by height, while all the others stay."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.base import said
from cleatwright.wall.explaining.elsewhere import first_broken
from cleatwright.wall.explaining.insertion import Standing, crowded_places, heights
from cleatwright.wall.model import Item, Place
from cleatwright.wall.score import reach_cost

MOST_HEIGHTS, MOST_TOLD = 40, 3
# at each height so many places are looked at in full, where the fewest things are in the way
MOST_PLACES = 12


@dataclass(frozen=True)
class RefusedHeight:
    """The place at one height at which the fewest rules are broken.

    Args:
        place: The place, ``z_mm`` from the lower edge of the wall.
        above_floor_mm: The same height from the floor.
        broken: The rules, each with what is in the way; none where nothing is.
    """

    place: Place
    above_floor_mm: float
    broken: tuple[str, ...]

    @property
    def sentence(self) -> str:
        """Return what is in the way there, in words."""
        where = f"{said.at(self.above_floor_mm)} above the floor"
        if not self.broken:
            return f"At {where} nothing is in its way at x {said.at(self.place.x_mm)}."
        return (
            f"At {where} least is in its way at x {said.at(self.place.x_mm)}: "
            f"{first_broken(self.broken)}"
        )


def refused_heights(s: Standing, *, key: str) -> tuple[RefusedHeight, ...]:
    """Return what keeps an item off the heights at which least does, those first.

    Of heights with as much the one that is reached best comes first.

    Args:
        s: The wall as it hangs; the item is one of its problem's, and hangs nowhere.
        key: The item.
    """
    item = s.problem.known[key]

    def far(one: RefusedHeight) -> float:
        return reach_cost(item, one.above_floor_mm, problem=s.problem)

    crowded = (crowded_places(s, item, z_mm) for z_mm in heights(s, item)[:MOST_HEIGHTS])
    told: list[RefusedHeight] = []
    for places in sorted(filter(None, crowded), key=lambda places: places[0][0]):
        if len(told) == MOST_TOLD and places[0][0] > len(told[-1].broken):
            # there, and at all heights after it, more rules are broken
            break
        told.append(_least_refused(s, item, places[:MOST_PLACES]))
        told = sorted(told, key=lambda one: (len(one.broken), far(one)))[:MOST_TOLD]
    return tuple(told)


def _least_refused(s: Standing, item: Item, places: Sequence[tuple[int, Place]]) -> RefusedHeight:
    """Return the first of some places, all at one height, at which the fewest rules are broken."""
    best: RefusedHeight | None = None
    for least, place in places:
        if best is not None and least >= len(best.broken):
            break
        broken = s.broken_by(item, place)
        if best is None or len(broken) < len(best.broken):
            best = RefusedHeight(place, place.z_mm + s.space.floor_gap_mm, broken)
    assert best is not None  # noqa: S101 - there is at least one place
    return best
