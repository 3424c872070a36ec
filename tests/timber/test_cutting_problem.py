"""Boards counted and bounded, against every choice of them that there is."""

from __future__ import annotations

from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from cleatwright.timber.cutting_problem import CuttingProblem, fewest_boards, material_bound

BOARDS = st.lists(
    st.tuples(st.integers(1, 9), st.integers(1, 9), st.integers(1, 4)), min_size=1, max_size=3
)
SIZES = st.dictionaries(st.integers(1, 6), st.integers(1, 3), min_size=1, max_size=3)


def problem(boards: list[tuple[int, int, int]], sizes: dict[int, int]) -> CuttingProblem:
    """Return the problem of boards with their capacities, costs and numbers."""
    largest_first = sorted(sizes, reverse=True)
    capacities, costs, limits = (tuple(row) for row in zip(*boards, strict=True))
    demands = tuple(sizes[size] for size in largest_first)
    return CuttingProblem(tuple(largest_first), demands, capacities, costs, limits, 1)


@given(BOARDS, SIZES)
def test_counts_and_bounds_are_those_of_all_choices_of_boards(
    boards: list[tuple[int, int, int]], sizes: dict[int, int]
) -> None:
    """Every number of every board is tried."""
    posed = problem(boards, sizes)
    choices = [
        (
            sum(count * price for count, price in zip(counts, posed.costs, strict=True)),
            sum(counts),
            sum(count * room for count, room in zip(counts, posed.capacities, strict=True)),
        )
        for counts in product(*(range(limit + 1) for limit in posed.limits))
    ]
    for cost in {cost for cost, _, _ in choices}:
        assert fewest_boards(posed, cost) == min(n for price, n, _ in choices if price == cost)
    wanted = sum(size * count for size, count in sizes.items())
    most = max(cost for cost, _, _ in choices)
    enough = [cost for cost, _, room in choices if room >= wanted]
    assert material_bound(posed, most) == min(enough, default=most + 1)
