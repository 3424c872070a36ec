"""The ledger remembers which rails hang where."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import LedgerError
from cleatwright.base.keys import content_key, mark_from_key
from cleatwright.workshop.ledger.database import open_ledger
from cleatwright.workshop.ledger.hung_entry import COLUMNS_AT_FIRST, HungEntry
from cleatwright.workshop.ledger.hung_rail import RAIL_COLUMNS, HungRail
from cleatwright.workshop.ledger.hung_wall import WhatHangs
from cleatwright.workshop.ledger.migrations import LATEST, RAILS_SINCE, migrate, version
from cleatwright.workshop.ledger.reading import read_hung

HOLDER = HungEntry(
    "wall", "Holder", 10.0, 700.0, mark_from_key(content_key(1)), ("Tool",), "2024-05-01"
)


def rail(number: int = 1, *, panel: str = "wall") -> HungRail:
    return HungRail(
        panel=panel,
        name=f"R{number}",
        z_top_mm=2000.1 - 150.0 * number,
        x0_mm=10.1,
        x1_mm=910.7,
        height_mm=70.0,
        thickness_mm=18.0,
        bevel_deg=45.0,
        studs_mm=(300.0, 700.5),
        since="2024-05-01",
    )


def kept(folder: Path, *rails: HungRail) -> tuple[HungRail, ...]:
    with open_ledger(folder) as ledger:
        ledger.replace_hung(WhatHangs((HOLDER,), rails))
    with open_ledger(folder) as ledger:
        assert ledger.hung().holders == (HOLDER,)
        return ledger.hung().rails


def test_rails_are_kept_as_they_were_given_from_top_to_bottom_of_each_panel(
    tmp_path: Path,
) -> None:
    lid = rail(3, panel="lid")
    assert kept(tmp_path, rail(2), lid, rail(1)) == (lid, rail(1), rail(2))
    assert read_hung(tmp_path) == WhatHangs((HOLDER,), (lid, rail(1), rail(2)))
    assert kept(tmp_path, rail(4)) == (rail(4),)
    assert kept(tmp_path) == ()


LENGTHS = st.floats(1e-6, 1e6)


@settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(
    panel=st.text(st.characters(codec="utf-8"), min_size=1).filter(str.strip),
    number=st.integers(1, 10**6),
    sizes=st.tuples(LENGTHS, LENGTHS, LENGTHS, LENGTHS),
    bevel=st.floats(0.1, 89.9),
    studs=st.none() | st.sets(st.floats(0.0, 1.0), max_size=4),
)
def test_every_rail_comes_back_to_the_last_digit(
    tmp_path: Path,
    panel: str,
    number: int,
    sizes: tuple[float, float, float, float],
    bevel: float,
    studs: set[float] | None,
) -> None:
    top, length, height, thick = sizes
    one = HungRail(
        panel=panel,
        name=f"R{number}",
        z_top_mm=top,
        x0_mm=0.0,
        x1_mm=1.0 + length,
        height_mm=height,
        thickness_mm=thick,
        bevel_deg=bevel,
        studs_mm=None if studs is None else tuple(sorted(studs)),
        since="2024-05-01",
    )
    assert kept(tmp_path, one) == (one,)


def test_that_no_stud_was_known_is_another_thing_than_that_none_was_met(tmp_path: Path) -> None:
    unknown, none = replace(rail(1), studs_mm=None), replace(rail(2), studs_mm=())
    assert [one.studs_mm for one in kept(tmp_path, unknown, none)] == [None, ()]


NAN, INF = float("nan"), float("inf")
WRONG: list[dict[str, Any]] = [
    {"panel": " "},
    {"name": ""},
    {"name": "R0"},
    {"name": "R01"},
    {"name": "r1"},
    {"name": "R1 "},
    {"z_top_mm": 0.0},
    {"z_top_mm": NAN},
    {"x0_mm": -0.1},
    {"x0_mm": NAN},
    {"x1_mm": 10.1},
    {"x1_mm": INF},
    {"height_mm": 0.0},
    {"thickness_mm": -18.0},
    {"bevel_deg": 0.0},
    {"bevel_deg": 90.0},
    {"bevel_deg": NAN},
    {"studs_mm": (700.5, 300.0)},
    {"studs_mm": (300.0, 300.0)},
    {"studs_mm": (5.0,)},
    {"studs_mm": (NAN,)},
    {"since": "yesterday"},
]


@pytest.mark.parametrize("wrong", WRONG, ids=str)
def test_a_malformed_rail_is_refused_and_what_was_there_stays(
    tmp_path: Path, wrong: dict[str, Any]
) -> None:
    kept(tmp_path, rail(7))
    bad = replace(rail(1), **wrong)
    with open_ledger(tmp_path) as ledger:
        with pytest.raises(LedgerError, match=r"The entry of the rail .* is malformed"):
            ledger.replace_hung(WhatHangs((), (rail(5), bad)))
        assert ledger.hung() == WhatHangs((HOLDER,), (rail(7),))


def test_two_rails_of_one_name_and_two_on_each_other_are_refused(tmp_path: Path) -> None:
    beside = replace(rail(2), z_top_mm=rail(1).z_top_mm, x0_mm=910.7, x1_mm=1200.0, studs_mm=())
    assert kept(tmp_path, rail(1), beside) == (rail(1), beside)
    with open_ledger(tmp_path) as ledger:
        with pytest.raises(LedgerError, match="2 rails that hang are called R1"):
            ledger.replace_hung(WhatHangs((), (rail(1), replace(rail(2, panel="lid"), name="R1"))))
        lower = replace(rail(2), z_top_mm=rail(1).z_top_mm - 69.0)
        with pytest.raises(LedgerError, match="R1 and R2 cannot hang where they lie on each"):
            ledger.replace_hung(WhatHangs((), (rail(1), lower)))
        ledger.replace_hung(WhatHangs((), (rail(1), replace(lower, panel="lid"))))


@pytest.mark.parametrize(
    ("column", "value"),
    [
        ("studs_json", '"300"'),
        ("studs_json", '["300"]'),
        ("studs_json", "[[300]]"),
        ("studs_json", "[true]"),
        ("studs_json", "{}"),
        ("studs_json", ""),
        ("studs_json", "[700.5, 300]"),
        ("name", "old rail"),
        ("panel", ""),
        ("z_top_mm", -1.0),
        ("x1_mm", 0.0),
        ("bevel_deg", 120.0),
        ("since", "2024-13-01"),
    ],
)
def test_a_row_that_was_changed_by_hand_is_told(
    tmp_path: Path, column: str, value: str | float
) -> None:
    kept(tmp_path, rail())
    with closing(sqlite3.connect(tmp_path / "ledger.db", isolation_level=None)) as connection:
        connection.execute(f"UPDATE hung_rails SET {column} = ?", (value,))  # noqa: S608 - own names
    with pytest.raises(LedgerError, match="malformed"):
        read_hung(tmp_path)


CELL = st.text(max_size=6) | st.floats() | st.integers(-(10**9), 10**9)


@settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(column=st.sampled_from(RAIL_COLUMNS), value=CELL)
def test_whatever_stands_in_a_row_is_read_or_told(
    tmp_path: Path, column: str, value: str | float
) -> None:
    kept(tmp_path, rail())
    with closing(sqlite3.connect(tmp_path / "ledger.db", isolation_level=None)) as connection:
        try:
            connection.execute(f"UPDATE hung_rails SET {column} = ?", (value,))  # noqa: S608 - own names
        except sqlite3.IntegrityError:
            return  # the database itself refuses another type, and a NaN
    try:
        (read,) = read_hung(tmp_path).rails
    except LedgerError:
        return
    assert kept(tmp_path, read) == (read,)


@pytest.mark.parametrize("old", range(1, LATEST))
def test_a_ledger_from_before_keeps_its_holders_and_takes_rails(tmp_path: Path, old: int) -> None:
    path = tmp_path / "ledger.db"
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        migrate(connection, to=old)
        if old == RAILS_SINCE - 1:
            row = HOLDER.row()[: len(COLUMNS_AT_FIRST)]
            places = ", ".join("?" for _ in row)
            connection.execute(f"INSERT INTO hung VALUES ({places})", row)  # noqa: S608
    before = path.read_bytes()
    holders = (HOLDER,) if old == RAILS_SINCE - 1 else ()
    assert read_hung(tmp_path) == WhatHangs(holders)
    assert path.read_bytes() == before
    with open_ledger(tmp_path) as ledger:
        assert ledger.hung() == WhatHangs(holders)
    assert kept(tmp_path, rail()) == (rail(),)
    with closing(sqlite3.connect(path)) as connection:
        assert version(connection) == LATEST


def test_an_exchange_that_stops_at_a_rail_changes_no_holder(tmp_path: Path) -> None:
    kept(tmp_path, rail(1))
    with closing(sqlite3.connect(tmp_path / "ledger.db")) as connection:
        connection.execute(
            "CREATE TRIGGER full BEFORE INSERT ON hung_rails "
            "BEGIN SELECT RAISE(ABORT, 'the disk is full'); END"
        )
    with open_ledger(tmp_path) as ledger:
        with pytest.raises(LedgerError, match="disk is full"):
            ledger.replace_hung(WhatHangs((), (rail(2),)))
        assert ledger.hung() == WhatHangs((HOLDER,), (rail(1),))
