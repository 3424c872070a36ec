"""A rail that hangs on a wall, as the ledger keeps it."""

from __future__ import annotations

import json
import math
import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from itertools import combinations
from typing import Self

from pydantic import TypeAdapter, ValidationError

from cleatwright.base import said
from cleatwright.base.errors import LedgerError
from cleatwright.base.place import InLedger

RailRow = tuple[str, str, float, float, float, float, float, float, str, str]
RAIL_COLUMNS = (
    "panel",
    "name",
    "z_top_mm",
    "x0_mm",
    "x1_mm",
    "height_mm",
    "thickness_mm",
    "bevel_deg",
    "studs_json",
    "since",
)
RIGHT_ANGLE_DEG = 90.0
# two rails that meet end to end may share this much by rounding
MEETING_MM = 0.05
_NAME = re.compile(r"R[1-9][0-9]*")
_STUDS = TypeAdapter(tuple[float, ...] | None)


@dataclass(frozen=True)
class HungRail:
    """One rail where it hangs now.

    Args:
        panel: Name of the panel; the main wall is "wall".
        name: Its name in every drawing: R and a number that no other rail has.
        z_top_mm: Its top edge above the lower edge of the panel, > 0.
        x0_mm: Its left end from the left edge of the panel, >= 0.
        x1_mm: Its right end, > ``x0_mm``.
        height_mm: Height of its longer face, > 0.
        thickness_mm: Thickness of its board, > 0.
        bevel_deg: Angle of its bevel from a square cut, above 0 and below 90.
        studs_mm: The x of each stud into which it is screwed, from left to right; None on a wall
            of which no stud was known.
        since: ISO date since which it hangs so.
    """

    panel: str
    name: str
    z_top_mm: float
    x0_mm: float
    x1_mm: float
    height_mm: float
    thickness_mm: float
    bevel_deg: float
    studs_mm: tuple[float, ...] | None
    since: str

    @property
    def number(self) -> int:
        """Return the number in its name."""
        return int(self.name.removeprefix("R"))

    @property
    def order(self) -> tuple[str, float, float, str]:
        """Return by what rails are sorted: the panel, from top to bottom, from left to right."""
        return self.panel, -self.z_top_mm, self.x0_mm, self.name

    def row(self) -> RailRow:
        """Return the values of RAIL_COLUMNS."""
        return (
            self.panel,
            self.name,
            self.z_top_mm,
            self.x0_mm,
            self.x1_mm,
            self.height_mm,
            self.thickness_mm,
            self.bevel_deg,
            json.dumps(self.studs_mm),
            self.since,
        )

    @classmethod
    def of_row(cls, row: RailRow) -> Self:
        """Return the rail of a row.

        Raises:
            LedgerError: The row is none that this program wrote.
        """
        panel, name, z_top, x0, x1, height, thickness, bevel, studs_json, since = row
        try:
            studs = _STUDS.validate_json(studs_json, strict=True)
        except ValidationError:
            raise _malformed(name, "its studs are no list of numbers") from None
        rail = cls(panel, name, z_top, x0, x1, height, thickness, bevel, studs, since)
        _require_sound(rail)
        return rail


def require_sound_rails(rails: Sequence[HungRail]) -> None:
    """Refuse rails that cannot all hang.

    Raises:
        LedgerError: A value is malformed, two rails have one name, or two lie on each other.
    """
    for rail in rails:
        _require_sound(rail)
    names = Counter(rail.name for rail in rails)
    for name in sorted(names):
        if names[name] > 1:
            raise LedgerError(
                f"{names[name]} rails that hang are called {name}",
                place=InLedger("hung_rails", name),
            )
    for one, other in combinations(sorted(rails, key=lambda rail: rail.order), 2):
        if _overlap(one, other):
            raise LedgerError(
                f"The rails {one.name} and {other.name} cannot hang where they lie on each other",
                place=InLedger("hung_rails", one.name),
            )


def _overlap(one: HungRail, other: HungRail) -> bool:
    return (
        one.panel == other.panel
        and min(one.x1_mm, other.x1_mm) - max(one.x0_mm, other.x0_mm) > MEETING_MM
        and min(one.z_top_mm, other.z_top_mm)
        - max(one.z_top_mm - one.height_mm, other.z_top_mm - other.height_mm)
        > MEETING_MM
    )


def _require_sound(rail: HungRail) -> None:
    reason = _what_is_wrong(rail)
    if reason:
        raise _malformed(rail.name, reason)


def _what_is_wrong(rail: HungRail) -> str:
    """Return what is wrong with a rail, or ""."""
    if not (rail.panel.strip() and _NAME.fullmatch(rail.name)):
        return "its panel has no name, or its own is not R with a number"
    sizes = (rail.z_top_mm, rail.height_mm, rail.thickness_mm, rail.x1_mm - rail.x0_mm)
    if not (all(math.isfinite(size) and size > 0.0 for size in sizes) and rail.x0_mm >= 0.0):
        return "its place or its measures are no lengths on a wall"
    if not 0.0 < rail.bevel_deg < RIGHT_ANGLE_DEG:
        return f"its bevel is {rail.bevel_deg:g} degrees"
    studs = rail.studs_mm or ()
    if list(studs) != sorted({x for x in studs if rail.x0_mm <= x <= rail.x1_mm}):
        return "its studs do not lie behind it in order, each once"
    try:
        date.fromisoformat(rail.since)
    except ValueError as error:
        return str(error)
    return ""


def _malformed(name: str, reason: str) -> LedgerError:
    return LedgerError(
        f'The entry of the rail "{name}", which hangs, is malformed ({reason})',
        place=InLedger("hung_rails", name),
        allowed=f"a panel, a name as R1, measures above {said.mm(0)}, studs behind it and an ISO "
        "date",
        todo="Put an undamaged copy of the ledger back",
    )
