"""Runs the program in this process, and a job of the small workshop that is computed once."""

import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.cli.main import main
from cleatwright.jobs import making
from cleatwright.pack.job import Job
from cleatwright.project.computing import compute

Cli = Callable[..., "Ran"]


@dataclass(frozen=True)
class Ran:
    """What one command gave back."""

    code: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        """Return what was written for programs."""
        return json.loads(self.out)

    @property
    def error(self) -> Any:
        """Return the error that was written for programs."""
        return json.loads(self.err)["error"]


@pytest.fixture
def cli(capsys: pytest.CaptureFixture[str]) -> Cli:
    """Return a callable that runs one command."""

    def run(*arguments: object) -> Ran:
        code = main([str(argument) for argument in arguments])
        captured = capsys.readouterr()
        return Ran(code, captured.out, captured.err)

    return run


@pytest.fixture(scope="session")
def job(tmp_path_factory: pytest.TempPathFactory, shed_text: str, known: Store) -> Job:
    folder = tmp_path_factory.mktemp("job")
    (folder / "workshop.toml").write_text(shed_text, "utf-8")
    return compute(folder, run=Run(known))


@pytest.fixture
def computed(job: Job, monkeypatch: pytest.MonkeyPatch) -> Job:
    """Let ``make`` take the job that is computed already; only its writing is tried."""
    monkeypatch.setattr(making, "compute", lambda *_place, **_progress: job)
    return job


@pytest.fixture
def listing() -> Callable[[Path], dict[str, bytes]]:
    """Return a callable that gives every file below a folder."""

    def files(folder: Path) -> dict[str, bytes]:
        paths = sorted(path for path in folder.rglob("*") if path.is_file())
        return {str(path.relative_to(folder)): path.read_bytes() for path in paths}

    return files
