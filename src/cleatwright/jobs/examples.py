"""The example workshops that come with the program."""

from __future__ import annotations

from pathlib import Path

from cleatwright.base.errors import OutputError, unknown_name
from cleatwright.base.place import InFile
from cleatwright.workshop.document.store import FILE_NAME, write_safely

# an installed package carries the examples inside; a checkout has them beside the sources
_PLACES = (
    Path(__file__).parent.parent / "_examples",
    Path(__file__).parents[3] / "examples",
)


def example_folders() -> dict[str, Path]:
    """Return the folder of each example by name, sorted."""
    root = next((place for place in _PLACES if place.is_dir()), None)
    if root is None:
        raise OutputError("the examples are missing from this installation", todo="Install again")
    return {path.parent.name: path.parent for path in sorted(root.glob(f"*/{FILE_NAME}"))}


def start_workshop(folder: Path, *, example: str) -> Path:
    """Copy an example's document into a new workshop folder and return its path.

    Raises:
        UnknownNameError: There is no such example.
        OutputError: The folder already holds a workshop, or cannot be written.
    """
    folders = example_folders()
    if example not in folders:
        raise unknown_name("example", example, folders)
    return write_new(folder, (folders[example] / FILE_NAME).read_bytes())


def write_new(folder: Path, data: bytes) -> Path:
    """Write a document into a folder that holds no workshop yet, and return its path.

    Raises:
        OutputError: The folder already holds a workshop, or cannot be written.
    """
    path = folder / FILE_NAME
    try:
        if path.exists() or path.is_symlink():
            raise OutputError(
                "there is already a workshop in this folder",
                place=InFile(str(path)),
                todo="Open it, or name another folder; nothing was changed",
            )
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise OutputError(
            f"the folder cannot be made: {error.strerror}",
            place=InFile(str(folder)),
            todo="Name another folder; nothing was changed",
        ) from error
    write_safely(path, data)
    return path
