"""Forks for heads over necks; every oracle is a closed form or a predicate of the mesh."""

from __future__ import annotations

import math

import pytest
from hypothesis import strategies as st
from tests.holders.trial import HalfPlay, Trial

from cleatwright.holders.families.fork import FAMILY
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.grips import Overhang
from cleatwright.parts.tool import Fit, ToolBody
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import block


def headed(
    neck_mm: float, overhang_mm: float, *, head_y_mm: float = 27.0, share: float = 0.7
) -> ToolBody:
    """Return a box head 30 high on a box neck 200 long; ``share`` is neck over head along y."""
    x, y, n = neck_mm / 2 + overhang_mm, head_y_mm / 2, neck_mm / 2
    envelope = (
        block(-x, -y, 200.0, x, y, 230.0),
        block(-n, -y * share, 0.0, n, y * share, 200.0),
    )
    grip = Overhang(200.0, neck_mm, head_y_mm * share, 200.0, neck_mm, 2 * x, head_y_mm)
    return ToolBody("headed", "x", envelope, 0.8, (0.0, 0.0, 190.0), (grip,), 2 * x)


TRIAL = Trial(
    FAMILY,
    st.builds(
        headed,
        st.floats(6.0, 60.0),
        st.floats(6.0, 100.0),
        head_y_mm=st.floats(10.0, 90.0),
        share=st.floats(0.4, 1.0),
    ),
    groups=tuple(
        tuple(headed(neck, neck) for neck in necks)
        for necks in ((22.0,), (6.0, 30.0, 12.0, 60.0, 8.0, 20.0, 15.0))
    ),
    guided=(HalfPlay(headed(22.0, 40.0), pieces=(1,)),),
    held=(headed(22.0, 6.0),),
    refused=((headed(22.0, 5.5), "only 5.5 mm"),),
)


def test_the_head_has_half_the_play_before_the_lips(kernel: MeshKernel) -> None:
    """Lifted by 2 mm, its lower front edge is (play / 2 + 2) / sqrt 2 from a face at 45 degrees."""
    part = TRIAL.on_rail(headed(22.0, 40.0), fit=Fit(0.6))
    head = kernel.evaluate(part.seats[0].envelope()[0]).placed(shift(0.0, 0.0, 2.0))
    gap = kernel.evaluate(part.solid).gap_mm(head, within_mm=5.0)
    assert gap == pytest.approx((0.3 + 2.0) / math.sqrt(2.0), abs=1e-6)


def test_a_prong_bears_no_more_than_12_mm_and_never_stands_out_beside_the_head() -> None:
    for overhang, bearing in ((40.0, 12.0), (6.0, 6.0 - 0.2)):
        front = TRIAL.front(headed(22.0, overhang))
        assert front.width_mm == pytest.approx(max(40.0, 22.4 + 2 * bearing + 6.0))


def test_volume_of_one_fork_in_closed_form(kernel: MeshKernel) -> None:
    """Prongs 12 wide and 8 high, lips 4 high and 3 thick on top, the mouth's corners cut off.

    The slot and the room between the webs end 1 mm behind the front of the plate.
    """
    front = TRIAL.front(headed(22.0, 40.0, head_y_mm=29.5), fit=Fit(0.5))
    lip_y, back = 5.0 + 1.0 + 30.0, 5.0 - 1.0
    end, run = lip_y + 4.0 + 3.0, lip_y - 5.0
    in_plate = (22.5 + 2 * 12.0) * back * (8.0 + run)
    lip = 3.0 * 4.0 + 4.0**2 / 2
    prong = 12.0 * ((end - back) * 8.0 + lip) - 2.0**2 / 2 * (8.0 + 4.0)
    web = 4.0 * (run**2 / 2 + run * (5.0 - back))
    cove = (12.0 - 4.0) * (3.0 + 5.0 - back) ** 2 / 2
    measured = kernel.evaluate(front.solid).facts.volume_mm3
    assert measured == pytest.approx(in_plate + 2 * (prong + web + cove), rel=1e-6)


def test_a_neck_that_goes_on_below_the_webs_may_swell_as_it_likes(kernel: MeshKernel) -> None:
    """A cross piece 300 mm wide, 80 mm below the head, passes under the webs on its way out."""

    def crossed(neck_length_mm: float) -> ToolBody:
        under = 200.0 - neck_length_mm
        envelope = (
            block(-15.0, -15.0, 200.0, 15.0, 15.0, 300.0),
            block(-4.0, -4.0, under, 4.0, 4.0, 200.0),
            block(-150.0, -20.0, 0.0, 150.0, 20.0, under),
        )
        grip = Overhang(200.0, 8.0, 8.0, neck_length_mm, 300.0, 30.0, 30.0)
        return ToolBody("crossed", "x", envelope, 0.3, (0.0, 0.0, 150.0), (grip,), 30.0)

    assert FAMILY.why_not(crossed(80.0)) is None
    assert "no room for webs" in (FAMILY.why_not(crossed(40.0)) or "")
    part = TRIAL.part(crossed(80.0))
    seat = part.seats[0]
    body = kernel.evaluate(part.solid)
    for move in ((0.0, 0.0, 5.0), seat.way_out[0]):
        pieces = [kernel.evaluate(piece).placed(shift(*move)) for piece in seat.envelope()]
        assert sum(body.overlap_mm3(piece) for piece in pieces) < 1e-6
