"""Prisms that are cut in the plane, and rows of prisms, against closed forms in both kernels."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from cleatwright.base.errors import KernelError
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.shapes.outline import circle, hexagon, rectangle
from cleatwright.shapes.solid import CutPrism, Difference, PrismRow, Solid, Union, block, prism

PLATE = rectangle(0.0, 0.0, 30.0, 20.0)
BORE = circle(8.0, at=(15.0, 10.0))
SLOT = rectangle(13.0, 10.0, 17.0, 25.0)

SAID = {"exact": "exact shapes", "mesh": "shapes of triangles"}


def test_a_slotted_bore_is_a_circle_and_the_part_of_the_slot_beyond_it(
    agrees: Callable[..., None], expect: Callable[..., object]
) -> None:
    """The overlap is the integral of sqrt(r² - x²) over the width w of the slot.

    That is w / 2 sqrt(r² - w² / 4) + r² asin(w / 2 r); its moment about the bore's axis is
    half the integral of r² - x².
    """
    r, w, h = 4.0, 4.0, 6.0
    overlap = w / 2 * math.sqrt(r**2 - w**2 / 4) + r**2 * math.asin(w / 2 / r)
    overlap_moment = 10.0 * overlap + (r**2 * w - w**3 / 12.0) / 2.0
    bore, slot = math.pi * r**2, w * 10.0
    section = 600.0 - bore - slot + overlap
    moment = 600.0 * 10.0 - bore * 10.0 - slot * 15.0 + overlap_moment
    # the slot takes the arc between its sides away
    arc = 2.0 * math.pi * r - 2.0 * r * math.asin(w / 2 / r)
    flank = 10.0 - math.sqrt(r**2 - w**2 / 4)
    around = 100.0 - w + arc + 2.0 * flank
    want = expect(
        volume=section * h,
        area=2.0 * section + around * h,
        centroid=(15.0, moment / section, h / 2),
        bounds=((0.0, 0.0, 0.0), (30.0, 20.0, h)),
        curved_mm2=arc * h,
        arcs_mm=arc,
        radius_mm=r,
    )
    agrees(CutPrism(PLATE, (BORE, SLOT), h), want)
    tools = (prism(BORE, h + 2.0).moved(dz=-1.0), prism(SLOT, h + 2.0).moved(dz=-1.0))
    agrees(Difference(prism(PLATE, h), tools), want)


def test_a_row_of_prisms_is_their_sum(
    agrees: Callable[..., None], expect: Callable[..., object]
) -> None:
    disc, nut = math.pi * 9.0, math.sqrt(3.0) / 2.0 * 100.0
    corner = 10.0 / math.sqrt(3.0)
    want = expect(
        volume=(disc + nut) * 4.0,
        area=2.0 * (disc + nut) + (6.0 * math.pi + 6.0 * corner) * 4.0,
        centroid=(20.0 * nut / (disc + nut), 0.0, 2.0),
        bounds=((-3.0, -5.0, 0.0), (20.0 + corner, 5.0, 4.0)),
        bodies=2,
        curved_mm2=6.0 * math.pi * 4.0,
        arcs_mm=6.0 * math.pi,
        radius_mm=3.0,
    )
    agrees(PrismRow((circle(6.0), hexagon(10.0, at=(20.0, 0.0))), 4.0), want)


@pytest.mark.parametrize("kernel_name", ["exact", "mesh"])
@pytest.mark.parametrize(
    ("bad", "node"),
    [
        (CutPrism(SLOT, (PLATE.moved(0.0, 6.0),), 3.0), "CutPrism"),
        (PrismRow((circle(6.0), circle(6.0, at=(5.0, 0.0))), 3.0), "PrismRow"),
    ],
)
def test_nothing_left_or_a_row_that_meets_itself_is_named(
    request: pytest.FixtureRequest, kernel_name: str, bad: Solid, node: str
) -> None:
    kernel = request.getfixturevalue(kernel_name)
    for tree in (bad, Union((block(0.0, 0.0, 0.0, 1.0, 1.0, 1.0), bad))):
        with pytest.raises(KernelError, match=f"{SAID[kernel_name]}: {node} [0-9a-f]{{10}} gave"):
            kernel.evaluate(tree)


def test_beyond_a_plane_lies_what_a_part_of_a_block_measures() -> None:
    body = MeshKernel().evaluate(block(0.0, 0.0, 0.0, 10.0, 20.0, 30.0))
    kept = body.beyond((0.0, -1.0, 0.0), offset_mm=-4.0)
    assert kept is not None
    assert kept.facts.volume_mm3 == pytest.approx(10.0 * 4.0 * 30.0)
    assert kept.box_mm[1].tolist() == pytest.approx([10.0, 4.0, 30.0])
    assert body.beyond((0.0, 1.0, 0.0), offset_mm=20.5) is None
