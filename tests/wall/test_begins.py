"""Plates whose screws must meet studs: they begin where these are, by intervals on paper."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cleatwright.wall.arrange import arrange
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.model import AlongBounds, Box, Item, RailRule, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Profile
from cleatwright.wall.reach import reach_band
from cleatwright.wall.search.around import around
from cleatwright.wall.search.problem import make_tables
from cleatwright.wall.search.spots import spot_at
from cleatwright.wall.search.state import empty_state
from cleatwright.wall.search.tables import FAR, UNIT
from cleatwright.wall.studs import studs_at

RULE = RailRule(Profile(90.0, 18.0, 45.0), min_gap_mm=30.0, step_mm=25.0, rows=False)
SOCKET = Box("socket", 300.0, 0.0, 90.0, 1200.0)
SPACE = WallSpace(1600.0, 1200.0, 700.0, obstacles=(SOCKET,), studs=studs_at(200.0, 600.0, 1400.0))
SPANS = ((100.0, 130.5), (280.0, 420.0), (700.0, 700.0), (1300.0, 1316.25))
LEFT_MM, PLATE_MM = 12.0, 80.0


def screwed(key: str, *, on_rail: bool = False) -> Item:
    return Item(
        key,
        PLATE_MM,
        up_mm=40.0,
        down_mm=120.0,
        side_left_mm=LEFT_MM,
        side_right_mm=3.0,
        on_rail=on_rail,
        along=AlongBounds(words=("Its screws go into studs",), begins_mm=SPANS),
    )


@pytest.mark.parametrize("on_rail", [False, True])
def test_the_search_offers_what_lies_in_a_span_and_off_obstacles(*, on_rail: bool) -> None:
    item = screwed("Oil", on_rail=on_rail)
    t = make_tables(WallProblem(SPACE, RULE, (item,), reach_band()))
    s = empty_state(t)
    near = around(t, s)
    z = int((t.rails.z if on_rail else t.levels)[t.turns[0, 0]])
    found = 0
    for quarter in range(int(SPACE.width_mm) * 4):
        x = quarter / 4
        clear = x + PLATE_MM + 3.0 <= SOCKET.x_mm or x - LEFT_MM >= SOCKET.right_mm
        free = clear and any(a <= x <= b for a, b in SPANS)
        spot = spot_at(t, s, near, 0, (round((x - LEFT_MM) * UNIT), z))
        assert (spot[0] != FAR) == free, x
        found += free
    assert found > 0


def test_what_is_arranged_begins_in_its_spans_and_nothing_hangs_over_another() -> None:
    items = tuple(screwed(name) for name in ("Oil", "Paint", "Glue", "Wax", "Tar"))
    problem = WallProblem(SPACE, RULE, items, reach_band())
    found = arrange(problem)
    assert len(found.places) == len(items)
    for one in found.places:
        assert any(a <= one.x_mm <= b for a, b in SPANS)
    assert conflicts(problem, found) == ()
    # a step to the side is told
    first = found.places[0]
    alone = replace(problem, items=tuple(one for one in items if one.key == first.key))
    (said,) = conflicts(alone, replace(found, places=(replace(first, x_mm=150.0),), rails=()))
    assert "may not: Its screws go into studs" in said
