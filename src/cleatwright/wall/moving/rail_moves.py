"""What changes for the rails when a wall is arranged again."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from cleatwright.base.errors import WallError
from cleatwright.base.lengths import said_mm
from cleatwright.wall.conflicts import Rect
from cleatwright.wall.model import Place, RailRun
from cleatwright.wall.moving.moves import WALL, Move, surface
from cleatwright.wall.tolerances import SAME_MM

RailWhat = Literal["stays", "is new", "comes down"]


@dataclass(frozen=True)
class Rail:
    """One rail on a panel; the main wall is "wall"."""

    panel: str
    run: RailRun

    def carries(self, panel: str, place: Place) -> bool:
        """Return whether what hangs at a place of a panel hangs on this rail."""
        return (
            panel == self.panel
            and abs(self.run.z_top_mm - place.z_mm) <= SAME_MM
            and self.run.x0_mm - SAME_MM <= place.x_mm <= self.run.x1_mm
        )

    def strip(self, height_mm: float) -> Rect:
        """Return x0, x1, z0, z1 of the rail, which is ``height_mm`` (> 0) high."""
        run = self.run
        return run.x0_mm, run.x1_mm, run.z_top_mm - height_mm, run.z_top_mm


@dataclass(frozen=True)
class RailMove:
    """What happens to one rail.

    Args:
        before: Where it hangs now, or None when it is new.
        after: Where it shall hang, or None when it comes down.
        reason: Why it must come down, as the end of a sentence, or "".
        carried: True when anything hangs on it now.
        carries: True when anything shall hang on it.
    """

    before: Rail | None
    after: Rail | None
    reason: str = ""
    carried: bool = False
    carries: bool = False

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
        return self.rail.run.name

    @property
    def panel(self) -> str:
        """Return the panel on which it hangs."""
        return self.rail.panel

    @property
    def key(self) -> str:
        """Return a key that neither a holder nor another rail has."""
        return f"rail {self.name}"

    @property
    def what(self) -> RailWhat:
        """Return what happens, in a word or two."""
        if self.before is None:
            return "is new"
        return "stays" if self.after else "comes down"

    @property
    def title(self) -> str:
        """Return how it is called in a sentence.

        >>> RailMove(None, Rail("lid", RailRun("R4", 300.0, 0.0, 200.0))).title
        'rail R4 on the panel "lid"'
        """
        return f"rail {self.name}" + ("" if self.panel == WALL else f" on {surface(self.panel)}")

    @property
    def target(self) -> str:
        """Return where it shall hang, in words; "" when it comes down."""
        if self.after is None:
            return ""
        run = self.after.run
        long, left, top = (said_mm(at) for at in (run.length_mm, run.x0_mm, run.z_top_mm))
        return (
            f"{long} mm long, its left end {left} mm from the left edge of {surface(self.panel)}, "
            f"its top edge {top} mm above its lower edge"
        )

    @property
    def sentence(self) -> str:
        """Return what happens, in a sentence.

        >>> old = Rail("wall", RailRun("R3", 900.0, 0.0, 800.0))
        >>> RailMove(old, None, "the wall is lower now").sentence
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


def rail_moves(
    before: Iterable[Rail],
    after: Iterable[Rail],
    *,
    holders: Iterable[Move],
    reasons: Mapping[str, str],
) -> tuple[RailMove, ...]:
    """Return what happens to every rail that hangs or shall hang, by panel and from the top.

    Args:
        before: The rails that hang now, in any order.
        after: The rails that shall hang; the same rail has the same name.
        holders: What happens to everything that hangs on them.
        reasons: Why rails must come down, by their names.

    Raises:
        WallError: Two rails have one name.
    """
    now, then, moved = _by_name(before), _by_name(after), tuple(holders)
    found = [
        _move(now.get(name), then.get(name), moved, reasons.get(name, ""))
        for name in {**now, **then}
    ]
    return tuple(sorted(found, key=_order))


def _move(now: Rail | None, then: Rail | None, holders: Iterable[Move], reason: str) -> RailMove:
    moved = tuple(holders)
    return RailMove(
        before=now,
        after=then,
        reason=reason,
        carried=now is not None
        and any(one.before and now.carries(one.panel_before, one.before) for one in moved),
        carries=then is not None
        and any(one.after and then.carries(one.panel_after, one.after) for one in moved),
    )


def _order(move: RailMove) -> tuple[bool, str, float, float, str]:
    panel, run = move.panel, move.rail.run
    return panel != WALL, panel, -run.z_top_mm, run.x0_mm, run.name


def _by_name(rails: Iterable[Rail]) -> dict[str, Rail]:
    found: dict[str, Rail] = {}
    for rail in rails:
        if rail.run.name in found:
            raise WallError(f"two rails are called {rail.run.name}", where="moves")
        found[rail.run.name] = rail
    return found


def same_place(one: RailRun, other: RailRun) -> bool:
    """Return whether two rails of one panel lie in one place to the eye."""
    ends = (
        (one.z_top_mm, other.z_top_mm),
        (one.x0_mm, other.x0_mm),
        (one.x1_mm, other.x1_mm),
    )
    return all(abs(a - b) <= SAME_MM for a, b in ends)
