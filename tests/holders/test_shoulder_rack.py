"""Racks for shoulders; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import strategies as st
from tests.holders.trial import HalfPlay, Trial

from cleatwright.holders.families.shoulder_rack import FAMILY
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.grips import Shoulder
from cleatwright.parts.tool import Fit, ToolBody
from cleatwright.shapes.outline import circle
from cleatwright.shapes.solid import prism


def shouldered(neck_mm: float, ledge_mm: float = 8.0, *, length_mm: float = 100.0) -> ToolBody:
    """Return a round handle 90 high, wider by ``ledge_mm`` on each side than a round neck."""
    wide = neck_mm + 2 * ledge_mm
    envelope = (
        prism(circle(wide), 90.0).moved(0.0, 0.0, length_mm),
        prism(circle(neck_mm), length_mm),
    )
    grip = Shoulder(length_mm, neck_mm, wide, length_mm)
    com = (0.0, 0.0, length_mm + 20.0)
    return ToolBody("shouldered", "x", envelope, 0.1, com, (grip,), wide)


TRIAL = Trial(
    FAMILY,
    st.builds(shouldered, st.floats(3.0, 40.0), st.floats(1.5, 30.0)),
    groups=tuple(
        tuple(shouldered(neck) for neck in necks)
        for necks in ((6.0,), (4.0, 25.0, 8.0, 40.0, 3.0, 12.0))
    ),
    guided=(
        HalfPlay(shouldered(10.0), raised_mm=1.5, within_mm=0.021),
        HalfPlay(shouldered(10.0), pieces=(1,), within_mm=0.021),
    ),
    held=(shouldered(10.0, 1.5),),
    refused=(
        (shouldered(10.0, 1.4), "less than 3 mm wider"),
        (replace(shouldered(10.0), kind="peg", grips=()), "needs a shoulder, which a peg does not"),
    ),
)


def test_volume_of_one_rack_in_closed_form(kernel: MeshKernel) -> None:
    """A shelf less a slot and the rest of a recess, with a cove and two webs of a rim's width.

    The recess has eight sides around a circle of radius r, and a roof with the area
    (2 sqrt 2 - 1) r^2 in front of the middle; the slot has taken its part of it.
    """
    front = TRIAL.front(shouldered(12.0, 12.0), fit=Fit(0.5))
    slot, r, rim, plate = 12.5, 36.5 / 2, 4.0, 5.0
    axis = plate + rim + r
    width, ahead = 2 * r + 4 * rim, r * math.sqrt(2.0) - slot / 2
    reach = axis + ahead + rim
    # a flare widens each side of the mouth by 2 mm over the last 2 mm
    flare = 2.0 * 2.0 / 2
    slotted = math.pi * slot**2 / 8 + slot * (ahead + rim) + 2 * flare
    kept = slot * ahead + (slot / 2) ** 2
    recess = (2 * math.sqrt(2.0) - 1.0 + 4 * math.tan(math.pi / 8)) * r**2
    recess -= math.pi * slot**2 / 8 + kept
    web = min(reach - plate, 0.8 * (axis - plate))
    cove = 3.0 * plate + 3.0**2 / 2
    webs = 2 * rim * (web * plate + web**2 / 2 - cove)
    expected = 8.0 * (width * reach - slotted) - 3.0 * recess + cove * width + webs
    measured = kernel.evaluate(front.solid).facts.volume_mm3
    assert front.width_mm == pytest.approx(width)
    assert measured == pytest.approx(expected, rel=1e-4)
