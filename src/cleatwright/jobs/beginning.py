"""Starting a family of one's own: a package with one file and a test, to be changed."""

from __future__ import annotations

import re
from pathlib import Path
from string import Template

from cleatwright.base.errors import MeasureError, OutputError
from cleatwright.base.place import InFile
from cleatwright.base.visible import visible
from cleatwright.holders.registry import FAMILIES
from cleatwright.workshop.document.store import write_safely

_TEMPLATES = Path(__file__).parent / "beginnings"
_NAME = re.compile(r"[a-z][a-z0-9]*(-[a-z0-9]+)*")
LONGEST = 40


def begin_family(name: str, *, into: Path) -> tuple[Path, ...]:
    """Write a package for a family of this name and return its files.

    Args:
        name: Lower-case letters, digits and hyphens, not yet taken.
        into: The folder in which the folder of the package is made.

    Raises:
        MeasureError: The name cannot be used.
        OutputError: The folder is there already, or cannot be written.
    """
    if not _NAME.fullmatch(name) or len(name) > LONGEST:
        raise MeasureError(
            f'"{visible(name)}" is no name of a family',
            allowed=f"up to {LONGEST} lower-case letters, digits and single hyphens",
        )
    if name in FAMILIES:
        raise MeasureError(f'there is a family "{name}" already', todo="Choose another name")
    package, module = f"cleatwright-{name}", f"cleatwright_{name.replace('-', '_')}"
    folder = into / package
    if folder.exists():
        raise OutputError(
            "the folder is there already",
            place=InFile(str(folder)),
            todo="Choose another name or another place; nothing was changed",
        )
    words = {
        "name": name,
        "package": package,
        "module": module,
        "Title": name.replace("-", " ").capitalize(),
    }
    files = {
        folder / "pyproject.toml": "pyproject.toml.txt",
        folder / "README.md": "README.md.txt",
        folder / "src" / f"{module}.py": "family.py.txt",
        folder / "tests" / f"test_{module}.py": "test_family.py.txt",
    }
    for path, template in files.items():
        text = (_TEMPLATES / template).read_text(encoding="utf-8")
        _make(path.parent)
        write_safely(path, Template(text).substitute(words).encode())
    return tuple(files)


def _make(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise OutputError(
            f"the folder cannot be made: {error.strerror}",
            place=InFile(str(folder)),
            todo="Name another place",
        ) from error
