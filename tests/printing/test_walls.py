"""A holder gets thinner walls only where its sections bear their loads with them, by hand.

Source: W e / (I / c) of hollow rectangles. What is borne: 5 and 8 N/mm2 across the layers, 10 and
16 along them, for years and while a hand pulls (``statics.arm_strength``).
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from tests.mounts.shelf import shelf

from cleatwright.base.stages.run import Run
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.kernels.mesh.shell_cut import Axis, Shell
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import french_cleat, wall_screws
from cleatwright.mounts.printed import rail_back as back
from cleatwright.mounts.printed.guide_floor import floor_shell_share, solid_floor_share
from cleatwright.parts.holder import Front
from cleatwright.printing.walls.arms import arms_share
from cleatwright.printing.walls.deciding import WALLS_OF_PART, LinesOf, ToWall, Walls
from cleatwright.printing.walls.loaded import Loaded, places_mm
from cleatwright.printing.walls.plate import back_share
from cleatwright.project.computing import compute
from cleatwright.shapes.solid import Difference, Union, block
from cleatwright.statics.cleat import OwnWeight

KERNEL = MeshKernel()
G = 9.80665
STILL = MountSettings(pull_n=0.0, lift_n=0.0, knock_n=0.0, drag=0.0)
NOTHING = OwnWeight(0.0, 0.0)
THREE = 1.35


def modulus(b: float, h: float, s: float, t: float) -> float:
    """Return I / c of a hollow rectangle, h high, with walls s at its sides and t above."""
    return (b * h**3 - (b - 2 * s) * (h - 2 * t) ** 3) / 6.0 / h


def cut_mm(found: Loaded) -> float:
    """Return where a front is cut just before its plate, thicker at the groove of its hangers."""
    hold = found.part.hanging.hold
    assert hold is not None
    return hold.groove.deep_mm + hold.groove.wall_mm + 0.05


def loaded(
    front: Front, how: MountSettings = STILL, *, walls_mm: float = THREE, layers: Axis = "y"
) -> Loaded:
    part = french_cleat.attach("test", front, how)
    body = KERNEL.evaluate(part.solid)
    return Loaded(body, part, NOTHING, how, Shell(layers, walls_mm, 0.9))


@pytest.mark.parametrize(("layers", "borne"), [("y", 5.0), ("z", 10.0)])
@pytest.mark.parametrize("walls_mm", [0.9, THREE])
def test_a_shelf_bends_as_a_hollow_bar(layers: Axis, borne: float, walls_mm: float) -> None:
    """2 kg at 25 mm, a shelf 60 x 8, cut just before the plate: half of that across the layers."""
    found = loaded(shelf(60.0, mass_kg=2.0), walls_mm=walls_mm, layers=layers)
    top = walls_mm if layers == "y" else 0.9
    stress = 2.0 * G * (25.0 - cut_mm(found)) / modulus(60.0, 8.0, walls_mm, top)
    assert arms_share(found) == pytest.approx(stress * 1.5 / borne, rel=1e-6)


def test_a_hand_presses_on_what_hangs_there() -> None:
    """10 N more at the same place, against 8 N/mm2; the weight alone against 5 / 1.5."""
    pressed = replace(STILL, lift_n=60.0)
    found = loaded(shelf(60.0, mass_kg=0.1), pressed)
    stress = (0.1 * G + 60.0) * (25.0 - cut_mm(found)) / modulus(60.0, 8.0, THREE, THREE)
    assert arms_share(found) == pytest.approx(stress / 8.0, rel=1e-6)


def test_a_pull_acts_where_the_tool_rests() -> None:
    """80 N along the shelf, 4 mm above its middle."""
    front = shelf(60.0, mass_kg=0.0001)
    area = 60.0 * 8.0 - (60.0 - 2 * THREE) * (8.0 - 2 * THREE)
    drawn = 80.0 / area + 80.0 * 4.0 / modulus(60.0, 8.0, THREE, THREE)
    found = loaded(front, replace(STILL, pull_n=80.0))
    assert arms_share(found) == pytest.approx(drawn / 8.0, rel=1e-4)


def test_a_knock_bends_it_sideways() -> None:
    """50 N at the front of the tool, 33 mm out, about the shelf's height."""
    found = loaded(shelf(20.0, mass_kg=0.0001), replace(STILL, knock_n=50.0))
    stress = 50.0 * (33.0 - cut_mm(found)) / modulus(8.0, 20.0, THREE, THREE)
    assert arms_share(found) == pytest.approx(stress / 8.0, rel=1e-4)


