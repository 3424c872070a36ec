"""A package with a broken list of entry points stops nothing, whoever reads the lists."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

COMPILE = """
from cleatwright.wall.search.compiled import entry
print(entry(lambda a: a + 1)(2))
"""


@pytest.mark.parametrize(
    ("arguments", "warning"),
    [
        (("-m", "cleatwright", "list", "families"), "Warning: p-broken is left out of"),
        (("-c", COMPILE), ""),
    ],
)
def test_a_broken_list_of_entry_points_stops_no_library(
    tmp_path: Path, arguments: tuple[str, ...], warning: str
) -> None:
    info = tmp_path / "p_broken-1.0.dist-info"
    info.mkdir()
    (info / "METADATA").write_text("Metadata-Version: 2.1\nName: p-broken\nVersion: 1.0\n")
    (info / "entry_points.txt").write_text("[cleatwright.families]\ngarbage without equals\n")
    path = os.pathsep.join([str(tmp_path), os.environ.get("PYTHONPATH", "")])
    ran = subprocess.run(  # noqa: S603 - our own interpreter and code
        [sys.executable, *arguments],
        env={**os.environ, "PYTHONPATH": path, "XDG_CACHE_HOME": str(tmp_path / "cache")},
        capture_output=True,
        text=True,
        check=False,
    )
    assert ran.returncode == 0, ran.stderr
    assert ran.stderr.startswith(warning)
    assert ran.stderr.count("\n") == bool(warning)
