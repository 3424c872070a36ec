"""Disks that are full, folders that refuse, and ledgers that are not sound."""

import os
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from cleatwright.project import publishing
from cleatwright.workshop.ledger import database as ledgers
from cleatwright.workshop.ledger.one_at_a_time import alone_in

pytestmark = pytest.mark.usefixtures("computed")


@pytest.mark.parametrize("below", [False, True])
def test_a_file_where_the_folder_should_be_is_told(cli: Any, shed: Path, *, below: bool) -> None:
    file = shed / "file"
    file.write_text("mine")
    for extra in ((), ("--dry-run",)):
        ran = cli("make", shed, "--out", file / "out" if below else file, *extra)
        assert ran.code == 5
        assert "not written by this program" in ran.err
        assert "--out" in ran.err
    assert file.read_text() == "mine"


def test_a_folder_that_refuses_is_told(
    cli: Any, shed: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused(self: Path, *_arguments: object, **_more: object) -> None:
        raise PermissionError(13, "Permission denied", str(self))

    monkeypatch.setattr(Path, "mkdir", refused)
    ran = cli("make", shed)
    assert ran.code == 5
    assert "Permission denied" in ran.err
    assert not (shed / "out").exists()


def test_a_full_disk_leaves_the_earlier_output_whole(
    cli: Any, shed: Path, listing: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    cli("make", shed)
    (shed / "out" / "report.json").write_bytes(b"an earlier run")
    before = listing(shed / "out")
    real, left = os.fsync, [7]

    def full(descriptor: int) -> None:
        left[0] -= 1
        if left[0] < 0:
            raise OSError(28, "No space left on device")
        real(descriptor)

    monkeypatch.setattr(publishing.os, "fsync", full)
    ran = cli("make", shed)
    assert ran.code == 5
    assert "No space left on device" in ran.err
    assert "make room" in ran.err
    assert listing(shed / "out") == before
    monkeypatch.setattr(publishing.os, "fsync", real)
    assert cli("make", shed).code == 0


def test_a_full_disk_under_the_ledger_writes_no_files(cli: Any, shed: Path) -> None:
    """A ledger that may not grow by a single page stands for a disk that is full."""
    with closing(sqlite3.connect(shed / "ledger.db")) as connection:
        connection.execute("PRAGMA page_size = 512")
        connection.execute("VACUUM")
    with ledgers.open_ledger(shed):
        pass
    real = sqlite3.connect

    def small(*arguments: Any, **more: Any) -> sqlite3.Connection:
        connection = real(*arguments, **more)
        pages = connection.execute("PRAGMA page_count").fetchone()[0]
        connection.execute(f"PRAGMA max_page_count = {pages}")
        return connection

    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(sqlite3, "connect", small)
        ran = cli("make", shed)
    assert ran.code == 5
    assert "full" in ran.err
    assert not (shed / "out").exists()
    assert cli("make", shed).code == 0


def test_a_ledger_in_use_is_told_and_nothing_is_written(cli: Any, shed: Path) -> None:
    with ledgers.open_ledger(shed):
        pass
    other = sqlite3.connect(shed / "ledger.db", isolation_level=None)
    other.execute("BEGIN EXCLUSIVE")
    ran = cli("make", shed)
    other.close()
    assert ran.code == 5
    assert "in use by another program" in ran.err
    assert not (shed / "out").exists()
    assert cli("make", shed).code == 0


def test_a_ledger_from_a_later_version_is_told_and_left_alone(cli: Any, shed: Path) -> None:
    with ledgers.open_ledger(shed):
        pass
    with closing(sqlite3.connect(shed / "ledger.db")) as connection:
        connection.execute("PRAGMA user_version = 99")
    before = (shed / "ledger.db").read_bytes()
    ran = cli("make", shed)
    assert ran.code == 5
    assert "version 99" in ran.err
    assert (shed / "ledger.db").read_bytes() == before
    assert sorted(path.name for path in shed.iterdir()) == ["ledger.db", "workshop.toml"]


def test_an_empty_ledger_is_no_new_one_where_files_were_made(cli: Any, shed: Path) -> None:
    ledger = shed / "ledger.db"
    ledger.write_bytes(b"")
    assert cli("make", shed).code == 0
    kept = ledger.read_bytes()
    ledger.write_bytes(b"")
    for command in (("make", shed), ("hung", shed), ("plans", shed)):
        ran = cli(*command)
        assert ran.code == 5
        assert "The ledger is empty, though files were made" in ran.err
    assert ledger.read_bytes() == b""
    ledger.write_bytes(kept)
    assert cli("make", shed).code == 0


def test_a_damaged_ledger_is_copied_and_never_written_over(cli: Any, shed: Path) -> None:
    damaged = b"this is no database at all" * 100
    (shed / "ledger.db").write_bytes(damaged)
    for command in (("make", shed), ("remake", shed, "0000000"), ("make", shed)):
        ran = cli(*command)
        assert ran.code == 5
        assert "ledger.db.damaged-1" in ran.err
    assert (shed / "ledger.db").read_bytes() == damaged
    assert (shed / "ledger.db.damaged-1").read_bytes() == damaged
    assert sorted(path.name for path in shed.iterdir()) == [
        "ledger.db",
        "ledger.db.damaged-1",
        "workshop.toml",
    ]


def test_a_second_run_is_told_to_wait(cli: Any, shed: Path) -> None:
    table = shed / "tools.csv"
    table.write_text("name,kind,width,depth,height\nTin,box,40,30,20\n", "utf-8")
    before = (shed / "workshop.toml").read_bytes()
    (shed / "out").mkdir()
    with alone_in(shed), alone_in(shed / "out"):
        for command in (("make", shed), ("import", shed, table, "--write")):
            ran = cli(*command, "--json")
            assert (ran.code, ran.error["code"]) == (5, "output")
            assert "another run of this program" in ran.error["given"]
            assert "Wait until it is done" in ran.error["todo"]
        assert cli("import", shed, table).code == 0
    assert (shed / "workshop.toml").read_bytes() == before
    assert cli("import", shed, table, "--write").code == 0
    assert sorted(path.name for path in shed.iterdir()) == [
        "ledger.db",
        "out",
        "tools.csv",
        "workshop.toml",
    ]


def test_a_dry_run_looks_at_no_ledger(cli: Any, shed: Path) -> None:
    (shed / "ledger.db").write_bytes(b"broken")
    assert cli("make", shed, "--dry-run").code == 0
    assert [path.name for path in shed.iterdir()].count("ledger.db.damaged-1") == 0
