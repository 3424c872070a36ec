"""A server on a free port with a workshop of its own, and a browser that may reach nothing else."""

from __future__ import annotations

import shutil
from collections.abc import Generator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect, sync_playwright
from tests.web.serving import ARGUMENTS, SHED, STORE, Served, opened, served

from cleatwright.base.stages.store import Store

# a busy machine answers late; what is right comes at last, and what is not never does
expect.set_options(timeout=30_000)


@pytest.fixture(scope="session", autouse=True)
def _found_by_all(known: Store) -> None:
    """Let the servers find what any test of this run found."""
    STORE.shelf = known.shelf


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A workshop folder with three tools."""
    shutil.copy(SHED, tmp_path / "workshop.toml")
    return tmp_path


@pytest.fixture
def bicycle_room(tmp_path: Path, examples: Path) -> Path:
    """A folder with the bicycle room, without reserved seats: in pieces they take rail as well."""
    text = (examples / "bicycle-room" / "workshop.toml").read_text("utf-8")
    plain = text.replace("[wall]\n", "[wall]\nreserved_seats = 0\n", 1)
    (tmp_path / "workshop.toml").write_text(plain, "utf-8")
    return tmp_path


@pytest.fixture
def live(folder: Path) -> Generator[Served]:
    """A server with the shed."""
    yield from served(folder)


@pytest.fixture(scope="session")
def chromium() -> Generator[Browser]:
    """Debian's Chromium with an empty profile; a missing one is a failure, and no skip."""
    path = shutil.which("chromium")
    assert path, "Chromium is missing: apt-get install chromium"
    with sync_playwright() as started:
        browser = started.chromium.launch(executable_path=path, args=list(ARGUMENTS))
        yield browser
        browser.close()


@pytest.fixture
def page(chromium: Browser, live: Served) -> Generator[Page]:
    """The page of the shed."""
    yield from opened(chromium, live)


@pytest.fixture
def place(tmp_path: Path) -> Path:
    """A folder that is not there yet."""
    return tmp_path / "new" / "shed"


@pytest.fixture
def first_page(chromium: Browser, place: Path) -> Generator[Page]:
    """The page of a server that was started for a folder that is not there yet."""
    for one in served(place):
        yield from opened(chromium, one)
