"""A plate twisted and bent between a tool beside its only foot and its hooks, by hand.

A stub 16 mm wide stands at x = 60 on a plate 220 mm wide; hangers of 12 mm have their middles
11 mm from its ends, and a bolt its guide in the middle. Source: equilibrium; of thin rectangles
J = b a3 / 3 (1 - 0.63 a / b), the worst shear T a / J (Timoshenko and Goodier, from memory), and
the inner one taken off; the hypothesis of the greatest distortion. What is borne along and across
the layers: ``statics.arm_strength``.
"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from tests.mounts.shelf import shelf

from cleatwright.base.source import Evidence, Source
from cleatwright.design.stiff_plate import stiff_plate_mm
from cleatwright.design.wall_lines import check_sections
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.kernels.mesh.shell_cut import Axis, Shell
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import french_cleat
from cleatwright.mounts.printed import rail_back as back
from cleatwright.parts.hold import MagnetPull
from cleatwright.parts.holder import Front
from cleatwright.printing.walls.deciding import Walls
from cleatwright.printing.walls.loaded import Loaded
from cleatwright.printing.walls.twist import twist_share
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block
from cleatwright.statics.cleat import OwnWeight
from cleatwright.statics.take_out import grip_z_mm

KERNEL = MeshKernel()
G = 9.80665
STILL = MountSettings(pull_n=0.0, lift_n=0.0, knock_n=0.0, drag=0.0)
NOTHING = OwnWeight(1e-9, 0.0)
PULL = Source("a pull of magnets", "", Evidence.CHOICE)
WIDE, AT, FIRST, LAST = 220.0, 60.0, 11.0, 209.0
LOW = -30.0
CUTS = tuple(1.0 + k * (WIDE - 2.0) / 13 for k in range(14))


def stub(*, mass_kg: float, out_mm: float) -> Front:
    """Return a plate with a stub and a box on it, far out."""
    plain = shelf(WIDE, low_mm=LOW, reach_mm=out_mm + 15.0, mass_kg=mass_kg)
    (seat,) = plain.seats
    return replace(
        plain,
        solid=block(AT - 8.0, 0.0, -8.0, AT + 8.0, out_mm + 15.0, 0.0),
        seats=(replace(seat, pose=shift(AT, out_mm, 0.0)),),
        print_pose="on-its-back",
    )


def loaded(front: Front, how: MountSettings, *, layers: Axis = "y") -> Loaded:
    part = french_cleat.attach("test", front, how)
    return Loaded(KERNEL.evaluate(part.solid), part, NOTHING, how, Shell(layers, 1.35, 0.9))


def share_of(found: Loaded, *, bolt_n: float) -> float:
    """Return the share with a bolt that bears so much for years."""
    hold = found.part.hanging.hold
    assert hold is not None
    assert hold.bolts_mm == (WIDE / 2,)
    assert tuple(sum(one) / 2 for one in hold.hangers_mm) == pytest.approx((FIRST, LAST))
    return twist_share(found, replace(hold, bolt_years_n=bolt_n, bolt_hand_n=bolt_n))


def thin(long: float, short: float) -> float:
    return long * short**3 / 3.0 * (1.0 - 0.63 * short / long)


def by_hand(
    torque: float, moment: float, *, high: float, along: float, across: float, thick: float = 5.0
) -> float:
    """Return the share of a plate of walls of 1.35 mm and skins of 0.9 mm."""
    long, short = high - 2.7, thick - 1.8
    shear = abs(torque) / (thin(high, thick) - thin(long, short)) * thick
    tension = abs(moment) / (high * thick**3 - long * short**3) * 6.0 * thick
    return max(math.sqrt(tension**2 + 3.0 * shear**2) / along, shear / across)


def asked(
    cut: float, parts: tuple[float, float, float], turning: float, middle: float, back_mm: float
) -> tuple[float, float]:
    """Return torque and moment left of the foot, of which a part is pushed at each place."""
    foot, under, hooks = parts
    near = (LAST - AT) / (LAST - FIRST)
    beyond = cut > AT
    on_foot, on_back = turning / 67.0, turning / back_mm
    held = foot * on_foot / 2.0 + (under + hooks) * near * on_back
    torque = turning * beyond - held * middle
    torque -= under * on_back * (back_mm - middle) * beyond
    torque -= hooks * near * on_back * (back_mm - middle)
    moment = held * (cut - FIRST) - under * on_back * max(cut - AT, 0.0)
    return torque, moment - hooks * near * on_back * (cut - FIRST)


def worst_by_hand(
    parts: tuple[float, float, float],
    found: Loaded,
    *,
    hand_nmm: float = 0.0,
    along: float = 10.0 / 1.5,
    across: float = 5.0 / 1.5,
) -> float:
    """Return the share beside hangers, the stub and the guide of the bolt: there it is whole."""
    (seat,), top = found.part.seats, found.part.bounds_mm[1][2]
    turning = seat.tool.mass_kg * G * seat.com_mm[1] + hand_nmm
    contact, middle = top - back.TOP_MM, (top + LOW) / 2.0
    return max(
        by_hand(
            *asked(cut, parts, turning, contact - middle, contact - LOW),
            high=top - LOW,
            along=along,
            across=across,
        )
        for cut in CUTS
        if FIRST < cut < 100.0 and abs(cut - AT) > 8.0
    )


@pytest.mark.parametrize(("layers", "along"), [("y", 10.0), ("x", 5.0)])
def test_a_tool_beside_the_only_foot_twists_and_bends_the_plate_between(
    layers: Axis, along: float
) -> None:
    """80 mm out on a back 16 mm deep, and no bolt for the hooks to hold more by: the foot."""
    found = loaded(stub(mass_kg=0.7, out_mm=80.0), STILL, layers=layers)
    wanted = worst_by_hand((1.0, 0.0, 0.0), found, along=along / 1.5)
    if layers == "x":
        # walls all around
        assert share_of(found, bolt_n=0.0) == pytest.approx(wanted, rel=0.3)
    else:
        assert share_of(found, bolt_n=0.0) == pytest.approx(wanted, rel=5e-3)


def test_a_hand_that_lifts_counts_without_a_margin() -> None:
    """5 N up, 80 mm out, with the tool in it: 16 N/mm2 along the layers and 8 across."""
    how = replace(STILL, lift_n=5.0)
    found = loaded(stub(mass_kg=0.001, out_mm=80.0), how)
    wanted = worst_by_hand((1.0, 0.0, 0.0), found, hand_nmm=-400.0, along=16.0, across=8.0)
    assert share_of(found, bolt_n=0.0) == pytest.approx(wanted, rel=1e-2)


def test_a_pull_bends_the_plate_while_the_tool_weighs_on_it() -> None:
    """10 N where a hand holds a box: near hook and foot hold its moment, the hooks the pull.

    Tension and shear together against 16 N/mm2 ask for most.
    """
    found = loaded(stub(mass_kg=0.3, out_mm=80.0), replace(STILL, pull_n=10.0))
    (seat,), top = found.part.seats, found.part.bounds_mm[1][2]
    contact, middle, held = top - back.TOP_MM, (top + LOW) / 2.0, grip_z_mm(seat)
    turning, pull = 0.3 * G * 80.0 + 10.0 * (held - contact), 10.0
    hook = turning / 67.0 / 2.0 + pull * (LAST - AT) / (LAST - FIRST)
    wanted = max(
        by_hand(
            turning + (pull - hook) * (contact - middle),
            hook * (cut - FIRST) - pull * (cut - AT),
            high=top - LOW,
            along=16.0,
            across=8.0,
        )
        for cut in CUTS
        if 68.0 < cut < 100.0
    )
    assert share_of(found, bolt_n=0.0) == pytest.approx(wanted, rel=1e-2)


def test_where_hooks_hold_the_rail_pushes_where_it_asks_least_of_the_plate() -> None:
    """15 mm out on a back 16 mm deep they hold without: all blends by quarters of three places."""
    found = loaded(stub(mass_kg=1.0, out_mm=15.0), STILL)
    quarters = [(a, b, 4 - a - b) for a in range(5) for b in range(5 - a)]
    hands = [worst_by_hand((a / 4, b / 4, c / 4), found) for a, b, c in quarters]
    assert share_of(found, bolt_n=0.0) == pytest.approx(min(hands), rel=5e-3)
    assert min(hands) < 0.6 * max(hands)


def test_a_bolt_lets_hooks_hold_as_far_as_it_is_strong() -> None:
    found = loaded(stub(mass_kg=0.7, out_mm=80.0), STILL)
    shares = [share_of(found, bolt_n=force) for force in (0.0, 40.0, 80.0, 1000.0)]
    assert shares == sorted(shares, reverse=True)
    assert shares[0] > shares[2] > 0.0


def test_what_stands_on_a_plate_helps_to_twist_it() -> None:
    """A shelf 8 mm thick along all of it is stiffer than the plate."""
    plain = stub(mass_kg=0.7, out_mm=80.0)
    along = block(0.0, 0.0, -8.0, WIDE, 40.0, 0.0)
    shares = [
        share_of(loaded(one, STILL), bolt_n=0.0)
        for one in (plain, replace(plain, solid=plain.solid | along))
    ]
    assert shares[1] < 0.5 * shares[0]


def test_magnets_pass_on_no_more_than_their_pull_in_their_middle() -> None:
    """A hand 90 mm above 5 mm of lever tips the tool off: it counts as if it pulled there."""
    plain = stub(mass_kg=0.001, out_mm=80.0)
    (seat,) = plain.seats
    far = replace(
        seat, tool=replace(seat.tool, envelope=(block(-8.0, -8.0, 0.0, 8.0, 8.0, 200.0),))
    )
    held = replace(far, magnet=MagnetPull(10.0, 0.2, PULL, lever_mm=5.0))
    shares = {
        name: share_of(
            loaded(replace(plain, seats=(one,)), replace(STILL, pull_n=10.0)), bolt_n=0.0
        )
        for name, one in (("far", far), ("held", held), ("near", replace(seat, rest_z_mm=5.0)))
    }
    assert shares["held"] < 0.5 * shares["far"]
    assert shares["held"] <= shares["near"]


def just_enough_kg() -> float:
    """Return the mass that twists the plate by 0.95 of what it bears, by regula falsi."""
    mass = 1.0
    for _ in range(3):
        found = loaded(stub(mass_kg=mass, out_mm=15.0), STILL)
        hold = found.part.hanging.hold
        assert hold is not None
        mass *= 0.95 / twist_share(found, hold)
    return mass


@pytest.mark.parametrize(("share", "thicker"), [(0.95, False), (1.05, True)])
def test_a_plate_that_would_be_twisted_too_much_is_thicker(share: float, *, thicker: bool) -> None:
    found = loaded(stub(mass_kg=share * just_enough_kg(), out_mm=15.0), STILL)
    assert (stiff_plate_mm(found.part, found.body, NOTHING, STILL) > 5.0) is thicker


def test_a_plate_that_is_twisted_too_much_does_not_hold() -> None:
    section, twist = check_sections(Walls(3, 0.4, twist=1.2))
    assert section.holds
    assert not twist.holds
    assert "let it hold fewer tools" in twist.sentence
    assert check_sections(Walls(3, 0.4))[1:] == ()
