"""What changes for the rails when a wall is arranged again."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

from cleatwright.base import said
from cleatwright.base.errors import WallError
from cleatwright.wall.moving.moves import HungItem, surface
from cleatwright.wall.rail import WALL, Rail

RailWhat = Literal["stays", "is new", "comes down"]


@dataclass(frozen=True)
class RailMove:
    """What happens to one rail.

    Args:
        before: Where it hangs now, with what hangs on it; None when it is new.
        after: Where it shall hang, with what shall hang on it; None when it comes down.
    """

    before: Rail | None
    after: Rail | None

    @property
    def rail(self) -> Rail:
        """Return the rail where it shall hang, or where it hangs when it comes down.

        Raises:
            WallError: It hangs neither before nor after.
        """
        known = self.after or self.before
        if known is None:
            raise WallError("a rail hangs neither before nor after", where="moves")
        return known

    @property
    def name(self) -> str:
        """Return its name in every drawing."""
        return self.rail.name

    @property
    def panel(self) -> str:
        """Return the panel on which it hangs."""
        return self.rail.panel

    @property
    def key(self) -> str:
        """Return a key that neither a holder nor another rail has."""
        return f"rail {self.name}"

    @property
    def reason(self) -> str:
        """Return why it must come down, as the end of a sentence, or ""."""
        return self.before.why if self.before else ""

    @property
    def carried(self) -> bool:
        """Return whether anything hangs on it now."""
        return bool(self.before and self.before.carries)

    @property
    def carries(self) -> bool:
        """Return whether anything shall hang on it."""
        return bool(self.after and self.after.carries)

    @property
    def what(self) -> RailWhat:
        """Return what happens, in a word or two."""
        if self.before is None:
            return "is new"
        return "stays" if self.after else "comes down"

    @property
    def title(self) -> str:
        """Return how it is called in a sentence.

        >>> from cleatwright.wall.rail import Profile
        >>> profile = Profile(70.0, 18.0, 45.0)
        >>> RailMove(None, Rail(4, 300.0, 0.0, 200.0, profile, "lid")).title
        'rail R4 on the panel "lid"'
        """
        return f"rail {self.name}" + ("" if self.panel == WALL else f" on {surface(self.panel)}")

    @property
    def target(self) -> str:
        """Return where it shall hang, in words; "" when it comes down."""
        if self.after is None:
            return ""
        rail = self.after
        return (
            f"{said.at(rail.length_mm)} long, its left end {said.at(rail.x0_mm)} from the left "
            f"edge of {surface(self.panel)}, "
            f"its top edge {said.at(rail.z_top_mm)} above its lower edge"
        )

    @property
    def sentence(self) -> str:
        """Return what happens, in a sentence.

        >>> from cleatwright.wall.rail import Profile
        >>> old = Rail(3, 900.0, 0.0, 800.0, Profile(70.0, 18.0, 45.0))
        >>> RailMove(old.down("the wall is lower now"), None).sentence
        'Rail R3 must come down: the wall is lower now.'
        """
        title = self.title[0].upper() + self.title[1:]
        if self.what == "is new":
            return f"{title} is new: {self.target}."
        if self.what == "comes down":
            must = f"must come down: {self.reason}" if self.reason else "comes down"
            return f"{title} {must}."
        if self.carries:
            return f"{title} stays where it hangs."
        more = " any more" if self.carried else ""
        return f"{title} carries nothing{more}; it may stay or come down."


def hung_on(rails: Iterable[Rail], holders: Iterable[HungItem]) -> tuple[Rail, ...]:
    """Return rails with the keys of those holders that hang on them, by where these hang."""
    hanging = tuple(holders)
    return tuple(
        replace(
            rail,
            carries=tuple(
                one.place.key
                for one in hanging
                if rail.is_under(one.panel, one.place.x_mm, one.place.z_mm)
            ),
        )
        for rail in rails
    )


def rail_moves(before: Iterable[Rail], after: Iterable[Rail]) -> tuple[RailMove, ...]:
    """Return what happens to every rail that hangs or shall hang, by panel and from the top.

    Args:
        before: The rails that hang now, in any order, each with what hangs on it.
        after: The rails that shall hang, and what on them; the same rail has the same number.

    Raises:
        WallError: Two rails have one number.
    """
    now, then = _by_number(before), _by_number(after)
    found = [RailMove(now.get(number), then.get(number)) for number in {**now, **then}]
    return tuple(sorted(found, key=lambda move: (move.panel != WALL, move.panel, *move.rail.order)))


def _by_number(rails: Iterable[Rail]) -> dict[int, Rail]:
    found: dict[int, Rail] = {}
    for rail in rails:
        if rail.number in found:
            raise WallError(f"two rails are called {rail.name}", where="moves")
        found[rail.number] = rail
    return found
