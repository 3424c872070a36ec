"""A front that is moved along a wider plate takes everything with it.

Source: a rigid move along the wall; the meshes of both are compared.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.mounts.shelf import shelf

from cleatwright.base.stages.run import Run
from cleatwright.design.describing import FRONT
from cleatwright.design.proving import trial_recipe
from cleatwright.features.mark_clear import clear_places
from cleatwright.features.moved_front import widened
from cleatwright.holders.registry import FAMILIES
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.parts.holder import Front, LockScrews, front_mark
from cleatwright.shapes.rigid import shift
from cleatwright.tools.registry import KINDS, ordinary_body

KERNEL = MeshKernel()
KIND_OF = {
    family.name: next(kind for kind in KINDS if family.why_not(ordinary_body(kind)) is None)
    for family in FAMILIES.values()
}


def same(one: MeshBody, other: MeshBody) -> None:
    assert one.facts.volume_mm3 == pytest.approx(other.facts.volume_mm3, rel=1e-9)
    np.testing.assert_allclose(one.facts.bounds_mm, other.facts.bounds_mm, atol=1e-6)
    np.testing.assert_allclose(one.facts.centroid_mm, other.facts.centroid_mm, atol=1e-6)


@pytest.mark.parametrize("family", sorted(FAMILIES))
@pytest.mark.parametrize(("share", "aside"), [(0.5, 15.0), (0.0, 0.0), (1.0, 30.0)])
def test_front_seats_springs_and_cuts_move_together(
    family: str, share: float, aside: float
) -> None:
    front: Front = Run().need(FRONT, trial_recipe(family, KIND_OF[family], (1.0,)))
    wide = widened(front, front.width_mm + 30.0, share=share)
    move = shift(aside)
    assert wide.width_mm == pytest.approx(front.width_mm + 30.0)
    same(KERNEL.evaluate(wide.solid), KERNEL.evaluate(front.solid).placed(move))
    assert len(wide.seats) == len(front.seats)
    for ours, theirs in zip(wide.seats, front.seats, strict=True):
        assert ours.com_mm == pytest.approx(move.apply(theirs.com_mm))
        assert ours.rest_z_mm == theirs.rest_z_mm
        assert ours.way_out == theirs.way_out
        for one, other in zip(ours.envelope(), theirs.envelope(), strict=True):
            same(KERNEL.evaluate(one), KERNEL.evaluate(other).placed(move))
        if theirs.spring is not None:
            assert ours.spring is not None
            for one, other in zip(ours.spring.moving, theirs.spring.moving, strict=True):
                same(KERNEL.evaluate(one), KERNEL.evaluate(other).placed(move))
    for one, other in zip(wide.cuts, front.cuts, strict=True):
        same(KERNEL.evaluate(one), KERNEL.evaluate(other).placed(move))
    here, there = wide.mark_place.pose.shift_mm, front.mark_place.pose.shift_mm
    assert here == pytest.approx(move.apply(there))


def test_some_front_has_springs_and_some_has_cuts() -> None:
    fronts = [Run().need(FRONT, trial_recipe(f, k, (1.0,))) for f, k in KIND_OF.items()]
    assert any(seat.spring for front in fronts for seat in front.seats)


def test_screws_of_a_lock_move_too_and_a_wide_plate_stays_as_it_is() -> None:
    locked = replace(shelf(60.0), lock=LockScrews((10.0, 50.0), 100.0, -30.0))
    wide = widened(locked, 100.0)
    assert wide.lock is not None
    assert wide.lock.columns_mm == (30.0, 70.0)
    assert wide.lock.along_n == 100.0
    assert widened(locked, 60.0) is locked
    assert widened(locked, 40.0) is locked


def test_places_for_a_mark_are_the_largest_rectangles_beside_what_is_there() -> None:
    """By hand: 100 x 50, a box of 20 x 10 in its middle, 1 mm of rim around it."""
    place = front_mark(0.0, 100.0, z0=0.0, z1=50.0, y_mm=5.0)
    box = ((40.0, 0.0, 20.0), (60.0, 5.0, 30.0))
    found = clear_places(place, (box,), plate_mm=5.0)
    sizes = [(one.width_mm, one.height_mm) for one in found]
    assert sizes == [(39.0, 50.0), (39.0, 50.0), (100.0, 19.0), (100.0, 19.0)]
    # the text runs to the left for the maths, from the larger x
    assert sorted(one.pose.shift_mm for one in found) == [
        (39.0, 5.0, 0.0),
        (100.0, 5.0, 0.0),
        (100.0, 5.0, 0.0),
        (100.0, 5.0, 31.0),
    ]


def test_a_place_elsewhere_is_left_as_it_is() -> None:
    deep = front_mark(0.0, 100.0, z0=0.0, z1=50.0, y_mm=30.0)
    box = ((0.0, 0.0, 0.0), (100.0, 5.0, 50.0))
    assert clear_places(deep, (box,), plate_mm=5.0) == (deep,)
    flat = front_mark(0.0, 100.0, z0=0.0, z1=50.0, y_mm=5.0)
    assert clear_places(flat, (box,), plate_mm=5.0) == ()
