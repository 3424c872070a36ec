"""As much of a document as can be read when some of it cannot be.

A fault in one table must not hide those of others, nor one of a row those of its other keys. A
misspelt key or word counts as it was meant. A wrong key that may be missing is left out; one that
may not stands as large as is allowed, so that nothing is refused for its sake. A row that has lost
a key is looked at for what is at fault with its other keys, and is then left out. What is at fault
only because something was left out is not reported.
"""

from __future__ import annotations

import copy
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import Any, cast

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from cleatwright.base.errors import CleatwrightError
from cleatwright.base.gathering import MOST_TOLD
from cleatwright.base.lengths import LengthUnit, Wording
from cleatwright.base.place import InDocument, Path, Place, TableStep, plain_path
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.problems import document_faults, mend_of, path_in

MOST_ROUNDS = 8
# without these a row is what it is, and is made as it is
HARMLESS = frozenset(
    {"place", "fit", "use", "notes", "mass", "keep_cool", "properties"}
    | {
        "lowest_height",
        "highest_height",
        "height_reason",
        "taken_by",
        "near",
        "left_of",
        "right_of",
    }
)
NAMING = frozenset(
    {"name", "tools", "group", "carrier", "panel", "taken_by", "near", "left_of", "right_of"}
)
# by which keys the rows of a list are named elsewhere
NAMED_BY: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "other_person": ("taken_by",),
        "panel": ("panel",),
        "obstacle": ("near", "left_of", "right_of"),
        "carrier": ("carrier",),
    }
)
_BED = {"bed": ["2000 mm", "2000 mm", "2000 mm"]}
_PLASTIC: Mapping[str, Any] = MappingProxyType({"material": "PLA", "density": 1250})
_WALL = {"width": "30000 mm", "height": "6000 mm"}
# what may not be missing: by its table and its key
_IN_PLACE: Mapping[tuple[str, ...], Any] = MappingProxyType(
    {
        ("schema",): 1,
        ("name",): "Workshop",
        ("wall",): _WALL,
        ("wall", "width"): _WALL["width"],
        ("wall", "height"): _WALL["height"],
        # whatever was meant, somebody wrote that it is locked
        ("wall", "locked"): "as was meant",
        ("printer",): {"left out": _BED},
        ("printer", "bed"): _BED["bed"],
        ("filament",): {"left out": dict(_PLASTIC)},
        ("filament", "material"): _PLASTIC["material"],
        ("filament", "density"): _PLASTIC["density"],
    }
)


@dataclass(frozen=True)
class Readable:
    """What could be read of a document.

    Args:
        workshop: The workshop without what cannot be read; None when nothing can be made of it.
        faults: What cannot be read.
        words: What turns sentences into the unit of the document, names as the owner wrote them.
        tree: The tables that are left, which know where they stood.
        takers_unknown: The names of the tools and groups of which nobody knows any more who takes
            them, so that nothing is known of their heights.
    """

    workshop: Workshop | None
    faults: tuple[CleatwrightError, ...]
    words: Wording
    tree: _Tree = field(repr=False, compare=False)
    takers_unknown: frozenset[str] = frozenset()

    def placed(self, error: CleatwrightError) -> CleatwrightError:
        """Return a fault of the workshop with the numbers that its rows have in the document."""
        return error.moved(self.tree.moved)


