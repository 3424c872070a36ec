"""The text of a document as plain tables, in a time that goes with its length.

The library that keeps comments and order takes seconds for a short text that is nested deeply or
has entries without end, so that the text is read by the plain one first and held small.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from typing import Any, cast

from cleatwright.base.errors import DocumentError
from cleatwright.base.place import InFile
from cleatwright.base.visible import visible

# a workshop is nested three deep, and has some ten entries a tool
MOST_DEEP = 40
MOST_ROWS = 5_000
MOST_ENTRIES = 50_000
MOST_SHOWN = 40
# parts of a key between dots; a library takes a time that goes with the square of their number
_PART = r"""(?:[A-Za-z0-9_-]++|"[^"\n]*+"|'[^'\n]*+')"""
_START = r"(?:^[ \t]*+\[?+\[?+|[{,])[ \t]*+"
_LONG_KEY = re.compile(
    rf"{_START}(?:{_PART}[ \t]*+\.[ \t]*+){{{MOST_DEEP}}}",
    re.MULTILINE,
)
_PLACE = re.compile(r" \(at line ([0-9]+), column ([0-9]+)\)$")
_AT_END = " (at end of document)"
_TWICE = "Cannot overwrite a value"
_TABLE_TWICE = re.compile(r"Cannot declare \('([^']+)',\) twice")
# what stands in a row of tables, each under two brackets
ROWS = frozenset({"tool", "holder", "carrier", "panel", "group"})


def toml_tables(text: str, *, file: str) -> Mapping[str, Any]:
    """Return a text in TOML as plain tables, in its order.

    Raises:
        DocumentError: It is no TOML, is nested too deeply, or has far too many entries.
    """
    if long := _LONG_KEY.search(text):
        line = text.count(chr(10), 0, long.start()) + 1
        raise _too_deep(InFile(file, line=line))
    try:
        raw = tomllib.loads(text)
    except RecursionError:
        raise _too_deep(InFile(file)) from None
    except ValueError as error:
        raise _unsound(str(error), text, file=file) from None
    _require_small(raw, file=file)
    return raw


def _too_deep(place: InFile) -> DocumentError:
    return DocumentError(
        "Lists or tables are nested too deeply",
        place=place,
        allowed=f"up to {MOST_DEEP} levels",
        todo="Look at docs/workshop.md for the keys and tables that there are",
    )


def _unsound(reason: str, text: str, *, file: str) -> DocumentError:
    if reason.endswith(_AT_END):
        return DocumentError(
            visible(f"The file ends in the middle of an entry ({reason.removesuffix(_AT_END)})"),
            place=InFile(file, line=text.count(chr(10)) + 1),
            todo="If it was cut off, take a whole copy of it; else mend its end",
        )
    place = _PLACE.search(reason)
    if place is None:
        reason = visible(reason)
        return DocumentError(
            f"The file cannot be read as TOML ({reason})",
            place=InFile(file),
            todo="Mend the spelling",
        )
    number = int(place[1])
    sentence = reason[: place.start()]
    if sentence == _TWICE:
        line = visible(text.splitlines()[number - 1].strip()[:MOST_SHOWN])
        sentence = f"A key is given twice, or is no table: {line}"
    todo = "Mend the spelling of the file there"
    if table := _TABLE_TWICE.fullmatch(sentence):
        key = visible(table[1])
        sentence = f"There are two tables [{key}]"
        if key in ROWS:
            todo = f"Write [[{key}]], with two brackets, above each {key}"
    return DocumentError(
        visible(sentence), place=InFile(file, line=number, column=int(place[2])), todo=todo
    )


def _require_small(raw: Mapping[str, Any], *, file: str) -> None:
    """Count what a document holds, level by level."""
    count, depth, level = 0, 0, [("the document", cast("object", raw))]
    while level:
        depth += 1
        if depth > MOST_DEEP:
            raise _too_deep(InFile(file))
        inner: list[tuple[str, object]] = []
        for name, value in level:
            if isinstance(value, dict):
                inner += cast("dict[str, object]", value).items()
            elif isinstance(value, list):
                rows = cast("list[object]", value)
                if len(rows) > MOST_ROWS:
                    raise _too_many(f'"{visible(name[:MOST_SHOWN])}"', len(rows), MOST_ROWS, file)
                inner += [(name, one) for one in rows]
        count += len(inner)
        if count > MOST_ENTRIES:
            raise _too_many("the document", count, MOST_ENTRIES, file)
        level = inner


def _too_many(what: str, count: int, most: int, file: str) -> DocumentError:
    return DocumentError(
        f"There are {count} entries in {what}, or more",
        place=InFile(file),
        allowed=f"up to {most}",
        todo="Leave out what is no part of the workshop, or make two of it",
    )
