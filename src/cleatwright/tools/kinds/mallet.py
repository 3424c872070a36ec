"""A wooden mallet, head up, the head along the wall.

┌──────────────┐  ← z = length
│     head     │  head_height
└────┬────┬────┘  ← the handle's neck begins
     │ handle │
     └────────┘   ← z = 0
"""

from __future__ import annotations

from cleatwright.parts.tool import ToolBody
from cleatwright.tools.kind import Kind, ordinary
from cleatwright.tools.kinds.hammer import HammerMeasures, dimensions, headed_body
from cleatwright.tools.material import WOOD

# a block whose faces slope a little towards the handle; one of 150 by 110 by 70 mm in beech
# weighs 0.7 to 1 kg with its handle (common practice, no source)
HEAD_SHARE = 0.9


def body(m: HammerMeasures, weighed_kg: float | None) -> ToolBody:
    """Return a hammer whose head is wood."""
    return headed_body(m, weighed_kg, kind="mallet", material=WOOD, share=HEAD_SHARE)


KIND = Kind(
    name="mallet",
    title="Wooden mallet",
    measures=HammerMeasures,
    body=body,
    dimensions=dimensions,
    example=ordinary(
        length=340.0,
        head_length=150.0,
        head_width=70.0,
        head_height=110.0,
        neck_width=32.0,
        neck_depth=24.0,
        handle_width=36.0,
        handle_depth=26.0,
    ),
)
