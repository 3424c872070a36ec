"""A drill or another tool with a pistol grip and a cord that stays cool."""

from __future__ import annotations

from cleatwright.parts.tool import ToolBody
from cleatwright.tools.features.pistol import PistolMeasures, pistol_body, pistol_dimensions
from cleatwright.tools.kind import Kind, ordinary

# motor and gears leave corners of the block around them empty (common practice, no source)
FILLED = 0.85


class CordedDrillMeasures(PistolMeasures):
    """What is measured on a drill with a cord."""


def body(m: CordedDrillMeasures, weighed_kg: float | None) -> ToolBody:
    """Return the tool body, full of motor and gears."""
    return pistol_body(m, weighed_kg, kind="corded-drill", filled=FILLED)


KIND = Kind(
    name="corded-drill",
    title="Drill or another tool with a cord and a pistol grip",
    measures=CordedDrillMeasures,
    body=body,
    dimensions=pistol_dimensions,
    example=ordinary(
        body_length=190.0,
        body_width=72.0,
        body_height=72.0,
        nose=42.0,
        nose_length=60.0,
        handle_back=75.0,
        handle_width=38.0,
        handle_depth=52.0,
        handle_length=125.0,
        cord=70.0,
    ),
)
