"""A small workshop that several rooms use: six tools of five kinds."""

import os
from pathlib import Path

import pytest
from hypothesis import settings

SHED = Path(__file__).parent / "services" / "shed.toml"
EXAMPLES = Path(__file__).parents[1] / "examples"


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


# continuous integration asks the same questions each time; at home new ones are asked
settings.register_profile("repeatable", derandomize=True)
if os.environ.get("CI"):
    settings.load_profile("repeatable")
