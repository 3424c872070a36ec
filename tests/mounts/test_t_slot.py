"""The screws of a T-slot profile stand far enough from every edge of their plate.

Source: EN 1993-1-8:2005, table 3.3: from the middle of a hole to an edge at least 1.2 times its
diameter, 2.2 times between two; from memory. Outside diameters of washers: ISO 7089:2000, from
memory. Both are rules for steel, and the least that a plastic plate needs.
"""

from __future__ import annotations

import math
from itertools import combinations

import numpy as np
import pytest
from tests.mounts.shelf import assert_whole, shelf

from cleatwright.kernels.mesh.body import transformed
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import t_slot
from cleatwright.shapes.rigid import Rigid

WASHERS = {5.0: (4.5, 9.0), 6.0: (5.5, 10.0), 8.0: (6.6, 12.0), 10.0: (9.0, 16.0)}
"""Hole (ISO 273, medium) and washer of the screw of a slot."""
BACK = Rigid(((-1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, 1.0, 0.0)))


@pytest.mark.parametrize("slot", sorted(WASHERS))
@pytest.mark.parametrize("width", [30.0, 200.0])
def test_screws_stand_off_every_edge_and_each_other(slot: float, width: float) -> None:
    hole, washer = WASHERS[slot]
    front = shelf(width, low_mm=-20.0)
    part = t_slot.attach("test", front, MountSettings(), t_slot.TSlotParams(slot_mm=slot))
    body = assert_whole(part)
    cut = transformed(body.manifold, BACK).slice(1.0)
    outer, *bores = sorted(map(np.asarray, cut.to_polygons()), key=np.ptp, reverse=True)
    (left, low), (right, high) = outer.min(axis=0), outer.max(axis=0)
    middles = [tuple(one.mean(axis=0)) for one in bores]
    assert len(middles) == part.genus - front.genus
    assert [float(np.ptp(one[:, 0])) for one in bores] == pytest.approx(
        [hole] * len(bores), abs=0.05
    )
    for x, z in middles:
        edge = min(x - left, right - x, z - low, high - z)
        assert edge >= 1.2 * hole - 0.02
        # all of the washer lies on the plate, and two lines of it around
        assert edge >= washer / 2 + 2 * 0.45
    for one, other in combinations(middles, 2):
        assert math.dist(one, other) >= max(2.2 * hole, washer)
