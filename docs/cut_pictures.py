"""Pictures of holders cut open: through a tool, on the rail, with what locks them there."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from cleatwright.design.building import BuiltPart, fitting_bodies
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.papers.kit.picture import FITTING, PART, TOOL, Colour, Seen
from cleatwright.shapes.outline import Region, polygon
from cleatwright.shapes.rigid import Rigid
from cleatwright.shapes.solid import Prism, Solid
from cleatwright.wall.rail import Profile

RAIL = (232, 222, 196)
# how far the rail goes on beyond the holder
BEYOND_MM = 20.0
# a cut face is darker than the rest of what is cut
CUT_SHARE = 0.62
IN_PLANE_MM = 1e-6
# how much is shown behind the cut, and of tools around the holder
BEHIND_MM, AROUND_MM = 60.0, 30.0
# turned about its height, so that the cut face looks to the eye
TURN_DEG = -34.0
TURNED = np.array(
    (
        (math.cos(math.radians(TURN_DEG)), -math.sin(math.radians(TURN_DEG)), 0.0),
        (math.sin(math.radians(TURN_DEG)), math.cos(math.radians(TURN_DEG)), 0.0),
        (0.0, 0.0, 1.0),
    )
)


def cut_open(built: BuiltPart, *, at_mm: float | None = None) -> tuple[Seen, ...]:
    """Return a part with tools, cut open.

    Args:
        built: A part on a rail or on screws.
        at_mm: Where it is cut; through the tool whose middle is the middlemost when None.
    """
    if at_mm is None:
        (left, _, _), (right, _, _) = built.part.bounds_mm
        middles = [seat.com_mm[0] for seat in built.part.seats]
        at_mm = min(middles, key=lambda x: abs(x - (left + right) / 2))
    return tuple(
        seen
        for body, colour in _bodies(built)
        if (kept := _near(body, built, at_mm=at_mm)) is not None
        for seen in _with_cut_face(kept, colour, at_mm=at_mm)
    )


def _near(body: MeshBody, built: BuiltPart, *, at_mm: float) -> MeshBody | None:
    """Return what is shown of a body: behind the cut, and long tools broken off."""
    (_, _, low), (_, out, high) = built.part.bounds_mm
    kept: MeshBody | None = body
    for normal, offset_mm in (
        ((1.0, 0.0, 0.0), at_mm),
        ((-1.0, 0.0, 0.0), -(at_mm + BEHIND_MM)),
        ((0.0, -1.0, 0.0), -(out + AROUND_MM)),
        ((0.0, 0.0, 1.0), low - AROUND_MM),
        ((0.0, 0.0, -1.0), -(high + AROUND_MM)),
    ):
        kept = None if kept is None else kept.beyond(normal, offset_mm=offset_mm)
    return kept


def _bodies(built: BuiltPart) -> Iterator[tuple[MeshBody, Colour]]:
    kernel = MeshKernel()
    yield built.body, PART
    for body in fitting_bodies(built):
        yield body, FITTING
    for seat in built.part.seats:
        yield MeshBody.joined([kernel.evaluate(piece) for piece in seat.envelope()]), TOOL
    if built.part.hanging.on_rail:
        yield kernel.evaluate(_rail(built)), RAIL


def _rail(built: BuiltPart) -> Solid:
    usual, part = MountSettings(), built.part
    profile = Profile(usual.rail_height_mm, usual.rail_thickness_mm, usual.bevel_deg)
    top, thick = part.hanging.contact_z_mm, profile.thickness_mm
    low, high = part.bounds_mm[0][0] - BEYOND_MM, part.bounds_mm[1][0] + BEYOND_MM
    section = (
        (0.0, top),
        (-thick, top - profile.slant_mm),
        (-thick, top - profile.height_mm),
        (0.0, top - profile.height_mm),
    )
    # x along the rail, and its section in y and z
    laid = Rigid(((0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)), (low, 0.0, 0.0))
    return Prism(Region(polygon(section)), high - low).placed(laid)


def _with_cut_face(body: MeshBody, colour: Colour, *, at_mm: float) -> Iterator[Seen]:
    """Yield what is left of a body, and apart from it, darker, the face where it is cut."""
    corners = body.vertices_mm[body.triangles]
    cut = (np.abs(corners[:, :, 0] - at_mm) < IN_PLANE_MM).all(axis=1)
    turned = body.vertices_mm @ TURNED.T
    yield Seen(turned, body.triangles[~cut], colour)
    red, green, blue = (round(CUT_SHARE * part) for part in colour)
    yield Seen(turned, body.triangles[cut], (red, green, blue))
