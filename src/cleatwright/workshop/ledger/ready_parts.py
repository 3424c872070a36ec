"""Parts that are printed and do not hang, as the ledger keeps them."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Iterable
from dataclasses import astuple, dataclass, replace
from typing import Literal, Self

from cleatwright.base.errors import LedgerError
from cleatwright.base.keys import read_mark
from cleatwright.base.place import InLedger

Ready = Literal["printed", "spare"]
READY: tuple[Ready, ...] = ("printed", "spare")
READY_COLUMNS = ("mark", "state", "count", "since")
ReadyRow = tuple[str, Ready, int, str]


@dataclass(frozen=True)
class ReadyPart:
    """Equal parts that lie ready.

    Args:
        mark: The mark that stands on each of them.
        state: "printed" where they are to be hung, "spare" where they are kept for a broken one.
        count: How many there are, >= 1.
        since: ISO date on which the last of them was said to be there.
    """

    mark: str
    state: Ready
    count: int
    since: str

    def row(self) -> ReadyRow:
        """Return the values of READY_COLUMNS."""
        return astuple(self)


@dataclass(frozen=True)
class ReadyParts:
    """All parts that lie ready; nothing by itself."""

    parts: tuple[ReadyPart, ...] = ()

    def __bool__(self) -> bool:
        """Return True when any part lies ready."""
        return bool(self.parts)

    @classmethod
    def of_rows(cls, rows: Iterable[ReadyRow]) -> Self:
        """Return what rows say.

        Raises:
            LedgerError: They are none that this program wrote.
        """
        found = cls(tuple(sorted((ReadyPart(*row) for row in rows), key=_order)))
        found.require_sound()
        return found

    def counts(self, state: Ready) -> Counter[str]:
        """Return how many parts of each mark are in a state."""
        return Counter({one.mark: one.count for one in self.parts if one.state == state})

    def with_one_more(self, mark: str, state: Ready, *, since: str) -> Self:
        """Return the same and one part more."""
        count = self.counts(state)[mark] + 1
        return self._with(ReadyPart(mark, state, count, since))

    def with_one_less(self, mark: str, state: Ready) -> Self:
        """Return the same and one part less; the same when there is none."""
        old = next((one for one in self.parts if (one.mark, one.state) == (mark, state)), None)
        return self if old is None else self._with(replace(old, count=old.count - 1))

    def _with(self, part: ReadyPart) -> Self:
        others = (one for one in self.parts if _order(one) != _order(part))
        kept = (*others, *((part,) if part.count else ()))
        return type(self)(tuple(sorted(kept, key=_order)))

    def require_sound(self) -> None:
        """Refuse what cannot lie ready.

        Raises:
            LedgerError: A mark is none, a count is below 1, or a date is none.
        """
        for one in self.parts:
            fault = _what_is_wrong(one)
            if fault:
                raise LedgerError(
                    f'The entry of "{one.mark}", which is {one.state}, is malformed ({fault})',
                    place=InLedger("ready_parts", one.mark),
                    allowed="a part mark, a count from 1, an ISO date",
                    todo="Put an undamaged copy of the ledger back",
                )


def _order(one: ReadyPart) -> tuple[str, str]:
    return one.mark, one.state


def _what_is_wrong(one: ReadyPart) -> str:
    if read_mark(one.mark) != one.mark:
        return "it is not a part mark"
    if one.state not in READY or one.count < 1:
        return f"{one.count} {one.state}"
    try:
        dt.date.fromisoformat(one.since)
    except ValueError as error:
        return str(error)
    return ""
