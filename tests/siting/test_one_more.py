"""One tool more: nothing moves and no part is made anew where an exhaustive look finds a seat."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.one_more import Case, hanging, tool_tables

from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.project.revision import Revision


@pytest.fixture(scope="module")
def bench(examples: Path, known: Store) -> Revision:
    """Return the smallest example, of which everything hangs."""
    return hanging(examples / "joiners-bench", Run(known))


@pytest.mark.parametrize("seed", [3, 4])
def test_one_tool_more_moves_nothing_and_scraps_nothing_where_there_is_a_seat(
    bench: Revision, known: Store, seed: int
) -> None:
    run = Run(known)
    for table in tool_tables(bench, 4, seed=seed):
        case = Case.of(bench, table, run)
        seats = case.seats(run)
        if not seats.anywhere:
            continue
        found = case.planned(run)
        assert (found.renewed, found.moved, found.fault) == ((), (), ""), table
        assert found.new_rails == 0 or not seats.on_hanging, table
