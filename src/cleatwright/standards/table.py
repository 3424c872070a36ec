"""A printed table: one row a size, named columns, a source for every cell."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from cleatwright.base.errors import unknown_name
from cleatwright.base.source import Source

Row = tuple[str, tuple[float, ...]]
"""A key as printed and one number for each column."""


@dataclass(frozen=True)
class Listed:
    """One number from outside: the table, the label of the value, the value and its source."""

    name: str
    label: str
    value: float
    source: Source


@dataclass(frozen=True)
class Column:
    """One column: a name that ends in its unit, and the source of its cells.

    ``except_rows`` names the rows whose cells are attested otherwise, by ``except_source``.
    """

    name: str
    source: Source
    except_rows: tuple[str, ...] = ()
    except_source: Source | None = None

    def source_of(self, key: str) -> Source:
        """Return the source of the cell in the row ``key``."""
        if self.except_source is not None and key in self.except_rows:
            return self.except_source
        return self.source


@dataclass(frozen=True)
class Table:
    """A table as printed.

    Args:
        name: What a report calls it, with its edition.
        key_name: What a row is called, for messages ("thread").
        columns: The columns, left to right.
        rows: The rows, top to bottom.
    """

    name: str
    key_name: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]

    @property
    def keys(self) -> tuple[str, ...]:
        """Return the keys of the rows, top to bottom."""
        return tuple(key for key, _ in self.rows)

    def value(self, key: str, column: str) -> float:
        """Return one cell.

        Raises:
            UnknownNameError: There is no such row or no such column.
        """
        names = [c.name for c in self.columns]
        if column not in names:
            raise unknown_name("column", column, names, where=self.name)
        numbers = dict(self.rows).get(key)
        if numbers is None:
            raise unknown_name(self.key_name, key, self.keys, where=self.name)
        return numbers[names.index(column)]

    def listed(self) -> Iterator[Listed]:
        """Yield every cell with its source, row by row."""
        for key, numbers in self.rows:
            for column, number in zip(self.columns, numbers, strict=True):
                label = f"{key} {column.name}"
                yield Listed(self.name, label, number, column.source_of(key))
