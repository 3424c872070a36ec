"""The ledger of part marks."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from cleatwright.base.errors import LedgerError
from cleatwright.base.keys import content_key, mark_from_key
from cleatwright.workshop.ledger.database import open_ledger
from cleatwright.workshop.ledger.hung_entry import HungEntry
from cleatwright.workshop.ledger.hung_wall import WhatHangs
from cleatwright.workshop.ledger.mark_entry import MarkEntry
from cleatwright.workshop.ledger.migrations import LATEST, migrate, version
from cleatwright.workshop.ledger.reading import has_ledger, read_hung, read_recipe


def entry(number: int = 1) -> MarkEntry:
    key = content_key(number)
    return MarkEntry(
        mark=mark_from_key(key),
        content_key=key,
        recipe_key=key,
        recipe_json=f'{{"number": {number}}}',
        family="rack",
        leading="⌀6.5",
        first_seen="2024-05-01",
        made_with="0.1.0",
    )


def test_an_entry_is_kept_once_and_found_again(tmp_path: Path) -> None:
    with open_ledger(tmp_path) as ledger:
        assert ledger.record(entry()) is True
        assert ledger.record(replace(entry(), first_seen="2025-01-01")) is False
    with open_ledger(tmp_path) as ledger:
        assert ledger.recipe(entry().mark) == entry()
        assert ledger.recipe(entry().mark.lower()) == entry()
        assert ledger.recipe(entry(2).mark) is None


def test_a_mark_keeps_every_recipe_of_its_shape_and_the_last_recorded_is_the_newest(
    tmp_path: Path,
) -> None:
    first = entry()
    second = replace(first, recipe_key=content_key("second"), recipe_json='{"number": 1.1}')
    with open_ledger(tmp_path) as ledger:
        assert ledger.record(first)
        assert ledger.record(entry(2))
        assert ledger.record(second)
        assert ledger.recipes(first.mark) == (second, first)
    assert read_recipe(tmp_path, first.mark) == second.recipe_json
    with open_ledger(tmp_path) as ledger:
        assert not ledger.record(replace(first, first_seen="2025-01-01"))
        assert ledger.recipe(first.mark) == first
        assert ledger.recipes(first.mark) == (first, second)
        assert not ledger.record(first)
        assert {one.mark for one in ledger.all_marks()} == {first.mark, entry(2).mark}
    assert read_recipe(tmp_path, first.mark) == first.recipe_json


def test_a_ledger_of_version_4_keeps_its_entries_in_their_order(tmp_path: Path) -> None:
    entries = [entry(number) for number in (3, 1, 2)]
    with closing(sqlite3.connect(tmp_path / "ledger.db", isolation_level=None)) as old:
        migrate(old, to=4)
        for one in entries:
            old.execute(
                "INSERT INTO marks VALUES (?, ?, ?, ?, ?, ?, ?)",
                (
                    one.mark,
                    one.content_key,
                    one.recipe_json,
                    one.family,
                    one.leading,
                    one.first_seen,
                    one.made_with,
                ),
            )
    assert read_recipe(tmp_path, entries[0].mark) == entries[0].recipe_json
    with open_ledger(tmp_path) as ledger:
        assert ledger.all_marks() == tuple(sorted(entries, key=lambda one: one.mark))
        assert ledger.record(replace(entries[0], recipe_key="", recipe_json="{}"))
        assert ledger.recipe(entries[0].mark) == replace(
            entries[0], recipe_key="", recipe_json="{}"
        )
    with closing(sqlite3.connect(tmp_path / "ledger.db")) as now:
        rows = now.execute("SELECT mark FROM marks ORDER BY number").fetchall()
    assert [mark for (mark,) in rows] == [one.mark for one in (*entries, entries[0])]


def test_all_marks_come_in_order(tmp_path: Path) -> None:
    entries = [entry(number) for number in range(5)]
    with open_ledger(tmp_path) as ledger:
        for one in entries:
            ledger.record(one)
        assert ledger.all_marks() == tuple(sorted(entries, key=lambda one: one.mark))


def test_a_mark_never_stands_for_two_parts(tmp_path: Path) -> None:
    with open_ledger(tmp_path) as ledger:
        ledger.record(entry())
        with pytest.raises(LedgerError, match="already stands for another part"):
            ledger.record(replace(entry(), content_key=content_key("other")))
        assert ledger.all_marks() == (entry(),)


@pytest.mark.parametrize(
    "wrong",
    [
        replace(entry(), mark="AAAAAA0"),
        replace(entry(), first_seen="yesterday"),
        replace(entry(), recipe_json="{"),
    ],
)
def test_a_malformed_entry_is_refused(tmp_path: Path, wrong: MarkEntry) -> None:
    with open_ledger(tmp_path) as ledger:
        with pytest.raises(LedgerError, match=r"not a part mark|malformed"):
            ledger.record(wrong)
        assert ledger.all_marks() == ()


def test_a_ledger_of_version_1_keeps_its_entries(tmp_path: Path) -> None:
    with closing(sqlite3.connect(tmp_path / "ledger.db", isolation_level=None)) as old:
        migrate(old, to=1)
        one = entry()
        old.execute(
            "INSERT INTO marks VALUES (?, ?, ?, ?, ?, ?)",
            (
                one.mark,
                one.content_key,
                one.recipe_json,
                one.family,
                one.leading,
                one.first_seen,
            ),
        )
        assert version(old) == 1
    with open_ledger(tmp_path) as ledger:
        assert ledger.recipe(one.mark) == replace(one, made_with="")
        ledger.record(entry(2))
        assert ledger.recipe(entry(2).mark) == entry(2)
    with closing(sqlite3.connect(tmp_path / "ledger.db")) as now:
        assert version(now) == LATEST


def test_a_migration_that_fails_leaves_the_old_version(tmp_path: Path) -> None:
    with closing(sqlite3.connect(tmp_path / "ledger.db", isolation_level=None)) as old:
        migrate(old, to=1)
        old.execute("ALTER TABLE marks ADD COLUMN made_with TEXT")
    with pytest.raises(LedgerError, match="duplicate column"), open_ledger(tmp_path):
        pass
    with closing(sqlite3.connect(tmp_path / "ledger.db")) as now:
        assert version(now) == 1


def test_a_locked_ledger_is_told(tmp_path: Path) -> None:
    with open_ledger(tmp_path) as ledger:
        ledger.record(entry())
        with closing(sqlite3.connect(tmp_path / "ledger.db", isolation_level=None)) as other:
            other.execute("BEGIN EXCLUSIVE")
            with pytest.raises(LedgerError, match="in use by another program"):
                ledger.record(entry(2))
            with pytest.raises(LedgerError, match="in use by another"), open_ledger(tmp_path):
                pass


def test_a_ledger_from_a_later_version_is_left_untouched(tmp_path: Path) -> None:
    path = tmp_path / "ledger.db"
    with closing(sqlite3.connect(path)) as later:
        later.execute("CREATE TABLE things (a)")
        later.execute(f"PRAGMA user_version = {LATEST + 1}")
    before = path.read_bytes()
    with pytest.raises(LedgerError, match="newer version of the program"), open_ledger(tmp_path):
        pass
    assert path.read_bytes() == before
    assert [one.name for one in tmp_path.iterdir()] == ["ledger.db"]


def test_another_database_is_left_untouched(tmp_path: Path) -> None:
    path = tmp_path / "ledger.db"
    with closing(sqlite3.connect(path)) as other:
        other.execute("CREATE TABLE things (a)")
    before = path.read_bytes()
    with pytest.raises(LedgerError, match="no ledger of this program"), open_ledger(tmp_path):
        pass
    assert path.read_bytes() == before


def test_a_damaged_ledger_is_copied_aside_once_and_never_changed(tmp_path: Path) -> None:
    path = tmp_path / "ledger.db"
    rubbish = b"this is no database at all, only text " * 40
    path.write_bytes(rubbish)
    for _ in range(2):
        with pytest.raises(LedgerError, match="damaged-1"), open_ledger(tmp_path):
            pass
    assert path.read_bytes() == rubbish
    assert sorted(one.name for one in tmp_path.iterdir()) == ["ledger.db", "ledger.db.damaged-1"]
    path.write_bytes(rubbish[::-1])
    with pytest.raises(LedgerError, match="damaged-2"), open_ledger(tmp_path):
        pass
    assert (tmp_path / "ledger.db.damaged-1").read_bytes() == rubbish
    assert (tmp_path / "ledger.db.damaged-2").read_bytes() == rubbish[::-1]


def test_a_ledger_damaged_in_its_middle_is_found(tmp_path: Path) -> None:
    path = tmp_path / "ledger.db"
    with open_ledger(tmp_path) as ledger:
        for number in range(200):
            ledger.record(entry(number))
    data = bytearray(path.read_bytes())
    data[8192:12288] = b"\xa5" * 4096
    path.write_bytes(data)
    with pytest.raises(LedgerError, match="damaged-1"), open_ledger(tmp_path):
        pass
    assert path.read_bytes() == bytes(data)


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(LedgerError, match="cannot be used"), open_ledger(tmp_path / "none"):
        pass


@pytest.mark.parametrize("kind", ["folder", "thing that is no file"])
def test_what_is_no_file_in_the_place_of_the_ledger_is_told(tmp_path: Path, kind: str) -> None:
    path = tmp_path / "ledger.db"
    if kind == "folder":
        path.mkdir()
    else:
        os.mkfifo(path)
    for action in (read_hung, lambda folder: open_ledger(folder).__enter__()):
        with pytest.raises(LedgerError, match=f"A {kind} is in the ledger's place.*Move it away"):
            action(tmp_path)


def small_page(folder: Path) -> None:
    """Make a ledger of pages so small that one more entry needs a new one."""
    with closing(sqlite3.connect(folder / "ledger.db")) as connection:
        connection.execute("PRAGMA page_size = 512")
        connection.execute("VACUUM")


@pytest.fixture
def no_room(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let no database grow, which to the database is a disk that is full."""
    real = sqlite3.connect

    def small(*arguments: Any, **more: Any) -> sqlite3.Connection:
        connection = real(*arguments, **more)
        pages = connection.execute("PRAGMA page_count").fetchone()[0]
        connection.execute(f"PRAGMA max_page_count = {max(pages, 1)}")
        return connection

    monkeypatch.setattr(sqlite3, "connect", small)