def test_two_arms_share_a_tool_and_a_third_part_beside_them_only_guides_it() -> None:
    """Two arms 9 x 8 under a tool 16 wide bear half each; a rail above it bears no weight."""
    whole = shelf(24.0, mass_kg=1.0)
    gap = block(9.0, 4.0, -20.0, 15.0, 60.0, 20.0)
    above = block(0.0, 0.0, 12.0, 24.0, 40.0, 16.0)
    arms = replace(whole, solid=Union((Difference(whole.solid, (gap,)), above)), high_mm=16.0)
    found = loaded(replace(arms, plate_high_mm=40.0))
    stress = 1.0 * G * (25.0 - 5.05) / 2 / modulus(9.0, 8.0, THREE, THREE)
    assert arms_share(found) == pytest.approx(stress * 1.5 / 5.0, rel=1e-6)


def test_what_lies_ahead_of_a_cut_weighs_on_it() -> None:
    """A bar 60 x 8 of 34.95 mm ahead of the cut, of 0.5 kg in all: F l / 2, by volume."""
    front = shelf(60.0, mass_kg=0.0001)
    found = replace(loaded(front), own=OwnWeight(0.5, 20.0))
    part_of_it = 60.0 * 8.0 * (40.0 - cut_mm(found)) / found.body.facts.volume_mm3
    stress = 0.5 * G * part_of_it * (40.0 - cut_mm(found)) / 2 / modulus(60.0, 8.0, THREE, THREE)
    assert arms_share(found) == pytest.approx(stress * 1.5 / 5.0, rel=1e-3)


def test_arms_that_meet_in_front_bear_as_far_as_they_are_stiff() -> None:
    """A web 4 mm wide, 30 mm deep, and strips of 8 mm at its sides, under 1 kg in the middle.

    By springs in a row, each as stiff as its second moment: a strip gets 1 % of the moment.
    """
    whole = shelf(24.0, mass_kg=1.0)
    gaps = (block(x, 5.0, -20.0, x + 3.0, 36.0, 20.0) for x in (7.0, 14.0))
    web = block(10.0, 0.0, -30.0, 14.0, 36.0, -8.0)
    front = replace(
        whole,
        solid=Union((Difference(whole.solid, tuple(gaps)), web)),
        low_mm=-30.0,
        plate_high_mm=40.0,
    )
    found = loaded(front)
    deep, strip = (
        modulus(wide, high, THREE, THREE) * high / 2 for wide, high in ((4.0, 30.0), (7.0, 8.0))
    )
    moment = 1.0 * G * (25.0 - 5.05) * deep / (deep + 2 * strip)
    assert arms_share(found) == pytest.approx(moment * 15.0 / deep * 1.5 / 5.0, rel=0.03)


def test_a_tool_rests_no_further_out_than_what_carries_it() -> None:
    """A box from 17 to 33 mm on a shelf to 28: two supports at 17 and 28, its middle at 25."""
    front = shelf(60.0, reach_mm=40.0, mass_kg=2.0)
    cut = block(-1.0, 28.0, -20.0, 61.0, 60.0, 20.0)
    found = loaded(replace(front, solid=Difference(front.solid, (cut,))))
    at = cut_mm(found)
    moment = 2.0 * G * max(25.0 - at, (25.0 - 17.0) / (28.0 - 17.0) * (28.0 - at))
    assert arms_share(found) == pytest.approx(
        moment * 1.5 / 5.0 / modulus(60.0, 8.0, THREE, THREE), rel=1e-6
    )


def test_a_bucket_rests_on_its_bail_however_wide_it_is() -> None:
    """The box below is 60 mm deep, the bail 16 mm, at 25 mm out: nothing rests 55 mm out."""
    plain = shelf(60.0, reach_mm=80.0, mass_kg=2.0)
    (seat,) = plain.seats
    tool = replace(
        seat.tool, envelope=(*seat.tool.envelope, block(-9.0, -30.0, -90.0, 9.0, 30.0, -40.0))
    )
    hung = replace(plain, seats=(replace(seat, tool=tool),))
    assert arms_share(loaded(hung)) == pytest.approx(arms_share(loaded(plain)))


