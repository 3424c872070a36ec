"""What the sheet of walls side by side shows: plain values only."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from cleatwright.base.keys import fields_key
from cleatwright.papers.elevation.view import ElevationView, Polygon
from cleatwright.papers.kit.svg import Point
from cleatwright.wall.rail import Rail


@dataclass(frozen=True)
class WasView:
    """Where something hangs now that would hang elsewhere, or no more.

    Args:
        outline: Its outlines there; none where they are not known.
        at: Its middle there.
        to: Its middle where it would hang; None when it comes off this wall.
    """

    outline: tuple[Polygon, ...]
    at: Point
    to: Point | None


@dataclass(frozen=True)
class BesideView:
    """One of the walls.

    Args:
        words: What it is, in a word or a line.
        wall: The wall as it is, or as it would be.
        moved: The numbers of what hangs elsewhere than now, or than on the other wall.
        new: The numbers of what does not hang yet.
        was: Where it hangs now what would hang elsewhere, or no more.
        new_rails: The names of the rails to be put up.
        rails_down: The rails that would come down.
    """

    words: str
    wall: ElevationView
    moved: frozenset[int] = frozenset()
    new: frozenset[int] = frozenset()
    was: tuple[WasView, ...] = ()
    new_rails: frozenset[str] = frozenset()
    rails_down: tuple[Rail, ...] = ()


@dataclass(frozen=True)
class SideBySideView:
    """Everything on the sheet.

    Args:
        title: The name of the wall, and what is compared.
        walls: One wall or several, all of one size; what is the same has the same number.
        heading: The heads of the columns of the table.
        rows: Its rows, a cell for each head; no table when empty.
        notes: What differs, and what costs most, line by line; "" is a gap.
    """

    title: str
    walls: tuple[BesideView, ...]
    heading: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    notes: tuple[str, ...]

    @cached_property
    def content_key(self) -> str:
        """The content key of all that is shown."""
        return fields_key(self)
