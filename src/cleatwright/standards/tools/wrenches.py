"""Combination wrenches as makers publish them, and lines through their heads for other sizes.

ISO 7738 and ISO 3318 fix least lengths and largest heads, and real wrenches lie far inside, so
these rows are what several makers publish and what a purchasing description of the United States
allows for rings. A wrench in the hand is measured.
"""

from __future__ import annotations

import math
from statistics import linear_regression

from cleatwright.base import said
from cleatwright.base.errors import MeasureError, unknown_name
from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_LENGTHS = Source(
    "Pages of four makers of combination wrenches",
    "overall length, the longest at each size",
    Evidence.SECONDARY,
    "a public list that names the maker of each",
)
_OPEN = Source(
    "Pages of two makers of combination wrenches",
    "open ends, the smaller and the larger",
    Evidence.SECONDARY,
    "a public test of such heads",
)
_RINGS = Source(
    "US commercial item description A-A-1346A, box wrenches",
    "3.2: largest diameter and thickness of heads of 7/16 to 3/4 in",
    Evidence.SECONDARY,
    "emilspec.com, A-A-1346",
)

WRENCH_LENGTHS = Table(
    name="Published lengths of combination wrenches",
    key_name="size",
    columns=(Column("length_mm", _LENGTHS),),
    rows=(
        ("5.5", (105.0,)),
        ("6", (129.5,)),
        ("7", (138.3,)),
        ("8", (147.3,)),
        ("9", (158.0,)),
        ("10", (166.2,)),
        ("11", (185.2,)),
        ("12", (196.5,)),
        ("13", (206.1,)),
        ("14", (222.0,)),
        ("15", (232.0,)),
        ("16", (241.9,)),
        ("17", (259.9,)),
        ("18", (269.3,)),
        ("19", (278.6,)),
        ("20", (289.6,)),
        ("21", (300.5,)),
        ("22", (318.0,)),
        ("24", (336.6,)),
        ("27", (380.0,)),
        ("30", (431.8,)),
        ("32", (441.0,)),
        ("36", (510.5,)),
        ("41", (612.0,)),
        ("46", (649.0,)),
        ("50", (650.2,)),
    ),
)

OPEN_ENDS = Table(
    name="Published open ends of combination wrenches",
    key_name="size",
    columns=(
        Column("width_least_mm", _OPEN),
        Column("width_most_mm", _OPEN),
        Column("thickness_least_mm", _OPEN),
        Column("thickness_most_mm", _OPEN),
    ),
    rows=(
        ("8", (18.0, 18.5, 4.2, 4.5)),
        ("13", (29.0, 30.0, 5.3, 6.3)),
        ("24", (51.0, 53.0, 7.8, 9.5)),
    ),
)

RING_ENDS = Table(
    name="Largest ring ends of box wrenches in inches",
    key_name="size",
    columns=(
        Column("size_in", _RINGS),
        Column("width_max_in", _RINGS),
        Column("thickness_max_in", _RINGS),
    ),
    rows=(
        ("7/16", (0.4375, 0.695, 0.375)),
        ("1/2", (0.5, 0.775, 0.375)),
        ("9/16", (0.5625, 0.868, 0.34375)),
        ("5/8", (0.625, 0.946, 0.4375)),
        ("11/16", (0.6875, 1.025, 0.515625)),
        ("3/4", (0.75, 1.125, 0.546875)),
    ),
)

MM_PER_INCH = 25.4
HEADS = ("open width", "open thickness", "ring width", "ring thickness")


def wrench_head_mm(measure: str, flats_mm: float) -> float:
    """Return a measure of a wrench's head by the straight line of least squares through others.

    The lines go through the larger published head at each size, so that a holder made by them is
    wide rather than tight.

    Args:
        measure: "open width", "open thickness", "ring width" or "ring thickness".
        flats_mm: The size stamped on it (> 0); heads are published for 8 to 24 mm.

    Raises:
        MeasureError: The size is no positive number.
        UnknownNameError: There is no such measure.

    >>> round(wrench_head_mm("open width", 13.0), 1), round(wrench_head_mm("ring width", 13.0), 1)
    (29.5, 20.2)
    """
    if not (flats_mm > 0.0 and math.isfinite(flats_mm)):
        raise MeasureError(f"a wrench of {said.mm(flats_mm)}", allowed=f"more than {said.mm(0)}")
    if measure not in HEADS:
        raise unknown_name("measure of a head", measure, HEADS)
    end, _, side = measure.partition(" ")
    if end == "open":
        sizes = [float(key) for key in OPEN_ENDS.keys]
        heads = [OPEN_ENDS.value(key, f"{side}_most_mm") for key in OPEN_ENDS.keys]
    else:
        sizes = [MM_PER_INCH * RING_ENDS.value(key, "size_in") for key in RING_ENDS.keys]
        heads = [MM_PER_INCH * RING_ENDS.value(key, f"{side}_max_in") for key in RING_ENDS.keys]
    line = linear_regression(sizes, heads)
    return line.slope * flats_mm + line.intercept
