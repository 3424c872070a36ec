"""What else a tool may be written as, where its kind is unknown or cannot take its measures."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from pydantic import ValidationError

from cleatwright.tools.kind import Kind

LEAST_WORD = 4
MOST_TITLED = 4
MOST_TAKERS = 6


def titled(name: str, kinds: Iterable[Kind]) -> tuple[Kind, ...]:
    """Return the kinds in whose title a word of a name stands, plain shapes last."""
    wanted = {_stem(one) for one in re.split(r"[^a-z]+", name.lower()) if len(one) >= LEAST_WORD}
    found = [one for one in kinds if wanted & {_stem(word) for word in _words(one.title)} - _COMMON]
    return tuple(sorted(found, key=lambda one: bool(one.plain)))[:MOST_TITLED]


# words of titles that name no tool
_COMMON = frozenset({"another", "anything", "other", "with", "that", "tool", "without", "plain"})


def _words(title: str) -> list[str]:
    return [one for one in re.split(r"[^a-z]+", title.lower()) if len(one) >= LEAST_WORD]


def _stem(word: str) -> str:
    return word.removesuffix("s")


def takers(measures: Mapping[str, float], kinds: Iterable[Kind], *, but: str) -> tuple[Kind, ...]:
    """Return the kinds, all but one, that take just these measures in mm, by their names."""
    return tuple(
        one for one in kinds if one.name != but and not one.outlined and _takes(one, measures)
    )


def _takes(kind: Kind, measures: Mapping[str, float]) -> bool:
    if not set(measures) <= {row.name for row in kind.card}:
        return False
    try:
        kind.measures.model_validate(dict(measures))
    except ValidationError:
        return False
    return True


def as_written(kinds: Iterable[Kind]) -> str:
    """Return kinds as one writes them, joined as a choice."""
    *first, last = [f'kind = "{one.name}"' for one in kinds]
    return f"{', '.join(first)} or {last}" if first else last


def plain_shapes(kinds: Iterable[Kind], *, but: str = "") -> str:
    """Return what to write for anything that is of no kind, by its shape; all but one."""
    shapes = [f'"{one.name}" ({one.plain})' for one in kinds if one.plain and one.name != but]
    return f"Whatever fits no kind is of one for a plain shape: {', '.join(shapes)}"


def plain_measures(kinds: Iterable[Kind], *, but: str) -> str:
    """Return the plain shapes, all but one, with what is measured on each."""
    shapes = [
        f'kind = "{one.name}", {one.plain}, by its {", ".join(row.name for row in one.card)}'
        for one in kinds
        if one.plain and one.name != but
    ]
    return f"Or measure it as a plain shape: {'; '.join(shapes)}"
