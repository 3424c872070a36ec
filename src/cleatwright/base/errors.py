"""The one error tree of the program.

CleatwrightError
├── InputError              exit 2   something the person gave cannot be used
│   ├── MeasureError                 a measure or unit cannot be read, or is out of bounds
│   ├── UnknownNameError             a name that is not in a list of valid names
│   ├── DocumentError                workshop.toml cannot be read as a workshop
│   └── ImportTableError             a CSV or XLSX table cannot be read
├── DesignError             exit 3   the input is sound, but the thing asked for does not exist
│   ├── NoHolderError                no family can hold a tool
│   ├── ShapeError                   an outline or solid cannot be formed from its numbers
│   ├── PartError                    a built part breaks its own contract
│   ├── BedError                     a part is larger than every bed it may use
│   ├── StockError                   a rail is longer than every board
│   └── WallError                    holders do not find a place on the wall
├── KernelError             exit 4   a geometry kernel reported a failure
├── StorageError            exit 5   reading or writing a file or the ledger failed
│   ├── OutputError                  an output folder or file cannot be written
│   └── LedgerError                  ledger.db is locked, corrupt or from a later version
├── FaultError              exit 1   the program itself failed where it should not
└── Cancelled               exit 130 the person asked to stop
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Sequence

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
    """

    code = "error"
    exit_code = 1

    def __init__(
        self,
        given: str,
        *,
        where: str = "",
        allowed: str = "",
        todo: str = "",
        faults: Sequence[CleatwrightError] = (),
    ) -> None:
        self.faults = tuple(faults)
        self.given = given
        self.where = where
        self.allowed = allowed
        self.todo = todo
        super().__init__(self.sentence)

    @property
    def sentence(self) -> str:
        """The whole message in one paragraph, safe to show on a terminal."""
        parts = [f"{visible(self.where)}: {self.given}" if self.where else self.given]
        if self.allowed:
            parts.append(f"Allowed: {self.allowed}")
        if self.todo:
            parts.append(self.todo)
        told = " ".join(part if part.endswith((".", "?", "!")) else part + "." for part in parts)
        return visible(told, lines=True)

    def located(self, where: str) -> CleatwrightError:
        """Return the same error with ``where`` put in front of its place."""
        place = f"{where}: {self.where}" if self.where else where
        return type(self)(
            self.given, where=place, allowed=self.allowed, todo=self.todo, faults=self.faults
        )

    def again(self) -> CleatwrightError:
        """Return a new error that says the same, without where it was raised before."""
        return type(self)(
            self.given, where=self.where, allowed=self.allowed, todo=self.todo, faults=self.faults
        )

    def as_dict(self) -> dict[str, object]:
        """Return the error for programs that read ``--json``; one of several has each apart."""
        told: dict[str, object] = {
            "code": self.code,
            "exit_code": self.exit_code,
            "where": self.where,
            "given": self.given,
            "allowed": self.allowed,
            "todo": self.todo,
        }
        return told | {"faults": [one.as_dict() for one in self.faults]} if self.faults else told


class InputError(CleatwrightError):
    """Something the person gave cannot be used."""

    code = "input"
    exit_code = 2


class MeasureError(InputError):
    """A measure or a unit cannot be read, or lies outside its bounds."""

    code = "measure"


class UnknownNameError(InputError):
    """A name is not among the valid ones; the nearest valid name is offered."""

    code = "unknown-name"


class DocumentError(InputError):
    """A ``workshop.toml`` cannot be read as a workshop."""

    code = "document"


class ImportTableError(InputError):
    """A CSV or XLSX table cannot be read as a tool list."""

    code = "import-table"


class DesignError(CleatwrightError):
    """The input is sound, but the thing asked for cannot exist."""

    code = "design"
    exit_code = 3


class NoHolderError(DesignError):
    """No family can hold a tool; the reasons are given family by family."""

    code = "no-holder"


class ShapeError(DesignError):
    """An outline or a solid cannot be formed from the numbers given."""

    code = "shape"


class PartError(DesignError):
    """A built part breaks the contract that its family declared."""

    code = "part"


class BedError(DesignError):
    """A part is larger than every bed it may be printed on."""

    code = "bed"


class StockError(DesignError):
    """A piece is longer than every board in stock."""

    code = "stock"


class WallError(DesignError):
    """One or more holders do not find a place on the wall."""

    code = "wall"


class KernelError(CleatwrightError):
    """A geometry kernel reported a failure; the message names the node."""

    code = "kernel"
    exit_code = 4


class StorageError(CleatwrightError):
    """Reading or writing something on disk failed."""

    code = "storage"
    exit_code = 5


class OutputError(StorageError):
    """An output folder or file cannot be written."""

    code = "output"


class LedgerError(StorageError):
    """The ledger is locked, corrupt or from a later version of the program."""

    code = "ledger"


class FaultError(CleatwrightError):
    """The program itself failed where it should not, or ran out of memory."""

    code = "fault"


class Cancelled(CleatwrightError):  # noqa: N818 - it is a wish of the person, not a fault
    """The person asked to stop; nothing half-written was left behind."""

    code = "cancelled"
    exit_code = 130


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
    what: str, given: str, valid: Iterable[str], *, where: str = ""
) -> UnknownNameError:
    """Return the error for an unknown name, with the nearest valid one when there is one.

    >>> print(unknown_name("kind", "hamer", ["hammer", "wrench"]))
    There is no kind "hamer". Allowed: hammer, wrench. Did you mean "hammer"?
    """
    names = sorted(valid)
    near = nearest(given, names)
    listed = names
    if len(names) > MOST_NAMES:
        listed = difflib.get_close_matches(given, names, n=SOME_NAMES) or names[:SOME_NAMES]
    rest = "" if listed == names else f" and others, {len(names)} in all"
    return UnknownNameError(
        f'There is no {what} "{visible(given)}"',
        where=where,
        allowed=", ".join(listed) + rest,
        todo=f'Did you mean "{near}"?' if near else "",
    )
