"""An adjustable wrench, handle up, its jaws closed.

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

# a head with a slide and a worm, a handle with a hollow on both sides: one of 250 mm weighs
# 400 to 550 g (common practice, no source)
HEAD_SHARE = 0.45
HANDLE_SHARE = 0.55


def body(m: HoledWrenchMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the boxes around head and handle, about half of them steel."""
    return wrench_body(
        m, weighed_kg, kind="adjustable-wrench", head=HEAD_SHARE, handle=HANDLE_SHARE
    )


KIND = Kind(
    name="adjustable-wrench",
    title="Adjustable wrench",
    measures=HoledWrenchMeasures,
    body=body,
    dimensions=wrench_dimensions,
    example=ordinary(
        length=250.0,
        head_out=20.0,
        head_length=70.0,
        head_thickness=16.0,
        handle_width=28.0,
        handle_thickness=11.0,
        hole=12.0,
        hole_rim=5.0,
    ),
)
