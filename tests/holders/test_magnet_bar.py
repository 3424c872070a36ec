"""Magnet bars: pockets, skins, ledges and the count of discs; hand-made flat steel tools."""

from __future__ import annotations

import math

import pytest
from hypothesis import strategies as st
from tests.holders.trial import Trial

from cleatwright.base.errors import DesignError
from cleatwright.base.lengths import Wording
from cleatwright.base.said import in_mm
from cleatwright.design.building import build
from cleatwright.design.proving import trial_recipe
from cleatwright.holders.families.magnet_bar.family import FAMILY
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.pack.hardware import hardware_table
from cleatwright.parts.grips import Blade, Grip, SteelFace
from cleatwright.parts.tool import GRAVITY_M_S2, ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid, block
from cleatwright.statics.disc_magnet import derated_pull_n


def bar(
    length_mm: float,
    width_mm: float = 20.0,
    *,
    thick_mm: float = 4.0,
    bump_mm: float = 0.0,
    sharp: bool = False,
) -> ToolBody:
    """Return a steel bar; a bump at its lower end reaches further to the wall than its face."""
    x, y = width_mm / 2, thick_mm / 2
    envelope: list[Solid] = [block(-x, -y, 0.0, x, y, length_mm)]
    low = 0.0
    if bump_mm:
        low = 10.0
        envelope.append(block(-x, -y - bump_mm, 0.0, x, y, low))
    grips: list[Grip] = [SteelFace(-y, low, length_mm, width_mm, thick_mm)]
    if sharp:
        grips.append(Blade(30.0, 30.0, width_mm / 2, thick_mm / 2, width_mm, thick_mm))
    mass = length_mm * width_mm * thick_mm * 7.85e-6
    centre = (0.0, 0.0, length_mm / 2)
    return ToolBody("bar", "x", tuple(envelope), mass, centre, tuple(grips), width_mm)


MIXED = (bar(60.0), bar(120.0, 12.0, bump_mm=2.0), bar(150.0, sharp=True), bar(200.0, 8.0))


TRIAL = Trial(
    FAMILY,
    st.builds(
        bar,
        st.floats(60.0, 300.0),
        st.floats(5.0, 30.0),
        thick_mm=st.floats(0.8, 5.0),
        bump_mm=st.just(0.0) | st.floats(0.5, 8.0),
        sharp=st.booleans(),
    ),
    groups=(MIXED[:1], MIXED),
    refused=tuple(
        (odd, "its steel face")
        for odd in (bar(100.0, 3.0), bar(100.0, thick_mm=0.4), bar(300.0, 30.0, thick_mm=30.0))
    ),
)


def test_a_disc_slides_in_from_above_and_lies_behind_the_skin(kernel: MeshKernel) -> None:
    """A box of 10 by 3 mm with 0.1 mm of play all round passes down to the round bottom."""
    front = TRIAL.front(bar(80.0))
    x, face = front.seats[0].pose.shift_mm[0], front.seats[0].pose.shift_mm[1] - 2.0
    body = kernel.evaluate(front.solid)
    y1 = face - 0.9 - 0.1
    disc = kernel.evaluate(block(x - 5.1, y1 - 3.1, 2.0 + 5.15, x + 5.1, y1, 99.0))
    assert body.overlap_mm3(disc) == 0.0
    skin = kernel.evaluate(block(x - 4.0, face - 0.9, 3.0, x + 4.0, face, 12.0))
    assert body.overlap_mm3(skin) == pytest.approx(8.0 * 0.9 * 9.0, rel=1e-6)


def test_volume_of_one_pad_in_closed_form(kernel: MeshKernel) -> None:
    """A block less a pocket with a round bottom, on a wedge; a long tool has no ledge."""
    front = TRIAL.front(bar(220.0, 8.0))
    count = front.hardware[0].count
    height, width, deep = 2.0 + 10.0 * count + 0.3 + 1.0, 10.3 + 4.0, 3.0 + 0.3 + 0.9
    pocket = (height - 2.0 - 5.15) * 10.3 + math.pi * 5.15**2 / 2
    solid = width * (5.0 + deep) * height - pocket * 3.3 + width * (deep**2 / 2 + deep * 5.0)
    assert kernel.evaluate(front.solid).facts.volume_mm3 == pytest.approx(solid, rel=5e-4)


def test_a_long_or_sharp_tool_gets_as_many_discs_as_friction_asks_for() -> None:
    """Two times the weight over a friction of 0.2, in whole discs."""
    one = derated_pull_n(10.0, 3.0, gap_mm=1.2, steel_mm=4.0, width_mm=20.0)
    for body in (bar(210.0), bar(120.0, sharp=True)):
        front = TRIAL.front(body)
        needed = math.ceil(2 * body.mass_kg * GRAVITY_M_S2 / 0.2 / one)
        assert front.hardware[0].count == needed


def test_a_short_blunt_tool_stands_on_a_ledge_and_a_sharp_one_on_nothing(
    kernel: MeshKernel,
) -> None:
    for sharp, stands in ((False, True), (True, False)):
        front = TRIAL.front(bar(100.0, sharp=sharp))
        tool = kernel.evaluate(front.seats[0].envelope()[0]).placed(shift(0.0, 0.0, -1.0))
        assert (kernel.evaluate(front.solid).overlap_mm3(tool) > 1.0) is stands


def test_the_pull_acts_at_the_balance_point_or_above_it() -> None:
    front = TRIAL.front(*MIXED)
    for seat in front.seats:
        assert seat.magnet is not None
        assert seat.magnet.lever_mm >= seat.com_mm[2] - 1e-9


def test_the_list_of_things_to_buy_counts_discs_and_warns() -> None:
    (item,) = TRIAL.front(*MIXED).hardware
    assert "10 x 3 mm" in in_mm(item.name)
    for word in ("pacemakers", "swallowed", "children", "splinter"):
        assert word in item.note


def test_a_tool_too_heavy_for_the_chosen_discs_is_refused() -> None:
    heavy = bar(300.0, 30.0, thick_mm=30.0)
    with pytest.raises(DesignError, match="no stack of these discs"):
        TRIAL.front(heavy, params={"disc_height_mm": 3.0, "skin_mm": 1.2})


def test_the_program_checks_the_magnets_and_adds_up_what_has_to_be_bought(
    kernel: MeshKernel,
) -> None:
    """Two equal holders ask for twice the discs, in one row of the list."""
    built = build(trial_recipe(FAMILY.name, "flat-wrench", (0.8, 1.2)), kernel)
    names = {check.name for check in built.contract}
    assert {"held against tipping out", "carried by friction", "carried"} <= names
    table = hardware_table(2 * built.part.hardware, Wording())
    (row,) = [row for row in table.rows if "disc magnet" in row[0]]
    assert int(row[1]) == 2 * built.part.hardware[0].count
