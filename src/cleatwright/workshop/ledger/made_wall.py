"""Where everything was to hang by the papers that were last made, as the ledger keeps it.

From there the next plan sets out, also before anybody says that something hangs.
"""

from __future__ import annotations

import json
import math
from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass
from types import MappingProxyType
from typing import Self

from pydantic import TypeAdapter, ValidationError

from cleatwright.base.errors import LedgerError
from cleatwright.base.place import InLedger

WALL_COLUMNS = ("wall_json",)
NO_ROOM = (0.0, 0.0, 0.0, 0.0)


@dataclass(frozen=True)
class MadePlace:
    """Where one thing was to hang.

    Args:
        key: Its key on the wall.
        panel: The panel.
        x_mm: The left edge of its plate.
        z_mm: Its hang height.
        mark: The mark of the part that hangs.
        room_mm: The room that it was found to need beyond its own size, so that tools come out
            and hands go in: left, right, above, below.
    """

    key: str
    panel: str
    x_mm: float
    z_mm: float
    mark: str
    room_mm: tuple[float, float, float, float] = NO_ROOM


@dataclass(frozen=True)
class MadeRail:
    """A rail of the papers: its number, its panel, its top edge and its ends."""

    number: int
    panel: str
    z_top_mm: float
    x0_mm: float
    x1_mm: float


@dataclass(frozen=True)
class MadeSeat:
    """A seat of the papers that is kept free on a rail.

    Args:
        key: What it is called.
        panel: The panel.
        x_mm: The left edge of the plate that may hang there.
        z_mm: Its hang height.
        width_mm: The width of that plate, > 0.
        room_mm: The room beside the plate, and from the hang height: left, right, above, below.
        bears_mm: How far below the hang height a holder there bears.
        mass_kg: The mass that it counts with.
    """

    key: str
    panel: str
    x_mm: float
    z_mm: float
    width_mm: float
    room_mm: tuple[float, float, float, float]
    bears_mm: float
    mass_kg: float


@dataclass(frozen=True)
class MadeWall:
    """All walls as they were last made; nothing when there was no last time.

    Args:
        places: Where things were to hang.
        rails: The rails.
        marks: The mark of each holder, by its number.
        in_rows: The panels whose rails are whole rows.
        bases: By the name of each panel the content key of all that its arrangement goes by but
            the things that hang on it.
        seats: The seats that are kept free.
    """

    places: tuple[MadePlace, ...] = ()
    rails: tuple[MadeRail, ...] = ()
    marks: tuple[tuple[int, str], ...] = ()
    bases: tuple[tuple[str, str], ...] = ()
    in_rows: tuple[str, ...] = ()
    seats: tuple[MadeSeat, ...] = ()

    def on(self, panel: str, base: str) -> Mapping[str, MadePlace]:
        """Return where things were to hang on a panel, by key; none when it is another one now.

        Args:
            panel: The name of the panel.
            base: The content key of all that its arrangement goes by today but the things.
        """
        if dict(self.bases).get(panel) != base:
            return MappingProxyType({})
        return MappingProxyType({one.key: one for one in self.places if one.panel == panel})

    def row(self) -> tuple[str]:
        """Return the values of WALL_COLUMNS."""
        return (json.dumps(asdict(self), ensure_ascii=False),)

    @classmethod
    def of_row(cls, text: str) -> Self:
        """Return what a row says.

        Raises:
            LedgerError: It is none that this program wrote.
        """
        try:
            kept = _WALL.validate_json(text)
        except ValidationError:
            kept = None
        if kept is None or not all(math.isfinite(number) for number in kept.numbers()):
            raise LedgerError(
                "Where things were to hang is malformed",
                place=InLedger("made_wall"),
                allowed="places, rails and marks as the program wrote them",
                todo="Put an undamaged copy of the ledger back",
            )
        return cls(kept.places, kept.rails, kept.marks, kept.bases, kept.in_rows, kept.seats)

    def numbers(self) -> Iterator[float]:
        """Yield every length in it."""
        for place in self.places:
            yield from (place.x_mm, place.z_mm, *place.room_mm)
        for rail in self.rails:
            yield from (rail.z_top_mm, rail.x0_mm, rail.x1_mm)
        for seat in self.seats:
            yield from (seat.x_mm, seat.z_mm, seat.width_mm, *seat.room_mm)
            yield from (seat.bears_mm, seat.mass_kg)


_WALL = TypeAdapter(MadeWall)
