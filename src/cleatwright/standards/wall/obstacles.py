"""What holders keep off things that are on a wall, by what the thing is.

No standard gives these distances; they leave room for a plug and its cable, for the hand on
a switch, for a sash that is opened and for the warm air over a heater. Local rules and the
paper that came with an appliance go first.
"""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_ROOM = Source("free room round things on a wall", "", Evidence.PRACTICE)
_DEPTH = Source("how far things stand out of a wall", "", Evidence.PRACTICE)
_HEAT = Source("distance of what must stay cool from a heater", "", Evidence.PRACTICE)

OBSTACLES = Table(
    name="Things on a wall",
    key_name="kind of obstacle",
    columns=(
        Column("keep_out_mm", _ROOM),
        Column("stands_out_mm", _DEPTH),
        Column("heat_mm", _HEAT),
    ),
    rows=(
        ("socket", (60.0, 60.0, 0.0)),
        ("switch", (60.0, 20.0, 0.0)),
        ("window", (40.0, 60.0, 0.0)),
        ("pipe", (30.0, 60.0, 0.0)),
        # the swing fills everything in front of the wall
        ("door", (20.0, 1000.0, 0.0)),
        ("heater", (200.0, 150.0, 1000.0)),
        ("other", (0.0, 100.0, 0.0)),
    ),
)
