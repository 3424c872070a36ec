"""Which tools and holders there were when a workshop was last made, as the ledger keeps it.

By it they are known again though others came or went, were put in another order or renamed.
"""

from __future__ import annotations

import json
from collections import Counter
from dataclasses import dataclass, replace
from typing import Self

from pydantic import TypeAdapter, ValidationError

from cleatwright.base.errors import LedgerError
from cleatwright.base.place import InLedger

ToolRow = tuple[int, str, str, str, str, str, int]
HolderRow = tuple[int, str, str, str, str, str]
TOOL_COLUMNS_AT_FIRST = ("position", "identity", "name", "kind", "measures_json", "outline")
TOOL_COLUMNS = (*TOOL_COLUMNS_AT_FIRST, "gone")
HOLDER_COLUMNS = ("number", "panel", "carrier", "family", "chosen_by", "tools_json")
_MEASURES = TypeAdapter(tuple[tuple[str, float], ...])
_NAMES = TypeAdapter(tuple[str, ...])


@dataclass(frozen=True)
class KnownTool:
    """One single tool as it was.

    Args:
        identity: What it is known by whatever becomes of its name, place and measures.
        name: Its name.
        kind: Its kind.
        measures: Its measures in mm by name, sorted.
        outline: The content key of its outline, or "".
        gone: Whether it was out of the document, and only its seat was there.
    """

    identity: str
    name: str
    kind: str
    measures: tuple[tuple[str, float], ...]
    outline: str = ""
    gone: bool = False


@dataclass(frozen=True)
class KnownHolder:
    """One holder as it was.

    Args:
        number: Its number in all drawings, >= 1.
        panel: The panel for which it was made.
        carrier: The carrier that the document names for it, or "".
        family: The name of its family.
        chosen_by: The content key of all but the tools that its family was chosen by.
        tools: The identities of its tools in the order of its seats, at least one.
    """

    number: int
    panel: str
    carrier: str
    family: str
    chosen_by: str
    tools: tuple[str, ...]


@dataclass(frozen=True)
class LastMade:
    """Everything that is known again of the last time; nothing when there was none.

    Args:
        tools: The tools, in the order of the document.
        holders: The holders, by their numbers.
        last_number: The highest number that a holder ever had.
    """

    tools: tuple[KnownTool, ...] = ()
    holders: tuple[KnownHolder, ...] = ()
    last_number: int = 0

    def __bool__(self) -> bool:
        """Return True when there was a last time."""
        return bool(self.tools)

    def with_what_hangs(self, hung: LastMade) -> LastMade:
        """Return this, and of what hangs the tools that were not there the last time, as gone.

        Who is put back into the document is known again, and goes back into its holder.

        Args:
            hung: The tools and holders as they were when it was said that they hang.
        """
        here = {one.identity for one in self.tools}
        back = [replace(one, gone=True) for one in hung.tools if one.identity not in here]
        if not back:
            return self
        absent = {one.identity for one in back}
        holders = {one.number: one for one in self.holders}
        for one in hung.holders:
            missing = tuple(tool for tool in one.tools if tool in absent)
            if not missing:
                continue
            now = holders.get(one.number)
            tools = (*(now.tools if now else ()), *missing)
            if set(tools) == set(one.tools):
                tools = one.tools
            holders[one.number] = replace(now or one, tools=tools)
        return LastMade(
            # whoever has the name today goes before who had it
            (*back, *self.tools),
            tuple(holders[number] for number in sorted(holders)),
            max(self.last_number, hung.last_number),
        )

    def tool_rows(self) -> list[ToolRow]:
        """Return the values of TOOL_COLUMNS of each tool."""
        return [
            (
                position,
                one.identity,
                one.name,
                one.kind,
                json.dumps(one.measures, ensure_ascii=False),
                one.outline,
                int(one.gone),
            )
            for position, one in enumerate(self.tools)
        ]

    def holder_rows(self) -> list[HolderRow]:
        """Return the values of HOLDER_COLUMNS of each holder."""
        return [
            (
                one.number,
                one.panel,
                one.carrier,
                one.family,
                one.chosen_by,
                json.dumps(one.tools),
            )
            for one in self.holders
        ]

    @classmethod
    def of_rows(cls, tools: list[ToolRow], holders: list[HolderRow], last_number: int) -> Self:
        """Return what rows say.

        Raises:
            LedgerError: They are none that this program wrote.
        """
        try:
            kept = cls(
                tuple(
                    KnownTool(*row[1:4], _MEASURES.validate_json(row[4]), row[5], bool(row[6]))
                    for row in sorted(tools)
                ),
                tuple(
                    KnownHolder(*row[:-1], _NAMES.validate_json(row[-1])) for row in sorted(holders)
                ),
                last_number,
            )
        except ValidationError:
            raise _malformed("a list in it cannot be read") from None
        kept.require_sound()
        return kept

    def require_sound(self) -> None:
        """Refuse what cannot all have been there.

        Raises:
            LedgerError: Two tools have one identity or name, or a tool is in two holders or
                in one without being there.
        """
        for what, often in (
            ("identity", Counter(one.identity for one in self.tools)),
            ("name", Counter(one.name for one in self.tools)),
        ):
            if any(count > 1 for count in often.values()):
                raise _malformed(f"two tools have one {what}")
        seated = Counter(tool for one in self.holders for tool in one.tools)
        if any(count > 1 for count in seated.values()):
            raise _malformed("a tool is in two holders")
        if not seated.keys() <= {one.identity for one in self.tools}:
            raise _malformed("a holder has a tool that is not there")
        numbers = [one.number for one in self.holders]
        if any(not one.tools for one in self.holders) or any(
            not 1 <= number <= self.last_number for number in numbers
        ):
            raise _malformed("a holder has no tool, or a number that was never given")


def _malformed(reason: str) -> LedgerError:
    return LedgerError(
        f"What was last made is malformed ({reason})",
        place=InLedger("known_holders"),
        allowed="each tool once, each holder with tools and a number of its own",
        todo="Put an undamaged copy of the ledger back",
    )
