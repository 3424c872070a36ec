"""Rounds of a trial: seeded, at least one, and as many as its time allows."""

import random
import sys
import time
from collections.abc import Callable, Iterator
from itertools import count

import pytest

Rounds = Callable[[], Iterator[random.Random]]


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
