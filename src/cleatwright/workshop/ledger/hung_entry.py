"""What hangs on a wall, as the ledger keeps it."""

from __future__ import annotations

import datetime as dt
import json
import math
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Self

from pydantic import TypeAdapter, ValidationError

from cleatwright.base import said
from cleatwright.base.errors import LedgerError
from cleatwright.base.keys import content_key, read_mark
from cleatwright.base.place import InLedger

Row = tuple[str, str, str, float, float, str, str, str, str, str]
COLUMNS_AT_FIRST = ("panel", "identity", "name", "x_mm", "z_mm", "mark", "tools_json", "since")
COLUMNS = (*COLUMNS_AT_FIRST, "broken_json", "fittings_json")
_NAMES = TypeAdapter(tuple[str, ...])


@dataclass(frozen=True)
class HungEntry:
    """One holder, or one carrier with its holders, where it hangs now.

    Args:
        panel: Name of the panel; the main wall is "wall".
        name: A name for people.
        x_mm: Left edge of its plate from the left edge of the panel, >= 0.
        z_mm: Its hang height above the lower edge of the panel, >= 0.
        mark: Mark of the part that hangs.
        tools: Names of its tools, sorted, each once, at least one.
        since: ISO date since which it hangs so.
        broken: The marks of those of its parts that broke, sorted; a mark may be there twice.
        fittings: The marks of its hangers, bolts, plates and hooks, sorted; a mark may be there
            more than once. None where it has none, or where nobody knows.
    """

    panel: str
    name: str
    x_mm: float
    z_mm: float
    mark: str
    tools: tuple[str, ...]
    since: str
    broken: tuple[str, ...] = ()
    fittings: tuple[str, ...] = ()

    @property
    def identity(self) -> str:
        """Return the key of its tools; no tool hangs in two places, so it is its own."""
        return content_key(self.tools)

    @staticmethod
    def sorted_marks(marks: Iterable[str]) -> tuple[str, ...]:
        """Return the marks of fittings in the order in which they are kept."""
        return tuple(sorted(marks))

    def fitted_with(self, marks: tuple[str, ...]) -> bool:
        """Tell whether it hangs with fittings of these marks, as far as its own are known."""
        return not (self.fittings and marks) or self.fittings == marks

    def fitted_as(self, other: HungEntry) -> bool:
        """Tell whether it hangs with the same fittings as another, as far as both are known."""
        return self.fitted_with(other.fittings)

    def known_from(self, old: HungEntry | None) -> HungEntry:
        """Return it with the date of an old entry that is the same but for what nobody knew."""
        if old is None or not self.fitted_as(old):
            return self
        same = replace(old, since=self.since, fittings=self.fittings) == self
        return replace(self, since=old.since) if same else self

    @property
    def order(self) -> tuple[str, str, tuple[str, ...]]:
        """Return by what entries are sorted: the panel, the name and the tools."""
        return self.panel, self.name, self.tools

    def row(self) -> Row:
        """Return the values of COLUMNS."""
        tools = json.dumps(self.tools, ensure_ascii=False)
        return (
            self.panel,
            self.identity,
            self.name,
            self.x_mm,
            self.z_mm,
            self.mark,
            tools,
            self.since,
            json.dumps(self.broken),
            json.dumps(self.fittings),
        )

    @classmethod
    def of_row(cls, row: Row) -> Self:
        """Return the entry of a row.

        Raises:
            LedgerError: The row is none that this program wrote.
        """
        panel, identity, name, x_mm, z_mm, mark, tools_json, since, broken_json, fitted = row
        try:
            tools = _NAMES.validate_json(tools_json, strict=True)
        except ValidationError:
            raise _malformed(name, "its tools are no list of names") from None
        try:
            broken = _NAMES.validate_json(broken_json, strict=True)
        except ValidationError:
            raise _malformed(name, "what broke of it is no list of marks") from None
        try:
            fittings = _NAMES.validate_json(fitted, strict=True)
        except ValidationError:
            raise _malformed(name, "its fittings are no list of marks") from None
        entry = cls(panel, name, x_mm, z_mm, mark, tools, since, broken, fittings)
        _require_sound(entry)
        if entry.identity != identity:
            raise _malformed(name, "its identity is not that of its tools")
        return entry


def require_sound(entries: Sequence[HungEntry]) -> None:
    """Refuse entries that cannot all hang.

    Raises:
        LedgerError: A value is malformed, or a tool hangs in two places.
    """
    for entry in entries:
        _require_sound(entry)
    places = Counter(tool for entry in entries for tool in entry.tools)
    for tool in sorted(places):
        if places[tool] > 1:
            raise LedgerError(
                f'The tool "{tool}" cannot hang in {places[tool]} places', place=InLedger("hung")
            )


def _require_sound(entry: HungEntry) -> None:
    reason = _what_is_wrong(entry)
    if reason:
        raise _malformed(entry.name, reason)


def _what_is_wrong(entry: HungEntry) -> str:
    """Return what is wrong with an entry, or ""."""
    if not (entry.panel.strip() and entry.name.strip()):
        return "it has no name, or its panel has none"
    for what, value in (("x", entry.x_mm), ("z", entry.z_mm)):
        if not (math.isfinite(value) and value >= 0.0):
            return f"its {what} is {said.mm(value)}"
    for mark in (entry.mark, *entry.broken, *entry.fittings):
        if read_mark(mark) != mark:
            return f'"{mark}" is not a part mark'
    named = sorted({tool for tool in entry.tools if tool.strip()})
    in_order = all(list(marks) == sorted(marks) for marks in (entry.broken, entry.fittings))
    if not named or list(entry.tools) != named or not in_order:
        return "its tools are not names in order, each once, or marks of it are not in order"
    try:
        dt.date.fromisoformat(entry.since)
    except ValueError as error:
        return str(error)
    return ""


def _malformed(name: str, reason: str) -> LedgerError:
    return LedgerError(
        f'The entry of "{name}", which hangs, is malformed ({reason})',
        place=InLedger("hung", name),
        allowed=f"a panel, a name, a place from {said.mm(0)}, a part mark, sorted tools and an ISO "
        "date",
        todo="Put an undamaged copy of the ledger back",
    )
