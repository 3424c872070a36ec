"""What would give a place to the holders that are left over: measured, not guessed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from cleatwright.wall.arrange import arrange, with_help
from cleatwright.wall.model import Arrangement, Item, RailRule, WallSpace

LARGER_PERCENT = (10, 25, 50)
FINER = 2.0
ROUNDS = 60


def find_help(
    space: WallSpace,
    rule: RailRule,
    items: Sequence[Item],
    arrangement: Arrangement,
    *,
    seed: int = 0,
    rounds: int = ROUNDS,
) -> Arrangement:
    """Return the arrangement with the single changes that give each left-over item a place.

    Each change is tried by arranging everything once more on the changed wall:
    wider and higher by 10, 25 and 50 %, and half the step of heights. Of the
    widths and of the heights the smallest that helps is named.
    """
    if not arrangement.left_over:
        return arrangement
    waiting = {left.key for left in arrangement.left_over}
    helps: dict[str, list[str]] = {key: [] for key in sorted(waiting)}
    for ladder in _ladders(space, rule):
        still = set(waiting)
        for words, other_space, other_rule in ladder:
            if not still:
                break
            tried = arrange(other_space, other_rule, items, seed=seed, rounds=rounds)
            hung = still & {place.key for place in tried.places}
            for key in sorted(hung):
                helps[key].append(words)
            still -= hung
    return with_help(arrangement, {key: tuple(found) for key, found in helps.items()})


def _ladders(
    space: WallSpace, rule: RailRule
) -> tuple[tuple[tuple[str, WallSpace, RailRule], ...], ...]:
    def grown(length_mm: float, percent: int) -> float:
        return length_mm * (100 + percent) / 100

    wider = tuple(
        (
            f"a wall {percent} % wider ({grown(space.width_mm, percent):.0f} mm)",
            replace(space, width_mm=grown(space.width_mm, percent)),
            rule,
        )
        for percent in LARGER_PERCENT
    )
    higher = tuple(
        (
            f"a wall {percent} % higher ({grown(space.height_mm, percent):.0f} mm)",
            replace(space, height_mm=grown(space.height_mm, percent)),
            rule,
        )
        for percent in LARGER_PERCENT
    )
    step_mm = rule.step_mm / FINER
    finer = ((f"rail heights in steps of {step_mm:g} mm", space, replace(rule, step_mm=step_mm)),)
    return wider, higher, finer
