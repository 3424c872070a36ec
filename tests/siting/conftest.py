"""Walls of these tests have many holders alike: one is designed once."""

import pytest


@pytest.fixture(scope="module", autouse=True)
def _shared(shared_runs: None) -> None:
    """Let each run find what tests found before."""
