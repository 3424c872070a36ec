"""The lower bound against exhaustive search, planted walls and closed forms."""

import itertools
import math
import random
from collections.abc import Iterator

import pytest

from cleatwright.wall.bound import Bound, lower_bound
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.model import Arrangement, Box, Item, Place, RailRule, RailRun, WallSpace
from cleatwright.wall.rails import cut_rails
from cleatwright.wall.reach import ReachBand, reach_band
from cleatwright.wall.score import score
from cleatwright.wall.weights import Weights

RULE = RailRule(18.0, 80.0, 50.0)


def bound_of(
    space: WallSpace, rule: RailRule, items: tuple[Item, ...], *, band: ReachBand | None = None
) -> Bound:
    return lower_bound(space, rule, items, band=band or reach_band(), weights=Weights())


def totals(
    space: WallSpace, rule: RailRule, items: tuple[Item, ...], *, step: int, band: ReachBand
) -> Iterator[float]:
    """Yield the total of every sound arrangement on a coarse grid."""
    known = {item.key: item for item in items}
    spots = [
        [
            Place(item.key, float(x), float(z))
            for x in range(0, int(space.width_mm - item.width_mm) + 1, step)
            for z in range(int(item.down_mm), int(space.height_mm - item.up_mm) + 1, step)
        ]
        for item in items
    ]
    for places in itertools.product(*spots):
        rails = cut_rails(space, rule, known, places)
        scores = score(places, rails, known, space=space, band=band, weights=Weights())
        if not conflicts(space, rule, items, Arrangement(places, rails, scores)):
            yield scores.total


@pytest.mark.parametrize("seed", range(12))
def test_no_arrangement_of_a_tiny_wall_lies_below_the_bound(seed: int) -> None:
    r = random.Random(seed)  # noqa: S311 - a repeatable example, not a secret
    rule = RailRule(18.0, 40.0, 10.0, end_room_mm=0.0)
    space = WallSpace(
        250.0,
        200.0,
        1000.0 + 50.0 * seed,
        obstacles=(Box("pipe", 100.0, 0.0, 50.0, 100.0),),
        studs_mm=r.choice(((), (25.0, 225.0))),
        kept_rails=(RailRun("old", 100.0, 0.0, 100.0),) if seed % 2 else (),
    )
    items = tuple(
        Item(
            f"h{k}",
            width_mm=r.choice((50.0, 100.0, 150.0)),
            up_mm=r.choice((0.0, 50.0)),
            down_mm=50.0,
            use=r.choice(("daily", "seldom")),
            mass_kg=r.choice((0.0, 3.0)),
            group=r.choice(("", "one")),
            on_rail=r.random() > 0.3,
            rail_depth_mm=30.0,
            hangs_at=r.choice((None, (0.0, 100.0))),
        )
        for k in range(3)
    )
    band = ReachBand(1102.5, 1431.5, 500.0, 1900.0, r.choice((None, 125.0)))
    best = min(totals(space, rule, items, step=50, band=band), default=math.inf)
    found = bound_of(space, rule, items, band=band)
    assert found.value <= best + 1e-9
    assert found.value == pytest.approx(sum(part for _, part in found.parts)) or found.parts == ()
