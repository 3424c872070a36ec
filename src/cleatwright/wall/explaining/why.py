"""The whole answer to why one holder hangs where it hangs."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from cleatwright.base import said
from cleatwright.wall.explaining.elsewhere import (
    OFFERING,
    InTheWay,
    Offering,
    OtherPlace,
    in_the_way,
    not_hung,
    other_place,
)
from cleatwright.wall.explaining.explain import Explained, explain
from cleatwright.wall.explaining.typed import MM, Typing
from cleatwright.wall.model import Arrangement, Place
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.tolerances import LEAST_POINTS

Trial = Callable[[Place], float | None]


@dataclass(frozen=True)
class Why:
    """Why a holder hangs where it hangs.

    Args:
        explained: What it costs there.
        way: What keeps it from the height where it is reached best; None when it hangs there.
        other: Its best other place while all the others stay; None when there is none.
        fixed: Whether the person gave its place.
        now: What the whole wall costs.
        proofs: What the whole wall costs once each place that tempts is given and everything else
            is arranged with it, by the place; None where something finds no place then.
        typing: How places are shown and typed.
        holds: Whether it holds where it hangs.
        finished: Whether everything finds a place on the wall.
    """

    explained: Explained
    way: InTheWay | None
    other: OtherPlace | None
    fixed: bool
    now: float
    proofs: Mapping[Place, float | None]
    typing: Typing = MM
    holds: bool = True
    finished: bool = True

    @property
    def better(self) -> Place | None:
        """Return the place that is proven to make the whole wall better, or None."""
        good = [(total, place.z_mm, place) for place, total in self._proven() if self._gain(total)]
        return min(good, key=lambda one: one[:2])[2] if good else None

    def _proven(self) -> list[tuple[Place, float]]:
        return [(place, total) for place, total in self.proofs.items() if total is not None]

    def _gain(self, total: float) -> bool:
        return total <= self.now - LEAST_POINTS

    @property
    def sentences(self) -> tuple[str, ...]:
        """Return the answer in full sentences."""
        if self.fixed:
            return ("Its place was given and is kept.", *self.explained.sentences)
        elsewhere = "There is no other place for it while all the others stay."
        told = list(self.explained.sentences or ("It hangs where it is reached with ease.",))
        if self.way is not None:
            told.append(self.way.sentence)
            told += self._verdict(self.way.place) if self.way.tempts else ()
        if self.other is None:
            told.append(elsewhere)
        elif self.way is None or self.other.place != self.way.place:
            told.append(self.other.sentence)
            told += self._verdict(self.other.place) if self.other.tempts else ()
        return tuple(told)

    def _verdict(self, place: Place) -> tuple[str]:
        """Return what comes of a place that tempts once the wall is arranged with it."""
        x, z = said.at_number(place.x_mm), self.typing.said(place.z_mm)
        given = f"Given that place, x {x} and z {z},"
        rather = ": leave it where it hangs." if self.holds else ": that is no remedy."
        total = self.proofs[place]
        if total is None:
            what = "something" if self.finished else "something that hangs"
            bad = f"{what} would find no place, or would not hold"
            return (f"{given} {bad}{rather}",)
        if not self._gain(total):
            worse = total - self.now
            return (
                f"{given} and everything else arranged with it, the wall costs "
                + (f"{worse:.1f} points more" if worse >= LEAST_POINTS else "as much as now")
                + rather,
            )
        better = f"{self.now - total:.1f} points less."
        return (f"{given} and everything else arranged with it, the wall costs {better}",)


def why(
    problem: WallProblem,
    arrangement: Arrangement,
    *,
    key: str,
    trial: Trial,
    offering: Offering = OFFERING,
    holds: bool = True,
    finished: bool = True,
) -> Why:
    """Return why the item of a key hangs where it hangs, and what else it could do.

    A place that looks better while all the others stay is tried on the whole wall before anything
    good is said of it, since the person who gives it has everything else arranged anew.

    Args:
        problem: The wall and what hangs.
        arrangement: Where.
        key: The item.
        trial: Returns what the whole wall costs once the item is given a place, None when that
            cannot be.
        offering: What a place is held to before it is offered.
        holds: Whether it holds where it hangs.
        finished: Whether everything finds a place on the wall.

    Raises:
        WallError: The item has no place; ``find_help`` tells why, and what would give it one.
    """
    told = explain(problem, arrangement)
    own = next((one for one in told if one.key == key), None)
    if own is None:
        raise not_hung(key)
    way = in_the_way(problem, arrangement, key=key, offering=offering)
    other = other_place(problem, arrangement, key=key, offering=offering)
    tempting = dict.fromkeys(one.place for one in (way, other) if one is not None and one.tempts)
    return Why(
        explained=own,
        way=way,
        other=other,
        fixed=problem.known[key].fixed is not None,
        now=arrangement.scores.total,
        proofs=MappingProxyType({place: trial(place) for place in tempting}),
        typing=offering.typing,
        holds=holds,
        finished=finished,
    )
