"""Sentences in the unit of a workshop, with the owner's own words as they are."""

from __future__ import annotations

from collections.abc import Generator, Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import Any, cast

from pydantic import BaseModel

from cleatwright.base.errors import CleatwrightError
from cleatwright.base.lengths import LengthUnit, Wording
from cleatwright.workshop.document.model import Workshop


def wording_of(workshop: Workshop) -> Wording:
    """Return what turns sentences into the unit of a workshop; names stay as the owner wrote them.

    A tool that counts as several has several names.
    """
    names = (*(item.name for item in workshop.items()), *own_words(workshop))
    # no other name could be taken for a length
    return Wording(workshop.units, frozenset(name for name in names if " mm" in name))


def own_words(tree: object) -> Iterator[str]:
    """Return every text in a document, at any depth."""
    if isinstance(tree, str):
        yield tree
    elif isinstance(tree, BaseModel):
        for _, value in tree:
            yield from own_words(value)
    elif isinstance(tree, Mapping):
        for value in cast("Mapping[Any, Any]", tree).values():
            yield from own_words(value)
    elif isinstance(tree, Sequence):
        for value in cast("Sequence[Any]", tree):
            yield from own_words(value)


def raw_wording(raw: Mapping[str, Any], unit: LengthUnit) -> Wording:
    """Return the same for a document that is not yet known to be a workshop."""
    return Wording(unit, frozenset(own_words(raw)))


@contextmanager
def errors_in(words: Wording) -> Generator[None]:
    """Let every error of the program out with its sentences in the unit of the workshop."""
    try:
        yield
    except CleatwrightError as error:
        raise words.error(error) from error
