"""Square posts for sockets; oracles are closed forms, a standard and predicates of the mesh."""

from __future__ import annotations

import pytest
from hypothesis import strategies as st
from tests.holders.trial import HalfPlay, Trial

from cleatwright.holders.families.square_post_rail import FAMILY
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.grips import SquareDrive
from cleatwright.parts.tool import Fit, ToolBody
from cleatwright.shapes.solid import block
from cleatwright.tools.registry import tool_body

# ISO 1174-1 = DIN 3120, the least and the largest female square (from memory)
FEMALE_MM = {"6.3": (6.41, 6.63), "10": (9.58, 9.80), "12.5": (12.76, 13.03), "20": (19.11, 19.44)}


def box_socket(square_mm: float, wall_mm: float = 4.0, depth_mm: float = 15.0) -> ToolBody:
    """Return a square socket of four walls with a lid."""
    a, b, d = square_mm / 2, square_mm / 2 + wall_mm, depth_mm
    envelope = (
        block(-b, -b, 0.0, b, -a, d),
        block(-b, a, 0.0, b, b, d),
        block(-b, -a, 0.0, -a, a, d),
        block(a, -a, 0.0, b, a, d),
        block(-b, -b, d, b, b, 2 * d),
    )
    grip = SquareDrive(0.0, square_mm, depth_mm, 2 * b)
    return ToolBody("socket", "x", envelope, 0.1, (0.0, 0.0, d), (grip,), 2 * b)


TRIAL = Trial(
    FAMILY,
    st.builds(box_socket, st.floats(6.0, 26.0), st.floats(1.0, 30.0), st.floats(6.0, 40.0)),
    groups=tuple(
        tuple(box_socket(size) for size in squares)
        for squares in ((6.35,), (6.0, 25.0, 9.53, 12.7, 19.05))
    ),
    guided=(HalfPlay(box_socket(12.7), pieces=(0, 1, 2, 3), raised_mm=2.0),),
    held=(box_socket(6.0, 1.0, 6.0),),
    refused=(
        (box_socket(5.5), "would snap"),
        (box_socket(12.7, depth_mm=5.0), "5 mm deep only"),
    ),
)


@pytest.mark.parametrize("name", FEMALE_MM)
def test_a_post_goes_into_the_narrowest_driving_square_of_iso_1174_and_stays_in_the_widest(
    name: str,
) -> None:
    narrow, wide = FEMALE_MM[name]
    (size,) = TRIAL.part(box_socket(narrow), fit=Fit(0.3, 0.1)).sizes
    assert size.label == "square post"
    assert size.made_mm == pytest.approx(narrow - 0.4)
    # a square of the same name turns by less than an eighth about its post
    assert wide < size.made_mm * 2**0.5 * 0.95


def test_the_volume_of_a_post_is_that_of_a_prism_and_a_frustum(kernel: MeshKernel) -> None:
    """12.2 mm square, 12 mm high (0.8 of 15), chamfered by 1 mm: all of it above the shelf."""
    front = TRIAL.front(box_socket(12.7), fit=Fit(0.5))
    above = block(0.0, 0.0, 0.0, front.width_mm, front.reach_mm, 30.0)
    volume = kernel.evaluate(front.solid).overlap_mm3(kernel.evaluate(above))
    a, b = 12.2**2, 10.2**2
    assert volume == pytest.approx(a * 11.0 + (a + b + (a * b) ** 0.5) / 3, rel=1e-6)


def test_sockets_stand_apart_by_the_gap_whatever_their_widths() -> None:
    walls = (3.0, 10.0, 5.0)
    part = TRIAL.part(*(box_socket(9.5, w) for w in walls), params={"gap_mm": 6.0})
    xs = [seat.pose.apply((0.0, 0.0, 0.0))[0] for seat in part.seats]
    assert xs[1] - xs[0] == pytest.approx(9.5 + 13.0 + 6.0)
    assert xs[2] - xs[1] == pytest.approx(9.5 + 15.0 + 6.0)


def test_a_socket_kind_is_hollow_around_its_square_and_weighs_its_ring(kernel: MeshKernel) -> None:
    """Circle less square over the depth, half of the circle above it, steel of 7850 kg/m3."""
    body = tool_body("socket", {"outer": 22.0, "length": 38.0, "square": 12.7, "depth": 16.0})
    circle = 3.141592653589793 / 4 * 22.0**2
    volume = (circle - 12.7**2) * 16.0 + 0.5 * circle * 22.0
    assert body.mass_kg == pytest.approx(volume * 7.85e-6, rel=1e-9)
    post = kernel.evaluate(block(-6.35, -6.35, -1.0, 6.35, 6.35, 16.0))
    assert sum(kernel.evaluate(s).overlap_mm3(post) for s in body.envelope) < 1e-6
