"""The one error tree of the program.

CleatwrightError
├── InputError              exit 2   something the person gave cannot be used
│   ├── MeasureError                 a measure or unit cannot be read, or is out of bounds
│   ├── UnknownNameError             a name that is not in a list of valid names
│   ├── DocumentError                workshop.toml cannot be read as a workshop
│   │   └── ChangedMeanwhileError    somebody else wrote where a change was to be made
│   └── ImportTableError             a CSV or XLSX table cannot be read
├── DesignError             exit 3   the input is sound, but the thing asked for does not exist
│   ├── NoHolderError                no family can hold a tool
│   ├── RailHoldError                nothing keeps a holder on its rail against weights and hands
│   │   └── NoRoomError              there is no room on the rail for what would
│   ├── ShapeError                   an outline or solid cannot be formed from its numbers
│   ├── PartError                    a built part breaks its own contract
│   ├── BedError                     a part is larger than every bed it may use
│   ├── StockError                   a rail is longer than every board
│   └── WallError                    holders do not find a place on the wall
│       └── RoomError                the same, for want of room alone
├── KernelError             exit 4   a geometry kernel reported a failure
├── StorageError            exit 5   reading or writing a file or the ledger failed
│   ├── OutputError                  an output folder or file cannot be written
│   └── LedgerError                  ledger.db is locked, corrupt or from a later version
├── FaultError              exit 1   the program itself failed where it should not
└── Cancelled               exit 130 the person asked to stop
"""

from __future__ import annotations

import difflib
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from typing import Any, Self

from cleatwright.base.alike import told_once
from cleatwright.base.place import NOWHERE, InDocument, Place, Step
from cleatwright.base.said import in_mm
from cleatwright.base.visible import visible

MOST_NAMES = 60
SOME_NAMES = 5
SHORT_NAME = 5
NEAR, NEAR_SHORT = 0.6, 0.65


