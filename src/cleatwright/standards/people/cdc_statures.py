"""How tall children are by their age.

The rows are those half a month before a birthday: of the month 59.5 in the row "5". Made from the
parameters L, M and S of the charts: the percentile is M (1 + L S z)^(1/L), with z = 1.645 for P95.
"""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Listed, Table

_CHARTS = Source(
    "CDC growth charts 2000, stature for age",
    "P5 and P95, barefoot",
    Evidence.SECONDARY,
    "the parameters in a general growth library, and a public copy of the table for boys",
)

STATURES = Table(
    name="CDC 2000",
    key_name="age",
    columns=(
        Column("boys_p5_mm", _CHARTS),
        Column("boys_p95_mm", _CHARTS),
        Column("girls_p5_mm", _CHARTS),
        Column("girls_p95_mm", _CHARTS),
    ),
    rows=(
        ("3", (886, 1013, 873, 1002)),
        ("4", (951, 1089, 935, 1078)),
        ("5", (1010, 1162, 998, 1155)),
        ("6", (1068, 1233, 1063, 1233)),
        ("7", (1127, 1304, 1126, 1307)),
        ("8", (1188, 1378, 1185, 1379)),
        ("9", (1234, 1436, 1229, 1433)),
        ("10", (1278, 1494, 1271, 1491)),
        ("11", (1320, 1551, 1319, 1558)),
        ("12", (1369, 1613, 1386, 1629)),
        ("13", (1430, 1688, 1454, 1683)),
        ("14", (1500, 1765, 1495, 1712)),
        ("16", (1605, 1853, 1519, 1732)),
        ("18", (1642, 1878, 1525, 1738)),
    ),
)
YOUNGEST, OLDEST = 3, 17
_Z95 = 1.645
MOST_SD = 6.0
IMPLAUSIBLE = Source(
    "WHO flags of height for age",
    "more than 6 standard deviations off",
    Evidence.SECONDARY,
    "the manual of a library for growth charts",
)
VALUES = (Listed("CDC 2000", "most standard deviations", MOST_SD, IMPLAUSIBLE),)


def least_stature_mm(age: int) -> float:
    """Return how tall a small child of an age is: P5 of boys or girls at that birthday.

    Args:
        age: Whole years, 3 to 17; what the charts leave out counts as the year before.

    >>> least_stature_mm(5), least_stature_mm(17)
    (998.0, 1519.0)
    """
    row = max(int(key) for key, _ in STATURES.rows if int(key) <= age)
    return float(min(_of(row, "boys_p5_mm"), _of(row, "girls_p5_mm")))


def most_stature_mm(age: int) -> float:
    """Return how tall a tall child of an age is: P95 of boys or girls before the next birthday.

    Args:
        age: Whole years, 3 to 17; what the charts leave out counts as the year after.

    >>> most_stature_mm(5), most_stature_mm(17)
    (1233.0, 1878.0)
    """
    row = min(int(key) for key, _ in STATURES.rows if int(key) > age)
    return float(max(_of(row, "boys_p95_mm"), _of(row, "girls_p95_mm")))


def can_be_mm(age: int) -> tuple[float, float]:
    """Return between which statures a child of an age is, barefoot, however small or tall.

    A standard deviation is what lies between P5 and P95 over 2 x 1.645. The lower bound is by its
    birthday, the upper by the next one; what the charts leave out counts as in the others.

    Args:
        age: Whole years, 3 to 17.

    >>> [round(one) for one in can_be_mm(4)]
    [746, 1363]
    """
    young = max(int(key) for key, _ in STATURES.rows if int(key) <= age)
    old = min(int(key) for key, _ in STATURES.rows if int(key) > age)
    return (
        min(_off_mm(young, sex, -MOST_SD) for sex in ("boys", "girls")),
        max(_off_mm(old, sex, MOST_SD) for sex in ("boys", "girls")),
    )


def _off_mm(row: int, sex: str, deviations: float) -> float:
    """Return a stature so many standard deviations above the middle."""
    low, high = _of(row, f"{sex}_p5_mm"), _of(row, f"{sex}_p95_mm")
    return (low + high) / 2 + deviations * (high - low) / (2 * _Z95)


def _of(row: int, column: str) -> float:
    return STATURES.value(str(row), column)
