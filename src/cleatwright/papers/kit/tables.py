"""Lists as CSV: a heading, and below it nothing but rows."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence


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
