"""A pipe wrench, handle up, its jaws closed.

┌───┐  ← z = length
│ o │  hole (may be missing), hole_rim above it
│   │  handle
├┴─┴┴──┐  ← z = head_length
│ head │  stands out by head_out on one side
└──────┘  ← z = 0
"""

from __future__ import annotations

from cleatwright.parts.tool import ToolBody
from cleatwright.tools.features.holed_wrench import (
    HoledWrenchMeasures,
    wrench_body,
    wrench_dimensions,
)
from cleatwright.tools.kind import Kind, ordinary

# an open housing around a hooked jaw, a handle like an I-beam: one of 350 mm weighs
# 1.3 to 1.9 kg (common practice, no source); weigh one of aluminium
HEAD_SHARE = 0.35
HANDLE_SHARE = 0.45


def body(m: HoledWrenchMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the boxes around head and handle, a third and nearly half of them steel."""
    return wrench_body(m, weighed_kg, kind="pipe-wrench", head=HEAD_SHARE, handle=HANDLE_SHARE)


KIND = Kind(
    name="pipe-wrench",
    title="Pipe wrench",
    measures=HoledWrenchMeasures,
    body=body,
    dimensions=wrench_dimensions,
    example=ordinary(
        length=350.0,
        head_out=35.0,
        head_length=115.0,
        head_thickness=30.0,
        handle_width=36.0,
        handle_thickness=20.0,
        hole=18.0,
        hole_rim=6.0,
    ),
    properties=("heavy",),
)
