"""Which points of a graph hang together; a small one needs no library of solvers, slow to load."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Ints = NDArray[np.int64]


def connected(count: int, tails: NDArray[np.integer], heads: NDArray[np.integer]) -> Ints:
    """Return for each point the number of its component, from 0 by the first point of each.

    Args:
        count: How many points there are.
        tails: One end of each edge, shape (n,).
        heads: The other end.

    >>> connected(5, np.array([3, 0]), np.array([1, 2])).tolist()
    [0, 1, 0, 1, 2]
    """
    root = np.arange(count)
    while True:
        one, other = root[tails], root[heads]
        apart = one != other
        if not apart.any():
            break
        one, other = one[apart], other[apart]
        # a root hangs itself on a lower one, so that nothing goes round
        np.minimum.at(root, np.maximum(one, other), np.minimum(one, other))
        while (root[root] != root).any():
            root = root[root]
    return np.unique(root, return_inverse=True)[1].astype(np.int64)
