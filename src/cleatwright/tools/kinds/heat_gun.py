"""A heat gun, a glue gun or another tool with a pistol grip and a cord that gets hot.

Its hot end looks to the person, away from the holder and the wall.
"""

from __future__ import annotations

from cleatwright.parts.tool import ToolBody
from cleatwright.tools.features.pistol import PistolMeasures, pistol_body, pistol_dimensions
from cleatwright.tools.kind import Kind, ordinary

# a shell around a heating coil and a fan: 0.6 to 0.9 kg (common practice, no source)
FILLED = 0.2


class HeatGunMeasures(PistolMeasures):
    """What is measured on a heat gun."""


def body(m: HeatGunMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body, light for its size."""
    return pistol_body(m, weighed_kg, kind="heat-gun", filled=FILLED)


KIND = Kind(
    name="heat-gun",
    title="Heat gun, glue gun or another hot tool with a pistol grip",
    measures=HeatGunMeasures,
    body=body,
    dimensions=pistol_dimensions,
    caution="Coil the cord apart from the hot end.",
    example=ordinary(
        body_length=170.0,
        body_width=78.0,
        body_height=78.0,
        nose=35.0,
        nose_length=70.0,
        handle_back=40.0,
        handle_width=38.0,
        handle_depth=50.0,
        handle_length=120.0,
        cord=60.0,
    ),
    properties=("hot",),
)
