"""Compiled code that is kept between runs, in the folder where a person's caches belong.

It only ever saves time: a file that is damaged, empty or of another make is compiled anew, and
where nothing can be written nothing is kept. Each file begins with a digest of the rest, because
machine code with one wrong byte is not to be run.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import pickle
import shutil
import sys
import tempfile
from collections.abc import Callable
from importlib.metadata import version
from pathlib import Path
from typing import Any

import numba
import platformdirs

ENDING = ".code"
MOST_KEPT = 4
"""How many versions of the code keep theirs: several programs of one person share the folder."""
_DIGEST_BYTES = hashlib.sha256().digest_size

# the library has no types of its own
_LIBRARY: Any = numba


def kept_in(code: Path) -> Path | None:
    """Return the folder for what is compiled from the files in ``code``, or None without room.

    Its name stands for all the code and the versions of what compiles it, because the compiler does
    not see when a function changes that another one calls.
    """
    digest = hashlib.sha256()
    for part in (sys.version, version("numba"), version("llvmlite")):
        digest.update(part.encode())
    for path in sorted(code.glob("*.py")):
        digest.update(path.read_bytes())
    parent = platformdirs.user_cache_path("cleatwright", appauthor=False)
    folder = parent / f"search-{digest.hexdigest()[:12]}"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        os.utime(folder)
        _clear(parent)
        return folder if os.access(folder, os.R_OK | os.W_OK | os.X_OK) else None
    except OSError:
        return None


def anything_in(folder: Path | None) -> bool:
    """Return whether something is kept already."""
    return folder is not None and any(folder.glob(f"*{ENDING}"))


class KeptCode:
    """What is kept of one function; the compiler asks it before it compiles and tells it after.

    Args:
        function: The function that is compiled.
        folder: Where it is kept.
    """

    def __init__(self, function: Callable[..., Any], folder: Path) -> None:
        self._name = f"{function.__module__}.{function.__qualname__}"
        self._folder = folder

    @property
    def cache_path(self) -> str:
        """Return the folder, as the compiler wants it."""
        return str(self._folder)

    def load_overload(self, signature: Any, target: Any) -> Any:
        """Return the compiled function for these types, or None when it must be compiled."""
        target.refresh()
        payload = _read(self._path(signature, target.codegen()))
        if payload is None:
            return None
        try:
            known, parts = pickle.loads(payload)  # noqa: S301 - our own file, and whole
            if known != signature:
                return None
            return _LIBRARY.core.compiler.CompileResult._rebuild(target, *parts)  # noqa: SLF001
        except Exception:  # noqa: BLE001 - whatever is wrong with it, it is compiled anew
            return None

    def save_overload(self, signature: Any, result: Any) -> None:
        """Keep what was compiled, if it can be kept and there is room."""
        if result.library.has_dynamic_globals or any(not one.can_cache for one in result.lifted):
            return
        payload = _LIBRARY.core.serialize.dumps((signature, result._reduce()))  # noqa: SLF001 - as its own cache does
        _write(self._path(signature, result.codegen), payload)

    def _path(self, signature: Any, codegen: Any) -> Path:
        """Return the file for these types on this kind of processor."""
        key = repr((self._name, str(signature), codegen.magic_tuple()))
        return self._folder / (hashlib.sha256(key.encode()).hexdigest()[:32] + ENDING)


def _read(path: Path) -> bytes | None:
    """Return what a file holds, or None when it is not there or not whole."""
    try:
        data = path.read_bytes()
    except OSError:
        return None
    digest, payload = data[:_DIGEST_BYTES], data[_DIGEST_BYTES:]
    return payload if hashlib.sha256(payload).digest() == digest else None


def _write(path: Path, payload: bytes) -> None:
    """Write a whole file, or none."""
    temporary: Path | None = None
    try:
        handle, name = tempfile.mkstemp(dir=path.parent)
        temporary = Path(name)
        with os.fdopen(handle, "wb") as stream:
            stream.write(hashlib.sha256(payload).digest() + payload)
        temporary.replace(path)
    except OSError:
        if temporary is not None:
            with contextlib.suppress(OSError):
                temporary.unlink(missing_ok=True)


def _clear(parent: Path) -> None:
    """Remove what was kept for code that was not used for longest."""
    folders = sorted(parent.glob("search-*"), key=lambda path: path.stat().st_mtime, reverse=True)
    for old in folders[MOST_KEPT:]:
        shutil.rmtree(old, ignore_errors=True)
