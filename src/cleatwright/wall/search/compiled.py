"""Functions that are compiled when they are first called, because the search lives by its speed.

They take whole numbers in arrays and know nothing of objects. What was compiled is kept, so that
only the first run waits for it.
"""

from __future__ import annotations

import contextlib
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import numba

from cleatwright.wall.search.kept_code import KeptCode, anything_in, kept_in

Function = TypeVar("Function", bound=Callable[..., Any])

# the library has no types of its own
_LIBRARY: Any = numba
# the library looks for its own plug-ins once, and fails over one broken list of entry points of any
# package; it does not look again
with contextlib.suppress(Exception):
    _LIBRARY.core.entrypoints.init_all()
_FOLDER = kept_in(Path(__file__).parent)


def first_time() -> bool:
    """Return whether nothing was compiled yet, so that whoever waits can be told why."""
    return not anything_in(_FOLDER)


class _Inner(_LIBRARY.core.registry.CPUDispatcher):
    """What only compiled code calls; without a way in the library would stop the whole program."""

    def __call__(self, *_arguments: Any) -> None:
        raise TypeError(f"{self.__name__} is called by compiled code only; see ``entry``")


def compiled(function: Function) -> Function:
    """Return the function, compiled on its first call; it means the same as the plain one.

    Only what is compiled too may call it: a way in from the interpreter for all the arrays takes a
    third of the time that it takes to compile, so that few functions have one, see ``entry``. It
    leaves the interpreter to others while it runs, so that two lanes of a search run at once.
    """
    return _inner(function)


def lean(function: Function) -> Function:
    """Return the function, compiled like the others, for those that make no arrays of their own.

    It counts no references to the arrays that it is given, which takes a third of the time of a
    search; whoever calls it holds them. A function that would make an array does not compile.
    """
    return _inner(function, _nrt=False)


def entry(function: Function) -> Function:
    """Return the function, compiled like the others, for those that the interpreter calls too."""
    return _compiled(function)


def lean_entry(function: Function) -> Function:
    """Return the function, compiled as a lean one, for those that the interpreter calls too."""
    return _compiled(function, _nrt=False)


def _inner(function: Function, **options: bool) -> Function:
    made: Any = _compiled(function, no_cpython_wrapper=True, **options)
    # where the library is asked to compile nothing, it is the function itself
    if made is not function:
        made.__class__ = _Inner
    return made


def _compiled(function: Function, **options: bool) -> Function:
    # nothing in the language C calls it
    made = _LIBRARY.njit(nogil=True, no_cfunc_wrapper=True, **options)(function)
    if _FOLDER is not None:
        # in the place of the library's own, which stops with an error at a damaged file
        made._cache = KeptCode(function, _FOLDER)  # noqa: SLF001
    return made
