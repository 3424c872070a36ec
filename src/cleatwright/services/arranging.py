"""Arranging what hangs on one panel, and the sentences when it cannot be."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from cleatwright.base.errors import KernelError, WallError
from cleatwright.services.progress import Progress
from cleatwright.wall.arrange import arrange, arrange_rest, require_all
from cleatwright.wall.asking.remedies import Panel, by_name, find_help
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.model import Arrangement, Item, RailRule, WallSpace
from cleatwright.wall.reach import ReachBand


@dataclass(frozen=True)
class Words:
    """How things are called in messages.

    Args:
        where: The place of the panel in the document.
        names: The names of holders by their keys.
    """

    where: str
    names: Mapping[str, str]

    def told(self, error: WallError) -> WallError:
        """Return the error with the names of holders in place of their keys, and its place."""
        return WallError(
            by_name(error.given, self.names),
            where=self.where,
            allowed=error.allowed,
            todo=by_name(error.todo, self.names) if error.todo else error.todo,
        )


@dataclass(frozen=True)
class Asked:
    """What one panel is, and what is asked of it.

    Args:
        space: The panel.
        rule: How rails may lie.
        band: Where the person reaches.
        words: How things are called in messages.
        others: Other panels on which something could hang instead.
        rounds: Rounds of the search.
    """

    space: WallSpace
    rule: RailRule
    band: ReachBand
    words: Words
    others: Mapping[str, Panel]
    rounds: int


def arranged(asked: Asked, items: Sequence[Item], *, progress: Progress) -> Arrangement:
    """Return where everything hangs on a panel.

    What hangs already stays where it is, as long as everything finds a place; only otherwise
    does the search move it, and as little as it pays.

    Raises:
        WallError: Something finds no place; the message says what would help.
        KernelError: The arrangement does not stand its own independent check.
    """
    space, rule, band, rounds = asked.space, asked.rule, asked.band, asked.rounds

    def told(done: int, total: int) -> None:
        progress.step("arranging the wall", done, total)

    try:
        found = None
        if any(item.hangs_at for item in items):
            found = arrange_rest(space, rule, items, band=band, rounds=rounds, progress=told)
        if found is None or found.left_over:
            found = arrange(space, rule, items, band=band, rounds=rounds, progress=told)
        if found.left_over:
            found = find_help(space, rule, items, found, band=band, others=asked.others)
        require_all(found)
    except WallError as error:
        raise asked.words.told(error) from error
    broken = conflicts(space, rule, items, found)
    if broken:
        raise KernelError("the arrangement breaks its own rules: " + "; ".join(broken))
    return found


def numbered_on(arrangement: Arrangement, count: int) -> Arrangement:
    """Return the arrangement with its rails numbered on after ``count`` others."""
    rails = (replace(r, name=f"R{count + n}") for n, r in enumerate(arrangement.rails, 1))
    return replace(arrangement, rails=tuple(rails))
