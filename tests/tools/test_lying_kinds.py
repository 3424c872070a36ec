"""Long things, rolls, discs and planes: their grips against the mesh, their masses on paper."""

from __future__ import annotations

import math

import pytest
from tests.tools.ordinary import example

from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.parts.grips import Disc, LyingBar, Overhang, RollBore
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import circle
from cleatwright.shapes.rigid import Rigid, shift
from cleatwright.shapes.solid import Union, block, prism
from cleatwright.tools.registry import tool_body

LYING = ["level", "pole", "roll-stock", "spokeshave", "hand-plane"]
ROLLS = ["tape-roll", "roll-stock"]


def posed(body: ToolBody, pose: Rigid) -> MeshBody:
    return MeshKernel().evaluate(Union(body.envelope)).placed(pose)


@pytest.mark.parametrize("name", LYING)
def test_a_lying_bar_fills_its_section_and_nothing_else_of_the_tool_is_within_its_length(
    name: str,
) -> None:
    body = example(name)
    grip = body.needed_grip(LyingBar)
    kernel, tool = MeshKernel(), posed(body, grip.pose)
    half, y, z = grip.length_mm / 2, grip.depth_mm / 2, grip.height_mm
    around = kernel.evaluate(block(-half, -500.0, -500.0, half, 500.0, 500.0))
    within = kernel.evaluate(block(-half, -y, 0.0, half, y, z))
    assert tool.overlap_mm3(around) == pytest.approx(tool.overlap_mm3(within), rel=1e-6)
    for edge in (
        block(-half, -y, 0.0, half, y, 0.1),
        block(-half, -y, z - 0.1, half, y, z),
        block(-half, -y, 0.0, half, 0.1 - y, z),
        block(-half, y - 0.1, 0.0, half, y, z),
    ):
        assert tool.overlap_mm3(kernel.evaluate(edge)) > 0.0


@pytest.mark.parametrize("name", ROLLS)
def test_the_bore_of_a_roll_is_free_and_touched_at_its_top(name: str) -> None:
    body = example(name)
    grip = body.needed_grip(RollBore)
    kernel, tool = MeshKernel(), posed(body, grip.pose)
    peg = prism(circle(grip.bore_mm - 1e-3), 2 * grip.width_mm).turned("y", 90.0)
    assert tool.overlap_mm3(kernel.evaluate(peg.moved(-grip.width_mm))) == pytest.approx(0.0)
    low, high = tool.facts.bounds_mm
    assert low == pytest.approx((-grip.width_mm / 2, -grip.outer_mm / 2, -grip.outer_mm / 2))
    assert high == pytest.approx((grip.width_mm / 2, grip.outer_mm / 2, grip.outer_mm / 2))
    above = block(-1.0, -0.1, grip.bore_mm / 2, 1.0, 0.1, grip.bore_mm / 2 + 0.5)
    assert tool.overlap_mm3(kernel.evaluate(above)) == pytest.approx(2.0 * 0.2 * 0.5, rel=1e-6)


@pytest.mark.parametrize("bore", [0.0, 20.0, 60.0])
def test_a_disc_stands_on_edge_about_the_origin(bore: float) -> None:
    body = example("sanding-disc", bore=bore)
    grip = body.needed_grip(Disc)
    low, high = posed(body, grip.pose).facts.bounds_mm
    assert low == pytest.approx((-1.5, -75.0, -75.0), abs=0.02)
    assert high == pytest.approx((1.5, 75.0, 75.0), abs=0.02)


def test_a_broom_hangs_by_its_head_and_a_bare_pole_does_not() -> None:
    grip = example("pole").needed_grip(Overhang)
    assert (grip.z_mm, grip.neck_x_mm, grip.head_x_mm) == (1210.0, 25.0, 280.0)
    bare = tool_body("pole", {"length": 1300.0, "handle": 25.0})
    assert bare.grip(Overhang) is None
    assert bare.com_mm == pytest.approx((0.0, 0.0, 650.0), abs=1e-6)


def test_a_steel_disc_weighs_what_its_ring_holds() -> None:
    """Pi / 4 (D^2 - d^2) t at 7850 kg/m3; 16 chords make the bore a little smaller."""
    body = example("sanding-disc", diameter=300.0, thickness=3.0, bore=30.0)
    chords = math.sin(math.pi / 8) / (math.pi / 8)
    ring = math.pi / 4 * (300.0**2 - chords * 30.0**2) * 3.0
    assert body.mass_kg == pytest.approx(ring * 7850e-9, rel=1e-9)


def test_a_round_wooden_pole_weighs_its_cylinder() -> None:
    bare = tool_body("pole", {"length": 1000.0, "handle": 20.0})
    assert bare.mass_kg == pytest.approx(math.pi / 4 * 0.02**2 * 1.0 * 720.0, rel=1e-9)


def test_shifting_a_tool_along_the_wall_keeps_its_grip_in_place() -> None:
    grip = example("level").needed_grip(LyingBar)
    (x0, _, z0), (x1, _, z1) = posed(example("level"), grip.pose.then(shift(10.0))).facts.bounds_mm
    assert (x0, x1, z0, z1) == pytest.approx((-290.0, 310.0, 0.0, 50.0))
