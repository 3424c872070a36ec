"""The solids that the browser shows of a holder: itself, its carrier, its rail, and its tools."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from cleatwright.base.stages.run import Run
from cleatwright.design.bodies import Meshing
from cleatwright.design.building import BuiltPart
from cleatwright.design.carrying import Unit, build_units
from cleatwright.design.planned import PlannedHolder
from cleatwright.kernels.api import CHORD_ERROR_MM
from cleatwright.project.opened.planned import PlannedDocument
from cleatwright.shapes.rigid import Vector
from cleatwright.shapes.solid import Union
from cleatwright.siting.walls import rail_profile
from cleatwright.wall.rail import Profile
from cleatwright.web.meshframe import FramePiece
from cleatwright.workshop.document.model import Workshop

BESIDE_MM = 40.0
"""How far the rail is shown at both sides of what hangs on it."""
# the six faces of a bar, of the corners of its section at one end and at the other
_BAR = np.array(
    [
        (0, 1, 2), (0, 2, 3), (4, 6, 5), (4, 7, 6), (0, 5, 1), (0, 4, 5),
        (1, 6, 2), (1, 5, 6), (2, 7, 3), (2, 6, 7), (3, 4, 0), (3, 7, 4),
    ]
)  # fmt: skip


def holder_pieces(
    planned: PlannedDocument, one: PlannedHolder, built: BuiltPart, run: Run
) -> list[FramePiece]:
    """Return everything that is shown of a holder, in its frame.

    Args:
        planned: The holders of the document.
        one: The holder.
        built: The same, built.
        run: The run that keeps what was computed before.
    """
    pieces = [FramePiece("part", {"name": one.name}, built.body.vertices_mm, built.body.triangles)]
    unit = next((unit for unit in planned.units if one in unit.holders), None)
    workshop = planned.document.workshop
    if unit is not None and workshop is not None:
        pieces += _behind(build_units([unit], run)[0], one, workshop)
    # a changed size of the holder leaves most of its tools where they were
    meshing = Meshing(run, CHORD_ERROR_MM)
    for seat, tool in zip(built.part.seats, one.tools, strict=True):
        body = meshing.plain(Union(seat.envelope()))
        about = {"name": tool.name, "way_out_mm": seat.way_out}
        pieces.append(FramePiece("tool", about, body.vertices_mm, body.triangles))
    return pieces


def _behind(unit: Unit, one: PlannedHolder, workshop: Workshop) -> Iterator[FramePiece]:
    """Yield the carrier of a holder, if it has one, and a length of the rail behind both."""
    at = unit.offsets_mm[unit.planned.holders.index(one)]
    outer = unit.outer
    if unit.carrier is not None:
        role = "part" if unit.carrier.printed else "wood"
        corners = outer.body.vertices_mm - np.array(at)
        yield FramePiece(role, {"name": "carrier"}, corners, outer.body.triangles)
    for made, body in zip(unit.fittings, unit.fitting_bodies(), strict=True):
        corners = body.vertices_mm - np.array(at)
        yield FramePiece("part", {"name": made.part.family}, corners, body.triangles)
    if outer.part.hanging.on_rail:
        yield _rail(rail_profile(workshop.rail), outer, at)


def _rail(profile: Profile, outer: BuiltPart, at: Vector) -> FramePiece:
    (low, _, _), (high, _, _) = outer.part.bounds_mm
    top, thick = outer.part.hanging.contact_z_mm, profile.thickness_mm
    section = (
        (0.0, top),
        (0.0, top - profile.height_mm),
        (-thick, top - profile.height_mm),
        (-thick, top - profile.slant_mm),
    )
    corners = [(x, y, z) for x in (low - BESIDE_MM, high + BESIDE_MM) for y, z in section]
    return FramePiece("wood", {"name": "rail"}, np.array(corners) - np.array(at), _BAR)
