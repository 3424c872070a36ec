"""Writing a set of files so that a folder holds the whole new set or the whole old one.

Every file is first written, and flushed to disk, in a staging folder inside the output
folder. Only when all are there they are moved into place. A manifest names
what the program wrote, so that files that are no longer part of the set are removed
and nothing that a person put there is touched.
"""

from __future__ import annotations

import json
import os
import shutil
import signal
import threading
from collections.abc import Callable, Generator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from types import FrameType

from cleatwright.base.errors import OutputError

Replaces = Callable[[str], bool]
MANIFEST = "manifest.json"
WHAT_HAPPENS = ("new", "changed", "same", "removed")
STAGING = ".cleatwright-staging"
HELP = "Choose another folder with --out, or make room and the right to write there"


@dataclass(frozen=True)
class Change:
    """What publishing does, or would do, with one file: one of WHAT_HAPPENS."""

    path: str
    what: str


def all_files(_name: str) -> bool:
    """Say that the whole published set is being replaced."""
    return True


def no_files(_name: str) -> bool:
    """Say that nothing published before is being replaced, only added to."""
    return False


def compare(
    folder: Path, files: Mapping[str, bytes], *, replaces: Replaces = all_files
) -> tuple[Change, ...]:
    """Return what publishing ``files`` (relative path to content) into ``folder`` would change.

    ``replaces`` tells for the name of an older file whether the new set stands for it, so
    that it is removed when the new set does not have it.
    """
    changes: list[Change] = []
    for name in sorted(files):
        path = folder / name
        try:
            old = path.read_bytes() if path.is_file() else None
        except OSError as error:
            raise _refused(path, error) from error
        what = "new" if old is None else "same" if old == files[name] else "changed"
        changes.append(Change(name, what))
    gone = sorted(name for name in _published(folder) - set(files) if replaces(name))
    return (*changes, *(Change(name, "removed") for name in gone if (folder / name).is_file()))


def publish(
    folder: Path, files: Mapping[str, bytes], *, replaces: Replaces = all_files
) -> tuple[Change, ...]:
    """Write the set and return what changed; ``replaces`` is that of ``compare``.

    Raises:
        OutputError: The folder cannot be written; it then holds what it held before.
    """
    changes = compare(folder, files, replaces=replaces)
    kept = {name for name in _published(folder) if not replaces(name)}
    manifest = json.dumps({"files": sorted(kept | set(files))}, indent=1).encode() + b"\n"
    staging = folder / STAGING
    try:
        folder.mkdir(parents=True, exist_ok=True)
        shutil.rmtree(staging, ignore_errors=True)
        for name, content in {**files, MANIFEST: manifest}.items():
            _write(staging / name, content)
        with _uninterrupted():
            for name in (*sorted(files), MANIFEST):
                target = folder / name
                target.parent.mkdir(parents=True, exist_ok=True)
                (staging / name).replace(target)
            for change in changes:
                if change.what == "removed":
                    (folder / change.path).unlink(missing_ok=True)
    except OSError as error:
        raise _refused(folder, error) from error
    finally:
        shutil.rmtree(staging, ignore_errors=True)
    return changes


def _write(path: Path, content: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("wb") as stream:
        stream.write(content)
        stream.flush()
        os.fsync(stream.fileno())


def _published(folder: Path) -> set[str]:
    """Return what the last run wrote; paths that lead out of the folder do not count."""
    path = folder / MANIFEST
    try:
        listed = list(json.loads(path.read_text("utf-8"))["files"]) if path.is_file() else []
    except (OSError, ValueError, KeyError, TypeError):
        # without a readable manifest nothing counts as ours, and nothing is removed
        return set()
    root = folder.resolve()
    names = {name for name in listed if isinstance(name, str)}
    return {name for name in names if root in (root / name).resolve().parents}


@contextmanager
def _uninterrupted() -> Generator[None]:
    """Hold back an interrupt until the block is done."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    caught: list[int] = []

    def remember(number: int, frame: FrameType | None) -> None:  # noqa: ARG001 - the signature of a handler
        caught.append(number)

    before = signal.signal(signal.SIGINT, remember)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
        if caught:
            signal.raise_signal(signal.SIGINT)


def _refused(path: Path, error: OSError) -> OutputError:
    return OutputError(f"cannot write: {error.strerror or error}", where=str(path), todo=HELP)
