"""An outline as a drawing of its own, in mm, that the program reads back."""

from __future__ import annotations

import math

from cleatwright.parts.mirror import to_reader
from cleatwright.shapes.outline import Outline

MARGIN_MM = 2.0


def outline_svg(outline: Outline) -> bytes:
    """Return an SVG file of an outline, true to scale; x of the outline runs to the left."""
    x0, y0, x1, y1 = outline.bounds
    width, height = x1 - x0 + 2 * MARGIN_MM, y1 - y0 + 2 * MARGIN_MM
    # the picture runs to the right and down
    points = [
        (to_reader(x, origin_mm=x1 + MARGIN_MM), y1 + MARGIN_MM - y) for x, y in outline.corners
    ]
    words = [f"M {_pair(points[0])}"]
    for here, there, bulge in zip(points, [*points[1:], points[0]], outline.bulges, strict=True):
        if not bulge:
            words.append(f"L {_pair(there)}")
            continue
        sweep = 4.0 * math.atan(bulge)
        radius = math.dist(here, there) / (2.0 * abs(math.sin(sweep / 2.0)))
        # turning both axes keeps the sense of rotation
        words.append(
            f"A {radius:.6f} {radius:.6f} 0 {int(abs(sweep) > math.pi)} {int(bulge > 0.0)} "
            f"{_pair(there)}"
        )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:.6f}mm" height="{height:.6f}mm" '
        f'viewBox="0 0 {width:.6f} {height:.6f}">\n'
        f'<path d="{" ".join(words)} Z" fill="none" stroke="#000000" stroke-width="0.25"/>\n'
        "</svg>\n"
    ).encode()


def _pair(point: tuple[float, float]) -> str:
    return f"{point[0]:.6f} {point[1]:.6f}"
