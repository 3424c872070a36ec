"""A part and the tools in it as they are seen from the front, and what of it hides the tools."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.keys import content_key
from cleatwright.base.stages.codec import JsonCodec
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.design.building import BuiltPart, fitting_bodies
from cleatwright.design.recipe import CarrierRecipe
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.shapes.solid import block
from cleatwright.wall.frame import origin_mm
from cleatwright.wall.model import Place

Polygons = tuple[tuple[tuple[float, float], ...], ...]
"""Closed polygons in mm, x to the right for a person who faces the wall."""
ROOM_MM = 10.0


@dataclass(frozen=True)
class FrontView:
    """Outlines from the front.

    Args:
        part: The outline of the part.
        tools: The outline of the tool in each seat.
        front: The outline of what of the part lies before the middle of the tools.
    """

    part: Polygons
    tools: tuple[Polygons, ...]
    front: Polygons

    def at(self, made: BuiltPart, place: Place) -> FrontView:
        """Return the same where its part hangs on the wall."""
        dx, dz = origin_mm(made.part, place), place.z_mm - made.part.hanging.contact_z_mm

        def there(polygons: Polygons) -> Polygons:
            return tuple(tuple((x + dx, z + dz) for x, z in loop) for loop in polygons)

        return FrontView(there(self.part), tuple(map(there, self.tools)), there(self.front))


def _front_view(_: Run, made: BuiltPart) -> FrontView:
    seen = [made.body]
    if made.part.hanging.in_grooves is not None:
        # the plates by which it is screwed or pinned on stand out above it
        seen += fitting_bodies(made)
    outline, kernel = MeshBody.joined(seen).silhouette("front"), MeshKernel()
    if isinstance(made.recipe, CarrierRecipe):
        # its tools are seen in its holders
        return FrontView(outline, (), ())
    tools = [
        [kernel.evaluate(piece).placed(seat.pose) for piece in seat.tool.envelope]
        for seat in made.part.seats
    ]
    return FrontView(
        outline,
        tuple(MeshBody.joined(pieces).silhouette("front") for pieces in tools),
        _front(made, [piece for pieces in tools for piece in pieces], kernel),
    )


def _front(made: BuiltPart, tools: list[MeshBody], kernel: MeshKernel) -> Polygons:
    depths = [piece.box_mm[:, 1] for piece in tools]
    middle = sum(float(low + high) for low, high in depths) / (2 * len(depths))
    (x0, y0, z0), (x1, y1, z1) = made.body.box_mm.tolist()
    if middle >= y1:
        return ()
    if middle <= y0:
        return made.body.silhouette("front")
    behind = block(x0 - ROOM_MM, y0 - ROOM_MM, z0 - ROOM_MM, x1 + ROOM_MM, middle, z1 + ROOM_MM)
    return made.body.without(kernel.evaluate(behind)).silhouette("front")


FRONT_VIEW = Stage("part from the front", _front_view, content_key, codec=JsonCodec(FrontView))
"""From a built part to its outlines from the front, in its own frame."""


def front_view(made: BuiltPart, place: Place, run: Run) -> FrontView:
    """Return the outlines of a part and its tools where it hangs on the wall."""
    return run.need(FRONT_VIEW, made).at(made, place)
