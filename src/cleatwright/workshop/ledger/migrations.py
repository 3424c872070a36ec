"""The steps by which a ledger of an earlier version becomes one of today.

A step is never changed once it was published; a new column is a new step.
"""

from __future__ import annotations

import contextlib
import sqlite3
from collections.abc import Generator
from contextlib import contextmanager

STEPS: tuple[tuple[str, ...], ...] = (
    (
        """
    CREATE TABLE marks (
        mark TEXT PRIMARY KEY,
        content_key TEXT NOT NULL,
        recipe_json TEXT NOT NULL,
        family TEXT NOT NULL,
        leading TEXT NOT NULL,
        first_seen TEXT NOT NULL
    ) STRICT
    """,
    ),
    ("ALTER TABLE marks ADD COLUMN made_with TEXT NOT NULL DEFAULT ''",),
    (
        """
    CREATE TABLE hung (
        panel TEXT NOT NULL,
        identity TEXT PRIMARY KEY,
        name TEXT NOT NULL,
        x_mm REAL NOT NULL,
        z_mm REAL NOT NULL,
        mark TEXT NOT NULL,
        tools_json TEXT NOT NULL,
        since TEXT NOT NULL
    ) STRICT
    """,
    ),
    (
        """
    CREATE TABLE hung_rails (
        panel TEXT NOT NULL,
        name TEXT NOT NULL PRIMARY KEY,
        z_top_mm REAL NOT NULL,
        x0_mm REAL NOT NULL,
        x1_mm REAL NOT NULL,
        height_mm REAL NOT NULL,
        thickness_mm REAL NOT NULL,
        bevel_deg REAL NOT NULL,
        studs_json TEXT NOT NULL,
        since TEXT NOT NULL
    ) STRICT
    """,
    ),
    # one mark stands for every recipe that gives its shape; the highest number is the newest
    (
        "ALTER TABLE marks RENAME TO marks_once",
        """
    CREATE TABLE marks (
        number INTEGER PRIMARY KEY,
        mark TEXT NOT NULL,
        content_key TEXT NOT NULL,
        recipe_key TEXT NOT NULL,
        recipe_json TEXT NOT NULL,
        family TEXT NOT NULL,
        leading TEXT NOT NULL,
        first_seen TEXT NOT NULL,
        made_with TEXT NOT NULL,
        UNIQUE (mark, recipe_key)
    ) STRICT
    """,
        """
    INSERT INTO marks
        (mark, content_key, recipe_key, recipe_json, family, leading, first_seen, made_with)
    SELECT mark, content_key, content_key, recipe_json, family, leading, first_seen, made_with
    FROM marks_once ORDER BY rowid
    """,
        "DROP TABLE marks_once",
    ),
    # by what tools and holders are known again
    (
        """
    CREATE TABLE known_tools (
        position INTEGER PRIMARY KEY,
        identity TEXT NOT NULL UNIQUE,
        name TEXT NOT NULL UNIQUE,
        kind TEXT NOT NULL,
        measures_json TEXT NOT NULL,
        outline TEXT NOT NULL
    ) STRICT
    """,
        """
    CREATE TABLE known_holders (
        number INTEGER PRIMARY KEY,
        panel TEXT NOT NULL,
        carrier TEXT NOT NULL,
        family TEXT NOT NULL,
        chosen_by TEXT NOT NULL,
        tools_json TEXT NOT NULL
    ) STRICT
    """,
        "CREATE TABLE last_number (number INTEGER NOT NULL) STRICT",
    ),
    # the same of what hangs, which is known again though it was left out for a while
    (
        """
    CREATE TABLE hung_tools (
        position INTEGER PRIMARY KEY,
        identity TEXT NOT NULL UNIQUE,
        name TEXT NOT NULL UNIQUE,
        kind TEXT NOT NULL,
        measures_json TEXT NOT NULL,
        outline TEXT NOT NULL
    ) STRICT
    """,
        """
    CREATE TABLE hung_holders (
        number INTEGER PRIMARY KEY,
        panel TEXT NOT NULL,
        carrier TEXT NOT NULL,
        family TEXT NOT NULL,
        chosen_by TEXT NOT NULL,
        tools_json TEXT NOT NULL
    ) STRICT
    """,
    ),
    # what lies printed and does not hang, and which parts of what hangs broke
    (
        """
    CREATE TABLE ready_parts (
        mark TEXT NOT NULL,
        state TEXT NOT NULL CHECK (state IN ('printed', 'spare')),
        count INTEGER NOT NULL CHECK (count > 0),
        since TEXT NOT NULL,
        PRIMARY KEY (mark, state)
    ) STRICT
    """,
        "ALTER TABLE hung ADD COLUMN broken_json TEXT NOT NULL DEFAULT '[]'",
    ),
    # where everything was to hang by the papers that were last made
    ("CREATE TABLE made_wall (wall_json TEXT NOT NULL) STRICT",),
    # which tools were out of the document when only their seats were made again
    (
        "ALTER TABLE known_tools ADD COLUMN gone INTEGER NOT NULL DEFAULT 0",
        "ALTER TABLE hung_tools ADD COLUMN gone INTEGER NOT NULL DEFAULT 0",
    ),
    # with which hangers, bolts, plates and hooks it hangs
    ("ALTER TABLE hung ADD COLUMN fittings_json TEXT NOT NULL DEFAULT '[]'",),
)
HUNG_SINCE = 3
RAILS_SINCE = 4
KNOWN_SINCE = 6
HUNG_AS_MADE_SINCE = 7
READY_SINCE = 8
MADE_WALL_SINCE = 9
GONE_SINCE = 10
FITTED_SINCE = 11
LATEST = len(STEPS)


def version(connection: sqlite3.Connection) -> int:
    """Return the version of a ledger; 0 means that nothing was ever written."""
    return int(connection.execute("PRAGMA user_version").fetchone()[0])


def migrate(connection: sqlite3.Connection, *, to: int = LATEST) -> None:
    """Bring a ledger up to version ``to``: all steps together, or none.

    Args:
        connection: An open ledger without automatic transactions.
        to: The version to reach, no higher than the latest.
    """
    with all_or_nothing(connection):
        for number in range(version(connection), to):
            for statement in STEPS[number]:
                connection.execute(statement)
            connection.execute(f"PRAGMA user_version = {number + 1}")


@contextmanager
def all_or_nothing(connection: sqlite3.Connection) -> Generator[None]:
    """Keep what the block writes all together, or nothing of it when it fails.

    The error that ended the block is the one that is raised: on a full disk the database takes
    back everything by itself, and to ask for it again would be an error of its own.
    """
    connection.execute("BEGIN IMMEDIATE")
    try:
        yield
    except BaseException:
        with contextlib.suppress(sqlite3.Error):
            connection.execute("ROLLBACK")
        raise
    connection.execute("COMMIT")
