"""What a carrier of wood is made of: a board with grooves and holes, strips behind it, screws.

profile seen from the left             groove seen from the front

 wall      rail face                   ═════╗     ╔═════  top edge of the board
  │ ┌──────┬────────┐ ← top                 ║     ║
  │ │ hook │ board  │                       ║     ║   as wide as the bit at its bottom,
  │ └╮     │   ┌────┤ groove, depth         ║     ║   narrower at the face
  │   ╲╲   │   │                          ║  +  ║ ← ``stop_mm``: centre of the bit
  │     ╲╲ │   └────┤                       ╚═___═╝   half round, as the bit leaves it
  │  rail ╲│        │
  │ ┌──────┤        │
  │ │spacer│        │
  │ └──────┴────────┘ ← low

The frame is that of a holder: the board's back at y = 0, x to the left for the reader. The solid
comes from the same numbers as the papers.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from cleatwright.shapes.outline import Outline, polygon
from cleatwright.shapes.solid import Difference, Revolved, Solid, across, block, joined, prism

PAST_MM = 1.0


@dataclass(frozen=True)
class Groove:
    """A dovetail groove from the top edge down.

    Args:
        x_mm: Its middle.
        stop_mm: Height of the bit's centre at the lower end.
        bit_mm: Widest diameter of the bit, at its tip.
        depth_mm: Depth below the face.
        angle_deg: Lean of the flanks.
    """

    x_mm: float
    stop_mm: float
    bit_mm: float
    depth_mm: float
    angle_deg: float

    @property
    def mouth_mm(self) -> float:
        """Return the width at the face: bit - 2 depth tan(angle)."""
        return self.bit_mm - 2 * self.depth_mm * math.tan(math.radians(self.angle_deg))

    @property
    def low_mm(self) -> float:
        """Return the lowest place of the round end."""
        return self.stop_mm - self.bit_mm / 2

    def cut(self, *, thick_mm: float, high_mm: float) -> Solid:
        """Return what the bit takes out of a board, open at its top edge and its face."""
        wide, mouth, deep = self.bit_mm / 2, self.mouth_mm / 2, self.depth_mm
        out = PAST_MM
        plan = polygon(
            [
                (-wide, -deep),
                (wide, -deep),
                (mouth, 0.0),
                (mouth, out),
                (-mouth, out),
                (-mouth, 0.0),
            ]
        )
        path = prism(plan, high_mm + PAST_MM - self.stop_mm)
        bit = Revolved(
            polygon([(0.0, -deep), (wide, -deep), (mouth, 0.0), (mouth, out), (0.0, out)])
        ).turned("x", -90.0)
        return (path | bit).moved(self.x_mm, thick_mm, self.stop_mm)


@dataclass(frozen=True)
class Bore:
    """A hole through the board, and through a strip behind it when ``behind_mm`` is above 0.

    Args:
        x_mm: Its middle.
        z_mm: Its height.
        diameter_mm: Diameter of the hole.
        countersink_mm: Diameter of a 90-degree countersink in the face; 0 for none.
        counterbore_mm: Diameter of a counterbore in the back; 0 for none.
        counterbore_depth_mm: Its depth.
        behind_mm: How much wood behind the board the hole goes on through.
        what: What it is for.
    """

    x_mm: float
    z_mm: float
    diameter_mm: float
    what: str
    countersink_mm: float = 0.0
    counterbore_mm: float = 0.0
    counterbore_depth_mm: float = 0.0
    behind_mm: float = 0.0

    @property
    def widest_mm(self) -> float:
        """Return the largest diameter of all."""
        return max(self.diameter_mm, self.countersink_mm, self.counterbore_mm)

    def cut(self, *, thick_mm: float) -> Solid:
        """Return what is cut out of a board."""
        r, back = self.diameter_mm / 2, -self.behind_mm - PAST_MM
        front = thick_mm + PAST_MM
        points = [(0.0, back)]
        if self.counterbore_mm:
            wide, deep = self.counterbore_mm / 2, self.counterbore_depth_mm
            points += [(wide, back), (wide, deep), (r, deep)]
        else:
            points += [(r, back)]
        if self.countersink_mm:
            head = self.countersink_mm / 2
            points += [(r, thick_mm - (head - r)), (head, thick_mm), (head, front)]
        else:
            points += [(r, front)]
        return (
            Revolved(polygon([*points, (0.0, front)]))
            .turned("x", -90.0)
            .moved(self.x_mm, 0.0, self.z_mm)
        )


@dataclass(frozen=True)
class Strip:
    """A strip of rail timber behind the board, over its whole width.

    Args:
        name: What it is.
        top_mm: Height of its upper edge.
        height_mm: Height of its longer face, which lies at the wall.
        thickness_mm: Thickness of the stock.
        bevel_deg: Bevel of its lower edge, from a square cut; 0 for a square strip.
        flat_mm: How wide the sharp edge is planed flat.
    """

    name: str
    top_mm: float
    height_mm: float
    thickness_mm: float
    bevel_deg: float = 0.0
    flat_mm: float = 0.0

    @property
    def short_mm(self) -> float:
        """Return the height of the face that is glued to the board."""
        return self.height_mm - self.thickness_mm * math.tan(math.radians(self.bevel_deg))

    @property
    def low_mm(self) -> float:
        """Return its lowest place, the sharp edge planed off."""
        lost = self.flat_mm * math.tan(math.radians(self.bevel_deg))
        return self.top_mm - self.height_mm + lost

    @property
    def profile(self) -> tuple[tuple[float, float], ...]:
        """Return its section as (y, z), counted from the back of the board."""
        near, low = self.top_mm - self.short_mm, self.low_mm
        wall = -self.thickness_mm
        flat = [(wall + self.flat_mm, low)] if self.flat_mm else []
        return ((0.0, near), (0.0, self.top_mm), (wall, self.top_mm), (wall, low), *flat)


@dataclass(frozen=True)
class Screw:
    """A screw driven from behind through a strip into the board."""

    x_mm: float
    z_mm: float
    diameter_mm: float
    length_mm: float


@dataclass(frozen=True)
class Joinery:
    """A board with everything that is cut into it and put behind it.

    Args:
        width_mm: Along the wall, from x = 0.
        low_mm: Height of its lower edge.
        high_mm: Height of its upper edge.
        thickness_mm: Thickness of the board.
        grooves: The dovetail grooves.
        bores: The holes.
        strips: The strips behind it, the uppermost first.
        screws: The screws that hold the strips, beside the glue.
    """

    width_mm: float
    low_mm: float
    high_mm: float
    thickness_mm: float
    grooves: tuple[Groove, ...] = ()
    bores: tuple[Bore, ...] = ()
    strips: tuple[Strip, ...] = ()
    screws: tuple[Screw, ...] = ()

    @property
    def height_mm(self) -> float:
        """Return the height of the board."""
        return self.high_mm - self.low_mm

    @property
    def solid(self) -> Solid:
        """Return the carrier without its screws, whose holes they fill."""
        board = block(0.0, 0.0, self.low_mm, self.width_mm, self.thickness_mm, self.high_mm)
        backs = [across(_reaching_in(one), 0.0, self.width_mm) for one in self.strips]
        cuts = (
            *(g.cut(thick_mm=self.thickness_mm, high_mm=self.high_mm) for g in self.grooves),
            *(bore.cut(thick_mm=self.thickness_mm) for bore in self.bores),
        )
        whole = joined(board, *backs) if backs else board
        return Difference(whole, cuts) if cuts else whole


def _reaching_in(strip: Strip) -> Outline:
    """Return the profile of a strip, a little into the board, so that the two join."""
    (_, near), (_, top), *rest = strip.profile
    points = [(0.0, near), (PAST_MM, near), (PAST_MM, top), *rest]
    return polygon(points)
