"""A plate on hangers is thicker where what hangs on it asks for that, by hand.

Source: N = W e / 67 on a foot 67 mm below the bevel; N (z - foot) below the seat; I / c of walls
and skins; 10 N/mm2 along the layers for years, with a margin of 1.5.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.mounts.shelf import shelf

from cleatwright.base.stages.run import Run
from cleatwright.design.building import PART
from cleatwright.design.describing import DESCRIBED
from cleatwright.design.proving import trial_recipe
from cleatwright.design.stiff_plate import MOST, stiff_plate_mm
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.kernels.mesh.shell_cut import Shell
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import french_cleat, wall_screws
from cleatwright.mounts.printed import rail_back as back
from cleatwright.parts.holder import Front, HolderPart
from cleatwright.printing.walls.loaded import Loaded
from cleatwright.printing.walls.plate import plate_share
from cleatwright.shapes.solid import block
from cleatwright.statics.cleat import OwnWeight

KERNEL = MeshKernel()
G = 9.80665
STILL = MountSettings(pull_n=0.0, lift_n=0.0, knock_n=0.0, drag=0.0)
NOTHING = OwnWeight(1e-9, 0.0)


def narrow(mass_kg: float) -> Front:
    """Return a shelf on a plate 40 mm wide, 35 mm out."""
    front = shelf(40.0, low_mm=-60.0, reach_mm=50.0, mass_kg=mass_kg)
    return replace(front, print_pose="on-its-back")


def just_enough_kg() -> float:
    """Return the mass that loads a plate of 40 by 5 mm just so, where its groove begins."""
    inside = (40.0 - 2 * 1.35) * (5.0 - 2 * 0.9) ** 3
    modulus = (40.0 * 5.0**3 - inside) / 6.0 / 5.0
    lever = 67.0 - back.UNDER_MM - 0.1
    return MOST * modulus * 10.0 / 1.5 / (G * 35.0 / 67.0 * lever)


def thick_mm(front: Front, settings: MountSettings) -> float:
    part = french_cleat.attach("test", front, settings)
    return stiff_plate_mm(part, KERNEL.evaluate(part.solid), NOTHING, settings)


@pytest.mark.parametrize(("share", "thicker"), [(0.98, False), (1.02, True)])
def test_a_plate_that_would_bear_too_much_is_thicker(share: float, *, thicker: bool) -> None:
    front = narrow(share * just_enough_kg())
    assert (thick_mm(front, STILL) > STILL.plate_mm) is thicker


def test_what_is_screwed_to_the_wall_lies_on_it() -> None:
    part = wall_screws.attach("test", narrow(20.0), STILL)
    assert stiff_plate_mm(part, KERNEL.evaluate(part.solid), NOTHING, STILL) == STILL.plate_mm


def share_of(part: HolderPart) -> float:
    """Return how far its plate is loaded with three lines in its walls."""
    assert part.hanging.hold is not None
    shell = Shell("y", 1.35, 0.9)
    body = KERNEL.evaluate(part.solid)
    return plate_share(Loaded(body, part, NOTHING, STILL, shell), part.hanging.hold)


def test_a_low_rib_makes_a_plate_no_weaker() -> None:
    """It has the outermost fibre, and 1 mm2 to bear what that asks."""
    plain = narrow(1.0)
    rib = block(19.5, 0.0, -55.0, 20.5, 6.0, -8.0)
    shares = [
        share_of(part)
        for part in (
            french_cleat.attach("test", one, STILL)
            for one in (plain, replace(plain, solid=plain.solid | rib))
        )
    ]
    assert shares[0] > 0.1
    # below 1 nobody asks what a part of it would bear
    assert shares[1] > shares[0]
    heavy = narrow(1.2 * just_enough_kg())
    ribbed = replace(heavy, solid=heavy.solid | rib)
    parts = [french_cleat.attach("test", one, STILL) for one in (heavy, ribbed)]
    bare, with_rib = (share_of(part) for part in parts)
    assert 1.0 < with_rib <= bare * (1.0 + 1e-9)


def test_a_second_bolt_is_added_where_it_saves_a_plate_that_is_twisted() -> None:
    """Three boxes on 404 mm: 2.08 of what a plate of 5 mm bears on one bolt, 0.83 on two."""
    recipe = trial_recipe("ribbed-tray", "box", (0.8, 1.0, 1.3), mount="french-cleat")
    run = Run()
    alone = run.need(DESCRIBED, recipe).hanging.hold
    made = run.need(PART, recipe).part.hanging.hold
    assert alone is not None
    assert made is not None
    assert (len(alone.bolts_mm), len(made.bolts_mm)) == (1, 2)
    assert made.plate_mm == alone.plate_mm
