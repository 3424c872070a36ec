"""Where something is: in a document, in another file, in the ledger.

A place is data. Programs read its path; for people it is put into words here and nowhere else.

>>> path = ("tool", TableStep(6, "Long nose"), "measures", "neck")
>>> place = InDocument((path,), file="workshop.toml")
>>> place.words
'workshop.toml, tool "Long nose" (number 7), measures, key "neck"'
>>> place.as_dict()["path"]
['tool', 6, 'measures', 'neck']
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal, TypeAlias


@dataclass(frozen=True)
class TableStep:
    """One table of a list of tables, or a table that has its name in its heading.

    Args:
        number: Its place in the list, counted from 0; None for a table that is found by its name.
        name: What the owner calls it, or "".
    """

    number: int | None
    name: str = ""

    @property
    def step(self) -> str | int:
        """Return the step as a program takes it."""
        return self.name if self.number is None else self.number

    @property
    def words(self) -> str:
        """Return the row as it follows the name of its list."""
        if self.number is None:
            return f' "{self.name}"'
        number = f"number {self.number + 1}"
        return f' "{self.name}" ({number})' if self.name else f" {number}"


Step: TypeAlias = "str | int | TableStep"
Path: TypeAlias = tuple[Step, ...]
Spoken: TypeAlias = Literal["key", "table", "named", "first", "whole"]


def plain_path(path: Path) -> tuple[str | int, ...]:
    """Return a path as a program takes it: keys, and numbers counted from 0."""
    return tuple(one.step if isinstance(one, TableStep) else one for one in path)


@dataclass(frozen=True)
class InDocument:
    """A place in a document, or one that is made of several keys which are at odds.

    Args:
        paths: The way to each key or table, from the outside in; none for the whole document.
        file: The document, or "" while nobody has said which.
        spoken: What people are told: each key, each whole table, the table around the first key
            (the sentence names the keys itself), the first key alone, or the first table alone.
    """

    paths: tuple[Path, ...] = ()
    file: str = ""
    spoken: Spoken = "key"

    def under(self, *steps: Step) -> InDocument:
        """Return the place with steps in front of each path."""
        if not self.paths:
            return replace(self, paths=(steps,), spoken="table")
        return replace(self, paths=tuple((*steps, *path) for path in self.paths))

    def in_file(self, file: str) -> InDocument:
        """Return the place in a document, unless it is known to be in another one."""
        return self if self.file else replace(self, file=file)

    @property
    def words(self) -> str:
        """Return the place for people."""
        return ", ".join(part for part in (self.file, self.path_words) if part)

    @property
    def path_words(self) -> str:
        """Return the place within the document for people."""
        if len(self.paths) < 2 or self.spoken in {"named", "first", "whole"}:
            return "".join(_path_words(path, self.spoken) for path in self.paths[:1])
        shared = _shared(self.paths)
        rests = [path[len(shared) :] for path in self.paths]
        head = _path_words(shared, "table")
        return ", ".join(part for part in (head, _in_a_row(rests, self.spoken)) if part)

    def as_dict(self) -> dict[str, object]:
        """Return the place for programs."""
        paths = [list(plain_path(path)) for path in self.paths]
        return {"file": self.file, "path": paths[0] if paths else [], "paths": paths}


@dataclass(frozen=True)
class InFile:
    """A place in a file that is no document of a workshop.

    Args:
        file: The file, or "" while nobody has said which.
        line: The line or the row of a table, counted from 1; 0 for the whole file.
        column: The sign in that line, counted from 1; 0 for the whole line.
        row: True when the file is a table, whose lines are rows.
    """

    file: str = ""
    line: int = 0
    column: int = 0
    row: bool = False

    def under(self, *_: Step) -> InFile:
        """Return the same place: what lies in another file lies in no table of the document."""
        return self

    def in_file(self, file: str) -> InFile:
        """Return the place in a file, unless it is known to be in another one."""
        return self if self.file else replace(self, file=file)

    @property
    def words(self) -> str:
        """Return the place for people."""
        line = f"{'row' if self.row else 'line'} {self.line}" if self.line else ""
        column = f"column {self.column}" if self.column else ""
        return ", ".join(part for part in (self.file, line, column) if part)

    def as_dict(self) -> dict[str, object]:
        """Return the place for programs."""
        return {
            "file": self.file,
            "path": [],
            "paths": [],
            "line_number": self.line,
            "column": self.column,
        }


@dataclass(frozen=True)
class InLedger:
    """A place in the ledger of a workshop.

    Args:
        table: The table.
        key: The key of the row, or "" for the whole table.
        file: The ledger, or "" while nobody has said which.
    """

    table: str
    key: str = ""
    file: str = ""

    def under(self, *_: Step) -> InLedger:
        """Return the same place: it lies in no table of the document."""
        return self

    def in_file(self, file: str) -> InLedger:
        """Return the place in a ledger, unless it is known to be in another one."""
        return self if self.file else replace(self, file=file)

    @property
    def words(self) -> str:
        """Return the place for people."""
        row = f'{self.table} "{self.key}"' if self.key else self.table
        return ", ".join(part for part in (self.file, row) if part)

    def as_dict(self) -> dict[str, object]:
        """Return the place for programs."""
        return {
            "file": self.file,
            "path": [],
            "paths": [],
            "table": self.table,
            "key": self.key,
        }


Place: TypeAlias = InDocument | InFile | InLedger
NOWHERE = InDocument()


def at(*steps: Step, spoken: Spoken = "key") -> InDocument:
    """Return the place of one key, or of a table.

    >>> at("wall", "width").words, at("defaults", spoken="table").words
    ('wall, key "width"', 'defaults')
    """
    return InDocument((steps,), spoken=spoken)


def _shared(paths: tuple[Path, ...]) -> Path:
    """Return the steps with which all paths begin, without the last step of any."""
    shared: list[Step] = []
    for steps in zip(*(path[:-1] for path in paths), strict=False):
        if any(step != steps[0] for step in steps):
            break
        shared.append(steps[0])
    while shared and isinstance(shared[-1], str) and _numbers_follow(paths, len(shared)):
        # a row is not told without the list in which it stands
        shared.pop()
    return tuple(shared)


def _numbers_follow(paths: tuple[Path, ...], depth: int) -> bool:
    return any(not isinstance(path[depth], str) for path in paths)


def _in_a_row(paths: list[Path], spoken: Spoken) -> str:
    if all(len(path) == 1 for path in paths) and spoken == "key":
        keys = [f'"{path[0]}"' for path in paths]
        return f"keys {', '.join(keys[:-1])} and {keys[-1]}"
    words = list(dict.fromkeys(_path_words(path, spoken) for path in paths))
    return " and ".join(words)


def _path_words(path: Path, spoken: Spoken) -> str:
    """Return a path in words, such as: tool "Long nose" (number 7), measures, key "neck"."""
    words: list[str] = []
    steps = path[:-1] if spoken == "named" else path
    if spoken == "named" and steps[-1:] == ("measures",):
        # a measure that is named needs no word for the table of the measures
        steps = steps[:-1]
    for depth, step in enumerate(steps):
        last = depth == len(steps) - 1
        if isinstance(step, str):
            words.append(f'key "{step}"' if last and spoken in {"key", "first"} else step)
        elif isinstance(step, TableStep) and words:
            words[-1] += step.words
        elif words:
            words[-1] += TableStep(step).words if isinstance(step, int) else step.words
    return ", ".join(words)
