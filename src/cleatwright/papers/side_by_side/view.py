"""What the sheet of two arrangements shows: plain values only."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from cleatwright.base.keys import fields_key
from cleatwright.papers.elevation.view import ElevationView


@dataclass(frozen=True)
class SideBySideView:
    """Everything on the sheet.

    Args:
        title: The name of the wall, and what was looked for.
        now: The wall as it is.
        other: The wall as it would be; its holders have the numbers that they have now.
        moved: The numbers of what hangs elsewhere.
        heading: The heads of the columns of the table.
        rows: Its rows, a cell for each head.
        notes: What hangs elsewhere, and what costs most, line by line; "" is a gap.
    """

    title: str
    now: ElevationView
    other: ElevationView
    moved: frozenset[int]
    heading: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    notes: tuple[str, ...]

    @cached_property
    def content_key(self) -> str:
        """The content key of all that is shown."""
        return fields_key(self)
