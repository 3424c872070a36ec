"""The ledger remembers what hangs where."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import LedgerError
from cleatwright.base.keys import content_key, mark_from_key
from cleatwright.workshop.ledger.database import open_ledger
from cleatwright.workshop.ledger.hung_entry import HungEntry
from cleatwright.workshop.ledger.hung_wall import WhatHangs
from cleatwright.workshop.ledger.mark_entry import MarkEntry
from cleatwright.workshop.ledger.migrations import (
    FITTED_SINCE,
    HUNG_SINCE,
    LATEST,
    migrate,
    version,
)
from cleatwright.workshop.ledger.reading import read_hung


def hung(number: int = 1, *, panel: str = "wall") -> HungEntry:
    return HungEntry(
        panel=panel,
        name=f"Holder {number}",
        x_mm=10.1 * number,
        z_mm=700.0,
        mark=mark_from_key(content_key(number)),
        tools=(f"Füller {number} ⌀6", f"Tool {number}"),
        since="2024-05-01",
    )


def kept(folder: Path, entries: tuple[HungEntry, ...]) -> tuple[HungEntry, ...]:
    with open_ledger(folder) as ledger:
        ledger.replace_hung(WhatHangs(entries))
    with open_ledger(folder) as ledger:
        return ledger.hung().holders


def test_what_hangs_is_kept_as_it_was_given_in_the_order_of_panel_and_name(tmp_path: Path) -> None:
    lid = hung(3, panel="lid")
    assert kept(tmp_path, (hung(2), lid, hung(1))) == (lid, hung(1), hung(2))
    assert read_hung(tmp_path) == WhatHangs((lid, hung(1), hung(2)))


@settings(
    max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(
    x_mm=st.floats(0.0, 1e5),
    z_mm=st.floats(0.0, 1e5),
    tools=st.sets(st.text(st.characters(codec="utf-8"), min_size=1), min_size=1, max_size=4),
)
def test_every_place_and_name_comes_back_to_the_last_digit(
    tmp_path: Path, x_mm: float, z_mm: float, tools: set[str]
) -> None:
    names = tuple(sorted(f"T{tool}" for tool in tools))
    one = replace(hung(), x_mm=x_mm, z_mm=z_mm, tools=names)
    assert kept(tmp_path, (one,)) == (one,)


def test_the_fittings_of_what_hangs_are_kept_and_none_are_known_from_before(
    tmp_path: Path,
) -> None:
    fitted = replace(hung(), fittings=tuple(sorted((hung(8).mark, hung(9).mark))))
    assert kept(tmp_path, (fitted,)) == (fitted,)
    assert fitted.fitted_as(hung())
    assert not fitted.fitted_as(replace(hung(), fittings=(hung(8).mark,)))
    with closing(sqlite3.connect(tmp_path / "ledger.db")) as earlier:
        earlier.execute("ALTER TABLE hung DROP COLUMN fittings_json")
        earlier.execute(f"PRAGMA user_version = {FITTED_SINCE - 1}")
        earlier.commit()
    assert read_hung(tmp_path).holders == (hung(),)
    # the same thing with what is known now keeps the day since which it hangs
    later = replace(fitted, since="2025-01-01")
    assert later.known_from(hung()) == fitted
    assert later.known_from(replace(fitted, fittings=(hung(8).mark,))) == later


def test_what_hung_before_is_forgotten(tmp_path: Path) -> None:
    kept(tmp_path, (hung(1), hung(2)))
    assert kept(tmp_path, (hung(3),)) == (hung(3),)
    assert kept(tmp_path, ()) == ()


@pytest.mark.parametrize(
    "wrong",
    [
        (replace(hung(), mark="AAAAAA0"),),
        (replace(hung(), mark=hung().mark.lower()),),
        (replace(hung(), since="yesterday"),),
        (replace(hung(), x_mm=float("nan")),),
        (replace(hung(), z_mm=float("inf")),),
        (replace(hung(), x_mm=-0.1),),
        (replace(hung(), panel=" "),),
        (replace(hung(), name=""),),
        (replace(hung(), tools=()),),
        (replace(hung(), tools=("B", "A")),),
        (replace(hung(), tools=("A", "A")),),
        (replace(hung(), tools=("", "A")),),
        (replace(hung(), fittings=("AAAAAA0",)),),
        (replace(hung(), fittings=tuple(sorted((hung(1).mark, hung(9).mark), reverse=True))),),
        (hung(1), hung(1)),
        (hung(1), replace(hung(2), tools=("Another", "Tool 1"))),
    ],
)
def test_a_malformed_entry_is_refused_and_what_was_there_stays(
    tmp_path: Path, wrong: tuple[HungEntry, ...]
) -> None:
    kept(tmp_path, (hung(7),))
    with open_ledger(tmp_path) as ledger:
        with pytest.raises(LedgerError, match=r"malformed|cannot hang in 2 places"):
            ledger.replace_hung(WhatHangs((hung(5), *wrong)))
        assert ledger.hung().holders == (hung(7),)


def test_an_exchange_that_the_database_stops_half_way_changes_nothing(tmp_path: Path) -> None:
    kept(tmp_path, (hung(1), hung(2)))
    with closing(sqlite3.connect(tmp_path / "ledger.db")) as connection:
        connection.execute(
            "CREATE TRIGGER full BEFORE INSERT ON hung WHEN NEW.name = 'Holder 4' "
            "BEGIN SELECT RAISE(ABORT, 'the disk is full'); END"
        )
    with open_ledger(tmp_path) as ledger:
        with pytest.raises(LedgerError, match="disk is full"):
            ledger.replace_hung(WhatHangs((hung(3), hung(4), hung(5))))
        assert ledger.hung().holders == (hung(1), hung(2))
        ledger.replace_hung(WhatHangs((hung(3),)))
        assert ledger.hung().holders == (hung(3),)


@pytest.mark.parametrize(
    ("column", "value"),
    [
        ("tools_json", '"Tool"'),
        ("tools_json", "[1]"),
        ("tools_json", "[["),
        ("tools_json", '["Other"]'),
        ("identity", "mine"),
        ("mark", "none"),
        ("x_mm", -4.0),
    ],
)
def test_a_row_that_was_changed_by_hand_is_told(
    tmp_path: Path, column: str, value: str | float
) -> None:
    kept(tmp_path, (hung(),))
    with closing(sqlite3.connect(tmp_path / "ledger.db", isolation_level=None)) as connection:
        connection.execute(f"UPDATE hung SET {column} = ?", (value,))  # noqa: S608 - own names
    with pytest.raises(LedgerError, match="malformed"):
        read_hung(tmp_path)


@pytest.mark.parametrize("old", range(1, LATEST))
def test_a_ledger_from_before_is_brought_up_to_date_and_keeps_its_marks(
    tmp_path: Path, old: int
) -> None:
    one = hung()
    with closing(sqlite3.connect(tmp_path / "ledger.db", isolation_level=None)) as connection:
        migrate(connection, to=old)
        columns = {row[1] for row in connection.execute("PRAGMA table_info(marks)")}
        row = {
            "mark": one.mark,
            "content_key": content_key(1),
            "recipe_json": "{}",
            "family": "rack",
            "leading": "",
            "first_seen": "2024-05-01",
            "recipe_key": content_key(1),
            "made_with": "",
        }
        kept_then = [name for name in row if name in columns]
        connection.execute(
            f"INSERT INTO marks ({', '.join(kept_then)}) "  # noqa: S608 - own names
            f"VALUES ({', '.join('?' for _ in kept_then)})",
            [row[name] for name in kept_then],
        )
    with open_ledger(tmp_path) as ledger:
        assert ledger.hung() == WhatHangs()
        ledger.replace_hung(WhatHangs((one,)))
        assert ledger.hung().holders == (one,)
        assert [entry.mark for entry in ledger.all_marks()] == [one.mark]
    with closing(sqlite3.connect(tmp_path / "ledger.db")) as connection:
        assert version(connection) == LATEST


def test_marks_and_what_hangs_do_not_touch_each_other(tmp_path: Path) -> None:
    one, key = hung(), content_key(1)
    kept(tmp_path, (one,))
    with open_ledger(tmp_path) as ledger:
        ledger.record(MarkEntry(one.mark, key, key, "{}", "rack", "", "2024-05-01"))
        assert ledger.hung() == WhatHangs((one,))
        ledger.replace_hung(WhatHangs())
        assert [entry.mark for entry in ledger.all_marks()] == [one.mark]


@pytest.mark.parametrize("old", range(HUNG_SINCE))
def test_looking_at_what_hangs_writes_nothing(tmp_path: Path, old: int) -> None:
    assert read_hung(tmp_path) == WhatHangs()
    assert list(tmp_path.iterdir()) == []
    path = tmp_path / "ledger.db"
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        migrate(connection, to=old)
    before = path.read_bytes()
    assert read_hung(tmp_path) == WhatHangs()
    assert path.read_bytes() == before
    assert [one.name for one in tmp_path.iterdir()] == ["ledger.db"]


def test_looking_at_a_ledger_from_a_later_version_or_a_damaged_one_is_refused(
    tmp_path: Path,
) -> None:
    path = tmp_path / "ledger.db"
    with closing(sqlite3.connect(path)) as later:
        later.execute(f"PRAGMA user_version = {LATEST + 1}")
        later.execute("CREATE TABLE things (a)")
    with pytest.raises(LedgerError, match="newer version of the program"):
        read_hung(tmp_path)
    path.write_bytes(b"this is no database at all, only text " * 40)
    with pytest.raises(LedgerError, match="damaged-1"):
        read_hung(tmp_path)
