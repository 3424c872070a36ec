"""The how-to for an own family, followed word for word in a fresh environment."""

from __future__ import annotations

import os
import re
import site
import subprocess
import sys
import venv
from pathlib import Path

import pytest

import cleatwright
from cleatwright.base.errors import MeasureError, OutputError
from cleatwright.jobs.beginning import begin_family

ROOT = Path(__file__).resolve().parents[2]
PAGE = ROOT / "docs" / "how-to" / "own-family.md"
SHELL = re.compile(r"^```sh\n(.*?)^```$", re.MULTILINE | re.DOTALL)


@pytest.fixture(scope="module")
def fresh(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a virtual environment that sees this program and its libraries, and nothing else."""
    place = tmp_path_factory.mktemp("fresh") / "venv"
    venv.create(place, with_pip=False, symlinks=True)
    (packages,) = place.glob("lib/python*/site-packages")
    seen = [*site.getsitepackages(), str(Path(cleatwright.__file__).parents[1])]
    (packages / "seen.pth").write_text("\n".join(seen) + "\n", "utf-8")
    for name, module in (("pip", "pip"), ("pytest", "pytest"), ("cleatwright", "cleatwright")):
        script = place / "bin" / name
        script.write_text(f'#!/bin/sh\nexec "{place}/bin/python" -m {module} "$@"\n', "utf-8")
        script.chmod(0o755)
    return place


def run(fresh: Path, where: Path, script: str) -> subprocess.CompletedProcess[str]:
    """Run a shell script in the fresh environment; it stops at the first command that fails."""
    env = {
        **{key: value for key, value in os.environ.items() if not key.startswith("PYTEST")},
        "PATH": f"{fresh}/bin:{os.environ['PATH']}",
        "PIP_NO_BUILD_ISOLATION": "0",
        "PIP_NO_INDEX": "1",
        "PIP_DISABLE_PIP_VERSION_CHECK": "1",
        "VIRTUAL_ENV": str(fresh),
    }
    return subprocess.run(  # noqa: S603 - commands of our own page
        ["/bin/sh", "-e", "-c", script],
        cwd=where,
        env=env,
        capture_output=True,
        text=True,
        check=False,
    )


def test_the_how_to_works_word_for_word(fresh: Path, tmp_path: Path) -> None:
    blocks = SHELL.findall(PAGE.read_text("utf-8"))
    assert len(blocks) == 4
    ran = run(fresh, tmp_path, "".join(blocks))
    assert ran.returncode == 0, ran.stdout[-3000:] + ran.stderr[-3000:]
    assert "tin-shelf: Floor with a leaning lip" in ran.stdout
    assert ran.stdout.count("1 passed") == 2
    family = tmp_path / "cleatwright-tin-shelf" / "src" / "cleatwright_tin_shelf.py"
    assert "Field(default=7.0" in family.read_text("utf-8")


def test_a_broken_package_is_named_and_everything_else_goes_on(fresh: Path, tmp_path: Path) -> None:
    (packages,) = fresh.glob("lib/python*/site-packages")
    (packages / "cleatwright_broken.py").write_text("raise RuntimeError('no such luck')\n", "utf-8")
    (packages / "cleatwright_twin.py").write_text(
        "from cleatwright.holders.families.fork import FAMILY\nCOUNT = 3\n", "utf-8"
    )
    info = packages / "broken-1.0.dist-info"
    info.mkdir(exist_ok=True)
    (info / "METADATA").write_text("Metadata-Version: 2.1\nName: broken\nVersion: 1.0\n", "utf-8")
    (info / "entry_points.txt").write_text(
        "[cleatwright.families]\n"
        "one = cleatwright_broken:FAMILY\n"
        "three = cleatwright_twin:COUNT\n"
        "two = cleatwright_twin:FAMILY\n",
        "utf-8",
    )
    ran = run(fresh, tmp_path, "cleatwright list families --json")
    assert ran.returncode == 0, ran.stderr
    assert '"fork"' in ran.stdout
    assert "Warning: broken is left out" in ran.stderr
    assert "RuntimeError: no such luck" in ran.stderr
    assert "cleatwright_twin:COUNT is no Family" in ran.stderr
    assert 'the name "fork" is taken' in ran.stderr


@pytest.mark.parametrize("name", ["Tin", "tin shelf", "-tin", "tin--shelf", "t" * 60, "../x", ""])
def test_a_name_that_cannot_be_used_is_refused(tmp_path: Path, name: str) -> None:
    with pytest.raises(MeasureError, match="lower-case letters"):
        begin_family(name, into=tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_nothing_is_written_over(tmp_path: Path) -> None:
    with pytest.raises(MeasureError, match="already"):
        begin_family("fork", into=tmp_path)
    begin_family("tin-shelf", into=tmp_path)
    with pytest.raises(OutputError, match="there already"):
        begin_family("tin-shelf", into=tmp_path)


def test_this_interpreter_runs_the_fresh_one(fresh: Path) -> None:
    assert (fresh / "bin" / "python").resolve() == Path(sys.executable).resolve()
