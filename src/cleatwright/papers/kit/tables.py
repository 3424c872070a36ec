"""Lists as CSV: a heading, and below it nothing but rows."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from cleatwright.base.stages.stage import Stage
from cleatwright.papers.kit.drawn import drawn_file


@dataclass(frozen=True)
class ListTable:
    """A heading, and rows with a cell for each of its words."""

    heading: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def csv_bytes(heading: Sequence[str], rows: Iterable[Sequence[str]]) -> bytes:
    """Return UTF-8 CSV with a byte-order mark, so that spreadsheets read it right.

    A cell that a spreadsheet would take for a formula gets a leading apostrophe. What must be
    said besides the rows belongs on a sheet of words beside the list.
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(heading)
    for row in rows:
        writer.writerow([_inert(cell) for cell in row])
    return text.getvalue().encode("utf-8-sig")


def _inert(cell: str) -> str:
    return f"'{cell}" if cell[:1] in ("=", "+", "-", "@", "\t", "\r") else cell


LIST: Stage[ListTable, bytes] = drawn_file(
    "list", lambda table: csv_bytes(table.heading, table.rows)
)
"""From a heading and rows to a CSV file."""
