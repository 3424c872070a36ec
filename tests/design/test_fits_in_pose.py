"""A box fits a bed in a pose where its other sides do, by hand: 260 x 250 x 240, rims of 3."""

from __future__ import annotations

import pytest

from cleatwright.design.bed_fit import fits_bed, fits_in_pose
from cleatwright.parts.holder import PrintPose
from cleatwright.workshop.document.sections import Printer

PRINTER = Printer.model_validate({"name": "bench", "bed": [260.0, 250.0, 240.0]})


@pytest.mark.parametrize(
    ("size", "pose", "fits"),
    [
        ((280.0, 39.0, 103.0), "on-its-back", False),
        # on its edge it lies across the bed
        ((280.0, 39.0, 103.0), "upright", True),
        ((254.0, 39.0, 103.0), "on-its-back", True),
        ((254.0, 241.0, 103.0), "on-its-back", False),
        ((254.0, 241.0, 103.0), "on-its-side", False),
        ((40.0, 254.0, 103.0), "on-its-side", True),
    ],
)
def test_a_box_fits_in_a_pose(
    size: tuple[float, float, float], pose: PrintPose, *, fits: bool
) -> None:
    box = ((0.0, 0.0, 0.0), size)
    assert fits_in_pose(box, pose, PRINTER) is fits
    assert fits_bed(box, PRINTER) or not fits
