"""Joints: a holder slides into its carrier, rests in it and stays in it, on every mount."""

from __future__ import annotations

import math
from collections.abc import Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.mounts.shelf import assert_whole, shelf

from cleatwright.base.errors import DesignError, UnknownNameError
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.carrier import CarrierParams
from cleatwright.mounts.joints.dovetail import DovetailParams
from cleatwright.mounts.joints.joint import CarrierFront
from cleatwright.mounts.joints.registry import JOINTS, joint
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.registry import MOUNTS
from cleatwright.parts.holder import HolderPart
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block
from cleatwright.standards.fasteners.iso_273 import clearance_hole_mm
from cleatwright.standards.fasteners.iso_4032 import HEX_NUTS

KERNEL = MeshKernel()
SETTINGS = MountSettings()


def plugged(name: str, widths: Sequence[float], heights: Sequence[float]) -> list[HolderPart]:
    chosen = JOINTS[name]
    fronts = [shelf(w, high_mm=h) for w, h in zip(widths, heights, strict=True)]
    return [chosen.plug("test", one, SETTINGS, chosen.params()) for one in fronts]


def on_carrier(
    name: str, parts: Sequence[HolderPart], mount: str, params: CarrierParams
) -> tuple[CarrierFront, HolderPart, MeshBody]:
    chosen, hung = JOINTS[name], MOUNTS[mount]
    made = chosen.carrier(parts, SETTINGS, chosen.params(), params)
    part = hung.attach("carrier", made.front, SETTINGS, hung.params(**dict(hung.example)))
    return made, part, KERNEL.evaluate(part.solid)


@pytest.mark.parametrize("mount", sorted(MOUNTS))
@pytest.mark.parametrize("name", sorted(JOINTS))
@settings(max_examples=6, deadline=None)
@given(
    sizes=st.lists(st.tuples(st.floats(22.0, 130.0), st.floats(0.0, 40.0)), min_size=1, max_size=3),
    screws=st.integers(0, 2),
    pins=st.integers(0, 1),
)
def test_holders_of_any_width_rest_on_one_carrier_of_each_mount(
    name: str, mount: str, sizes: list[tuple[float, float]], screws: int, pins: int
) -> None:
    parts = plugged(name, [w for w, _ in sizes], [h for _, h in sizes])
    params = CarrierParams(screw_count=screws, pin_count=pins)
    made, part, body = on_carrier(name, parts, mount, params)
    assert_whole(part)
    last = -math.inf
    for one, offset in zip(parts, made.offsets_mm, strict=True):
        seated = assert_whole(one).placed(shift(*offset))
        assert seated.overlap_mm3(body) < 0.5
        assert offset[0] >= max(last, 0.0)
        last = offset[0] + one.bounds_mm[1][0]
    assert last <= part.bounds_mm[1][0] + 1e-9
    assert part.load_kg == pytest.approx(0.5 * len(sizes))


@pytest.mark.parametrize("width_mm", [30.0, 120.0])
def test_a_dovetail_lifts_out_rests_and_does_not_come_off_to_the_front(width_mm: float) -> None:
    parts = plugged("dovetail", [width_mm], [20.0])
    made, _, body = on_carrier("dovetail", parts, "french-cleat", CarrierParams(pin_count=0))
    seated = KERNEL.evaluate(parts[0].solid).placed(shift(*made.offsets_mm[0]))
    for lift in (0.5, 5.0, 20.0, 40.0, 60.0):
        assert seated.placed(shift(0.0, 0.0, lift)).overlap_mm3(body) < 0.5, "it jams"
    assert seated.placed(shift(0.0, 0.0, -0.5)).overlap_mm3(body) > 0.5, "nothing carries it"
    # the play lets the tongue come forward by play / (2 tan 14 degrees) = 0.6 mm, and no more
    free = DovetailParams().play_mm / (2 * math.tan(math.radians(14.0)))
    assert seated.placed(shift(0.0, free - 0.05, 0.2)).overlap_mm3(body) < 0.5
    assert seated.placed(shift(0.0, free + 0.4, 0.2)).overlap_mm3(body) > 0.5, "it falls off"


