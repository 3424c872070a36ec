"""Cutting against instances whose optimum is published, and against closed forms."""

import pytest

from cleatwright.timber.arc_flow import build_graph, solve
from cleatwright.timber.boards import CuttingPlan, Piece, Stock
from cleatwright.timber.cutting import cut_boards
from cleatwright.timber.cutting_problem import first_plan, pose_problem

# OR-Library binpack1, instance u120_00 (Falkenauer 1996): 120 items, capacity 150, optimum 48
U120_00 = """
42 69 67 57 93 90 38 36 45 42 33 79 27 57 44 84 86 92 46 38 85 33 82 73 49 70 59 23 57 72 74 69 33
42 28 46 30 64 29 74 41 49 55 98 80 32 25 38 82 30 35 39 57 84 62 50 55 27 30 36 20 78 47 26 45 41
58 98 91 96 73 84 37 93 91 43 73 85 81 79 71 80 76 83 41 78 70 23 42 87 43 84 60 55 49 78 73 62 36
44 94 69 32 96 70 84 58 78 25 80 58 66 83 24 98 60 42 43 43 39
"""

# The paper-machine example of the textbooks on cutting stock (from memory): optimum 73
PAPER = {
    1380: 22,
    1520: 25,
    1560: 12,
    1710: 14,
    1820: 18,
    1880: 18,
    1930: 20,
    2000: 10,
    2050: 12,
    2100: 14,
    2140: 16,
    2150: 18,
    2200: 20,
}

# Rolls of 110 in the chapter on column generation of the AMPL book (from memory): optimum 47
ROLLS = {20: 48, 45: 35, 50: 24, 55: 10, 75: 8}

# A documentation example of bin packing (from memory): optimum 4
DOCUMENTED = [48, 30, 19, 36, 36, 27, 42, 42, 36, 24, 30]

# Sizes that sum to exactly three bins of 100 but need four (Burkardt, bin packing P01; from memory)
PERFECT_SUM = [70, 60, 50, 33, 33, 33, 11, 7, 3]


def pieces(lengths: list[int]) -> list[Piece]:
    return [Piece(f"p{i}", float(length)) for i, length in enumerate(lengths)]


def spread(demand: dict[int, int]) -> list[int]:
    return [length for length, count in demand.items() for _ in range(count)]


def first_fit_count(lengths: list[int], stock: int) -> int:
    problem, _ = pose_problem(pieces(lengths), [Stock("s", float(stock))], 0.0)
    plan = first_plan(problem)
    assert plan is not None
    return len(plan)


def plan_of(lengths: list[int], stock: int) -> CuttingPlan:
    return cut_boards(pieces(lengths), [Stock("s", float(stock))], kerf_mm=0.0)


@pytest.mark.parametrize(
    ("lengths", "stock", "optimum", "greedy"),
    [
        pytest.param([int(n) for n in U120_00.split()], 150, 48, 49, id="u120_00"),
        pytest.param(spread(PAPER), 5600, 73, 82, id="paper"),
        pytest.param(spread(ROLLS), 110, 47, 47, id="rolls"),
        pytest.param(DOCUMENTED, 100, 4, 4, id="documented"),
        pytest.param(PERFECT_SUM, 100, 4, 4, id="perfect-sum"),
    ],
)
def test_published_optimum_is_reached_and_proven(
    lengths: list[int], stock: int, optimum: int, greedy: int
) -> None:
    assert first_fit_count(lengths, stock) == greedy
    plan = plan_of(lengths, stock)
    assert len(plan.boards) == optimum
    assert plan.proven
    assert plan.lower_bound_mm == optimum * stock
    cut = [c.piece.length_mm for board in plan.boards for c in board.pieces]
    assert sorted(cut) == sorted(lengths)


def test_the_paper_example_wastes_the_published_share() -> None:
    """73 rolls of 5600 for 407 160 in all: waste 0.401 % of the stock."""
    plan = plan_of(spread(PAPER), 5600)
    assert plan.pieces_mm == 407_160
    assert 100 * (1 - plan.pieces_mm / plan.stock_mm) == pytest.approx(0.401, abs=0.0005)


def test_the_perfect_sum_is_refuted_by_the_integer_program_alone() -> None:
    problem, _ = pose_problem(pieces(PERFECT_SUM), [Stock("s", 100.0)], 0.0)
    answer = solve(problem, build_graph(problem), prices=(1,), most_cost=3, least_cost=3)
    assert answer.exhausted
    assert answer.bins is None


@pytest.mark.parametrize(
    ("stock", "kerf", "length", "fit"),
    [
        (2440.0, 3.2, 600.0, 4),
        (2440.0, 0.0, 610.0, 4),
        (2440.0, 3.2, 610.0, 3),
        (2409.6, 3.2, 600.0, 4),
    ],
)
def test_kerf_counts_only_between_pieces(
    stock: float, kerf: float, length: float, fit: int
) -> None:
    """Closed form: floor((L + k) / (l + k)) pieces fit on one board."""
    assert int((stock + kerf) / (length + kerf) + 1e-9) == fit
    one = cut_boards([Piece("a", length)] * fit, [Stock("s", stock)], kerf_mm=kerf)
    two = cut_boards([Piece("a", length)] * (fit + 1), [Stock("s", stock)], kerf_mm=kerf)
    assert (len(one.boards), len(two.boards)) == (1, 2)


@pytest.mark.parametrize("seed", range(4))
def test_triplets_that_fill_every_board_are_packed_without_waste(seed: int) -> None:
    """Made as Falkenauer's triplets: three pieces a board, none left over, so n / 3 is least."""
    lengths: list[int] = []
    for i in range(8):
        a, b = 380 + (7 * i + 13 * seed) % 110, 251 + (11 * i + 5 * seed) % 50
        lengths += [a, b, 1000 - a - b]
    plan = plan_of(lengths, 1000)
    assert len(plan.boards) == 8
    assert plan.proven
    assert plan.kerf_loss_mm == 0.0
    assert {board.offcut_mm for board in plan.boards} == {0.0}
