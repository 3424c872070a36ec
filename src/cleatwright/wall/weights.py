"""What the parts of the score weigh against each other."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Literal

from cleatwright.workshop.document.surfaces import RailLayout


@dataclass(frozen=True)
class Weights:
    """What the parts of the score weigh; all are choices of this program.

    Args:
        daily: Per centimetre outside the band of reach, for tools used every day.
        weekly: The same for tools used every week.
        seldom: The same for tools used seldom.
        beyond: How many times as much a centimetre out of all reach weighs, on top.
        raised_kg: Per kilogram and centimetre above the lower edge of the band.
        sideways: Per centimetre beside the better hand, as a share of the weight of its use.
        near: Per centimetre along the wall from what an item is wanted near.
        rail: Per rail height in use.
        rail_length: Per centimetre of rail.
        weak_rail: Per rail that meets fewer than two studs.
        overhang: Per holder that hangs so far beyond the last screws of its rail that they do not
            bear a hand on it.
        group: Per centimetre of width plus height of the box round a group.
        moved: Per holder that hangs already and would have to move.
        seat: Per seat that is to be kept free and finds no room. Three of them weigh less than a
            rail height, and each less than a holder that moves.
        seat_reach: Per centimetre of such a seat outside the band of reach.
    """

    daily: float = 10.0
    weekly: float = 3.0
    seldom: float = 1.0
    beyond: float = 10.0
    raised_kg: float = 3.0
    sideways: float = 0.05
    near: float = 3.0
    rail: float = 200.0
    rail_length: float = 0.5
    weak_rail: float = 2000.0
    overhang: float = 500.0
    group: float = 1.0
    moved: float = 100.0
    seat: float = 50.0
    seat_reach: float = 0.3

    def of_use(self, use: str) -> float:
        """Return the weight of a class of use."""
        return {"daily": self.daily, "weekly": self.weekly, "seldom": self.seldom}[use]


WEIGHTS = Weights()

Wanted = Literal["usual", "timber", "rails", "heights"]


@dataclass(frozen=True)
class Preference:
    """What a search is to look for.

    Args:
        name: What it is called.
        words: What that means, in a sentence.
        weights: What the parts of the score weigh for it.
        layout: How rails are laid for it; None for as they are on that wall.
    """

    name: str
    words: str
    weights: Weights
    layout: RailLayout | None = None


PREFERENCES: Mapping[Wanted, Preference] = MappingProxyType(
    {
        "usual": Preference("As usual", "Everything weighs what it weighs now.", WEIGHTS),
        "timber": Preference(
            "The least timber",
            "Rails are only as long as what hangs on them. A metre of rail weighs eight times as "
            "much, and a rail height twice.",
            replace(WEIGHTS, rail=2 * WEIGHTS.rail, rail_length=8 * WEIGHTS.rail_length),
            layout="pieces",
        ),
        "rails": Preference(
            "The tidiest rails",
            "Whole rows. A rail height and the room round a group weigh four times as much.",
            replace(WEIGHTS, rail=4 * WEIGHTS.rail, group=4 * WEIGHTS.group),
            layout="rows",
        ),
        "heights": Preference(
            "The safest heights",
            "Mass that hangs high weighs four times as much, and what is out of reach three times.",
            replace(WEIGHTS, raised_kg=4 * WEIGHTS.raised_kg, beyond=3 * WEIGHTS.beyond),
        ),
    }
)
"""What a search can be asked for; the numbers are choices of this program."""