def test_a_pull_meets_what_lies_ahead_however_far_above_its_rest() -> None:
    """An arm from z = 40 to 48 guides a tool that rests at 0: 80 N at its lower edge."""
    plain = shelf(60.0, mass_kg=0.0001)
    arm = plain.solid.moved(0.0, 0.0, 48.0)
    front = replace(plain, solid=arm, low_mm=40.0, high_mm=48.0, plate_high_mm=60.0)
    how = replace(STILL, pull_n=80.0)
    part = wall_screws.attach("test", front, how)
    shell = Shell("y", THREE, 0.9)
    found = Loaded(KERNEL.evaluate(part.solid), part, NOTHING, how, shell)
    area = 60.0 * 8.0 - (60.0 - 2 * THREE) * (8.0 - 2 * THREE)
    drawn = 80.0 / area + 80.0 * 4.0 / modulus(60.0, 8.0, THREE, THREE)
    assert arms_share(found) == pytest.approx(drawn / 8.0, rel=1e-4)


def framed(apart_mm: float) -> Loaded:
    """Return two arms 4 x 8 that a bar ties from 36 mm out to the end at 40, under a knock."""
    wide = 8.0 + apart_mm
    whole = shelf(wide, mass_kg=0.0001)
    gap = block(4.0, 5.0, -20.0, 4.0 + apart_mm, 36.0, 20.0)
    front = replace(whole, solid=Difference(whole.solid, (gap,)), plate_high_mm=40.0)
    return loaded(front, replace(STILL, knock_n=50.0))


@pytest.mark.parametrize(("apart_mm", "tied"), [(20.0, True), (10.0, False)])
def test_a_bar_ties_two_arms_that_a_knock_bends(apart_mm: float, *, tied: bool) -> None:
    """Half of 50 N each; (3 k + 1) / (6 k + 1) of it, k = length / distance, four thick apart."""
    found = framed(apart_mm)
    at = 5.05
    k = (40.0 - at) / (apart_mm + 4.0)
    part = (3 * k + 1) / (6 * k + 1) if tied else 1.0
    stress = 25.0 * part * (33.0 - at) / modulus(8.0, 4.0, THREE, THREE)
    assert arms_share(found) == pytest.approx(stress / 8.0, rel=1e-3)


def test_two_arms_above_each_other_that_meet_in_front_bear_a_knock_as_they_are_stiff() -> None:
    """Two arms 9 wide, 8 and 4 high: walls, and so stiffness sideways, by hand."""
    whole = shelf(9.0, mass_kg=0.0001)
    more = block(0.0, 0.0, 14.0, 9.0, 40.0, 18.0) | block(0.0, 36.0, -1.0, 9.0, 40.0, 15.0)
    both = replace(whole, solid=whole.solid | more, high_mm=18.0, plate_high_mm=40.0)
    found = loaded(both, replace(STILL, knock_n=50.0))
    strong, weak = (modulus(high, 9.0, THREE, THREE) for high in (8.0, 4.0))
    stress = 50.0 * (33.0 - 5.05) / (strong + weak)
    assert arms_share(found) == pytest.approx(stress / 8.0, rel=1e-3)


def test_the_inside_of_a_letter_carries_nothing() -> None:
    """A stub of 1 mm2 that ends 0.6 mm before the plate is no arm, wherever the cuts lie."""
    plain = shelf(60.0, mass_kg=2.0)
    stub = block(20.0, 0.0, 14.0, 21.0, 5.65, 15.0)
    with_stub = replace(plain, solid=plain.solid | stub, high_mm=15.0, plate_high_mm=40.0)
    plain = replace(plain, plate_high_mm=40.0)
    how = replace(STILL, pull_n=50.0)
    assert arms_share(loaded(with_stub, how)) == pytest.approx(arms_share(loaded(plain, how)))