class CleatwrightError(Exception):
    """Base of every error the program raises on purpose.

    ``code`` is stable and meant for programs; ``exit_code`` is what the command
    line returns. The message says what was given, what is allowed and what to do. An error
    that stands for several has them in ``faults``.

    Its sentences have their lengths as ``said`` marks them; what nobody has put into the unit of a
    workshop with ``Wording`` is shown in mm.

    Args:
        given: What is wrong, in one sentence.
        place: Where in the document, in another file or in the ledger.
        where: More words about the place, for what is in none of these.
        allowed: What would be right.
        todo: What to do.
        line: The line to write in the document, where there is one that is sure to be right.
        faults: Those for which this one stands.
        listed: How many faults the message lists, which may be more than ``faults`` has; 0 when
            it says itself what they are.
    """

    code = "error"
    exit_code = 1

    def __init_subclass__(cls, code: str = "", exit_code: int = 0) -> None:
        """Take the codes of a class; one that names none has those of the class above it."""
        cls.code = code or cls.code
        cls.exit_code = exit_code or cls.exit_code

    def __init__(
        self,
        given: str,
        *,
        place: Place = NOWHERE,
        where: str = "",
        allowed: str = "",
        todo: str = "",
        line: str = "",
        faults: Sequence[CleatwrightError] = (),
        listed: int = 0,
    ) -> None:
        self.faults = tuple(faults)
        self.listed = listed
        self.heading = given
        self.place = place
        self.words = where
        self.allowed = allowed
        self.todo = todo
        self.line = line
        super().__init__(self.sentence)

    @property
    def given(self) -> str:
        """What is wrong; of an error that lists several, each of them on a line of its own.

        One that is the same of many tools, or other rows of a list, is told once.
        """
        if not self.listed:
            return self.heading
        told = told_once([(one.place, one.marked_in(self.place)) for one in self.faults])
        lines = [f"- {line}" for line in told]
        left = self.listed - len(self.faults)
        more = [f"- and {left} more"] if left > 0 else []
        return "\n".join([f"{self.heading}:", *lines, *more])

    @property
    def where(self) -> str:
        """The place in words."""
        return ", ".join(part for part in (self.place.words, self.words) if part)

    @property
    def sentence(self) -> str:
        """The whole message in one paragraph, safe to show on a terminal."""
        return in_mm(self.marked)

    @property
    def marked(self) -> str:
        """The same for a part of another sentence, with its lengths still to be put into words."""
        return self._marked(self.where)

    def sentence_in(self, around: Place) -> str:
        """Return the message for a list of faults; the file that all share is not said again."""
        return in_mm(self.marked_in(around))

    def marked_in(self, around: Place) -> str:
        """Return the same with its lengths still to be put into words."""
        place = replace(self.place, file="") if self.place.file == around.file else self.place
        return self._marked(", ".join(part for part in (place.words, self.words) if part))

    def _marked(self, where: str) -> str:
        parts = [f"{visible(where)}: {self.given}" if where else self.given]
        if self.allowed:
            parts.append(f"Allowed: {self.allowed}")
        if self.todo:
            parts.append(self.todo)
        text = " ".join(part if part.endswith((".", "?", "!")) else part + "." for part in parts)
        return visible(text, lines=True)

    def under(self, *steps: Step) -> Self:
        """Return the same error with steps in front of its path, and of those it stands for."""
        return self._again(
            place=self.place if self.listed else self.place.under(*steps),
            faults=[one.under(*steps) for one in self.faults],
        )

    def in_file(self, file: str) -> Self:
        """Return the same error in a file, where it does not say yet in which it is."""
        return self._again(
            place=self.place.in_file(file), faults=[one.in_file(file) for one in self.faults]
        )

    def at(self, place: Place) -> Self:
        """Return the same error at another place."""
        return self._again(place=place)

    def moved(self, move: Callable[[Place], Place]) -> Self:
        """Return the same error with its place, and those of its faults, put elsewhere."""
        return self._again(place=move(self.place), faults=[one.moved(move) for one in self.faults])

    def located(self, where: str) -> Self:
        """Return the same error with words in front of those about its place."""
        return self._again(where=f"{where}: {self.words}" if self.words else where)

    def to_do(self, todo: str) -> Self:
        """Return the same error with what to do about it."""
        return self._again(todo=todo)

    def again(self) -> Self:
        """Return a new error that says the same, without where it was raised before."""
        return self._again()

    def said(self, say: Callable[[str], str]) -> Self:
        """Return the same error with its sentences said otherwise."""
        return self._again(
            given=say(self.heading),
            where=say(self.words),
            allowed=say(self.allowed),
            todo=say(self.todo),
            faults=[one.said(say) for one in self.faults],
        )

    def _again(self, **changed: Any) -> Self:
        same: dict[str, Any] = {
            "given": self.heading,
            "place": self.place,
            "where": self.words,
            "allowed": self.allowed,
            "todo": self.todo,
            "line": self.line,
            "faults": self.faults,
            "listed": self.listed,
        }
        given = {**same, **changed}
        return type(self)(given.pop("given"), **given)

    def leaves(self) -> tuple[CleatwrightError, ...]:
        """Return the faults that stand for no others; of a single one itself."""
        return tuple(leaf for one in self.faults for leaf in one.leaves()) or (self,)

    def as_dict(self) -> dict[str, object]:
        """Return the error for programs that read ``--json``; one of several has each apart."""
        entry: dict[str, object] = {
            "code": self.code,
            "exit_code": self.exit_code,
            "where": in_mm(self.where),
            **self.place.as_dict(),
            "given": in_mm(self.given),
            "allowed": in_mm(self.allowed),
            "todo": in_mm(self.todo),
            "line": self.line,
        }
        if not self.faults:
            return entry
        return entry | {"faults": [one.as_dict() for one in self.leaves()]}


class InputError(CleatwrightError, code="input", exit_code=2):
    """Something the person gave cannot be used."""


class MeasureError(InputError, code="measure"):
    """A measure or a unit cannot be read, or lies outside its bounds."""


