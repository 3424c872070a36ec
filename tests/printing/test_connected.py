"""Components of a graph, with the library's as the oracle."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

from cleatwright.printing.connected import connected


@given(st.data(), st.integers(1, 60))
def test_components_and_their_numbers_are_those_of_the_library(data: st.DataObject, n: int) -> None:
    point = st.integers(0, n - 1)
    edges = data.draw(st.lists(st.tuples(point, point), max_size=80))
    tails, heads = np.array(edges, dtype=np.int64).reshape(-1, 2).T
    graph = coo_array((np.ones(len(edges)), (tails, heads)), shape=(n, n))
    count, labels = connected_components(graph, directed=False)
    found = connected(n, tails, heads)
    assert found.tolist() == labels.tolist()
    assert found.max() + 1 == count


def test_a_long_chain_in_any_order_is_one_component() -> None:
    order = np.random.default_rng(4).permutation(5_000)
    assert not connected(5_000, order[1:], order[:-1]).any()
