"""Rounds of a trial: seeded, at least one, and as many as its time allows."""

import random
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from itertools import count
from pathlib import Path

import pytest

HERE = Path(__file__).parent
Rounds = Callable[[], Iterator[random.Random]]
Child = subprocess.Popen[str]


@pytest.fixture
def rounds(request: pytest.FixtureRequest) -> Rounds:
    """Return a callable that gives a source of chance for each round of a trial.

    The number of a round and the seed alone decide what is drawn in it. Both are printed, so that
    a failure names the round that failed.
    """
    options = request.config.option
    seconds: float = options.trials_seconds
    seed: int = options.trials_seed
    first: int = options.trials_round

    def give() -> Iterator[random.Random]:
        end = time.monotonic() + seconds
        for number in count(first):
            if number > first and time.monotonic() >= end:
                return
            sys.stdout.write(f"--trials-seed {seed} --trials-round {number}\n")
            yield random.Random(f"{seed}:{number}")  # noqa: S311 - trials must come again

    return give


@pytest.fixture
def child() -> Iterator[Callable[..., Child]]:
    """Return a callable that starts a script of this folder and waits for its first line."""
    with ExitStack() as stack:

        def start(script: str, *arguments: object) -> Child:
            running = stack.enter_context(
                subprocess.Popen(  # noqa: S603 - our own interpreter and script
                    [sys.executable, str(HERE / script), *map(str, arguments)],
                    stdin=subprocess.PIPE,
                    stdout=subprocess.PIPE,
                    stderr=subprocess.PIPE,
                    text=True,
                )
            )
            stack.callback(running.kill)
            assert running.stdout is not None
            first = running.stdout.readline()
            assert first, running.communicate()[1]
            return running

        yield start
