"""Where a set of files may go: never where it would fill a whole disk or mix with a workshop."""

from __future__ import annotations

from pathlib import Path

from cleatwright.base.errors import OutputError
from cleatwright.base.place import InFile
from cleatwright.workshop.document.store import FILE_NAME

TODO = "Choose another folder with --out; nothing was changed"


def output_folder(out: Path | None, *, workshop: Path | None = None, usual: str = "out") -> Path:
    """Return the folder for a set of files.

    Args:
        out: What the person named; a link in it is followed.
        workshop: The folder of the workshop, if there is one.
        usual: The folder in the workshop that is taken when none was named; a link in it is
            followed only inside the workshop.

    Raises:
        OutputError: It is the root of a disk, a folder with a workshop in it, or a folder around
            the workshop; or the usual one is a link that leads out of the workshop.
    """
    if out is None:
        if workshop is None:
            raise OutputError("no folder was named", todo="Name one with --out")
        return _usual(workshop, usual)
    place = _resolved(out)
    if place == Path(place.anchor):
        raise OutputError("this is the root of a disk", place=InFile(str(out)), todo=TODO)
    if (place / FILE_NAME).exists() or (workshop is not None and place == _resolved(workshop)):
        raise OutputError(
            "this is the folder of a workshop, and its own files are in it",
            place=InFile(str(out)),
            todo=TODO,
        )
    if workshop is not None and place in _resolved(workshop).parents:
        raise OutputError("the workshop is in this folder", place=InFile(str(out)), todo=TODO)
    return out


def _usual(workshop: Path, usual: str) -> Path:
    folder = workshop / usual
    if not _resolved(folder).is_relative_to(_resolved(workshop)):
        raise OutputError(
            "this is a link that leads out of the workshop",
            place=InFile(str(folder)),
            todo="Name the folder with --out, or remove the link; nothing was changed",
        )
    return folder


def _resolved(path: Path) -> Path:
    try:
        return path.resolve()
    except (OSError, RuntimeError) as error:
        raise OutputError("this is a link that leads to itself", place=InFile(str(path))) from error
