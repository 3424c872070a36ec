"""Writing a set of files so that a folder holds the whole new set or the whole old one.

Every file is first written, and flushed to disk, in a staging folder inside the output
folder. Only when all are there they are moved into place. A manifest names
what the program wrote, so that files that are no longer part of the set are removed
and nothing that a person put there is touched. A run that is killed while it moves files is
finished by the next one, and two runs never write to one folder at once.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import shutil
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import Literal

from cleatwright.base.errors import OutputError
from cleatwright.base.place import InFile
from cleatwright.project.unfinished import (
    BETWEEN,
    MANIFEST,
    STAGING,
    WrittenFiles,
    finish,
    manifest_in,
    move,
    names_within,
    require_finished,
)
from cleatwright.workshop.ledger.one_at_a_time import alone_in

Replaces = Callable[[str], bool]
SetKind = Literal["make", "cards", "series", "remake"]
SETS: Mapping[str, str] = MappingProxyType(
    {
        "make": "make: a workshop's files",
        "cards": "cards: measuring cards",
        "series": "series: holders over sizes",
        "remake": "remake: parts made again",
    }
)
WHAT_HAPPENS = ("new", "changed", "same", "removed")
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
    folder: Path,
    files: Mapping[str, bytes],
    *,
    kind: SetKind = "make",
    replaces: Replaces = all_files,
) -> tuple[Change, ...]:
    """Return what publishing ``files`` (relative path to content) into ``folder`` would change.

    Args:
        folder: Where they go.
        files: Content by path from the folder on.
        kind: Which command's set they are; a folder holds the set of one command.
        replaces: Tells for the name of an older file whether the new set stands for it, so
            that it is removed when the new set does not have it.

    Raises:
        OutputError: Something that the program did not write, or another command's set, is
            where a file should go, or a run was stopped while it moved its files there.
    """
    _require_room(folder)
    _require_own(folder, kind, replaces)
    require_finished(folder)
    return _changes(folder, files, replaces)


def publish(
    folder: Path,
    files: Mapping[str, bytes],
    *,
    kind: SetKind = "make",
    replaces: Replaces = all_files,
) -> tuple[Change, ...]:
    """Write the set and return what changed; the arguments are those of ``compare``.

    Raises:
        OutputError: The folder cannot be written, holds another command's set, or another run
            writes there now. It then holds what it held before; when the disk failed while
            files were moved, the error says so and the next run finishes it.
    """
    was_there = True
    try:
        _require_room(folder)
        was_there = folder.is_dir()
        folder.mkdir(parents=True, exist_ok=True)
        with alone_in(folder):
            _require_own(folder, kind, replaces)
            if not finish(folder) and not all(map(replaces, _published(folder))):
                require_finished(folder)
            return _publish(folder, files, kind, replaces)
    except OSError as error:
        raise _refused(folder, error) from error
    finally:
        if not was_there:
            with contextlib.suppress(OSError):
                folder.rmdir()


def _publish(
    folder: Path, files: Mapping[str, bytes], kind: SetKind, replaces: Replaces
) -> tuple[Change, ...]:
    """Write the set into a folder that nobody else writes to."""
    changes = _changes(folder, files, replaces)
    before = manifest_in(folder) or WrittenFiles.of((), kind=kind)
    old = names_within(folder, before)
    kept = {name for name in old if not replaces(name)}
    # what only adds to a set that names no kind leaves it as it is
    owner = kind if kind == "make" or not old else before.kind
    sums = {name: sum_ for name, sum_ in before.sha256.items() if name in kept}
    sums |= {name: hashlib.sha256(content).hexdigest() for name, content in files.items()}
    staging = folder / STAGING
    try:
        shutil.rmtree(staging, ignore_errors=True)
        for name, content in files.items():
            _write(staging / name, content)
        moving = WrittenFiles.of(old | set(files), kind=owner, between=True)
        whole = WrittenFiles.of(kept | set(files), kind=owner, sha256=sums)
        _write(staging / BETWEEN, moving.as_bytes())
        _write(staging / MANIFEST, whole.as_bytes())
        for name in files:
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
        move(folder, (change.path for change in changes if change.what == "removed"))
    finally:
        if not _is_between(folder):
            shutil.rmtree(staging, ignore_errors=True)
        _remove_empty(folder, changes)
    return changes


def _changes(folder: Path, files: Mapping[str, bytes], replaces: Replaces) -> tuple[Change, ...]:
    ours = _published(folder)
    changes: list[Change] = []
    for name in sorted(files):
        what = _what_happens(folder, name, files[name])
        if what == "changed" and name not in ours:
            raise _in_the_way(folder / name)
        changes.append(Change(name, what))
    gone = sorted(name for name in ours - set(files) if replaces(name))
    return (*changes, *(Change(name, "removed") for name in gone if (folder / name).is_file()))


def _require_room(folder: Path) -> None:
    """Refuse a folder where something stands that the program did not write."""
    for place in (folder, *folder.parents):
        if place.exists() and not place.is_dir():
            raise _in_the_way(place)
    if (folder / MANIFEST).exists() and manifest_in(folder) is None:
        raise _in_the_way(folder / MANIFEST)


def _require_own(folder: Path, kind: SetKind, replaces: Replaces) -> None:
    """Refuse a folder in which another command's set lies.

    One without a kind is from before kinds were kept, and counts as that of ``make``; what
    removes nothing may still be added to it.
    """
    manifest = manifest_in(folder)
    if manifest is None or not manifest.files or manifest.kind == kind:
        return
    if manifest.kind is None and (kind == "make" or not any(map(replaces, manifest.files))):
        return
    raise OutputError(
        f"here are the files of another command ({SETS.get(manifest.kind or 'make', 'unknown')}), "
        "and they would be removed or mixed up",
        place=InFile(str(folder)),
        todo="Choose another folder with --out; nothing was changed",
    )


def _what_happens(folder: Path, name: str, content: bytes) -> str:
    """Return "new", "same" or "changed", or refuse when no file can be there."""
    path = folder / name
    for parent in list(path.parents)[: len(Path(name).parts) - 1]:
        if parent.exists() and not parent.is_dir():
            raise _in_the_way(parent)
        if parent.is_symlink() and folder.resolve() not in parent.resolve().parents:
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
        place=InFile(str(path)),
        todo="Move it away, or choose another folder with --out; nothing was changed",
    )


def _remove_empty(folder: Path, changes: Sequence[Change]) -> None:
    """Remove the folders that hold none of the files any more, or not yet."""
    inner = {folder / part for change in changes for part in Path(change.path).parents}
    for path in sorted(inner - {folder}, reverse=True):
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
    manifest = manifest_in(folder)
    return set() if manifest is None else names_within(folder, manifest)


def _is_between(folder: Path) -> bool:
    manifest = manifest_in(folder)
    return manifest is not None and manifest.between


def _refused(folder: Path, error: OSError) -> OutputError:
    reason = f"cannot write: {error.strerror or error}"
    if _is_between(folder):
        return OutputError(
            f"{reason}; some files are new already and some are old",
            place=InFile(str(folder)),
            todo="Mend the cause and run the same again; that finishes what was begun",
        )
    return OutputError(reason, place=InFile(str(folder)), todo=HELP)