@settings(max_examples=20, deadline=None)
@given(
    bit=st.floats(9.5, 25.4),
    depth=st.floats(5.0, 10.0),
    tongue=st.floats(20.0, 120.0),
    play=st.floats(0.1, 0.8),
)
def test_a_groove_takes_what_the_router_bit_takes(
    bit: float, depth: float, tongue: float, play: float
) -> None:
    """A groove of a 14-degree bit is a trapezium: its area follows from bit and depth alone."""
    chosen = JOINTS["dovetail"]
    p = DovetailParams(bit_mm=bit, depth_mm=depth, tongue_mm=tongue, play_mm=play)
    mouth = bit - 2 * depth * math.tan(math.radians(14.0))
    if mouth - play < 4.0:
        with pytest.raises(DesignError, match="shears off"):
            chosen.plug("test", shelf(60.0, high_mm=90.0), SETTINGS, p)
        return
    part = chosen.plug("test", shelf(60.0, high_mm=90.0), SETTINGS, p)
    made = chosen.carrier([part], SETTINGS, p, CarrierParams(pin_count=0))
    body = KERNEL.evaluate(made.front.solid)
    low, high = body.facts.bounds_mm
    plain = (high[0] - low[0]) * (high[1] - low[1]) * (high[2] - low[2])
    interface = part.interfaces[0]
    length = 90.0 - interface.low_mm
    area = depth * (bit + mouth) / 2
    # the ramp at 45 degrees leaves the wedge below: the first moment of the trapezium
    moment = depth**2 * (mouth + 2 * bit) / 6
    assert plain - body.facts.volume_mm3 == pytest.approx(area * length - moment, rel=1e-3)


def test_bolts_go_through_both_parts_in_line_and_end_in_their_nuts() -> None:
    parts = plugged("bolted", [60.0, 90.0], [0.0, 15.0])
    made, part, body = on_carrier("bolted", parts, "wall-screws", CarrierParams())
    hole = clearance_hole_mm("M4", "medium")
    nut = HEX_NUTS.value("M4", "height_max_mm")
    thick = made.offsets_mm[0][1]
    for one, (dx, dy, dz) in zip(parts, made.offsets_mm, strict=True):
        holder = KERNEL.evaluate(one.solid).placed(shift(dx, dy, dz))
        for at in one.interfaces:
            x, z = dx + at.x_mm, dz + at.low_mm
            side = hole / 2 / math.sqrt(2.0) - 0.05
            bolt = block(x - side, -5.0, z - side, x + side, thick + 8.0, z + side)
            probe = KERNEL.evaluate(bolt)
            assert holder.overlap_mm3(probe) < 1e-6
            assert body.overlap_mm3(probe) < 1e-6
            # the nut sits behind at least 3 mm of material
            behind = KERNEL.evaluate(
                block(x + 3.0, nut + 0.4, z - 0.5, x + 3.4, thick - 0.1, z + 0.5)
            )
            assert body.overlap_mm3(behind) == pytest.approx(behind.facts.volume_mm3, rel=1e-6)
    bolts = sum(len(one.interfaces) for one in parts)
    assert sum(h.count for h in part.hardware if "nut" in h.name) == bolts
    assert part.hanging.mount == "wall-screws"


def test_a_carrier_too_narrow_for_its_holders_or_screws_says_what_it_takes() -> None:
    parts = plugged("dovetail", [80.0, 90.0], [0.0, 0.0])
    chosen = JOINTS["dovetail"]
    with pytest.raises(DesignError, match="at least 174 mm"):
        chosen.carrier(parts, SETTINGS, chosen.params(), CarrierParams(width_mm=120.0))
    with pytest.raises(DesignError, match="have no room"):
        chosen.carrier(parts[:1], SETTINGS, chosen.params(), CarrierParams(screw_count=12))


def test_one_piece_is_no_joint_and_an_unknown_one_is_named() -> None:
    assert joint("one-piece") is None
    with pytest.raises(UnknownNameError, match="dovetail"):
        joint("dovetails")
