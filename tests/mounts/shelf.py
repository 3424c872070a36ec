"""A plain shelf as the front of a mount or a joint, and what every whole part keeps to."""

from __future__ import annotations

import math

from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.parts.holder import Front, HolderPart, Seat, front_mark
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import polygon
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid, across, block


def shelf(
    width_mm: float,
    *,
    low_mm: float = -30.0,
    high_mm: float = 0.0,
    reach_mm: float = 40.0,
    mass_kg: float = 0.5,
) -> Front:
    """Return a shelf with one box in its middle, on a plate from ``low_mm`` to ``high_mm``."""
    box = block(-8.0, -8.0, 0.0, 8.0, 8.0, 30.0)
    tool = ToolBody("box", "x", (box,), mass_kg, (0.0, 0.0, 15.0), (), 1.0)
    pose = shift(width_mm / 2, reach_mm - 15.0, 0.0)
    return Front(
        solid=block(0.0, 0.0, -8.0, width_mm, reach_mm, 0.0),
        width_mm=width_mm,
        plate_low_mm=low_mm,
        plate_high_mm=high_mm,
        reach_mm=reach_mm,
        low_mm=-8.0,
        high_mm=0.0,
        seats=(Seat(tool, pose, ((0.0, 60.0, 0.0),), (), kept=False),),
        genus=0,
        min_wall_mm=4.0,
        mark_place=front_mark(0.0, width_mm, z0=low_mm, z1=-8.0, y_mm=5.0),
        leading="1x20",
    )


def assert_whole(part: HolderPart) -> MeshBody:
    """Assert one body with the holes, bounds and walls that a part declares; return it."""
    body = MeshKernel().evaluate(part.solid)
    assert (body.facts.bodies, body.facts.genus) == (1, part.genus)
    for axis in range(3):
        assert body.facts.bounds_mm[0][axis] >= part.bounds_mm[0][axis] - 1e-6
        assert body.facts.bounds_mm[1][axis] <= part.bounds_mm[1][axis] + 1e-6
    assert body.thinnest_wall_mm(within_mm=part.min_wall_mm + 1.0) >= part.min_wall_mm - 0.05
    return body


def rail(part: HolderPart, settings: MountSettings, *, length_mm: float = 400.0) -> Solid:
    """Return the rail on which the part hangs, in the frame of the part."""
    thick, top = settings.rail_thickness_mm, part.hanging.contact_z_mm
    fall = thick * math.tan(math.radians(settings.bevel_deg))
    low = top - settings.rail_height_mm
    profile = polygon([(-thick, low), (0.0, low), (0.0, top), (-thick, top - fall)])
    return across(profile, -length_mm / 2, length_mm / 2)
