"""A small workshop that several rooms use: six tools of five kinds."""

import gc
import os
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from copy import copy
from dataclasses import dataclass
from pathlib import Path

import pytest
from hypothesis import settings

from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.cli import show
from cleatwright.jobs.made import Made
from cleatwright.jobs.making import make_workshop
from cleatwright.kernels.mesh import MeshBody
from cleatwright.pack.job import Job
from cleatwright.parts.holder import PrintPose
from cleatwright.printing.support.overhang import check_support_free
from cleatwright.project.computing import compute
from cleatwright.project.publishing import MANIFEST
from cleatwright.project.shelf import DiskShelf

SHED = Path(__file__).parent / "shed.toml"
EXAMPLES = Path(__file__).parents[1] / "examples"


# each of two processes begins with one half of all tests. The first half has those that arrange
# walls: that process compiles the search, and finds what it computed of a whole workshop; many
# that are quick make it half of the number. The second needs the search late, and finds it compiled
HALVES = (
    ("wall", "pack", "project", "siting", "design", "jobs", "cli", "test_docs.py"),
    ("tools", "standards", "base", "src"),
)


# tests make many values and few circles of them: to look for those after each 700 costs a
# twentieth of all time
NEW_VALUES = 50_000


def pytest_configure(config: pytest.Config) -> None:
    """Look for garbage more seldom."""
    gc.set_threshold(NEW_VALUES, 20, 20)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Order the rooms so that two processes compute little twice; in a room all stays as it is."""
    first = {room: number for number, rooms in enumerate(HALVES) for room in rooms}
    here = Path(__file__).parent

    def turn(item: pytest.Item) -> int:
        inside = item.path.is_relative_to(here)
        room = item.path.relative_to(here).parts[0] if inside else "src"
        return first.get(room, len(HALVES))

    items.sort(key=turn)


def pytest_collection_finish(session: pytest.Session) -> None:
    """Let the search for garbage pass over all that is there before the first test."""
    gc.collect()
    gc.freeze()


@pytest.fixture(scope="session")
def shed_text() -> str:
    return SHED.read_text("utf-8")


@pytest.fixture(scope="session")
def examples() -> Path:
    return EXAMPLES


@pytest.fixture
def shed(tmp_path: Path, shed_text: str) -> Path:
    """Return a fresh workshop folder."""
    folder = tmp_path / "shed"
    folder.mkdir()
    (folder / "workshop.toml").write_text(shed_text, "utf-8")
    return folder


@pytest.fixture(scope="session")
def known(_found: Store) -> Store:
    """Return what tests found before in this run: in this process, and what a shelf keeps in all.

    A test that puts parts in place of others takes a store of its own.
    """
    return _found


@pytest.fixture(scope="session")
def _found(tmp_path_factory: pytest.TempPathFactory) -> Store:
    """Return the same, for tests that call something else ``known``."""
    folder = tmp_path_factory.getbasetemp()
    if "PYTEST_XDIST_WORKER" in os.environ:
        # each process has a folder of its own in that of the run
        folder = folder.parent
    return Store(most_bytes=300_000_000, shelf=DiskShelf(folder / "found.db"))


@pytest.fixture(scope="module")
def shared_runs(_found: Store) -> Iterator[None]:
    """Let each run without a store of its own find what tests found before, in a whole module.

    For modules that ask what comes of documents. Where the question is whether two runs come to the
    same, one of them has a store of its own.
    """
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("cleatwright.base.stages.run.Store", lambda: _found)
        yield


@pytest.fixture(autouse=True)
def _nothing_on_disk(monkeypatch: pytest.MonkeyPatch, _found: Store) -> None:
    """Let no command find, nor leave, on disk what was found; what is in memory it may."""
    in_memory = copy(_found)
    in_memory.shelf = None
    monkeypatch.setattr(show, "usual_store", lambda: in_memory)


@pytest.fixture
def interruptible() -> Iterator[None]:
    """Let Ctrl-C reach a test and what it starts, also where a shell ignores it (`pytest &`).

    POSIX: a shell without job control starts what runs in the background with SIGINT ignored, a
    program inherits that, and a signal that is caught is as at first in a program that is started.
    """
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


@pytest.fixture(scope="session")
def assert_support_free() -> Callable[[MeshBody, PrintPose], None]:
    """Return a callable that asserts that a body prints without support in a named pose."""

    def check(body: MeshBody, pose: PrintPose) -> None:
        result = check_support_free(body.vertices_mm, body.triangles, pose=pose)
        assert result.holds, f"{result.demand:.1f} mm2 hang in the air: {result.note}"

    return check


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add how long the trials run, and from where, and how many combinations are gone through."""
    group = parser.getgroup("trials")
    group.addoption(
        "--trials-seconds",
        type=float,
        default=3.0,
        help="how long each trial under tests/trials runs (one round at least)",
    )
    group.addoption("--trials-seed", type=int, default=1, help="what the trials draw")
    group.addoption("--trials-round", type=int, default=0, help="the round to begin with")
    group.addoption(
        "--all-combinations",
        action="store_true",
        help="try each family with each kind, mount and joint at once, not only each two of them",
    )


# continuous integration asks the same questions each time; at home new ones are asked. How long
# an answer takes says something about the machine and what else it does, and nothing of ours
settings.register_profile("fresh", deadline=None)
settings.register_profile("repeatable", deadline=None, derandomize=True)
# for a search through the questions: pytest -m hypothesis --hypothesis-profile=many
settings.register_profile("many", deadline=None, max_examples=1000)
settings.load_profile("repeatable" if os.environ.get("CI") else "fresh")


@pytest.fixture(scope="session")
def under_hash_seeds() -> Callable[..., set[bytes]]:
    """Return a callable that gives the outputs of code in processes with other hash seeds."""

    def run(code: str, *arguments: str) -> set[bytes]:
        return {
            subprocess.run(  # noqa: S603 - our own interpreter and code
                [sys.executable, "-c", code, *arguments],
                env={**os.environ, "PYTHONHASHSEED": seed},
                capture_output=True,
                check=True,
            ).stdout
            for seed in ("1", "77")
        }

    return run


@dataclass(frozen=True)
class Done:
    """The small workshop after the whole job."""

    folder: Path
    out: Path
    job: Job
    made: Made

    def files(self) -> dict[str, bytes]:
        """Return every output file by its relative path."""
        return {
            str(path.relative_to(self.out)): path.read_bytes()
            for path in sorted(self.out.rglob("*"))
            if path.is_file() and path.name != MANIFEST
        }


@pytest.fixture(scope="session")
def done(tmp_path_factory: pytest.TempPathFactory, shed_text: str, known: Store) -> Done:
    folder = tmp_path_factory.mktemp("done") / "shed"
    folder.mkdir()
    (folder / "workshop.toml").write_text(shed_text, "utf-8")
    made = make_workshop(folder, run=Run(known))
    return Done(folder, folder / "out", compute(folder, run=Run(known)), made)
