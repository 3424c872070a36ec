"""The wall seen from the front as a DXF drawing; what writes such drawings loads on use."""

from __future__ import annotations

from cleatwright.base.interrupts import defer_interrupts
from cleatwright.papers.elevation.view import ElevationView
from cleatwright.papers.kit.drawn import drawn_file


def elevation_dxf(view: ElevationView) -> bytes:
    """Return the drawing; x runs to the right and y up from the lower left corner of the wall.

    Source: the DXF reference, release R2010, as the library ezdxf writes it.
    """
    with defer_interrupts():
        from cleatwright.papers.elevation.dxf_drawing import drawn_dxf  # noqa: PLC0415 - loads on use
    return drawn_dxf(view)


ELEVATION_DXF = drawn_file("elevation as DXF", elevation_dxf, kept=True)
"""From the view of a wall to its drawing as DXF."""
