"""The memory of the server: how many arenas its threads have, by the C library's own account."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

from cleatwright.web import serving

THREADS = 12
PROGRAM = f"""
import ctypes, sys, threading
from cleatwright.web.arenas import share_arenas

if sys.argv[2] == "share":
    share_arenas()
together = threading.Barrier({THREADS})

def work():
    # what is larger than 512 bytes is no business of Python's own allocator
    kept = [bytes(4000) for _ in range(2000)]
    together.wait()

threads = [threading.Thread(target=work) for _ in range({THREADS})]
for one in threads:
    one.start()
for one in threads:
    one.join()
libc = ctypes.CDLL(None)
libc.fopen.restype = ctypes.c_void_p
file = ctypes.c_void_p(libc.fopen(sys.argv[1].encode(), b"w"))
libc.malloc_info(0, file)
libc.fclose(file)
"""


def arenas(folder: Path, how: str) -> int:
    told = folder / f"{how}.xml"
    command = [sys.executable, "-c", PROGRAM, str(told), how]
    subprocess.run(command, check=True, timeout=60)  # noqa: S603 - our own program
    return len(re.findall(r"<heap nr=", told.read_text("utf-8")))


def test_threads_share_few_arenas_and_would_have_more(tmp_path: Path) -> None:
    assert arenas(tmp_path, "share") <= 2
    assert arenas(tmp_path, "usual") > 2


class BegunError(Exception):
    """The server has come as far as its port."""


def test_serving_begins_with_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """Before there is a port, and so before there is a thread."""
    called: list[str] = []

    def no_port(_port: int, *, lan: str = "") -> None:
        called.append(f"port{lan}")
        raise BegunError

    monkeypatch.setattr(serving, "share_arenas", lambda: called.append("arenas"))
    monkeypatch.setattr(serving, "listening_on", no_port)
    with pytest.raises(BegunError):
        serving.serve(None, show=False, say=called.append)
    assert called == ["arenas", "port"]
