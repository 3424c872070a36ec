"""Cutting against brute force on small instances, and what a plan promises."""

import math
from collections.abc import Callable
from functools import cache
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import MeasureError, StockError
from cleatwright.base.lengths import IN_MM
from cleatwright.timber import cutting
from cleatwright.timber.arc_flow import Answer
from cleatwright.timber.boards import Piece, Stock
from cleatwright.timber.cutting import STOPPED, TOO_LARGE, cut_boards


def brute_force(
    lengths: tuple[int, ...], stocks: tuple[int, ...], kerf: int, limits: tuple[int, ...]
) -> tuple[int, int] | None:
    """Return the least (total stock, boards) by trying every subset for the next board."""

    @cache
    def best(left: tuple[int, ...], counts: tuple[int, ...]) -> tuple[int, int] | None:
        if not left:
            return (0, 0)
        found: tuple[int, int] | None = None
        first, rest = left[0], left[1:]
        for size in range(len(rest) + 1):
            for chosen in combinations(range(len(rest)), size):
                load = first + sum(rest[i] for i in chosen) + kerf * size
                remain = tuple(rest[i] for i in range(len(rest)) if i not in chosen)
                for kind, length in enumerate(stocks):
                    if load > length or not counts[kind]:
                        continue
                    fewer = tuple(c - (k == kind) for k, c in enumerate(counts))
                    tail = best(remain, fewer)
                    if tail is not None:
                        total = (tail[0] + length, tail[1] + 1)
                        found = total if found is None else min(found, total)
        return found

    return best(tuple(sorted(lengths, reverse=True)), limits)


@settings(deadline=None, max_examples=60)
@given(
    lengths=st.lists(st.integers(20, 95), min_size=1, max_size=7),
    stocks=st.lists(st.integers(95, 200), min_size=1, max_size=3, unique=True),
    kerf=st.integers(0, 5),
    counts=st.lists(st.sampled_from([None, 1, 2, 3]), min_size=3, max_size=3),
)
def test_a_proven_plan_is_as_good_as_brute_force(
    lengths: list[int], stocks: list[int], kerf: int, counts: list[int | None]
) -> None:
    given_stocks = [
        Stock(f"s{i}", float(s), c) for i, (s, c) in enumerate(zip(stocks, counts, strict=False))
    ]
    limits = tuple(s.count or len(lengths) for s in given_stocks)
    wanted = [Piece(f"p{i}", float(n)) for i, n in enumerate(lengths)]
    least = brute_force(tuple(lengths), tuple(stocks), kerf, limits)
    if least is None:
        with pytest.raises(StockError, match="do not suffice"):
            cut_boards(wanted, given_stocks, kerf_mm=float(kerf))
        return
    plan = cut_boards(wanted, given_stocks, kerf_mm=float(kerf))
    assert plan.proven
    assert (plan.stock_mm, len(plan.boards)) == least
    assert plan.lower_bound_mm == plan.stock_mm


@settings(deadline=None, max_examples=40)
@given(
    lengths=st.lists(st.floats(150.0, 2000.0), min_size=1, max_size=12),
    kerf=st.floats(0.0, 6.0),
)
def test_every_piece_lies_on_its_board_with_a_kerf_before_it(
    lengths: list[float], kerf: float
) -> None:
    wanted = [Piece(f"p{i}", n) for i, n in enumerate(lengths)]
    plan = cut_boards(wanted, [Stock("a", 2440.0), Stock("b", 2000.0, 2)], kerf_mm=kerf)
    placed = [cut.piece for board in plan.boards for cut in board.pieces]
    assert sorted(placed, key=lambda p: p.name) == sorted(wanted, key=lambda p: p.name)
    for board in plan.boards:
        position = 0.0
        for cut in board.pieces:
            assert cut.start_mm == pytest.approx(position, abs=1e-5)
            position = cut.start_mm + cut.piece.length_mm + kerf
        assert position - kerf <= board.stock.length_mm + 1e-6
        used = sum(cut.piece.length_mm for cut in board.pieces)
        total = used + board.kerf_loss_mm + board.offcut_mm
        assert total == pytest.approx(board.stock.length_mm, abs=1e-5)
    assert plan.stock_mm >= plan.lower_bound_mm - 1e-6


def test_fewer_boards_win_among_plans_of_the_same_total_length() -> None:
    plan = cut_boards(
        [Piece("a", 900.0), Piece("b", 900.0)],
        [Stock("short", 1000.0), Stock("long", 2000.0)],
        kerf_mm=3.0,
    )
    assert [board.stock.name for board in plan.boards] == ["long"]
    assert plan.proven


def test_waste_is_gathered_in_one_remainder() -> None:
    """1000 + 600 + 400 fills a board of 2000, so the fourth piece leaves 1400 of the other."""
    wanted = [Piece(str(n), float(n)) for n in (1000, 600, 400, 600)]
    plan = cut_boards(wanted, [Stock("s", 2000.0)], kerf_mm=0.0)
    assert max(board.offcut_mm for board in plan.boards) == 1400.0


def test_the_order_of_the_pieces_does_not_change_the_plan() -> None:
    wanted = [Piece(f"p{i}", 300.0 + 37.0 * (i % 9)) for i in range(20)]
    stocks = [Stock("a", 2440.0), Stock("b", 1800.0)]
    assert cut_boards(wanted, stocks, kerf_mm=3.2) == cut_boards(wanted[::-1], stocks, kerf_mm=3.2)


