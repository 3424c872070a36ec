"""Whether a published set is still what was published."""

from __future__ import annotations

import hashlib
from pathlib import Path

from cleatwright.base.errors import OutputError
from cleatwright.base.place import InFile
from cleatwright.project.unfinished import MANIFEST, WrittenFiles, manifest_in, names_within

MOST_NAMED = 5


def require_intact(folder: Path) -> None:
    """Refuse a folder in which files of the published set are missing or were replaced.

    Of a set from before digests were kept only missing files are known.

    Raises:
        OutputError: There is no manifest, or files are not what was published.
    """
    manifest = manifest_in(folder)
    if manifest is None:
        raise OutputError(
            "there is no list of the files that were made",
            place=InFile(str(folder / MANIFEST)),
            todo="Make the workshop again",
        )
    names = sorted(names_within(folder, manifest))
    faults = [f"{name} {fault}" for name in names if (fault := _fault(folder, name, manifest))]
    if faults:
        more = len(faults) - MOST_NAMED
        raise OutputError(
            "files are not as they were made: "
            + ", ".join(faults[:MOST_NAMED])
            + (f" and {more} more" if more > 0 else ""),
            place=InFile(str(folder)),
            todo="Make the workshop again, and compare what hangs with the new drawing",
        )


def _fault(folder: Path, name: str, manifest: WrittenFiles) -> str:
    path = folder / name
    if not path.is_file():
        return "is missing"
    try:
        with path.open("rb") as stream:
            digest = hashlib.file_digest(stream, "sha256").hexdigest()
    except OSError as error:
        return f"cannot be read ({error.strerror})"
    return "" if digest == manifest.sha256.get(name, digest) else "was changed"
