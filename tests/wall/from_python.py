"""What only compiled code calls, with a way in from the interpreter for the tests."""

from collections.abc import Callable
from typing import Any, TypeVar

import numba

Function = TypeVar("Function", bound=Callable[..., Any])
LIBRARY: Any = numba


def from_python(function: Function) -> Function:
    """Return a compiled function, compiled once more so that a test can call it."""
    plain: Any = function
    return LIBRARY.njit(plain.py_func)
