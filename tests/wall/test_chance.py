"""The random numbers of the search against the published sequence."""

import pytest
from tests.wall.from_python import from_python

from cleatwright.wall.search.chance import below, chance, draw, share

draw, share, below = from_python(draw), from_python(share), from_python(below)


def test_the_first_numbers_are_those_of_the_published_generator() -> None:
    """SplitMix64 with seed 1234567, as printed on Rosetta Code (from memory)."""
    state = chance(1234567)
    first = [int(draw(state)) for _ in range(5)]
    assert first == [
        6457827717110365317,
        3203168211198807973,
        9817491932198370423,
        4593380528125082431,
        16408922859458223821,
    ]


def test_shares_and_whole_numbers_keep_their_bounds_and_are_even() -> None:
    state = chance(7)
    shares = [share(state) for _ in range(20_000)]
    assert min(shares) >= 0.0
    assert max(shares) < 1.0
    assert sum(shares) / len(shares) == pytest.approx(0.5, abs=0.01)
    numbers = [below(state, 5) for _ in range(20_000)]
    assert sorted(set(numbers)) == [0, 1, 2, 3, 4]
    assert all(numbers.count(n) / len(numbers) == pytest.approx(0.2, abs=0.02) for n in range(5))


def test_a_negative_seed_is_a_seed_like_any_other() -> None:
    assert int(draw(chance(-1))) == int(draw(chance(2**64 - 1)))
