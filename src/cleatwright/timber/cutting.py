"""Cut pieces from boards with a saw of some width, with the least stock.

The order of aims: least total length of boards; then fewest boards; then, as far
as a quick refill finds it, one long remainder instead of several short ones. Only
the first two are ever called proven.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.base import said
from cleatwright.base.errors import MeasureError, StockError
from cleatwright.timber.arc_flow import build_graph, solve, within_reach
from cleatwright.timber.boards import (
    UNITS_PER_MM,
    Board,
    CuttingPlan,
    Piece,
    Stock,
    check_lengths,
    lay_out,
    units_down,
    units_up,
)
from cleatwright.timber.cutting_problem import (
    Bin,
    CuttingProblem,
    fewest_boards,
    first_plan,
    material_bound,
    pose_problem,
)
from cleatwright.timber.full_boards import fill_boards, gather_waste
from cleatwright.timber.refilling import refill_boards

SEARCHED = "searched to the end by an integer program"
BOUNDED = "as good as a lower bound in closed form"
TOO_LARGE = "the best of three quick methods; the exact search would take too long"
STOPPED = "the exact search was stopped at its limit"


@dataclass(frozen=True)
class _Found:
    bins: tuple[Bin, ...]
    bound: int
    proven: bool
    method: str


def cut_boards(pieces: Sequence[Piece], stocks: Sequence[Stock], *, kerf_mm: float) -> CuttingPlan:
    """Return the plan that cuts the pieces from the least stock.

    The search is limited by counts of work and never by a clock, so the same input
    gives the same plan on every machine. A plan says itself whether it is proven.

    Args:
        pieces: The pieces, in any order; none gives an empty plan.
        stocks: The boards that may be used.
        kerf_mm: Width of the saw cut (>= 0).

    Raises:
        MeasureError: The kerf is negative or no number.
        StockError: A piece is longer than every board, or the boards do not suffice.

    >>> plan = cut_boards([Piece("rail", 600.0)] * 4, [Stock("board", 2440.0)], kerf_mm=3.2)
    >>> said.in_mm(plan.verdict)
    '1 board, 2440 mm: proven optimal.'
    """
    if not (math.isfinite(kerf_mm) and kerf_mm >= 0.0):
        raise MeasureError(f"a kerf of {said.mm(kerf_mm)}", allowed=f"{said.mm(0)} or more")
    if not pieces:
        return CuttingPlan((), kerf_mm, proven=True, lower_bound_mm=0.0, method=BOUNDED)
    check_lengths(pieces, stocks)
    shortest = min(units_up(piece.length_mm) for piece in pieces)
    stocks = [stock for stock in stocks if units_down(stock.length_mm) >= shortest]
    problem, unit = pose_problem(pieces, stocks, kerf_mm)
    found = _search(problem)
    bins = gather_waste(problem, found.bins)
    return CuttingPlan(
        boards=_name_pieces(bins, pieces, stocks, kerf_mm=kerf_mm, unit=unit),
        kerf_mm=kerf_mm,
        proven=found.proven,
        lower_bound_mm=found.bound * problem.cost_unit / UNITS_PER_MM,
        method=found.method,
    )


def _search(problem: CuttingProblem) -> _Found:
    everything = sum(n * p for n, p in zip(problem.limits, problem.costs, strict=True))
    bins = first_plan(problem)
    most = problem.cost(bins) - 1 if bins else everything
    least = material_bound(problem, most + 1)
    if least > everything:
        raise _too_little(problem)
    for method in (fill_boards, refill_boards):
        most = problem.cost(bins) - 1 if bins else everything
        if most >= least:
            bins = method(problem, least_cost=least, most_cost=most) or bins
    if bins is not None and problem.cost(bins) == least:
        return _fewest(problem, bins, BOUNDED)
    graph = build_graph(problem)
    if not within_reach(problem, graph):
        if bins is None:
            raise _no_plan_found()
        return _Found(bins, least, proven=False, method=TOO_LARGE)
    most = problem.cost(bins) - 1 if bins else everything
    answer = solve(problem, graph, prices=problem.costs, most_cost=most, least_cost=least)
    bins = answer.bins or bins
    if bins is None:
        raise _too_little(problem) if answer.exhausted else _no_plan_found()
    if answer.exhausted:
        return _fewest(problem, bins, SEARCHED)
    bound = least if answer.bound is None else max(least, math.ceil(answer.bound - 1e-6))
    return _Found(bins, min(bound, problem.cost(bins)), proven=False, method=STOPPED)


def _fewest(problem: CuttingProblem, bins: tuple[Bin, ...], method: str) -> _Found:
    """Return a plan of the same, least cost with the fewest boards."""
    cost = problem.cost(bins)
    fewest = fewest_boards(problem, cost)
    if len(bins) > fewest:
        refilled = fill_boards(problem, least_cost=cost, most_cost=cost) or bins
        bins = min(bins, refilled, key=len)
    if len(bins) == fewest:
        return _Found(bins, cost, proven=True, method=method)
    graph = build_graph(problem)
    if not within_reach(problem, graph):
        return _Found(bins, cost, proven=False, method=TOO_LARGE)
    ones = tuple(1 for _ in problem.costs)
    answer = solve(problem, graph, prices=ones, most_cost=cost, least_cost=cost)
    bins = min(bins, answer.bins or bins, key=len)
    return _Found(bins, cost, answer.exhausted, SEARCHED if answer.exhausted else STOPPED)


def _name_pieces(
    bins: Sequence[Bin],
    pieces: Sequence[Piece],
    stocks: Sequence[Stock],
    *,
    kerf_mm: float,
    unit: int,
) -> tuple[Board, ...]:
    waiting: dict[int, list[Piece]] = {}
    for piece in sorted(pieces, key=lambda p: (p.length_mm, p.name), reverse=True):
        size = (units_up(piece.length_mm) + units_up(kerf_mm)) // unit
        waiting.setdefault(size, []).append(piece)
    order = sorted(bins, key=lambda b: (-stocks[b[0]].length_mm, b[0], [-s for s in b[1]]))
    return tuple(
        lay_out(stocks[kind], [waiting[size].pop() for size in sizes], kerf_mm)
        for kind, sizes in order
    )


def _too_little(problem: CuttingProblem) -> StockError:
    wanted = len(problem.items)
    return StockError(
        f"the boards in stock do not suffice for the {wanted} pieces",
        allowed=f"{sum(problem.limits)} boards as counted in the stock",
        todo="Raise the count of a board, or add a longer board",
    )


def _no_plan_found() -> StockError:
    return StockError(
        "no plan was found for the boards in stock, though one may exist",
        todo="Raise the count of a board by one, or give fewer different lengths",
    )