class UnknownNameError(InputError, code="unknown-name"):
    """A name is not among the valid ones; the nearest valid name is offered."""


class DocumentError(InputError, code="document"):
    """A ``workshop.toml`` cannot be read as a workshop."""


class ChangedMeanwhileError(DocumentError, code="changed-meanwhile"):
    """Somebody else has written something where a change was to be made."""


class ImportTableError(InputError, code="import-table"):
    """A CSV or XLSX table cannot be read as a tool list."""


class DesignError(CleatwrightError, code="design", exit_code=3):
    """The input is sound, but the thing asked for cannot exist."""


class NoHolderError(DesignError, code="no-holder"):
    """No family can hold a tool; the reasons are given family by family."""


class RailHoldError(DesignError, code="rail-hold"):
    """Nothing that has room keeps a holder on its rail against its weights and hands."""


class NoRoomError(RailHoldError, code="no-room-on-rail"):
    """There is no room for what keeps a holder on its rail."""


class ShapeError(DesignError, code="shape"):
    """An outline or a solid cannot be formed from the numbers given."""


class PartError(DesignError, code="part"):
    """A built part breaks the contract that its family declared."""


class BedError(DesignError, code="bed"):
    """A part is larger than every bed it may be printed on."""


class StockError(DesignError, code="stock"):
    """A piece is longer than every board in stock."""


class WallError(DesignError, code="wall"):
    """One or more holders do not find a place on the wall."""


class RoomError(WallError, code="wall-room"):
    """The same, and nothing but want of room is the reason."""


class KernelError(CleatwrightError, code="calculation", exit_code=4):
    """A geometry kernel reported a failure; the message names the node."""


class StorageError(CleatwrightError, code="storage", exit_code=5):
    """Reading or writing something on disk failed."""


class OutputError(StorageError, code="output"):
    """An output folder or file cannot be written."""


class LedgerError(StorageError, code="ledger"):
    """The ledger is locked, corrupt or from a later version of the program."""


class FaultError(CleatwrightError, code="fault"):
    """The program itself failed where it should not, or ran out of memory."""


class Cancelled(CleatwrightError, code="cancelled", exit_code=130):  # noqa: N818 - it is a wish of the person, not a fault
    """The person asked to stop; nothing half-written was left behind."""


def nearest(given: str, names: Iterable[str]) -> str:
    """Return the one of some names that was meant, or "" where none is near enough.

    In a short word a few equal letters say little.

    >>> nearest("hamer", ["hammer", "wrench"]), nearest("hose", ["chisel", "coil"])
    ('hammer', '')
    """
    cutoff = NEAR_SHORT if len(given) <= SHORT_NAME else NEAR
    found = difflib.get_close_matches(given, list(names), n=1, cutoff=cutoff)
    return found[0] if found else ""


def unknown_name(
    what: str, given: str, valid: Iterable[str], *, place: Place = NOWHERE, where: str = ""
) -> UnknownNameError:
    """Return the error for an unknown name, with the nearest valid one when there is one.

    The line to write is known when the place is that of a key.

    >>> print(unknown_name("kind", "hamer", ["hammer", "wrench"]))
    There is no kind "hamer". Allowed: hammer, wrench. Did you mean "hammer"?
    """
    names = sorted(valid)
    near = nearest(given, names)
    listed = names
    if len(names) > MOST_NAMES:
        listed = difflib.get_close_matches(given, names, n=SOME_NAMES) or names[:SOME_NAMES]
    rest = "" if listed == names else f" and others, {len(names)} in all"
    path = place.paths[0] if isinstance(place, InDocument) and place.paths else ()
    key = path[-1] if path else None
    return UnknownNameError(
        f'There is no {what} "{visible(given)}"',
        place=place,
        where=where,
        allowed=", ".join(listed) + rest,
        todo=f'Did you mean "{near}"?' if near else "",
        line=f'{key} = "{near}"' if near and isinstance(key, str) else "",
    )
