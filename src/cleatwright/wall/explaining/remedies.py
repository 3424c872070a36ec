"""What would give a place to the holders that are left over: measured, not guessed."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from cleatwright.wall.arrange import Progress
from cleatwright.wall.explaining.constraints import binding_constraint
from cleatwright.wall.explaining.offers import (
    Ask,
    Means,
    Offer,
    any_order,
    begun_lower,
    between_steps,
    by_hand,
    freed,
    larger,
    left_out,
    other_wishes,
    panels,
)
from cleatwright.wall.explaining.together import least_together
from cleatwright.wall.explaining.trials import Trials
from cleatwright.wall.model import Arrangement
from cleatwright.wall.problem import WallProblem

MOST_HELPS = 6
# proofs that search to the end; each takes as long as arranging the wall. So many are made for
# those that have no change that helps, and so many in all where each has one
MOST_LONG, FEW_LONG = 3, 2
# fewer rounds and tries for more items, so that a wall of 40 takes seconds and not minutes
ROUNDS_TIMES_ITEMS, FEWEST_ROUNDS, MOST_ROUNDS = 8000, 40, 200
TRIES_TIMES_ITEMS, FEWEST_TRIES, MOST_TRIES = 320, 5, 10
SEARCHED_TIMES_ITEMS, MOST_SEARCHED = 120, 3


def find_help(
    problem: WallProblem,
    arrangement: Arrangement,
    *,
    means: Means | None = None,
    still: bool = False,
    about: str = "",
    progress: Progress | None = None,
) -> Arrangement:
    """Return the arrangement with what keeps each out, and the smallest changes that help.

    Each change was proven by arranging everything once more, with as many rounds as ``arrange``
    makes by itself: those that it is said to help find a place, nobody else loses
    one, and there is no conflict. Of the changes of one kind the smallest that was found is named,
    and at most six for one item, the smallest first. Where several wait, the least changes are
    looked for after which everything hangs, proven together. Where there are none, and a change
    gives a place to some only of those that wait, the proof takes long and few are made: first for
    what helps half of those or more that have no other change.

    Args:
        problem: The wall with all items, those left over too.
        arrangement: What ``arrange`` found.
        means: What a change may use, and how a place is written.
        still: Whether nothing may move that hangs already and may stay.
        about: The key of the one for which changes are looked for; for all when empty. Of the
            others only what keeps them out is told.
        progress: Called in each round of each trial; it may raise to stop.
    """
    if not arrangement.left_over:
        return arrangement
    count = len(problem.items)
    ask = Ask(
        problem=problem,
        places=arrangement.places,
        trials=Trials(
            waiting=frozenset(left.key for left in arrangement.left_over),
            rounds=help_rounds(count),
            progress=progress,
            still=still,
        ),
        tries=_share(TRIES_TIMES_ITEMS, count, least=FEWEST_TRIES, most=MOST_TRIES),
        means=means or Means(),
    )
    offers = sorted(_offers(ask, about), key=lambda one: one.size)
    proven = Proven(ask.trials.waiting, offers)
    together = () if about or len(ask.trials.waiting) < 2 else least_together(ask, offers)
    if together:
        # what gives some of them a place would take long to prove, and is no more asked for
        proven.long = MOST_LONG
    elif not about:
        proven.cover()
    told = [
        replace(
            left,
            reason=binding_constraint(problem, key=left.key).sentence,
            helps=() if about and left.key != about else _of(left.key, proven),
            together=bool(together),
        )
        for left in arrangement.left_over
    ]
    return replace(
        arrangement,
        left_over=tuple(told),
        finished_by=tuple(one.words for one in together),
    )


def by_name(words: str, names: Mapping[str, str]) -> str:
    """Return the words with names in place of the keys that stand in quotes.

    >>> by_name('"12" and "sink" overlap.', {"12": "saws"})
    '"saws" and "sink" overlap.'
    """
    return re.sub(r'"([^"]*)"', lambda quoted: f'"{names.get(quoted[1], quoted[1])}"', words)


def help_rounds(item_count: int) -> int:
    """Return the rounds of improvement of each changed wall before it is proven.

    >>> help_rounds(5), help_rounds(40), help_rounds(200)
    (200, 200, 40)
    """
    return _share(ROUNDS_TIMES_ITEMS, item_count, least=FEWEST_ROUNDS, most=MOST_ROUNDS)


def _share(whole: int, item_count: int, *, least: int, most: int) -> int:
    return min(max(whole // max(item_count, 1), least), most)


def _offers(ask: Ask, about: str) -> Iterator[Offer]:
    """Yield what helps; a search of its own is made for the first of those that wait only."""
    most = _share(SEARCHED_TIMES_ITEMS, len(ask.problem.items), least=1, most=MOST_SEARCHED)
    keys = [about] if about else sorted(ask.trials.waiting)[:most]
    for key in keys:
        yield from by_hand(ask, key)
        yield from panels(ask, key)
        yield from other_wishes(ask, key)
        yield from freed(ask, key)
        yield from left_out(ask, key)
    yield from between_steps(ask)
    yield from any_order(ask)
    yield from larger(ask, keys, wide=True)
    yield from larger(ask, keys, wide=False)
    yield from begun_lower(ask, keys)


@dataclass
class Proven:
    """What is proven of offers, by their numbers.

    A proof that gives a place to all who wait ends as soon as it does. One that leaves somebody
    over searches to the end, and of such only a few are made.

    Args:
        waiting: The keys of those without a place.
        offers: The offers, the smallest change first.
        found: By the number of an offer the keys of those that it is proven to help.
        long: How many proofs searched to the end.
    """

    waiting: frozenset[str]
    offers: Sequence[Offer]
    found: dict[int, frozenset[str]] = field(default_factory=dict[int, frozenset[str]])
    long: int = 0

    def cover(self) -> None:
        """Prove offers until each that waits has one that helps, or enough was tried for them.

        First comes the smallest change that helps half of them or more; then the same for the rest.
        """
        bare = set(self.waiting)
        while bare and self.long < MOST_LONG:
            helped = {
                number: len(bare & offer.helped)
                for number, offer in enumerate(self.offers)
                if number not in self.found
            }
            enough = min(max(helped.values(), default=0), math.ceil(len(bare) / 2))
            if not enough:
                return
            bare -= self._prove(next(n for n, many in helped.items() if many >= enough))

    def helped(self, number: int) -> frozenset[str]:
        """Return the keys of those that an offer is proven to help; none when it is not proven."""
        if number in self.found:
            return self.found[number]
        # a proof that gives all a place ends as soon as it does
        quick = self.offers[number].helped >= self.waiting
        return self._prove(number) if quick or self.long < FEW_LONG else frozenset()

    def _prove(self, number: int) -> frozenset[str]:
        self.found[number] = self.offers[number].proof()
        self.long += self.found[number] < self.waiting
        return self.found[number]


def _of(key: str, proven: Proven) -> tuple[str, ...]:
    """Return the words of the smallest changes that are proven to help an item."""
    told: dict[str, None] = {}
    families: set[str] = set()
    for number, offer in enumerate(proven.offers):
        if key not in offer.helped or offer.family in families or offer.words in told:
            continue
        if key in proven.helped(number):
            told[offer.words] = None
            families |= {offer.family} if offer.family else set()
        if len(told) == MOST_HELPS:
            break
    return tuple(told)