class _Tree:
    """The tables of a document, from which some are taken, with the numbers that rows had."""

    def __init__(self, raw: Mapping[str, Any]) -> None:
        self.raw: dict[str, Any] = copy.deepcopy(dict(raw))
        self.left: set[str] = set()
        self.takers_unknown: set[str] = set()
        # keys that name something of a list of which a name cannot be read, and wrong keys
        self._unsure: set[str] = set()
        self._wrong: set[tuple[int, str | int]] = set()
        self._numbers = {
            id(row): path[-1] for path, row in _rows(self.raw) if isinstance(path[-1], int)
        }
        # a row that was taken out keeps its identity for as long as it is kept here
        self._taken: list[Any] = []
        self._written: dict[tuple[int, str | int], str | int] = {}
        self._hurt: dict[int, set[str | int]] = {}

    def moved(self, place: Place) -> Place:
        """Return a place with the numbers that its rows have in the document."""
        if not isinstance(place, InDocument):
            return place
        return replace(place, paths=tuple(self._numbered(path) for path in place.paths))

    def _numbered(self, path: Path) -> Path:
        found: list[str | int | TableStep] = []
        inner: Any = self.raw
        for step in path:
            written = step
            if not isinstance(step, TableStep):
                written = self._written.get((id(inner), step), step)
            inner = _inside(inner, step.step if isinstance(step, TableStep) else step)
            number = self._numbers.get(id(inner))
            numbered = (
                isinstance(step, TableStep) and step.number is not None and number is not None
            )
            found.append(
                TableStep(number, step.name)
                if numbered and isinstance(step, TableStep)
                else written
            )
        return tuple(found)

    def mend(self, path: tuple[str | int, ...], key: str | int, value: object) -> bool:
        """Write a key, or the word that stands behind it, as it was meant, where it can be."""
        table = _inside(self.raw, *path[:-1])
        if not isinstance(table, dict) or (key != path[-1] and key in table):
            return False
        keys = cast("dict[Any, Any]", table)
        self._wrong.add((id(keys), key))
        if key != path[-1]:
            keys.pop(path[-1], None)
            self._written[id(keys), key] = path[-1]
        keys[key] = value
        return True

    def leave_out(self, paths: Sequence[Path]) -> None:
        """Take out what stands at a fault: a row, a key of it, or the keys of one table."""
        first = plain_path(paths[0])
        row = _row_in(first)
        if row is not None:
            written = _inside(self.raw, *first[: row + 1])
            if isinstance(written, dict):
                self._leave_out_of_row(first, row)
                return
            if any(isinstance(one, dict) for one in _list(_inside(self.raw, *first[:row]))):
                # no table at all among tables: the others stay
                self._take(first[: row + 1])
                return
        for path in paths:
            one = plain_path(path)
            if one[:-1] == first[:-1]:
                self._take(one if row is None else one[:row])
                self._put(one if row is None else one[:row])

    def _leave_out_of_row(self, path: tuple[str | int, ...], row: int) -> None:
        """Take out a key without which the others can still be looked at, and else the row."""
        table = _inside(self.raw, *path[: row + 1])
        key = path[row + 1] if len(path) > row + 1 else None
        if key in HARMLESS:
            self._take(path[: row + 2])
            name = _inside(table, "name")
            if key == "taken_by" and isinstance(name, str):
                self.takers_unknown.add(name)
        elif key is None or key in NAMING or key not in table or id(table) in self._hurt:
            self._take(path[: row + 1])
        else:
            inner = 2 if isinstance(_inside(table, key), dict) and len(path) > row + 2 else 1
            self._take(path[: row + 1 + inner])
            self._hurt[id(table)] = set(path[row + inner : row + 1 + inner])

    def is_of_hurt_row(self, fault: CleatwrightError) -> bool:
        """Tell whether a fault may be there only because its row has lost a key."""
        if not isinstance(fault.place, InDocument):
            return False
        for path in map(plain_path, fault.place.paths):
            row = _row_in(path)
            if row is None:
                continue
            lost = self._hurt.get(id(_inside(self.raw, *path[: row + 1])))
            if lost is not None and (len(path) < row + 2 or lost & set(path)):
                return True
        return False

    def leave_out_hurt_rows(self) -> bool:
        """Take out each row that has lost a key, and tell whether there was one."""
        found = False
        # a holder that goes takes its tools along, so that each row is looked for anew
        while path := next((at for at, row in _rows(self.raw) if id(row) in self._hurt), None):
            self._take(path)
            found = True
        return found

    def _take_tools_of(self, holder: Any) -> None:
        """Take out the tools of a holder that was taken out: nobody knows what would hold them."""
        group, named = (
            _inside(holder, "group"),
            [t for t in _list(_inside(holder, "tools")) if isinstance(t, str)],
        )
        tools = _list(self.raw.get("tool"))
        for number in reversed(range(len(tools))):
            name, its = (_inside(tools[number], key) for key in ("name", "group"))
            mine = isinstance(name, str) and any(_is_of(text, name) for text in named)
            if mine or (isinstance(group, str) and its == group):
                self._take(("tool", number))

    def _take(self, path: tuple[str | int, ...]) -> None:
        table: Any = _inside(self.raw, *path[:-1])
        within = id(table)
        if isinstance(table, dict) and path[-1] in table:
            gone: Any = cast("dict[Any, Any]", table).pop(path[-1])
        elif isinstance(path[-1], int) and path[-1] < len(_list(table)):
            gone = _list(table).pop(path[-1])
        else:
            return
        self._taken.append(gone)
        self._wrong.add((within, path[-1]))
        self._names_lost(path, gone)
        self.left |= set(_names(gone))
        if path[:1] == ("holder",):
            self._take_tools_of(gone)

    def _names_lost(self, path: tuple[str | int, ...], gone: Any) -> None:
        """Keep in mind that something of a list may be named that was there and has no name."""
        if not isinstance(path[-1], int) or len(path) < 2:
            return
        name = _inside(gone, "name")
        if path[-2] in NAMED_BY and not (isinstance(name, str) and name.strip()):
            self._unsure.update(NAMED_BY[str(path[-2])])

    def _put(self, path: tuple[str | int, ...]) -> None:
        """Put something in the place of what may not be missing."""
        key = tuple(map(str, path[:1] if len(path) == 1 else (path[0], path[-1])))
        table = _inside(self.raw, *path[:-1])
        if key in _IN_PLACE and isinstance(table, dict):
            cast("dict[Any, Any]", table)[path[-1]] = copy.deepcopy(_IN_PLACE[key])
        for what in ("printer", "filament"):
            if path[0] == what and not self.raw.get(what):
                self.raw[what] = copy.deepcopy(_IN_PLACE[what,])

    def follows(self, one: ErrorDetails) -> bool:
        """Tell whether something is at fault only because of another fault.

        A thing that it names was left out, or may have been; or a key of the same table that it
        does not go with was wrong itself.
        """
        loc, keys = one["loc"], (one.get("ctx") or {}).get("keys", ())
        if one["type"] == "workshop" and self._unsure.intersection(map(str, loc[-2:])):
            return True
        if len(keys) > 1 and any((id(_inside(self.raw, *loc)), key) in self._wrong for key in keys):
            return True
        given = one["input"]
        if isinstance(given, Mapping):
            given = cast("Mapping[str, Any]", given).get("name")
        return isinstance(given, str) and any(_is_of(given, name) for name in self.left)


