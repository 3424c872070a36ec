"""What a run left that was cut off while it moved its files, and how the next run finishes it.

While files are moved, the manifest in the folder names the old set and the new one, and says so;
the files that have yet to move, and the manifest of the new set, wait in the staging folder.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from pathlib import Path
from types import MappingProxyType

from pydantic import BaseModel, ValidationError

from cleatwright.base.errors import OutputError
from cleatwright.base.interrupts import defer_interrupts
from cleatwright.base.place import InFile

MANIFEST = "manifest.json"
STAGING = ".cleatwright-staging"
BETWEEN = "manifest-between.json"
NOTHING_KNOWN: Mapping[str, str] = MappingProxyType({})


class WrittenFiles(BaseModel):
    """The files that the program wrote to a folder.

    Args:
        files: Their paths from the folder on.
        between: Whether files are being moved, so that some are old and some are new.
        kind: Which command's set they are; None in a manifest from before this was kept.
        sha256: The SHA-256 of the content by path, as far as it is known.
    """

    files: tuple[str, ...]
    between: bool = False
    kind: str | None = None
    sha256: dict[str, str] = {}

    @classmethod
    def of(
        cls,
        names: Iterable[str],
        *,
        kind: str | None = None,
        sha256: Mapping[str, str] = NOTHING_KNOWN,
        between: bool = False,
    ) -> WrittenFiles:
        """Return the manifest of these files, sorted."""
        sums = {name: sha256[name] for name in sorted(sha256)}
        return cls(files=tuple(sorted(names)), between=between, kind=kind, sha256=sums)

    def as_bytes(self) -> bytes:
        """Return the file; nothing is said of moving when all is in place."""
        content = self.model_dump(exclude_defaults=True) | {"files": self.files}
        return json.dumps(content, indent=1).encode() + b"\n"


def manifest_in(folder: Path) -> WrittenFiles | None:
    """Return the manifest of a folder, or None when there is none of this program."""
    try:
        return WrittenFiles.model_validate_json((folder / MANIFEST).read_bytes())
    except (OSError, ValidationError):
        return None


def names_within(folder: Path, manifest: WrittenFiles) -> set[str]:
    """Return the names in a manifest; paths that lead out of the folder do not count."""
    root = folder.resolve()
    return {name for name in manifest.files if root in (root / name).resolve().parents}


def require_finished(folder: Path) -> None:
    """Refuse a folder in which some files are old and some are new.

    Raises:
        OutputError: A run is moving its files there, or was cut off when it did.
    """
    manifest = manifest_in(folder)
    if manifest is not None and manifest.between:
        raise OutputError(
            "some files are old and some are new: a run was stopped while it moved its files, or "
            "is moving them now",
            place=InFile(str(folder)),
            todo="Run make again, all of it; that finishes what was begun",
        )


def finish(folder: Path) -> bool:
    """Finish what a run began that was cut off, and return whether the folder holds one set now.

    The caller holds the folder's lock. False means that what was to be moved is gone.

    Raises:
        OSError: A file cannot be moved; the folder stays as it is between two sets.
    """
    now = manifest_in(folder)
    if now is None or not now.between:
        return True
    staging = folder / STAGING
    wanted = manifest_in(staging)
    if wanted is None:
        return False
    new = names_within(folder, wanted)
    if not all((staging / name).is_file() or (folder / name).is_file() for name in new):
        return False
    move(folder, names_within(folder, now) - new)
    return True


def move(folder: Path, gone: Iterable[str]) -> None:
    """Move what waits in the staging folder into place, and remove what is gone.

    The manifest of the new set comes last; before that, the folder says that it is between.
    """
    staging = folder / STAGING
    first = staging / BETWEEN
    with defer_interrupts():
        if first.is_file():
            first.replace(folder / MANIFEST)
        for path in sorted(staging.rglob("*")):
            place = folder / path.relative_to(staging)
            if path.is_file() and path != staging / MANIFEST:
                place.parent.mkdir(parents=True, exist_ok=True)
                path.replace(place)
        for name in sorted(gone):
            (folder / name).unlink(missing_ok=True)
        (staging / MANIFEST).replace(folder / MANIFEST)
