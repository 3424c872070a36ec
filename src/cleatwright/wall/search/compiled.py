"""Functions that are compiled when they are first called, because the search lives by its speed.

They take whole numbers in arrays and know nothing of objects. What was compiled is kept in a
folder beside the code, or in the person's own folder for such things, so that only the first run
waits for it.
"""

from __future__ import annotations

import hashlib
import os
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import numba

Function = TypeVar("Function", bound=Callable[..., Any])

# the library has no types of its own
_LIBRARY: Any = numba
_HERE = Path(__file__).parent


def _digest() -> str:
    """Return a name for exactly this code.

    The library does not see when a function changes that another one calls; a folder that is
    named after all the code does.
    """
    digest = hashlib.sha256()
    for path in sorted(_HERE.glob("*.py")):
        digest.update(path.read_bytes())
    return digest.hexdigest()[:12]


def _kept_in() -> Path | None:
    """Return the folder for what was compiled, beside the code or the person's own, or None."""
    name = f"search-{_digest()}"
    own = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "cleatwright"
    for parent in (_HERE / "__pycache__", own):
        folder = parent / name
        try:
            folder.mkdir(parents=True, exist_ok=True)
        except OSError:
            continue
        if os.access(folder, os.W_OK | os.X_OK):
            for old in parent.glob("search-*"):
                if old != folder:
                    shutil.rmtree(old, ignore_errors=True)
            return folder
    return None


_FOLDER = _kept_in()
if _FOLDER is not None:
    # nothing else in the program uses the library
    _LIBRARY.config.CACHE_DIR = str(_FOLDER)


def first_time() -> bool:
    """Return whether nothing was compiled yet, so that whoever waits can be told why."""
    return _FOLDER is None or not any(_FOLDER.rglob("*.nbi"))


def compiled(function: Function) -> Function:
    """Return the function, compiled on its first call; it means the same as the plain one.

    It leaves the interpreter to others while it runs, so that two lanes of a search run at once.
    """
    return _compiled(function)


def lean(function: Function) -> Function:
    """Return the function, compiled like the others, for those that make no arrays of their own.

    It counts no references to the arrays that it is given, which takes a third of the time of a
    search; whoever calls it holds them. A function that would make an array does not compile.
    """
    return _compiled(function, _nrt=False)


def _compiled(function: Function, **options: bool) -> Function:
    return _LIBRARY.njit(cache=_FOLDER is not None, nogil=True, **options)(function)
