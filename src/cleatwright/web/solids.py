"""The solids that the browser shows of a holder: itself, its carrier, its rail, and its tools."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from cleatwright.base.stages.run import Run
from cleatwright.design.bodies import Meshing
from cleatwright.design.carrying import PlannedUnit
from cleatwright.design.describing import carrier_offsets, fitting_recipes
from cleatwright.design.planned import PlannedHolder
from cleatwright.design.shaping import SHAPED, ShapedPart
from cleatwright.kernels.api import CHORD_ERROR_MM
from cleatwright.parts.holder import HolderPart
from cleatwright.parts.mirror import turned
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
    planned: PlannedDocument, one: PlannedHolder, made: ShapedPart, run: Run
) -> list[FramePiece]:
    """Return everything that is shown of a holder, in its frame.

    Args:
        planned: The holders of the document.
        one: The holder.
        made: The same in its shape.
        run: The run that keeps what was computed before.
    """
    pieces = [FramePiece("part", {"name": one.name}, made.body.vertices_mm, made.body.triangles)]
    unit = next((unit for unit in planned.units if one in unit.holders), None)
    workshop = planned.document.workshop
    if unit is not None and workshop is not None:
        pieces += _behind(unit, one, workshop, run)
    # a changed size of the holder moves its tools and leaves them as they are
    meshing = Meshing(run, CHORD_ERROR_MM)
    for seat, tool in zip(made.part.seats, one.tools, strict=True):
        if tool.gone:
            continue
        body = meshing.plain(Union(seat.tool.envelope)).placed(seat.pose)
        about = {"name": tool.name, "way_out_mm": seat.way_out}
        pieces.append(FramePiece("tool", about, body.vertices_mm, body.triangles))
    return pieces


def _behind(
    unit: PlannedUnit, one: PlannedHolder, workshop: Workshop, run: Run
) -> Iterator[FramePiece]:
    """Yield the carrier of a holder, if it has one, its fittings, and a length of rail behind."""
    recipe = unit.carrier or one.recipe
    outer = run.need(SHAPED, recipe)
    at = (0.0, 0.0, 0.0)
    if unit.carrier is not None:
        at = turned(carrier_offsets(unit.carrier, run=run))[unit.holders.index(one)]
        role = "wood" if outer.part.joinery else "part"
        corners = outer.body.vertices_mm - np.array(at)
        yield FramePiece(role, {"name": "carrier"}, corners, outer.body.triangles)
    fittings = fitting_recipes(recipe, outer.part)
    for fitting, placed in zip(fittings, outer.part.fittings, strict=True):
        made = run.need(SHAPED, fitting)
        body = made.body.placed(placed.pose)
        corners = body.vertices_mm - np.array(at)
        yield FramePiece("part", {"name": made.part.family}, corners, body.triangles)
    if outer.part.hanging.on_rail:
        yield _rail(rail_profile(workshop.rail), outer.part, at)


def _rail(profile: Profile, outer: HolderPart, at: Vector) -> FramePiece:
    (low, _, _), (high, _, _) = outer.bounds_mm
    top, thick = outer.hanging.contact_z_mm, profile.thickness_mm
    section = (
        (0.0, top),
        (0.0, top - profile.height_mm),
        (-thick, top - profile.height_mm),
        (-thick, top - profile.slant_mm),
    )
    corners = [(x, y, z) for x in (low - BESIDE_MM, high + BESIDE_MM) for y, z in section]
    return FramePiece("wood", {"name": "rail"}, np.array(corners) - np.array(at), _BAR)
