"""Which parts hang already and are used again, so that they are neither printed nor fixed anew."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence

from cleatwright.design.building import BuiltPart
from cleatwright.design.carrying import Unit, part_names
from cleatwright.parts.holder import Hardware
from cleatwright.siting.hung.matching import matched, wanted_of
from cleatwright.siting.screws_behind import Met, placed_hardware
from cleatwright.workshop.ledger.hung_entry import HungEntry

HoldersOn = Callable[[str], tuple[str, ...]]


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
        for key in _again(unit, known[unit.planned.key].mark, holders_on)
    )


def _again(unit: Unit, mark: str, holders_on: HoldersOn) -> Iterator[str]:
    """Yield the keys of those parts of a unit that were there under a mark before."""
    if mark == unit.outer.mark:
        yield from part_names((unit,))
        return
    if unit.carrier is None:
        return
    left = Counter(holders_on(mark))
    for planned, made in zip(unit.planned.holders, unit.holders, strict=True):
        if left[made.mark]:
            left[made.mark] -= 1
            yield planned.key


def hardware_of(
    parts: Mapping[str, tuple[str, BuiltPart]],
    keys: frozenset[str],
    *,
    inside: bool,
    met: Mapping[str, Met],
) -> tuple[Hardware, ...]:
    """Return what the parts need whose keys are among ``keys``, or those of all others.

    Args:
        parts: All parts.
        keys: Keys of some of them.
        inside: True for what these need, False for the others.
        met: What the screws of parts meet that are screwed to a wall itself, by their keys.
    """
    return tuple(
        placed_hardware(item, met.get(key, "unknown"))
        for key, (_, made) in parts.items()
        if (key in keys) is inside
        for item in made.part.hardware
    )