def test_a_piece_longer_than_every_board_is_named_with_a_way_out() -> None:
    with pytest.raises(StockError) as caught:
        cut_boards(
            [Piece("top rail", 3000.0), Piece("low rail", 900.0)],
            [Stock("pine", 2440.0), Stock("ash", 1800.0)],
            kerf_mm=3.0,
        )
    fault = IN_MM.error(caught.value)
    assert '"top rail"' in fault.given
    assert fault.allowed == "up to 2440 mm"
    assert fault.todo == "Write a [[rail.stock]] with a length of at least 3000 mm"


def test_too_few_boards_are_reported_as_such() -> None:
    wanted = [Piece(f"p{i}", 600.0) for i in range(5)]
    with pytest.raises(StockError, match="do not suffice"):
        cut_boards(wanted, [Stock("s", 1300.0, 2)], kerf_mm=3.0)


def test_pieces_that_have_room_in_sum_but_not_in_fact_are_refused_by_exhaustion() -> None:
    wanted = [Piece(f"p{i}", 600.0) for i in range(3)]
    with pytest.raises(StockError, match="do not suffice"):
        cut_boards(wanted, [Stock("s", 1000.0, 2)], kerf_mm=0.0)


def test_many_different_lengths_are_proven_without_the_integer_program(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A plan that meets the material bound is proven by it, so no solver is asked."""

    def unwanted(*_: object, **__: object) -> Answer:
        raise AssertionError

    monkeypatch.setattr(cutting, "solve", unwanted)
    wanted = [Piece(f"p{i}", 400.0 + (i * 577 % 901) + (i * 37 % 10) / 10) for i in range(45)]
    plan = cut_boards(wanted, [Stock("s", 2440.0)], kerf_mm=3.2)
    need = sum(piece.length_mm + 3.2 for piece in wanted)
    assert len(plan.boards) == math.ceil(need / 2443.2)
    assert plan.proven


SCRIPT = """
from cleatwright.timber.boards import Piece, Stock
from cleatwright.timber.cutting import cut_boards
pieces = {Piece(f"p{i}", 310.0 + 41.7 * (i % 11)) for i in range(30)}
print(cut_boards(list(pieces), [Stock("a", 2440.0), Stock("b", 1830.0)], kerf_mm=3.2))
"""


def test_two_processes_find_the_same_plan(under_hash_seeds: Callable[..., set[bytes]]) -> None:
    """The pieces come from a set, so their order differs with the hash seed."""
    plans = under_hash_seeds(SCRIPT)
    assert len(plans) == 1


def hard_list() -> list[Piece]:
    return [Piece(f"p{i}", 300.0 + (i * 577 % 901) + (i * 37 % 10) / 10) for i in range(60)]


def test_a_plan_from_quick_methods_never_claims_a_proof() -> None:
    stocks = [Stock("a", 2440.0), Stock("b", 3000.0), Stock("c", 1800.0)]
    plan = cut_boards(hard_list(), stocks, kerf_mm=3.2)
    assert plan.method == TOO_LARGE
    assert not plan.proven
    assert plan.lower_bound_mm < plan.stock_mm
    assert "not proven" in plan.verdict


def test_a_stopped_search_claims_only_the_bound_of_the_solver(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Sizes that sum to three boards need four; a solver that stops at 2.2 proves only three."""

    def stopped(*_: object, **__: object) -> Answer:
        return Answer(bins=None, exhausted=False, bound=2.2)

    sizes = (70.0, 60.0, 50.0, 33.0, 33.0, 33.0, 11.0, 7.0, 3.0)
    wanted = [Piece(f"p{i}", size) for i, size in enumerate(sizes)]
    stocks = [Stock("s", 100.0)]
    assert cut_boards(wanted, stocks, kerf_mm=0.0).proven
    monkeypatch.setattr(cutting, "solve", stopped)
    plan = cut_boards(wanted, stocks, kerf_mm=0.0)
    assert plan.method == STOPPED
    assert not plan.proven
    assert (len(plan.boards), plan.lower_bound_mm) == (4, 300.0)
    with pytest.raises(StockError, match="though one may exist"):
        cut_boards(wanted, [Stock("s", 100.0, 3)], kerf_mm=0.0)


@pytest.mark.parametrize("count", [1, 2, 5])
def test_boards_shorter_than_every_piece_are_left_in_the_rack(count: int) -> None:
    """Two pieces of 900 mm and one kerf need 1803 mm: one board of 2000 mm holds two of them."""
    stocks = [Stock("short", 600.0), Stock("long", 2000.0), Stock("shorter", 400.0, 3)]
    plan = cut_boards([Piece("rail", 900.0)] * count, stocks, kerf_mm=3.0)
    assert plan.proven
    assert [board.stock.name for board in plan.boards] == ["long"] * math.ceil(count / 2)


def test_nothing_to_cut_needs_no_board() -> None:
    plan = cut_boards([], [Stock("s", 1000.0)], kerf_mm=3.0)
    assert plan.boards == ()
    assert plan.proven


@pytest.mark.parametrize("kerf", [-0.1, float("nan"), float("inf")])
def test_a_kerf_that_is_none_is_refused(kerf: float) -> None:
    with pytest.raises(MeasureError, match="0 mm or more"):
        cut_boards([Piece("a", 1.0)], [Stock("s", 10.0)], kerf_mm=kerf)


def test_lengths_and_counts_that_are_none_are_refused() -> None:
    with pytest.raises(MeasureError):
        Piece("a", 0.0)
    with pytest.raises(MeasureError):
        Stock("s", float("nan"))
    with pytest.raises(MeasureError):
        Stock("s", 100.0, 0)
    with pytest.raises(StockError, match="no board"):
        cut_boards([Piece("a", 1.0)], [], kerf_mm=0.0)
