"""The table of places: its columns add up to the points, whatever counts."""

from __future__ import annotations

from dataclasses import replace

from cleatwright.cli.rows import place_table
from cleatwright.jobs.rows import SpotRow
from cleatwright.jobs.tables import CostRow
from cleatwright.wall.model import Scores

SPOT = SpotRow("wall", "R1", "french-cleat", 10.0, 20.0)
STILL = CostRow((1,), "Can", SPOT, Scores(100.0, 0.0, 0.0, 0.0, 22.0, 0.0))


def test_a_column_tells_what_moved_where_anything_did() -> None:
    heading, (cells,) = place_table((STILL,), "mm")
    assert "moved" not in heading
    assert len(cells) == len(heading)
    moved = replace(STILL, points=replace(STILL.points, moved=99.0))
    heading, rows = place_table((STILL, moved), "mm")
    assert heading[-1] == "moved"
    for cells in rows:
        points, *parts = (float(one) for one in cells[3:])
        assert points == sum(parts)
