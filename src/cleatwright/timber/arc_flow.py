"""One-dimensional cutting as a flow through positions on a board, solved by an integer solver.

Each board is a path from position 0 to the end of its stock; an arc of a size is
a piece at a position, and a loss arc is waste. Sizes follow each other largest
first, so that only positions that such an order can reach become nodes.
Source: J. M. Valerio de Carvalho, Annals of Operations Research 86 (1999) 629-659 (from memory).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from cleatwright.base.errors import KernelError
from cleatwright.base.interrupts import defer_interrupts
from cleatwright.timber.cutting_problem import Bin, CuttingProblem

Ints = NDArray[np.int64]

MOST_WORK = 12_000
"""Arcs times board types; beyond it the solver needs minutes."""
NODE_LIMIT = 1_000

_OPTIMAL, _LIMIT, _INFEASIBLE = 0, 1, 2


@dataclass(frozen=True)
class Answer:
    """What the solver found: bins or None, and whether the search was exhausted.

    ``bound`` is a proven lower bound of the objective; None when the solver gave none.
    """

    bins: tuple[Bin, ...] | None
    exhausted: bool
    bound: float | None


@dataclass(frozen=True, eq=False)
class Graph:
    """Nodes and arcs; arrays of equal length describe the arcs of pieces.

    ``nodes`` are positions in growing order; ``tails`` and ``heads`` index them;
    ``kinds`` says which size an arc cuts; ``ends`` is the node of each board type.
    """

    nodes: Ints
    tails: Ints
    heads: Ints
    kinds: Ints
    ends: Ints


def build_graph(problem: CuttingProblem) -> Graph:
    """Return the graph of all positions that largest-first cutting can reach."""
    longest = max(problem.capacities)
    reached = np.zeros(longest + 1, dtype=bool)
    reached[0] = True
    starts: list[Ints] = []
    for size, demand in zip(problem.sizes, problem.demands, strict=True):
        from_here = np.zeros_like(reached)
        layer = reached.copy()
        for _ in range(min(demand, longest // size)):
            layer[longest - size + 1 :] = False
            from_here |= layer
            shifted = np.zeros_like(layer)
            shifted[size:] = layer[: longest + 1 - size]
            layer = shifted
            reached |= layer
        starts.append(np.flatnonzero(from_here))
    capacities = np.array(problem.capacities, dtype=np.int64)
    nodes = np.union1d(np.flatnonzero(reached), capacities).astype(np.int64)
    counts = [len(s) for s in starts]
    kinds = np.repeat(np.arange(len(starts), dtype=np.int64), counts)
    positions = np.concatenate(starts)
    sizes = np.array(problem.sizes, dtype=np.int64)
    return Graph(
        nodes=nodes,
        tails=np.searchsorted(nodes, positions).astype(np.int64),
        heads=np.searchsorted(nodes, positions + sizes[kinds]).astype(np.int64),
        kinds=kinds,
        ends=np.searchsorted(nodes, capacities).astype(np.int64),
    )


def within_reach(problem: CuttingProblem, graph: Graph) -> bool:
    """Return whether the graph is small enough to be solved while somebody waits."""
    return len(graph.tails) * len(problem.costs) <= MOST_WORK


def solve(
    problem: CuttingProblem,
    graph: Graph,
    *,
    prices: tuple[int, ...],
    most_cost: int,
    least_cost: int,
) -> Answer:
    """Return the bins of least total price among the plans whose cost lies in a range.

    Args:
        problem: The problem.
        graph: Its graph.
        prices: What one board of each type adds to the objective.
        most_cost: Largest total of ``problem.costs``.
        least_cost: Smallest total of ``problem.costs``.

    Raises:
        KernelError: The solver failed or its answer does not cut what was asked for.
    """
    with defer_interrupts():
        from scipy import optimize, sparse  # noqa: PLC0415 - loads on use
    pieces, losses, types = len(graph.tails), len(graph.nodes) - 1, len(problem.costs)
    width = pieces + losses + types
    columns = np.arange(width)
    chain = np.arange(losses)
    tails = np.concatenate([graph.tails, chain, graph.ends])
    heads = np.concatenate([graph.heads, chain + 1, np.zeros(types, dtype=np.int64)])
    ones = np.ones(width)
    # a board's own arc leads from its end back to 0, so that flow is kept at every node
    balance = sparse.csr_array(
        (
            np.concatenate([ones, -ones]),
            (np.concatenate([heads, tails]), np.concatenate([columns, columns])),
        ),
        shape=(len(graph.nodes), width),
    )
    demand = sparse.csr_array(
        (np.ones(pieces), (graph.kinds, columns[:pieces])), shape=(len(problem.sizes), width)
    )
    price = np.zeros(width)
    price[pieces + losses :] = prices
    cost = np.zeros(width)
    cost[pieces + losses :] = problem.costs
    demands = np.array(problem.demands, dtype=np.float64)
    upper = np.concatenate(
        [demands[graph.kinds], np.full(losses, float(sum(problem.limits))), problem.limits]
    )
    integral = np.ones(width, dtype=np.int64)
    integral[pieces : pieces + losses] = 0
    result: Any = optimize.milp(
        price,
        integrality=integral,
        bounds=optimize.Bounds(np.zeros(width), upper),
        constraints=[
            optimize.LinearConstraint(balance, 0.0, 0.0),
            optimize.LinearConstraint(demand, demands, demands),
            optimize.LinearConstraint(cost[None, :], least_cost, most_cost),
        ],
        options={"node_limit": NODE_LIMIT, "mip_rel_gap": 0.0},
    )
    if result.status not in {_OPTIMAL, _LIMIT, _INFEASIBLE}:
        raise KernelError(f"the integer solver stopped: {result.message}", where="cutting plan")
    bound = result.mip_dual_bound
    bins = None
    if result.x is not None:
        flows = np.rint(result.x).astype(np.int64)
        bins = _read_paths(problem, graph, flows)
    return Answer(
        bins=bins,
        exhausted=result.status != _LIMIT,
        bound=float(bound) if bound is not None and np.isfinite(bound) else None,
    )


def _read_paths(problem: CuttingProblem, graph: Graph, flows: Ints) -> tuple[Bin, ...]:
    """Take the flow apart into boards, the largest piece first at every position."""
    pieces, losses = len(graph.tails), len(graph.nodes) - 1
    leaving: dict[int, list[int]] = {}
    for arc in np.flatnonzero(flows[:pieces]):
        leaving.setdefault(int(graph.tails[arc]), []).append(int(arc))
    remaining = flows.copy()
    bins: list[Bin] = []
    for _ in range(int(flows[pieces + losses :].sum())):
        node, sizes = 0, list[int]()
        while True:
            arc = next((a for a in leaving.get(node, ()) if remaining[a]), None)
            if arc is not None:
                remaining[arc] -= 1
                sizes.append(problem.sizes[int(graph.kinds[arc])])
                node = int(graph.heads[arc])
                continue
            ending = np.flatnonzero((graph.ends == node) & (remaining[pieces + losses :] > 0))
            if len(ending):
                remaining[pieces + losses + int(ending[0])] -= 1
                bins.append((int(ending[0]), tuple(sizes)))
                break
            if node >= losses or not remaining[pieces + node]:
                raise KernelError("the flow of the solver breaks off", where="cutting plan")
            remaining[pieces + node] -= 1
            node += 1
    cut = sorted((s for _, sizes in bins for s in sizes), reverse=True)
    if tuple(cut) != problem.items:
        raise KernelError("the solver cut other pieces than were asked for", where="cutting plan")
    return tuple(bins)
