"""What was found before, kept between runs in the folder where a person's caches belong.

It only ever saves time: it may be deleted at any moment, a damaged one is begun anew, and where
nothing can be written nothing is kept. Each version of the program, with what is plugged into it,
has a file of its own, since a step may come to something else in another version.
"""

from __future__ import annotations

import contextlib
import hashlib
import sqlite3
import sys
from collections.abc import Generator, Iterator, Sequence
from importlib.metadata import entry_points, version
from pathlib import Path
from threading import Lock

import platformdirs

import cleatwright
from cleatwright.base.stages.store import Key, Store

MOST_BYTES = 200_000_000
MOST_KEPT = 3
"""How many versions of the program keep what they found."""
BUSY_SECONDS = 2.0
LIBRARIES = ("manifold3d", "numpy", "shapely", "typst", "ezdxf", "lib3mf")
"""Those whose answers are kept, as far as they may differ from version to version."""
GROUPS = ("cleatwright.families", "cleatwright.kinds", "cleatwright.mounts")
_TABLE = """
CREATE TABLE IF NOT EXISTS found (
    stage TEXT NOT NULL, input TEXT NOT NULL, digest BLOB NOT NULL, data BLOB NOT NULL,
    PRIMARY KEY (stage, input)
) WITHOUT ROWID
"""


class DiskShelf:
    """A shelf in one file of SQLite; any fault of it counts as nothing kept.

    Args:
        path: The file; its folder is made when it is not there.
        most_bytes: How large the file may grow; it is begun anew beyond that.
    """

    def __init__(self, path: Path, *, most_bytes: int = MOST_BYTES) -> None:
        self._path = path
        self._most_bytes = most_bytes
        self._lock = Lock()
        self._opened: sqlite3.Connection | None = None
        self._useless = False

    def get(self, key: Key) -> bytes | None:
        """Return what was put under a key, or None; bytes that changed since count as nothing."""
        with self._lock, self._forgiven():
            asked = "SELECT digest, data FROM found WHERE stage = ? AND input = ?"
            row: tuple[bytes, bytes] | None = self._connection().execute(asked, key).fetchone()
            if row is not None and row[0] == _digest(row[1]):
                return row[1]
        return None

    def put(self, key: Key, data: bytes) -> None:
        """Keep bytes under a key, if the disk lets us."""
        with self._lock, self._forgiven():
            told = "INSERT OR REPLACE INTO found VALUES (?, ?, ?, ?)"
            self._connection().execute(told, (*key, _digest(data), data))

    def close(self) -> None:
        """Close the file."""
        with self._lock:
            if self._opened is not None:
                self._opened.close()
                self._opened = None

    def _connection(self) -> sqlite3.Connection:
        if self._useless:
            raise sqlite3.OperationalError("it could not be used before")
        if self._opened is None:
            self._path.parent.mkdir(parents=True, exist_ok=True)
            if self._path.is_file() and self._path.stat().st_size > self._most_bytes:
                self._path.unlink()
            self._opened = sqlite3.connect(
                self._path, timeout=BUSY_SECONDS, isolation_level=None, check_same_thread=False
            )
            self._opened.execute("PRAGMA journal_mode = WAL")
            # what a power cut takes is found again
            self._opened.execute("PRAGMA synchronous = OFF")
            self._opened.execute(_TABLE)
        return self._opened

    @contextlib.contextmanager
    def _forgiven(self) -> Generator[None]:
        """Go on without the shelf where it fails; a file that is no database is removed."""
        try:
            yield
        except sqlite3.OperationalError:
            # another run writes, the disk is full or may not be written
            self._useless = self._opened is None
        except sqlite3.DatabaseError:
            self._drop()
        except OSError:
            self._useless = True

    def _drop(self) -> None:
        if self._opened is not None:
            self._opened.close()
            self._opened = None
        try:
            for ending in ("", "-wal", "-shm"):
                self._path.with_name(self._path.name + ending).unlink(missing_ok=True)
        except OSError:
            self._useless = True


def _digest(data: bytes) -> bytes:
    return hashlib.sha256(data).digest()


def usual_shelf() -> DiskShelf:
    """Return the shelf of this version of the program, and clear those of older ones away."""
    folder = platformdirs.user_cache_path("cleatwright", appauthor=False)
    path = folder / f"found-{program_key()[:12]}.db"
    with contextlib.suppress(OSError):
        others = [one for one in folder.glob("found-*.db") if one != path]
        _clear(sorted(others, key=lambda one: one.stat().st_mtime))
    return DiskShelf(path)


def usual_store() -> Store:
    """Return an empty store over the usual shelf."""
    return Store(shelf=usual_shelf())


def _clear(oldest_first: Sequence[Path]) -> None:
    for path in oldest_first[: max(0, len(oldest_first) + 1 - MOST_KEPT)]:
        for ending in ("", "-wal", "-shm"):
            path.with_name(path.name + ending).unlink(missing_ok=True)


def program_key() -> str:
    """Return a key of the whole program: its own source, and what is plugged into it."""
    digest = hashlib.sha256(sys.version.encode())
    for library in LIBRARIES:
        digest.update(f"{library} {version(library)}".encode())
    root = Path(str(cleatwright.__file__)).parent
    for path in sorted(root.rglob("*.py")):
        digest.update(str(path.relative_to(root)).encode())
        digest.update(path.read_bytes())
    for told in sorted(_plugged_in()):
        digest.update(told.encode())
    return digest.hexdigest()


def _plugged_in() -> Iterator[str]:
    """Yield what tells each plug-in, and the package it comes from, from another version of it."""
    for group in GROUPS:
        for entry in entry_points(group=group):
            dist = entry.dist
            if dist is None:
                yield f"{group} {entry.value}"
                continue
            paths = (Path(str(one.locate())) for one in dist.files or ())
            files = sorted(one for one in paths if one.suffix == ".py" and one.is_file())
            stamps = (f"{one} {one.stat().st_mtime_ns}" for one in files)
            yield f"{group} {entry.value} {dist.name} {dist.version} {' '.join(stamps)}"
