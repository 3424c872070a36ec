"""Where the values from outside come from."""

from __future__ import annotations

from cleatwright.base.source import Evidence
from cleatwright.standards.listing import all_sources

UNSEEN = (Evidence.MEMORY, Evidence.PRACTICE)


def source_rows(*, unseen: bool) -> tuple[tuple[str, str, str], ...]:
    """Return (table, value, source) for every value, or for those that nobody looked up."""
    return tuple(
        (entry.name, f"{entry.label}: {entry.value:g}", str(entry.source))
        for entry in all_sources()
        if not unseen or entry.source.evidence in UNSEEN
    )