def readable(raw: Mapping[str, Any], error: ValidationError, *, units: LengthUnit) -> Readable:
    """Return what can be read of a document that is no workshop as a whole.

    Args:
        raw: The document as plain tables.
        error: Why it is no workshop.
        units: The unit in which its bare lengths count.
    """
    tree, faults, words = _Tree(raw), list[CleatwrightError](), Wording(units)
    for _ in range(MOST_ROUNDS):
        problems = error.errors(include_url=False)
        own = [one for one in problems if not tree.follows(one)]
        found = document_faults(own, raw=tree.raw, model=Workshop)
        faults += (fault.moved(tree.moved) for fault in found if not tree.is_of_hurt_row(fault))
        if len(problems) > MOST_TOLD:
            break
        every = document_faults(problems, raw=tree.raw, model=Workshop)
        paths = [fault.place.paths for fault in every if isinstance(fault.place, InDocument)]
        if any(one[:1] == (("units",),) for one in paths):
            # nobody knows how long anything is
            break
        mended = _mended(problems, tree)
        wrong = [
            one
            for one in filter(None, paths)
            if len(one) > 1 or not mended.issuperset(map(plain_path, one))
        ]
        # of two rows of one list the later goes first, so that the number of the other stays
        for one in sorted(wrong, key=_order, reverse=True):
            tree.leave_out(one)
        try:
            workshop = _validated(tree.raw, units)
            if tree.leave_out_hurt_rows():
                workshop = _validated(tree.raw, units)
        except ValidationError as again:
            error = again
            continue
        found = workshop if workshop.tools else None
        return Readable(found, tuple(faults), words, tree, frozenset(tree.takers_unknown))
    return Readable(None, tuple(faults), words, tree)


def _mended(problems: Sequence[ErrorDetails], tree: _Tree) -> set[tuple[str | int, ...]]:
    """Write what is misspelt as it was meant, and return where that was."""
    mends = [
        (plain_path(path_in(one["loc"], tree.raw)), mend)
        for one in problems
        if (mend := mend_of(one, Workshop)) is not None
    ]
    return {path for path, (loc, value) in mends if tree.mend(path, loc[-1], value)}


def _validated(raw: Mapping[str, Any], units: LengthUnit) -> Workshop:
    return Workshop.model_validate(raw, context={"units": units}, by_alias=True, by_name=False)


def _order(paths: Sequence[Path]) -> tuple[tuple[int, str], ...]:
    return tuple(
        (step, "") if isinstance(step, int) else (-1, step) for step in plain_path(paths[0])
    )


def _is_of(name: str, whole: str) -> bool:
    """Tell whether a name is that of a thing, or of one of the single tools it stands for."""
    return name == whole or name.startswith(f"{whole} ")


def _inside(raw: Any, *steps: str | int) -> Any:
    for step in steps:
        if isinstance(raw, dict):
            raw = cast("dict[Any, Any]", raw).get(step)
        elif isinstance(step, int) and step < len(_list(raw)):
            raw = _list(raw)[step]
        else:
            return None
    return raw


def _list(raw: Any) -> list[Any]:
    """Return a list as it is, and an empty one for anything else."""
    return cast("list[Any]", raw) if isinstance(raw, list) else []


def _rows(raw: Any, *around: str | int) -> Iterator[tuple[tuple[str | int, ...], Any]]:
    """Yield each table of a list of tables with its path, at any depth."""
    if isinstance(raw, dict):
        for key, one in cast("dict[str, Any]", raw).items():
            yield from _rows(one, *around, key)
    for number, one in enumerate(_list(raw)):
        if isinstance(one, dict):
            yield (*around, number), one
        yield from _rows(one, *around, number)


def _row_in(path: Sequence[str | int]) -> int | None:
    """Return at which step a path comes to a row of a list."""
    return next((n for n, step in enumerate(path) if isinstance(step, int)), None)


def _names(raw: Any) -> Iterator[str]:
    """Yield every name that a row has or calls another by."""
    if isinstance(raw, dict):
        for key, one in cast("dict[str, Any]", raw).items():
            texts = _list(one) or [one]
            yield from (text for text in texts if key in NAMING and isinstance(text, str))
    elif isinstance(raw, str):
        yield raw
