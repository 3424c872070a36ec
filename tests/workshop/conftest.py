"""A small workshop that the tests of this room share."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a workshop folder."""
    shutil.copyfile(Path(__file__).with_name("shed.toml"), tmp_path / "workshop.toml")
    return tmp_path
