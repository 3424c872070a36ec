"""Which parts are there already: that hang and are used again, or are printed and wait."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from cleatwright.design.building import BuiltPart
from cleatwright.design.carrying import Unit, part_names
from cleatwright.parts.holder import Hardware
from cleatwright.siting.hung.matching import matched, wanted_of
from cleatwright.siting.screws_behind import Met, placed_hardware
from cleatwright.workshop.ledger.hung_entry import HungEntry
from cleatwright.workshop.ledger.ready_parts import READY, ReadyParts

HoldersOn = Callable[[str], tuple[str, ...]]
PartState = Literal["planned", "printed", "hanging", "broken"]


@dataclass(frozen=True)
class PartsThere:
    """What there is already of the parts of a plan.

    Args:
        in_use: The keys of the parts that hang already and are used again.
        ready: The keys of the parts that are printed and are to be hung.
        broken: The keys of the parts of which one hangs that broke.
        over: How many parts of each mark lie there beyond those that are to be hung, sorted.
    """

    in_use: frozenset[str] = frozenset()
    ready: frozenset[str] = frozenset()
    broken: frozenset[str] = frozenset()
    over: tuple[tuple[str, int], ...] = ()

    @property
    def keys(self) -> frozenset[str]:
        """Return the keys of the parts that need not be printed."""
        return self.in_use | self.ready

    def state(self, key: str) -> PartState:
        """Return the state of a part; one that broke is printed once the new one is."""
        if key in self.in_use:
            return "hanging"
        if key in self.ready:
            return "printed"
        return "broken" if key in self.broken else "planned"


def parts_there(
    hung: Sequence[HungEntry],
    units: Sequence[Unit],
    holders_on: HoldersOn,
    *,
    ready: ReadyParts,
) -> PartsThere:
    """Return what there is already of the parts of units.

    Equal parts are worth the same: what is printed goes to the first that waits for one, and
    what is kept spare only to one that broke.

    Args:
        hung: What hangs now.
        units: What shall hang.
        holders_on: The marks of the holders on a carrier, as far as they are known.
        ready: What is printed and does not hang.
    """
    known = matched(hung, wanted_of(units))
    broken = frozenset(
        key
        for unit in units
        if unit.planned.key in known
        for key in _broken(unit, known[unit.planned.key])
    )
    in_use = parts_in_use(hung, units, holders_on) - broken
    piles = {state: ready.counts(state) for state in READY}
    waiting: set[str] = set()
    by_number = sorted(units, key=lambda one: [each.number for each in one.planned.holders])
    for key, (_, made) in part_names(by_number).items():
        if key in in_use or not made.printed:
            continue
        for state in READY if key in broken else READY[:1]:
            if piles[state][made.mark]:
                piles[state][made.mark] -= 1
                waiting.add(key)
                break
    over = piles["printed"] + piles["spare"]
    return PartsThere(in_use, frozenset(waiting), broken, tuple(sorted(over.items())))


def _broken(unit: Unit, entry: HungEntry) -> Iterator[str]:
    """Yield the keys of those parts of a unit of which one broke."""
    left = Counter(entry.broken)
    for key, (_, made) in part_names((unit,)).items():
        if left[made.mark]:
            left[made.mark] -= 1
            yield key


def parts_in_use(
    hung: Sequence[HungEntry], units: Sequence[Unit], holders_on: HoldersOn
) -> frozenset[str]:
    """Return the keys of the parts that hang already and hang again, here or elsewhere.

    A carrier that changed is made anew; those of its holders that it had before are not.

    Args:
        hung: What hangs now.
        units: What shall hang.
        holders_on: The marks of the holders on a carrier, as far as they are known.
    """
    known = matched(hung, wanted_of(units))
    return frozenset(
        key
        for unit in units
        if unit.planned.key in known
        for key in _again(unit, known[unit.planned.key], holders_on)
    )


def _again(unit: Unit, entry: HungEntry, holders_on: HoldersOn) -> Iterator[str]:
    """Yield the keys of those parts of a unit that were there before."""
    if entry.mark == unit.outer.mark:
        yield from _but_other_fittings(unit, entry)
        return
    if unit.carrier is None:
        return
    left = Counter(holders_on(entry.mark))
    for planned, made in zip(unit.planned.holders, unit.holders, strict=True):
        if left[made.mark]:
            left[made.mark] -= 1
            yield planned.key


def _but_other_fittings(unit: Unit, entry: HungEntry) -> Iterator[str]:
    """Yield the keys of all parts of a unit that hangs, but of fittings that it did not have."""
    fitted = {key: made.mark for key, made in unit.fittings_by_key()}
    left = Counter(entry.fittings or fitted.values())
    for key in part_names((unit,)):
        if key not in fitted:
            yield key
        elif left[fitted[key]]:
            left[fitted[key]] -= 1
            yield key


def hardware_of(
    parts: Mapping[str, tuple[str, BuiltPart]],
    keys: frozenset[str],
    *,
    inside: bool,
    met: Mapping[str, Met],
    refitted: frozenset[str] = frozenset(),
) -> tuple[Hardware, ...]:
    """Return what the parts need whose keys are among ``keys``, or those of all others.

    Args:
        parts: All parts.
        keys: Keys of some of them.
        inside: True for what these need, False for the others.
        met: What the screws of parts meet that are screwed to a wall itself, by their keys.
        refitted: Keys of those that get other fittings, with all that goes with these.
    """
    return tuple(
        placed_hardware(item, met.get(key, "unknown"))
        for key, (_, made) in parts.items()
        for item in made.part.hardware
        if (key in keys and not (item.of_fittings and key in refitted)) is inside
    )
