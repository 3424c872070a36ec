"""Writing a set of files so that a folder holds the whole new set or the whole old one.

Every file is first written, and flushed to disk, in a staging folder inside the output
folder. Only when all are there they are moved into place. A manifest names
what the program wrote, so that files that are no longer part of the set are removed
and nothing that a person put there is touched. While files are moved, the manifest names
the old set and the new one, so that a run that is cut off can be done again.
"""

from __future__ import annotations

import contextlib
import json
import os
import shutil
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from cleatwright.base.errors import OutputError
from cleatwright.services.interrupts import held_back

Replaces = Callable[[str], bool]
MANIFEST = "manifest.json"
WHAT_HAPPENS = ("new", "changed", "same", "removed")
STAGING = ".cleatwright-staging"
BETWEEN = "manifest-between.json"
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

    Raises:
        OutputError: Something that the program did not write stands where a file should go.
    """
    for place in (folder, *folder.parents):
        if place.exists() and not place.is_dir():
            raise _in_the_way(place)
    if (folder / MANIFEST).exists() and _listed(folder) is None:
        raise _in_the_way(folder / MANIFEST)
    ours = _published(folder)
    changes: list[Change] = []
    for name in sorted(files):
        what = _what_happens(folder, name, files[name])
        if what == "changed" and name not in ours:
            raise _in_the_way(folder / name)
        changes.append(Change(name, what))
    gone = sorted(name for name in ours - set(files) if replaces(name))
    return (*changes, *(Change(name, "removed") for name in gone if (folder / name).is_file()))


def publish(
    folder: Path, files: Mapping[str, bytes], *, replaces: Replaces = all_files
) -> tuple[Change, ...]:
    """Write the set and return what changed; ``replaces`` is that of ``compare``.

    Raises:
        OutputError: The folder cannot be written; it then holds what it held before.
    """
    changes = compare(folder, files, replaces=replaces)
    old = _published(folder)
    kept = {name for name in old if not replaces(name)}
    staging = folder / STAGING
    was_there = folder.is_dir()
    try:
        folder.mkdir(parents=True, exist_ok=True)
        shutil.rmtree(staging, ignore_errors=True)
        for name, content in files.items():
            _write(staging / name, content)
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
        _write(staging / BETWEEN, _manifest(old | set(files)))
        _write(staging / MANIFEST, _manifest(kept | set(files)))
        with held_back():
            (staging / BETWEEN).replace(folder / MANIFEST)
            for name in sorted(files):
                (staging / name).replace(folder / name)
            for change in changes:
                if change.what == "removed":
                    (folder / change.path).unlink(missing_ok=True)
            (staging / MANIFEST).replace(folder / MANIFEST)
    except OSError as error:
        raise _refused(folder, error) from error
    finally:
        shutil.rmtree(staging, ignore_errors=True)
        _remove_empty(folder, changes, itself=not was_there)
    return changes


def _what_happens(folder: Path, name: str, content: bytes) -> str:
    """Return "new", "same" or "changed", or refuse when no file can be there."""
    path = folder / name
    for parent in list(path.parents)[: len(Path(name).parts) - 1]:
        if parent.exists() and not parent.is_dir():
            raise _in_the_way(parent)
    if path.is_dir():
        raise _in_the_way(path)
    try:
        if not path.is_file():
            return "new"
        return "same" if path.read_bytes() == content else "changed"
    except OSError as error:
        raise _refused(path, error) from error


def _in_the_way(path: Path) -> OutputError:
    return OutputError(
        "this is in the way, and it was not written by this program",
        where=str(path),
        todo="Move it away, or choose another folder with --out; nothing was changed",
    )


def _manifest(names: Iterable[str]) -> bytes:
    return json.dumps({"files": sorted(names)}, indent=1).encode() + b"\n"


def _remove_empty(folder: Path, changes: Sequence[Change], *, itself: bool) -> None:
    """Remove the folders that hold none of the files any more, or not yet."""
    inner = {folder / part for change in changes for part in Path(change.path).parents}
    for path in sorted(inner - {folder}, reverse=True) + [folder] * itself:
        with contextlib.suppress(OSError):
            path.rmdir()


def _write(path: Path, content: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("wb") as stream:
        stream.write(content)
        stream.flush()
        os.fsync(stream.fileno())


def _published(folder: Path) -> set[str]:
    """Return what the last run wrote; paths that lead out of the folder do not count."""
    root = folder.resolve()
    names = _listed(folder) or set()
    return {name for name in names if root in (root / name).resolve().parents}


def _listed(folder: Path) -> set[str] | None:
    """Return the names in the manifest, or None when there is no manifest of this program."""
    try:
        listed = json.loads((folder / MANIFEST).read_text("utf-8"))["files"]
        return {name for name in list(listed) if isinstance(name, str)}
    except (OSError, ValueError, KeyError, TypeError):
        return None


def _refused(path: Path, error: OSError) -> OutputError:
    return OutputError(f"cannot write: {error.strerror or error}", where=str(path), todo=HELP)
