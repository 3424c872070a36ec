"""Nominal sizes of a tool kind: guesses with a source, for a tool that nobody has measured yet.

A measured value always wins over these. Standards of tools fix limits more often than sizes,
so a tool from the shop may differ; the source of each size says by what rule it was guessed.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from cleatwright.base.errors import unknown_name
from cleatwright.base.source import Source
from cleatwright.standards.table import Table

_NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?")


@dataclass(frozen=True)
class Nominal:
    """The guessed measures of one size.

    Args:
        size: The name of the size, as "5", "1/2 in 13" or "R6".
        measures: Name, as on the kind's card, and value in mm.
        source: Where the numbers come from.
    """

    size: str
    measures: tuple[tuple[str, float], ...]
    source: Source


@dataclass(frozen=True)
class NominalSizes:
    """The nominal sizes of one kind, found by their names.

    Args:
        title: What a person calls them, for messages.
        sizes: The sizes in order; no two names may read alike.
    """

    title: str
    sizes: tuple[Nominal, ...]

    @property
    def names(self) -> tuple[str, ...]:
        """Return the names of the sizes in order."""
        return tuple(one.size for one in self.sizes)

    def get(self, size: str | float) -> Nominal:
        """Return one size; "5", "5.0", "5,0" and 5.0 are the same name.

        Args:
            size: The name; small and capital letters, "x" and "×" count alike.

        Raises:
            UnknownNameError: There is no such size.
        """
        found = self._find(size)
        if found is None:
            raise unknown_name("size", _text(size), self.names, where=self.title)
        return found

    def __contains__(self, size: str | float) -> bool:
        return self._find(size) is not None

    def __iter__(self) -> Iterator[str]:
        return iter(self.names)

    def __len__(self) -> int:
        return len(self.sizes)

    def _find(self, size: str | float) -> Nominal | None:
        named = plain_size(size)
        return next((one for one in self.sizes if plain_size(one.size) == named), None)


def plain_size(size: str | float) -> str:
    """Return the one spelling under which names of a size are compared.

    >>> plain_size(5.0), plain_size("5,0"), plain_size("3.50 × 75.0"), plain_size("ph2")
    ('5', '5', '3.5x75', 'PH2')
    """
    text = _text(size).upper().replace(",", ".").replace("×", "X")
    text = _NUMBER.sub(lambda found: f"{float(found[0]):g}", text)
    text = re.sub(r"\s*X\s*(?=[0-9])", "x", text)
    return " ".join(text.split())


def cell_source(table: Table, key: str, column: str) -> Source:
    """Return the source of one cell of a standard's table.

    Raises:
        UnknownNameError: There is no such row or no such column.
    """
    table.value(key, column)
    return next(one.source_of(key) for one in table.columns if one.name == column)


def _text(size: str | float) -> str:
    return size if isinstance(size, str) else f"{size:g}"
