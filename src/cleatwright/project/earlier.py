"""What earlier times left in the ledger of a workshop folder."""

from __future__ import annotations

from pathlib import Path

from cleatwright.design.planned import Earlier
from cleatwright.workshop.ledger.reading import read_hung, read_last_made


def earlier(folder: Path, *, regroup: bool = False) -> Earlier:
    """Return what a plan goes by.

    Args:
        folder: The workshop folder.
        regroup: Whether tools are grouped, and families chosen, as if nothing was made.

    Raises:
        LedgerError: The ledger cannot be read.
    """
    return Earlier(read_last_made(folder), bool(read_hung(folder).holders), regroup)
