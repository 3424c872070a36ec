"""Every tray holds every row of boxes that it accepts, and its sizes are right."""

from __future__ import annotations

import math

import pytest
from hypothesis import strategies as st
from tests.holders.trial import HalfPlay, Trial

from cleatwright.holders.families.tray.family import FAMILY
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.grips import Footprint
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.solid import block


def box(width_mm: float, depth_mm: float, height_mm: float, lid_mm: float = 0.0) -> ToolBody:
    """Return a box that stands at z = 2, with a lid that juts out by ``lid_mm`` all round."""
    x, y, top = width_mm / 2, depth_mm / 2, 2.0 + height_mm
    whole = block(-x, -y, 2.0, x, y, top)
    a, b = x + lid_mm, y + lid_mm
    lid = (block(-a, -b, top, a, b, top + 5.0),) if lid_mm else ()
    return ToolBody(
        kind="test-box",
        leading=f"{width_mm:g}",
        envelope=(whole, *lid),
        mass_kg=1e-6 * width_mm * depth_mm * height_mm,
        com_mm=(0.0, 0.0, 2.0 + height_mm / 2),
        grips=(Footprint(2.0, width_mm, depth_mm, height_mm),),
        order_mm=width_mm,
    )


TRIAL = Trial(
    FAMILY,
    st.builds(
        box,
        st.floats(20.0, 300.0),
        st.floats(20.0, 200.0),
        st.floats(20.0, 200.0),
        st.sampled_from([0.0, 2.0, 8.0]),
    ),
    groups=(
        (box(25.0, 22.0, 30.0), box(110.0, 75.0, 60.0, 3.0), box(300.0, 60.0, 90.0)),
        (box(20.0, 20.0, 20.0), box(150.0, 90.0, 200.0)),
        (box(110.0, 75.0, 60.0),),
        (box(300.0, 60.0, 90.0),),
        (box(20.0, 20.0, 20.0),),
    ),
    guided=(HalfPlay(box(80.0, 50.0, 60.0), raised_mm=2.0),),
    held=(box(60.0, 20.0, 60.0),),
    refused=((box(60.0, 19.0, 60.0), "19 mm is less than the 20 mm"),),
)


def test_openings_stand_in_a_row_and_webs_between_them() -> None:
    """Inside 300.4 mm there is room for (300.4 - 18 + 6) / (2 x 21.2 + 6) = 5 openings."""
    assert TRIAL.front(box(300.0, 60.0, 90.0)).genus == 5
    assert TRIAL.front(box(300.0, 30.0, 40.0)).genus == 15


def test_a_tray_has_the_volume_of_the_closed_form(kernel: MeshKernel) -> None:
    """Between the sides one profile with an opening; a side is a prism with broken rims.

    A section of a side that shrinks by t has the area A - P t + c t^2, with c the sum of the
    tangents of half of each turn: three of 90 degrees, and two that are 90 degrees together.
    """
    front = TRIAL.front(box(60.0, 40.0, 60.0), params={"lip_mm": 6.0, "side_mm": 6.0})
    assert front.genus == 1
    plate, wall, high, floor, inside, depth = 5.0, 2.7, 6.0, 4.0, 60.4, 40.4
    reach, body = plate + depth + high + wall, kernel.evaluate(front.solid)
    middle = front.width_mm / 2

    def between(x0: float, x1: float) -> float:
        slab = block(middle + x0, -1.0, -99.0, middle + x1, 199.0, 99.0)
        return body.overlap_mm3(kernel.evaluate(slab))

    lip, cove = wall * high + high**2 / 2, 3.0 * plate + 3.0**2 / 2
    # one opening, 2 (depth / 2 - 9) from corner to corner
    opening = 2 * (depth / 2 - 9.0) ** 2
    expected = inside * (floor * reach + lip + cove) - floor * opening
    assert between(-inside / 2, inside / 2) == pytest.approx(expected, rel=1e-6)

    run, e = reach - plate, wall / 3
    web = 0.25 * run
    area = reach * (high + floor) + web * plate + web * run / 2
    perimeter = reach + plate + math.hypot(web, run) + 2 * (high + floor) + web
    turned = math.atan2(web, run)
    corners = 3.0 + math.tan(turned / 2) + math.tan((math.pi / 2 - turned) / 2)
    outer = area * (wall / 2 - e) + area * e - perimeter * e**2 / 2 + corners * e**3 / 3
    edge = inside / 2 + wall
    assert between(edge - wall / 2, edge + 1.0) == pytest.approx(outer, rel=1e-6)
