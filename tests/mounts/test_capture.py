"""A holder with a shut bolt cannot leave its rail; with the bolt drawn out it can.

Source: every place and tilt of the section that is reached from where it hangs, tried one by one
on sections that are cut from the meshes (shapely).
"""

from __future__ import annotations

import math
from itertools import takewhile

import pytest
from shapely import affinity
from shapely.geometry.base import BaseGeometry
from tests.mounts.sections import fitted, hung_section, leaves, pushed_home, rail_section
from tests.mounts.shelf import rail, shelf

from cleatwright.base.errors import RailHoldError
from cleatwright.checks.rail_hold import Holding, check_rail_hold
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.mounts.fittings import bolt as bolts
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import bolted_layout, french_cleat, rail_back
from cleatwright.parts.holder import HolderPart
from cleatwright.shapes.rigid import shift
from cleatwright.statics.cleat import OwnWeight

KERNEL = MeshKernel()
RAIL_OFF_MM = 0.5
PLAY_MM = 0.5
SLOPE = 4.0


def hung(thickness_mm: float, height_mm: float) -> HolderPart:
    how = MountSettings(rail_thickness_mm=thickness_mm, rail_height_mm=height_mm)
    return french_cleat.attach("test", shelf(80.0), how)


def captured(part: HolderPart) -> bool:
    found = check_rail_hold(part, OwnWeight(0.05, 20.0), Holding(1.5, MountSettings().hand, 5.0))
    (one,) = [check for check in found if check.name.startswith("cannot leave")]
    return one.holds


def shut(bolt: BaseGeometry, wood: BaseGeometry) -> BaseGeometry:
    """Return a bolt not quite pushed home, and tilted as far as its guide lets it."""
    home = affinity.translate(pushed_home(bolt, wood), SLOPE * PLAY_MM)
    held = home.bounds[2]
    floor = home.bounds[3] - bolts.HIGH_MM
    tilt = math.degrees(math.atan(rail_back.HEIGHT_PLAY_MM / min(held, bolts.GUIDE_MM)))
    return affinity.rotate(home, tilt, origin=(0.0, floor))


def gets_off(part: HolderPart, *, thickness_mm: float, height_mm: float) -> list[bool]:
    """Tell for each rail that is thinner or thicker, lower or higher, whether it can leave it."""
    still, bolt = hung_section(part, KERNEL)
    top = part.hanging.contact_z_mm
    found: list[bool] = []
    for thicker in (-RAIL_OFF_MM, RAIL_OFF_MM):
        for higher in (-RAIL_OFF_MM, RAIL_OFF_MM):
            thick, high = thickness_mm + thicker, height_mm + higher
            behind = rail_section(thickness_mm=thick, height_mm=high, bevel_deg=45.0, top_mm=top)
            wood = rail_section(
                thickness_mm=thick, height_mm=high, bevel_deg=45.0, top_mm=top, wall=False
            )
            whole = still.union(shut(bolt, wood))
            found.append(leaves(whole, behind, about=(0.0, top)))
    return found


@pytest.mark.parametrize(
    ("thickness_mm", "height_mm"),
    [(12.0, 40.0), (18.0, 45.0), (18.0, 70.0), (18.0, 95.0), (24.0, 45.0), (24.0, 95.0)],
)
def test_shut_it_stays_on_a_rail_that_is_off(thickness_mm: float, height_mm: float) -> None:
    part = hung(thickness_mm, height_mm)
    assert captured(part)
    assert gets_off(part, thickness_mm=thickness_mm, height_mm=height_mm) == [False] * 4


@pytest.mark.parametrize("height_mm", [70.0, 95.0])
def test_what_a_thin_high_rail_does_not_keep_is_not_promised(
    height_mm: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Six diameters of no screw fit into 12 mm either; made all the same, it gets off."""
    with pytest.raises(RailHoldError, match="comes out before its hook does"):
        hung(12.0, height_mm)
    monkeypatch.setattr(bolted_layout, "most_play_mm", lambda *_, **__: math.inf)
    part = hung(12.0, height_mm)
    assert not captured(part)
    assert any(gets_off(part, thickness_mm=12.0, height_mm=height_mm))


@pytest.mark.parametrize("thickness_mm", [15.0, 18.0, 24.0])
def test_drawn_out_it_is_lifted_by_the_fall_of_its_hook_and_comes_to_the_front(
    thickness_mm: float,
) -> None:
    """The bolt stops in its slot; of its tip no more than 0.3 mm is left behind the back."""
    part = hung(thickness_mm, 70.0)
    body = KERNEL.evaluate(part.solid)
    wood = KERNEL.evaluate(
        rail(part, MountSettings(rail_thickness_mm=thickness_mm, rail_height_mm=70.0))
    )
    made = [fitted(one, KERNEL) for one in part.fittings]
    (bolt,) = [
        one for one, fitting in zip(made, part.fittings, strict=True) if fitting.name == "bolt"
    ]
    way = [0.1 * step for step in range(200)]
    free = list(takewhile(lambda y: bolt.placed(shift(0.0, y)).overlap_mm3(body) < 1e-6, way))
    assert len(free) < len(way), "nothing stops the bolt"
    drawn = bolt.placed(shift(0.0, free[-1]))
    assert drawn.facts.bounds_mm[0][1] >= -0.3
    whole = [body, drawn, *(one for one in made if one is not bolt)]
    fall = thickness_mm * math.tan(math.radians(45.0))
    for step in range(9):
        for one in whole:
            assert one.placed(shift(0.0, 0.0, fall * step / 8)).overlap_mm3(wood) < 1e-3
            assert one.placed(shift(0.0, thickness_mm * step / 8, fall)).overlap_mm3(wood) < 1e-3
