"""A ledger whose last write was cut off reads as it was before that write.

Oracle: SQLite, "Atomic Commit In SQLite": a hot journal is rolled back by the next process that
opens the file to write (from memory).
"""

from __future__ import annotations

import shutil
import sqlite3
from pathlib import Path

from cleatwright.workshop.ledger.database import open_ledger
from cleatwright.workshop.ledger.hung_entry import HungEntry
from cleatwright.workshop.ledger.hung_wall import WhatHangs
from cleatwright.workshop.ledger.reading import read_hung


def hung(count: int) -> WhatHangs:
    return WhatHangs(
        tuple(
            HungEntry("wall", f"Tin {k}", 10.0 * k, 10.0, "0000000", (f"Tin {k}",), "2024-05-01")
            for k in range(count)
        )
    )


def test_a_write_that_was_cut_off_is_not_there(tmp_path: Path) -> None:
    whole, cut = tmp_path / "whole", tmp_path / "cut"
    for folder in (whole, cut):
        folder.mkdir()
    with open_ledger(whole) as ledger:
        ledger.replace_hung(hung(3))
    connection = sqlite3.connect(whole / "ledger.db", isolation_level=None)
    connection.execute("PRAGMA cache_size = 1")
    connection.execute("BEGIN IMMEDIATE")
    connection.execute("CREATE TABLE large (text TEXT)")
    connection.executemany("INSERT INTO large VALUES (?)", [("x" * 4000,) for _ in range(300)])
    # as a power cut leaves it: pages are written, and the journal knows what they were
    assert (whole / "ledger.db-journal").stat().st_size > 0
    for name in ("ledger.db", "ledger.db-journal"):
        shutil.copy(whole / name, cut / name)
    connection.execute("ROLLBACK")
    connection.close()
    assert len(read_hung(cut).holders) == 3
    assert not (cut / "ledger.db-journal").exists()
