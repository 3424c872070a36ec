"""Random numbers for the search: the same on every machine, with their state in plain sight.

Source: SplitMix64, G. L. Steele, D. Lea, C. H. Flood, Fast splittable pseudorandom number
generators, 2014; constants from memory, held to the published first outputs by a test.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from cleatwright.wall.search.compiled import compiled

Chance = NDArray[np.uint64]

_STEP = np.uint64(0x9E3779B97F4A7C15)
_FIRST = np.uint64(0xBF58476D1CE4E5B9)
_SECOND = np.uint64(0x94D049BB133111EB)
_TO_UNIT = 2.0**-53


def chance(seed: int) -> Chance:
    """Return the state of a generator, an array of one number that each draw changes."""
    return np.array([seed & 0xFFFFFFFFFFFFFFFF], dtype=np.uint64)


@compiled
def draw(state: Chance) -> np.uint64:
    """Return the next 64 random bits."""
    state[0] = state[0] + _STEP
    word = state[0]
    word = (word ^ (word >> np.uint64(30))) * _FIRST
    word = (word ^ (word >> np.uint64(27))) * _SECOND
    return word ^ (word >> np.uint64(31))


@compiled
def share(state: Chance) -> float:
    """Return a random number from 0 to below 1."""
    return float(draw(state) >> np.uint64(11)) * _TO_UNIT


@compiled
def below(state: Chance, count: int) -> int:
    """Return a random whole number from 0 to below ``count``, which is at least 1."""
    return int(share(state) * count)