def test_a_full_disk_is_told_as_such_when_a_ledger_is_begun(tmp_path: Path, no_room: None) -> None:
    small_page(tmp_path)
    with pytest.raises(LedgerError, match=r"the disk is full\. Make room"), open_ledger(tmp_path):
        pass


def test_a_full_disk_is_told_as_such_when_much_hangs(
    tmp_path: Path, request: pytest.FixtureRequest
) -> None:
    small_page(tmp_path)
    with open_ledger(tmp_path) as ledger:
        ledger.record(entry())
    request.getfixturevalue("no_room")
    entries = tuple(
        HungEntry("wall", f"Tin {k}", 10.0 * k, 10.0, entry().mark, (f"Tin {k}",), "2024-05-01")
        for k in range(40)
    )
    with (
        open_ledger(tmp_path) as ledger,
        pytest.raises(LedgerError, match=r"the disk is full\. Make room"),
    ):
        ledger.replace_hung(WhatHangs(entries))
    assert read_hung(tmp_path) == WhatHangs()


@pytest.mark.parametrize(
    ("target", "fault"),
    [
        ("nowhere.db", "leads to nothing"),
        ("ledger.db", "leads to itself"),
        ("../elsewhere.db", "leads out of the folder"),
    ],
)
def test_a_link_in_the_place_of_the_ledger_leads_inside_or_is_refused(
    tmp_path: Path, target: str, fault: str
) -> None:
    folder = tmp_path / "shed"
    folder.mkdir()
    (tmp_path / "elsewhere.db").write_bytes(b"")
    (folder / "ledger.db").symlink_to(target)
    for action in (
        has_ledger,
        read_hung,
        lambda place: read_recipe(place, entry().mark),
        lambda place: open_ledger(place).__enter__(),
    ):
        with pytest.raises(LedgerError, match=f"A link that {fault}.*Move it away"):
            action(folder)
    assert (tmp_path / "elsewhere.db").read_bytes() == b""
    assert not (folder / "nowhere.db").exists()
    with open_ledger(tmp_path) as ledger:
        ledger.record(entry())
    (tmp_path / "ledger.db").rename(folder / "kept.db")
    (folder / "ledger.db").unlink()
    (folder / "ledger.db").symlink_to("kept.db")
    with open_ledger(folder) as ledger:
        assert ledger.recipe(entry().mark) == entry()


