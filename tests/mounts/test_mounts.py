"""Mounts against the geometry of the rail they hang on and published hole sizes."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, reject, settings
from hypothesis import strategies as st
from tests.mounts.sections import fitted
from tests.mounts.shelf import assert_whole, rail, shelf

from cleatwright.base.errors import DesignError, RailHoldError, UnknownNameError
from cleatwright.base.said import in_mm
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import french_cleat, wall_screws
from cleatwright.mounts.registry import MOUNTS, mount
from cleatwright.parts.holder import Front, HolderPart
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block
from cleatwright.standards.fasteners.nds_screws import WoodAround, lateral_n, metric_dowel
from cleatwright.statics.cleat import OwnWeight

KERNEL = MeshKernel()


SETTINGS = st.builds(
    MountSettings,
    plate_mm=st.floats(3.0, 10.0),
    rail_thickness_mm=st.floats(12.0, 30.0),
    rail_height_mm=st.floats(60.0, 120.0),
    bevel_deg=st.floats(30.0, 55.0),
    margin=st.floats(1.0, 3.0),
    drag=st.floats(0.0, 0.3),
)


def on_cleat(front: Front, how: MountSettings) -> HolderPart:
    """Return a part on a rail that takes one: not so thin and high that a bolt captures nothing."""
    try:
        return french_cleat.attach("test", front, how)
    except RailHoldError:
        assert how.rail_thickness_mm < 18.0
        reject()


@settings(max_examples=40, deadline=None)
@given(how=SETTINGS, reach_mm=st.floats(25.0, 120.0), width_mm=st.floats(20.0, 250.0))
def test_a_part_touches_its_rail_but_never_overlaps_it(
    how: MountSettings, reach_mm: float, width_mm: float
) -> None:
    """Hung up, nothing of it and the rail share volume; 0.5 mm lower its hangers do, on the bevel.

    What a bolt does under a rail of just that height is asked apart.
    """
    part = on_cleat(shelf(width_mm, reach_mm=reach_mm), how)
    wood = KERNEL.evaluate(rail(part, how, length_mm=1000.0))
    hangers = [fitted(one, KERNEL) for one in part.fittings if one.name == "hanger"]
    for body in (assert_whole(part), *hangers):
        assert body.overlap_mm3(wood) < 1e-3
    for body in hangers:
        assert body.placed(shift(0.0, 0.0, -0.5)).overlap_mm3(wood) > 0.0


@pytest.mark.parametrize("plate_mm", [2.0, 3.0, 4.9, 5.0, 8.0, 20.0])
@pytest.mark.parametrize("width_mm", [15.0, 19.5, 40.0, 250.0])
def test_a_plate_of_any_thickness_is_whole(plate_mm: float, width_mm: float) -> None:
    """The bounds of the document and of the widths of hangers, each with its neighbours."""
    how = MountSettings(plate_mm=plate_mm)
    for height in (-30.0, -150.0):
        assert_whole(french_cleat.attach("test", shelf(width_mm, low_mm=height), how))


@settings(max_examples=25, deadline=None)
@given(how=SETTINGS, reach_mm=st.floats(25.0, 150.0))
def test_the_part_lifts_off_and_swings_in_from_the_front(
    how: MountSettings, reach_mm: float
) -> None:
    """Lifted by the hook's fall it clears the rail's edge and comes straight to the front."""
    part = on_cleat(shelf(80.0, reach_mm=reach_mm), how)
    hangers = [fitted(one, KERNEL) for one in part.fittings if one.name == "hanger"]
    wood = KERNEL.evaluate(rail(part, how))
    fall = how.rail_thickness_mm * math.tan(math.radians(how.bevel_deg))
    for body in (KERNEL.evaluate(part.solid), *hangers):
        for step in range(1, 9):
            lifted = body.placed(shift(0.0, 0.0, fall * step / 8))
            assert lifted.overlap_mm3(wood) < 1e-3
        out = body.placed(shift(0.0, how.rail_thickness_mm, fall))
        assert out.overlap_mm3(wood) < 1e-3


def test_a_rail_too_thin_for_a_hook_is_refused() -> None:
    with pytest.raises(DesignError, match="leaves no room for a hook"):
        french_cleat.attach("test", shelf(80.0), MountSettings(rail_thickness_mm=5.0))


@pytest.mark.parametrize(
    ("width_mm", "count"),
    [(20.0, 2), (60.0, 2), (110.0, 2), (120.0, 4), (200.0, 6), (220.0, 6), (240.0, 8)],
)
def test_screw_holes_grow_in_number_with_the_plate(width_mm: float, count: int) -> None:
    """Two rows, one screw in the middle up to 110 mm, then one at least every 110 mm (a choice)."""
    part = wall_screws.attach("test", shelf(width_mm), MountSettings())
    body = KERNEL.evaluate(part.solid)
    assert part.hardware[0].count == count
    assert body.facts.genus == part.genus == count


def test_a_screw_hole_takes_the_published_clearance_and_head() -> None:
    """ISO 273:1979 Table 1, M4 medium: 4.5 mm; head of a chipboard screw 2 d (from memory)."""
    part = wall_screws.attach("test", shelf(80.0), MountSettings())
    body = KERNEL.evaluate(part.solid)
    high = part.bounds_mm[1][2]
    pins = {d: block(-d / 4, -1.0, -d / 4, d / 4, 6.0, d / 4) for d in (4.5, 8.0)}
    strip = wall_screws.countersink_mm(4.0) + 2 * wall_screws.RIM_MM
    at = shift(part.bounds_mm[1][0] / 2, 0.0, high - strip / 2)
    pin = KERNEL.evaluate(pins[4.5].placed(at))
    assert body.overlap_mm3(pin) == pytest.approx(0.0, abs=1e-6)
    mouth = KERNEL.evaluate(block(-4.0, 4.9, -0.1, 4.0, 5.0, 0.1).placed(at))
    assert body.overlap_mm3(mouth) < 1e-6


def test_an_unknown_mount_is_named_with_its_nearest() -> None:
    with pytest.raises(UnknownNameError, match='Did you mean "french-cleat"'):
        mount("french-clear")
    assert set(MOUNTS) == {
        "french-cleat",
        "wall-screws",
        "perforated-board",
        "slotted-board",
        "slotwall",
        "t-slot",
    }


@settings(max_examples=40, deadline=None)
@given(
    mass_kg=st.floats(0.1, 60.0),
    reach_mm=st.floats(25.0, 150.0),
    width=st.floats(40.0, 250.0),
    lining=st.sampled_from((0.0, 12.5, 25.0)),
)
def test_screws_grow_with_the_load_and_carry_it_through_the_lining(
    mass_kg: float, reach_mm: float, width: float, lining: float
) -> None:
    """NDS 2018, 12.4-1 by hand: P (W' cos² + Z' sin²) / (W' Z') <= 1, W' and Z' of the standard.

    W' = 2850 G² D a inch of thread (12.2-2), Z' the least mode over R_d (12.3.1A with the gap of
    Technical Report 12), both times 0.9 (Table 2.3.2); two rows: weight / 2n along, moments out.
    """
    heavy = shelf(width, mass_kg=mass_kg, reach_mm=reach_mm)
    how = MountSettings(lining_mm=lining, drag=0.0)
    try:
        part = wall_screws.attach("test", heavy, how)
    except DesignError:
        assert mass_kg > 1.0
        return
    (bought,) = part.hardware
    diameter, length = (float(word) for word in in_mm(bought.name).split()[3:6:2])
    n, load = bought.count / 2, mass_kg * 9.80665
    deep = length - how.plate_mm - lining
    assert deep >= 6.0 * diameter - 1e-9
    strip = 2 * diameter + 0.4 + 6.0
    apart = (part.bounds_mm[1][2] - part.bounds_mm[0][2]) - strip
    along, out = load / (2 * n), load * (reach_mm - 15.0) / (n * apart)
    thread = min(deep, 0.6 * length)
    pull = 0.9 * 2850.0 * 0.42**2 * diameter / 25.4 * thread / 25.4 * 4.448222
    bed = WoodAround(how.plate_mm, deep, 0.42, 0.42, lining)
    least = 0.9 * lateral_n(metric_dowel(diameter), bed)
    assert along <= least * 1.0001
    assert out <= pull * 1.0001
    both = math.hypot(along, out)
    lean = math.atan2(out, along)
    allowed = pull * least / (pull * math.cos(lean) ** 2 + least * math.sin(lean) ** 2)
    assert both <= allowed * 1.0001
    assert KERNEL.evaluate(part.solid).facts.genus == part.genus == bought.count


def test_a_thicker_lining_takes_longer_and_stronger_screws() -> None:
    """8 kg on 110 mm: the lining alone decides, as the yield modes with a gap fall with it."""
    names = [
        wall_screws.attach("test", shelf(110.0, mass_kg=8.0), MountSettings(lining_mm=lining))
        .hardware[0]
        .name
        for lining in (0.0, 12.5, 25.0)
    ]
    assert len(set(names)) == 3


def test_the_own_weight_of_a_part_counts_on_its_screws() -> None:
    light = wall_screws.attach("test", shelf(80.0, mass_kg=1.0), MountSettings())
    own = MountSettings().loaded(OwnWeight(30.0, 20.0))
    heavy = wall_screws.attach("test", shelf(200.0, mass_kg=1.0), own)
    assert heavy.hardware[0].name != light.hardware[0].name or (
        heavy.hardware[0].count > light.hardware[0].count
    )
