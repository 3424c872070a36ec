"""What every holder family's tests ask of a finished part."""

from __future__ import annotations

from collections.abc import Callable
from itertools import combinations

import pytest

from cleatwright.checks.magnet_hold import check_magnets
from cleatwright.checks.part import BOUNDS_TOLERANCE_MM, WALL_TOLERANCE_MM
from cleatwright.checks.spring_strain import check_springs
from cleatwright.checks.way_out import DROP_MM, NUDGE_MM, TOUCH_MM3
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.parts.holder import HolderPart, MarkPlace, Seat
from cleatwright.shapes.rigid import Vector, shift
from cleatwright.shapes.solid import Union, block

GoodPart = Callable[[HolderPart], MeshBody]
MARK_DEPTH_MM = 0.5


@pytest.fixture(scope="session")
def kernel() -> MeshKernel:
    return MeshKernel()


@pytest.fixture(scope="session")
def assert_good(kernel: MeshKernel) -> GoodPart:
    """Return a callable that asserts every predicate of a part and returns its body."""

    def check(part: HolderPart) -> MeshBody:
        body = kernel.evaluate(part.solid)
        _contract(part, body)
        for place in part.mark_places:
            _mark_place(place, body, kernel)
        tools = [[kernel.evaluate(piece) for piece in seat.envelope()] for seat in part.seats]
        on_ledge = [
            _seat(pieces, seat, holder=body, kernel=kernel)
            for seat, pieces in zip(part.seats, tools, strict=True)
        ]
        held = (*check_springs(part.seats), *check_magnets(part.seats, on_ledge=on_ledge))
        assert [result for result in held if not result.holds] == []
        for one, other in combinations(tools, 2):
            assert _shared(one, other) == 0.0, "neighbouring tools overlap"
        return body

    return check


def _contract(part: HolderPart, body: MeshBody) -> None:
    assert body.facts.bodies == 1
    assert body.facts.genus == part.genus
    (low, high), (real_low, real_high) = part.bounds_mm, body.facts.bounds_mm
    for k in range(3):
        assert real_low[k] >= low[k] - BOUNDS_TOLERANCE_MM
        assert real_high[k] <= high[k] + BOUNDS_TOLERANCE_MM
    wall = body.thinnest_wall_mm(within_mm=part.min_wall_mm + 1.0)
    assert wall >= part.min_wall_mm - WALL_TOLERANCE_MM, "a wall is thinner than declared"
    # two lines of 0.45 mm are the least that prints as a closed wall (common practice, no source)
    assert part.min_wall_mm >= 0.9
    assert 0 < len(part.leading) <= 12


def _mark_place(place: MarkPlace, body: MeshBody, kernel: MeshKernel) -> None:
    assert place.width_mm > 0.0
    assert place.height_mm > 0.0
    inside = block(0.0, 0.0, -MARK_DEPTH_MM, place.width_mm, place.height_mm, 0.0)
    before = block(0.0, 0.0, 0.0, place.width_mm, place.height_mm, MARK_DEPTH_MM)
    volume = place.width_mm * place.height_mm * MARK_DEPTH_MM
    covered = body.overlap_mm3(kernel.evaluate(inside.placed(place.pose)))
    assert covered == pytest.approx(volume, rel=1e-6), "no material behind the mark"
    covering = body.overlap_mm3(kernel.evaluate(before.placed(place.pose)))
    assert covering < 1e-6 * volume, "something stands on the mark"


def _seat(pieces: list[MeshBody], seat: Seat, *, holder: MeshBody, kernel: MeshKernel) -> bool:
    """Assert what every seat promises and return whether the holder carries from below."""
    for piece in pieces:
        assert piece.facts.bounds_mm[0][1] >= 0.0, "a tool reaches behind the plate"
    assert _shared(pieces, [holder]) < TOUCH_MM3, "a seated tool overlaps its holder"
    dropped = _moved(pieces, (0.0, 0.0, -DROP_MM))
    on_ledge = _shared(dropped, [holder]) > TOUCH_MM3
    assert on_ledge or seat.magnet is not None, "nothing carries the tool"
    if seat.kept:
        nudged = [piece.swept((0.0, NUDGE_MM, 0.0)) for piece in pieces]
        assert _shared(nudged, [holder]) > TOUCH_MM3, "nothing keeps the tool in"
    free = holder
    if seat.spring is not None:
        free = holder.without(kernel.evaluate(Union(seat.spring.moving)))
    for move in seat.way_out:
        swept = [piece.swept(move) for piece in pieces]
        assert _shared(swept, [free]) < TOUCH_MM3, f"the way out is blocked on {move}"
        pieces = _moved(pieces, move)
    front = holder.facts.bounds_mm[1][1]
    for piece in pieces:
        assert piece.facts.bounds_mm[0][1] >= front - 1e-6, "the way out ends too early"
    return on_ledge


def _moved(pieces: list[MeshBody], move: Vector) -> list[MeshBody]:
    return [piece.placed(shift(*move)) for piece in pieces]


def _shared(some: list[MeshBody], others: list[MeshBody]) -> float:
    return sum(one.overlap_mm3(other) for one in some for other in others)