def test_a_text_that_is_not_utf_8_is_damage(tmp_path: Path) -> None:
    hanging = HungEntry("wall", "Tin", 10.0, 10.0, entry().mark, ("Tin",), "2024-05-01")
    with open_ledger(tmp_path) as ledger:
        ledger.record(entry())
        ledger.replace_hung(WhatHangs((hanging,)))
    with closing(sqlite3.connect(tmp_path / "ledger.db", isolation_level=None)) as other:
        other.execute("UPDATE marks SET family = CAST(x'AAFF' AS TEXT)")
        other.execute("UPDATE hung SET name = CAST(x'AAFF' AS TEXT)")
    with open_ledger(tmp_path) as ledger, pytest.raises(LedgerError, match="text in it is not UTF"):
        ledger.recipe(entry().mark)
    with pytest.raises(LedgerError, match=r"not UTF-8.*damaged-1"):
        read_hung(tmp_path)


@pytest.mark.parametrize("plain", [b"CREATE TABLE other", b"other"])
def test_a_schema_that_is_not_utf_8_is_damage(tmp_path: Path, plain: bytes) -> None:
    with open_ledger(tmp_path) as ledger:
        ledger.record(entry())
    path = tmp_path / "ledger.db"
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("CREATE TABLE other (a)")
    path.write_bytes(path.read_bytes().replace(plain, b"\xaa" * len(plain)))
    for action in (read_hung, lambda place: open_ledger(place).__enter__()):
        with pytest.raises(LedgerError, match=r"damaged.*damaged-1"):
            action(tmp_path)


def test_a_ledger_that_cannot_be_written_says_what_to_do(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The database as it is opened on a disk that is mounted for reading only."""
    with open_ledger(tmp_path) as ledger:
        ledger.record(entry())
    real = sqlite3.connect

    def read_only(path: Any, **more: Any) -> sqlite3.Connection:
        return real(f"{Path(path).as_uri()}?mode=ro", **more, uri=True)

    monkeypatch.setattr(sqlite3, "connect", read_only)
    with (
        open_ledger(tmp_path) as ledger,
        pytest.raises(LedgerError, match=r"readonly.*Get the right to write"),
    ):
        ledger.record(entry(2))
