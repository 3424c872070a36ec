"""Real dimensions in the DXF drawing of a wall, all from its lower left corner."""

from __future__ import annotations

from typing import Any

from cleatwright.papers.elevation.view import ElevationView
from cleatwright.papers.kit.svg import clean

STYLE = "CLEATWRIGHT"
LAYER = "DIMENSIONS"
TEXT_MM = 18.0
# the colour of the layer, in the numbers of the format
BY_LAYER = 256
# the first line of dimensions keeps this distance from the wall, the next from each other
FIRST_MM, STEP_MM = 60.0, 45.0
LEFT_MM, LEFT_STEP_MM = 60.0, 60.0


def add_dimensions(document: Any, space: Any, view: ElevationView) -> None:
    """Add linear dimensions: height of each rail, its two ends, its studs, and the whole wall.

    Args:
        document: The drawing, which gets a style of dimensions.
        space: Its model space.
        view: What is drawn.
    """
    _style(document)
    heights = sorted({rail.z_top_mm for rail in view.rails})
    for n, z in enumerate((*heights, view.height_mm)):
        at = -LEFT_MM - n * LEFT_STEP_MM
        _linear(space, (0.0, z), at=(at, 0.0), angle=90.0, words=view.length(z))
    ends = [
        (rail.name, x)
        for rail in sorted(view.rails, key=lambda r: r.order)
        for x in sorted({rail.x0_mm, *rail.to_drill_mm, rail.x1_mm})
        if x > 0.0
    ]
    for n, (name, x) in enumerate((*ends, ("wall", view.width_mm))):
        at = -FIRST_MM - n * STEP_MM
        words = f"{clean(name)}: {view.length(x)}"
        _linear(space, (x, 0.0), at=(0.0, at), angle=0.0, words=words)


def _style(document: Any) -> None:
    document.dimstyles.duplicate_entry("Standard", STYLE)
    style = document.dimstyles.get(STYLE)
    style.dxf.dimtxt = TEXT_MM
    style.dxf.dimasz = TEXT_MM / 2
    style.dxf.dimexo = TEXT_MM / 4
    style.dxf.dimexe = TEXT_MM / 4
    style.dxf.dimgap = TEXT_MM / 3
    style.dxf.dimtad = 1
    style.dxf.dimclrd = style.dxf.dimclre = style.dxf.dimclrt = BY_LAYER


def _linear(
    space: Any, to: tuple[float, float], *, at: tuple[float, float], angle: float, words: str
) -> None:
    """Add one dimension from the corner of the wall; its line passes through ``at``."""
    dimension = space.add_linear_dim(
        base=at,
        p1=(0.0, 0.0),
        p2=to,
        angle=angle,
        text=words,
        dimstyle=STYLE,
        dxfattribs={"layer": LAYER},
    )
    dimension.render()
