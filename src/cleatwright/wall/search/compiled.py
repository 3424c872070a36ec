"""Functions that are compiled when they are first called, because the search lives by its speed.

They take whole numbers in arrays and know nothing of objects. What was compiled is kept in a
folder beside the code, so that only the first run waits for it.
"""

from __future__ import annotations

import hashlib
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import numba

Function = TypeVar("Function", bound=Callable[..., Any])

# the library has no types of its own
_LIBRARY: Any = numba
_HERE = Path(__file__).parent


def _kept_in() -> Path | None:
    """Return the folder for what was compiled from exactly this code, or None without one.

    The library does not see when a function changes that another one calls; a folder that is
    named after all the code does.
    """
    digest = hashlib.sha256()
    for path in sorted(_HERE.glob("*.py")):
        digest.update(path.read_bytes())
    folder = _HERE / "__pycache__" / f"search-{digest.hexdigest()[:12]}"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        old = [one for one in folder.parent.glob("search-*") if one != folder]
    except OSError:
        return None
    for one in old:
        shutil.rmtree(one, ignore_errors=True)
    return folder


_FOLDER = _kept_in()
if _FOLDER is not None:
    # nothing else in the program uses the library
    _LIBRARY.config.CACHE_DIR = str(_FOLDER)


def compiled(function: Function) -> Function:
    """Return the function, compiled on its first call; it means the same as the plain one.

    It leaves the interpreter to others while it runs, so that two lanes of a search run at once.
    """
    return _LIBRARY.njit(cache=_FOLDER is not None, nogil=True)(function)
