"""What changes for what hangs already when a wall is arranged again."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from cleatwright.base import said
from cleatwright.base.errors import WallError
from cleatwright.wall.model import Place
from cleatwright.wall.rail import WALL
from cleatwright.wall.tolerances import SAME_MM

What = Literal["stays", "moves", "is new", "comes off"]


@dataclass(frozen=True)
class HungItem:
    """One thing where it hangs, or shall hang.

    Args:
        place: Where, with the key that tells it from all others.
        name: A name for people.
        panel: The panel on which it hangs; the main wall is "wall".
        mark: The part mark; another mark is another part.
        rail: The name of the rail on which it shall hang; "" for none, or where it is not known.
    """

    place: Place
    name: str
    panel: str = WALL
    mark: str = ""
    rail: str = ""

    @property
    def title(self) -> str:
        """Return its name with the mark that stands on it."""
        return f'"{self.name}" ({self.mark})' if self.mark else f'"{self.name}"'


@dataclass(frozen=True)
class Move:
    """What happens to one holder.

    Args:
        key: A key that no other move has.
        name: A name for people.
        before: Where it hangs now, or None when it is new.
        after: Where it shall hang, or None when it comes off the wall.
        panel_before: The panel on which it hangs now.
        panel_after: The panel on which it shall hang.
        renewed: True when another part takes its place, as when it got one more tool.
        now: What hangs there now, by its own name and mark; "" when it is new.
        then: What shall hang, by its name and mark; "" when it comes off.
        rail: The name of the rail on which it shall hang; "" for none, or where it is not known.
    """

    key: str
    name: str
    before: Place | None
    after: Place | None
    panel_before: str = WALL
    panel_after: str = WALL
    renewed: bool = False
    now: str = ""
    then: str = ""
    rail: str = ""

    def __post_init__(self) -> None:
        if self.before is None and self.after is None:
            raise WallError(
                "it hangs neither before nor after",
                where=f'move of "{self.name}"',
                todo="Leave it out of the moves",
            )

    @property
    def what(self) -> What:
        """Return what happens, in a word or two."""
        if self.before is None:
            return "is new"
        if self.after is None:
            return "comes off"
        apart = max(abs(self.right_mm), abs(self.up_mm)) > SAME_MM
        return "moves" if apart or self.panel_before != self.panel_after else "stays"

    @property
    def right_mm(self) -> float:
        """Return by how far it moves to the right; less than 0 to the left."""
        return self.after.x_mm - self.before.x_mm if self.before and self.after else 0.0

    @property
    def up_mm(self) -> float:
        """Return by how far it moves up; less than 0 down."""
        return self.after.z_mm - self.before.z_mm if self.before and self.after else 0.0

    @property
    def way(self) -> str:
        """Return by how far and in which direction it moves, or where to; "" when it does not.

        >>> said.in_mm(Move("1", "Hammer", Place("1", 100, 700), Place("1", 220, 750)).way)
        '120 mm to the right and 50 mm up'
        """
        if self.what != "moves":
            return ""
        if self.panel_before != self.panel_after:
            return f"from {surface(self.panel_before)} to {surface(self.panel_after)}"
        told = [
            f"{said.mm(abs(by), '.0f')} {more if by > 0 else less}"
            for by, more, less in (
                (self.right_mm, "to the right", "to the left"),
                (self.up_mm, "up", "down"),
            )
            if abs(by) > SAME_MM
        ]
        return " and ".join(told)

    @property
    def target(self) -> str:
        """Return where it shall hang, in words; "" when it comes off."""
        if self.after is None:
            return ""
        panel = surface(self.panel_after)
        return (
            f"its left edge {said.at(self.after.x_mm)} from the left edge of {panel}, "
            f"its hang height {said.at(self.after.z_mm)} above its lower edge"
            f"{f', on rail {self.rail}' if self.rail else ''}"
        )

    @property
    def sentence(self) -> str:
        """Return what happens, in a sentence.

        >>> Move("1", "Hammer", Place("1", 100, 700), None).sentence
        '"Hammer" comes off the wall.'
        """
        renewed = ", as a new part" if self.renewed else ""
        rest = {
            "stays": f"stays where it hangs{renewed}",
            "moves": f"moves {self.way}{renewed}",
            "is new": f"is new: {self.target}",
            "comes off": f"comes off {surface(self.panel_before)}",
        }[self.what]
        return f'"{self.name}" {rest}.'


def surface(panel: str) -> str:
    """Return a panel in words.

    >>> surface("wall"), surface("lid")
    ('the wall', 'the panel "lid"')
    """
    return "the wall" if panel == WALL else f'the panel "{panel}"'


def moves(before: Iterable[HungItem], after: Iterable[HungItem]) -> tuple[Move, ...]:
    """Return what happens to everything that hangs or shall hang, sorted by key.

    Args:
        before: What hangs now, in any order.
        after: What shall hang, in any order; the same thing has the same key.

    Raises:
        WallError: Two things have one key.
    """
    now, then = _by_key(before), _by_key(after)
    return tuple(_move(now.get(key), then.get(key)) for key in sorted({*now, *then}))


def _move(now: HungItem | None, then: HungItem | None) -> Move:
    known = [one for one in (then, now) if one is not None]
    return Move(
        key=known[0].place.key,
        name=known[0].name,
        before=now.place if now else None,
        after=then.place if then else None,
        panel_before=known[-1].panel,
        panel_after=known[0].panel,
        renewed=now is not None and then is not None and now.mark != then.mark,
        now=now.title if now else "",
        then=then.title if then else "",
        rail=then.rail if then else "",
    )


def _by_key(things: Iterable[HungItem]) -> dict[str, HungItem]:
    found: dict[str, HungItem] = {}
    for thing in things:
        if thing.place.key in found:
            raise WallError(f'two holders have the key "{thing.place.key}"', where="moves")
        found[thing.place.key] = thing
    return found
