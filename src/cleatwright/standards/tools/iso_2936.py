"""ISO 2936: hexagon socket screw keys, the 2014 edition beside that of 1983, which is DIN 911.

Keys with the shorter arms of 1983 are still the bulk of what is sold, so the edition is part
of the name of each table. Two secondary sources disagree on the sizes 17 and 19: the other one has
catalogue values, 173 by 80 and 192 by 90 mm.
"""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_SEEN = Source(
    "ISO 2936:2014",
    "dimensions",
    Evidence.SECONDARY,
    "two public tables that agree, one of them checked against fasten.it",
)
_DISPUTED = Source(
    "ISO 2936:2014",
    "dimensions, one of two sources that disagree",
    Evidence.SECONDARY,
    "a public table of tools and consumables",
)
_LONG = Source("ISO 2936:2014", "long and extra long series", Evidence.MEMORY)
_OLD = Source("ISO 2936:1983 = DIN 911", "dimensions", Evidence.MEMORY)
_OLD_SEEN = Source(
    "ISO 2936:1983 = DIN 911",
    "dimensions",
    Evidence.SECONDARY,
    "practicalmaintenance.net, p=416",
)

HEX_KEYS = Table(
    name="ISO 2936:2014 hex keys",
    key_name="size",
    columns=(
        Column("across_corners_max_mm", _SEEN),
        Column("long_arm_mm", _SEEN, ("17", "19"), _DISPUTED),
        Column("short_arm_mm", _SEEN, ("19",), _DISPUTED),
    ),
    rows=(
        ("1.5", (1.68, 46.5, 15.5)),
        ("2", (2.25, 52.0, 18.0)),
        ("2.5", (2.82, 58.5, 20.5)),
        ("3", (3.39, 66.0, 23.0)),
        ("4", (4.53, 74.0, 29.0)),
        ("5", (5.67, 85.0, 33.0)),
        ("6", (6.81, 96.0, 38.0)),
        ("8", (9.09, 108.0, 44.0)),
        ("10", (11.37, 122.0, 50.0)),
        ("12", (13.65, 137.0, 57.0)),
        ("14", (15.93, 154.0, 70.0)),
        ("17", (19.35, 177.0, 80.0)),
        ("19", (21.63, 199.0, 89.0)),
    ),
)

LONG_HEX_KEYS = Table(
    name="ISO 2936:2014 long hex keys",
    key_name="size",
    columns=(Column("long_arm_mm", _LONG), Column("extra_long_arm_mm", _LONG)),
    rows=(
        ("3", (93.0, 129.0)),
        ("4", (104.0, 144.0)),
        ("5", (120.0, 165.0)),
        ("6", (141.0, 186.0)),
        ("8", (158.0, 208.0)),
        ("10", (180.0, 234.0)),
    ),
)

OLD_HEX_KEYS = Table(
    name="ISO 2936:1983 (DIN 911) hex keys",
    key_name="size",
    columns=(
        Column("long_arm_mm", _OLD, ("1.5",), _OLD_SEEN),
        Column("short_arm_mm", _OLD, ("1.5",), _OLD_SEEN),
    ),
    rows=(
        ("1.5", (45.0, 14.0)),
        ("2", (50.0, 16.0)),
        ("2.5", (56.0, 18.0)),
        ("3", (63.0, 20.0)),
        ("4", (70.0, 25.0)),
        ("5", (80.0, 28.0)),
        ("6", (90.0, 32.0)),
        ("8", (100.0, 36.0)),
        ("10", (112.0, 40.0)),
        ("12", (125.0, 45.0)),
        ("14", (140.0, 56.0)),
        ("17", (160.0, 63.0)),
        ("19", (180.0, 70.0)),
    ),
)
