"""Faults that are the same of many rows of one list: told once, with the rows that it is so of."""

from __future__ import annotations

from collections.abc import Sequence

from cleatwright.base.place import InDocument, Place, TableStep

# so many lines that are the same are told as one, which names so many of the others
FEWEST_ALIKE, MOST_NAMED = 3, 3


def told_once(lines: Sequence[tuple[Place, str]]) -> list[str]:
    """Return lines about places, those once that differ only in the row that they are about.

    >>> from cleatwright.base.place import at
    >>> rows = [at("tool", TableStep(n, name), "kind") for n, name in enumerate("abcde")]
    >>> told_once([(row, f'{row.words}: "{n}" is no kind.') for row, n in zip(rows, "abcde")])
    ['tool "a" (number 1), key "kind": "a" is no kind. The same of "b", "c", "d" and 1 more.']
    """
    alike: dict[str, list[tuple[TableStep | None, str]]] = {}
    for place, line in lines:
        row = _row(place)
        pattern = line if row is None else _without(row, line)
        alike.setdefault(pattern, []).append((row, line))
    return [told for same in alike.values() for told in _told(same)]


def _row(place: Place) -> TableStep | None:
    """Return the one row of a list in which a place lies, where it has a name."""
    if not isinstance(place, InDocument):
        return None
    rows = {step for path in place.paths for step in path if isinstance(step, TableStep)}
    row = rows.pop() if len(rows) == 1 else None
    return row if row is not None and row.name and row.number is not None else None


def _without(row: TableStep, line: str) -> str:
    return line.replace(row.words, " \0").replace(f'"{row.name}"', "\0")


def _told(same: Sequence[tuple[TableStep | None, str]]) -> list[str]:
    names = list(dict.fromkeys(f'"{row.name}"' for row, _ in same[1:] if row is not None))
    if len(same) < FEWEST_ALIKE or len(names) < len(same) - 1:
        return [line for _, line in same]
    left = len(names) - MOST_NAMED
    if left > 0:
        others = f"{', '.join(names[:MOST_NAMED])} and {left} more"
    else:
        others = " and ".join((", ".join(names[:-1]), names[-1]))
    return [f"{same[0][1]} The same of {others}."]