@pytest.mark.parametrize("walls_mm", [0.9, THREE])
def test_a_column_bears_the_force_of_the_foot_with_its_walls_and_skins(walls_mm: float) -> None:
    """N = W e / 92 up to the top of the column, at -30: it was made for walls of 0.9 mm."""
    how = replace(STILL, rail_height_mm=95.0)
    found = loaded(shelf(100.0, reach_mm=60.0, mass_kg=3.0), how, walls_mm=walls_mm)
    foot = found.part.hanging.contact_z_mm - 92.0
    cuts = places_mm(foot + 1.0, found.part.hanging.contact_z_mm - back.UNDER_MM - 0.1, 14)
    highest = max(at for at in cuts if at < -30.0)
    force = 3.0 * G * 45.0 / 92.0
    # it was made for 0.05 kg more, 30 mm out, and for a foot at the rail's very edge, 3 mm lower
    made_for = (force + 0.05 * G * 30.0 / 92.0) * (-30.0 - foot + 3.0)
    thick = next(
        t / 1000.0
        for t in range(5000, 20000)
        if made_for / modulus(18.4, t / 1000.0, 0.9, 0.9) <= 10.0 / 1.5
    )
    stress = force * (highest - foot) / modulus(18.4, thick, walls_mm, 0.9)
    assert back_share(found) == pytest.approx(stress * 1.5 / 10.0, rel=2e-3)
    assert back_share(found) < 1.0


@pytest.mark.parametrize(("width_mm", "bears"), [(100.0, False), (280.0, True)])
def test_the_column_of_a_wide_holder_bears_the_foot_where_it_prints_upright(
    width_mm: float, *, bears: bool
) -> None:
    """Layers across the column bear half: 280 mm may not lie on the bed, 100 mm does."""
    how = replace(STILL, rail_height_mm=95.0)
    front = shelf(width_mm, reach_mm=60.0, mass_kg=3.0)
    assert (back_share(loaded(front, how, walls_mm=0.9, layers="z")) <= 1.0) is bears


def test_the_floor_of_a_guide_bears_its_bolt_solid() -> None:
    """145 N for years, (1 + 3 / 2.1) of it at the edge, 3 mm out: 9.6 of 10 N/mm2."""
    edge = 10.0 * 6.0 * 6.6**2 / 18.0 * (1.0 + 3.0 / 2.1)
    assert solid_floor_share() == pytest.approx(6.0 * edge * 3.0 / (5.0 * 11.5**2) / 10.0)
    hollow = 1.0 - (5.0 - 1.8) * (11.5 - 1.8) ** 3 / (5.0 * 11.5**3)
    assert floor_shell_share(0.9, 0.9) == pytest.approx(hollow)


@pytest.mark.parametrize(("share", "walls"), [(0.99, 2), (1.01, 3), (9.0, 4)])
def test_the_fewest_lines_that_bear_it_are_taken_and_no_more_than_the_printer_has(
    share: float, walls: int
) -> None:
    """The mass that loads two lines just so; three bear 1.2 times as much across the layers."""
    borne = 5.0 / 1.5 * modulus(60.0, 8.0, 0.9, 0.9) / G / (25.0 - 5.05)
    front = shelf(60.0, mass_kg=share * borne)
    part = wall_screws.attach("test", front, STILL)
    lines = LinesOf(2, 4, 0.45, 0.9)
    body = KERNEL.evaluate(part.solid)
    found = Run().need(WALLS_OF_PART, ToWall(str(share), body, part, NOTHING, STILL, "-y", lines))
    assert found.count == walls
    assert found.share is not None
    assert (found.share <= 1.0) == (walls < 4)


def test_a_part_that_bears_too_much_with_all_its_walls_does_not_hold(shed: Path) -> None:
    """Nothing else than the share of the section changes."""
    job = compute(shed)
    assert job.failing == ()
    (key, (name, made)), *_ = job.parts.items()
    printed = replace(job.production.by_key[key], walls=Walls(3, 1.28))
    others = dict(job.production.by_key) | {key: printed}
    heavy = replace(job, production=replace(job.production, by_key=others))
    (told,) = heavy.failing
    assert told.startswith(f"{name} ({made.mark}): most loaded section of its plastic: 1.28")
    assert "with 3 lines a wall" in told
    assert "give its printer more walls" in told
