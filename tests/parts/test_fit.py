"""Oracle: limits of holes and shafts, ISO 286-2 (rows from a public table of ISO 286-1)."""

from __future__ import annotations

import pytest

from cleatwright.parts.tool import Size
from cleatwright.workshop.document.sections import FitRules

# mm over, mm up to; hole upper limits H7 H8 H9 H11, shaft limits g6 f7 e9, h11 lower limit, in um;
# then the least and the largest play of H7/g6, H8/f7, H9/e9 and H11/h11
ROWS = """
3  6  12 18 30 75   -4 -12 -10 -22 -20 -50   -75   4 24 10 40 20 80   0 150
6  10 15 22 36 90   -5 -14 -13 -28 -25 -61   -90   5 29 13 50 25 97   0 180
10 18 18 27 43 110  -6 -17 -16 -34 -32 -75   -110  6 35 16 61 32 118  0 220
18 30 21 33 52 130  -7 -20 -20 -41 -40 -92   -130  7 41 20 74 40 144  0 260
30 50 25 39 62 160  -9 -25 -25 -50 -50 -112  -160  9 50 25 89 50 174  0 320
"""
FITS = [
    (f"{name} over {row[0]} mm", row[1], hole, shaft, play)
    for row in ([int(one) for one in line.split()] for line in ROWS.strip().splitlines())
    for name, hole, shaft, play in (
        ("H7/g6", row[2], (row[6], row[7]), (row[13], row[14])),
        ("H8/f7", row[3], (row[8], row[9]), (row[15], row[16])),
        ("H9/e9", row[4], (row[10], row[11]), (row[17], row[18])),
        ("H11/h11", row[5], (0, row[12]), (row[19], row[20])),
    )
]


@pytest.mark.parametrize(
    ("nominal", "hole_um", "shaft_um", "play_um"),
    [row[1:] for row in FITS],
    ids=[row[0] for row in FITS],
)
def test_a_measured_shaft_and_its_play_give_the_published_hole(
    nominal: int, hole_um: int, shaft_um: tuple[int, int], play_um: tuple[int, int]
) -> None:
    """The thickest shaft with the least play needs the least hole, the thinnest the largest."""
    thick, thin = (nominal + one / 1000.0 for one in shaft_um)
    least, most = (one / 1000.0 for one in play_um)
    assert Size("hole", thick, least, 0.0).made_mm == pytest.approx(nominal, abs=1e-9)
    largest = nominal + hole_um / 1000.0
    assert Size("hole", thin, most, 0.0).made_mm == pytest.approx(largest, abs=1e-9)


def test_the_classes_of_a_printed_fit_lie_beyond_the_fits_of_machines() -> None:
    """Up to 50 mm: H9/e9 has at most 0.174 mm of play and H11/h11, the coarsest, 0.320 mm."""
    plays = FitRules()
    assert plays.snug_mm > 0.174
    assert 0.320 < plays.easy_mm < plays.loose_mm
