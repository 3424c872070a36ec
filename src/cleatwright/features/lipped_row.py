"""A row of short arms whose ends rise to a lip, and the front that they make.

section along an arm

║plate          ╱─┐  ← lip, LIP thick on top
║              ╱  │    its inner face leans by 45 degrees, so that
║─────────────╱   │    it prints while the plate lies on the bed
║  ← top, z = 0   │
║─╲───────────────┘
║  ╲ cove, web
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.features.clearance import CLEAR_MM
from cleatwright.features.layout import SeatLayout
from cleatwright.features.outward import MARK_BAND_MM, group_leading, low_mark, slim_row
from cleatwright.features.root import COVE_MM
from cleatwright.parts.holder import Front, Seat
from cleatwright.parts.tool import FittedTool, Size
from cleatwright.shapes.outline import Outline, Point, polygon
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid

LIP_MM = 3.0


@dataclass(frozen=True)
class Hung:
    """A tool on an arm, or on a pair of them.

    Args:
        tool: The tool.
        rest_mm: The height in its own frame that comes to z = 0.
        across: The size of its opening, or of the arm that goes into it.
        depth: The size along y, about its axis, of all that comes down behind the lip.
        arms_mm: Width over everything that carries it.
    """

    tool: FittedTool
    rest_mm: float
    across: Size
    depth: Size
    arms_mm: float


@dataclass(frozen=True)
class ArmShape:
    """What all arms of a row share: thickness, height of the lip, room above it, the plate."""

    thick_mm: float
    lip_mm: float
    lift_mm: float
    plate_mm: float


@dataclass(frozen=True)
class LippedRow:
    """Tools in a row, and where each arm's lip begins.

    Args:
        hung: The tools, from left to right.
        shape: What their arms share.
        line: Where they stand along x.
        axes_mm: Where their axes lie, along y.
    """

    hung: tuple[Hung, ...]
    shape: ArmShape
    line: SeatLayout
    axes_mm: tuple[float, ...]

    @property
    def lips_mm(self) -> tuple[float, ...]:
        """Return where each lip begins to rise, along y."""
        return tuple(y + h.depth.made_mm / 2 for y, h in zip(self.axes_mm, self.hung, strict=True))

    def end_mm(self, lip_y: float) -> float:
        """Return the end of an arm whose lip begins at ``lip_y``."""
        return lip_y + self.shape.lip_mm + LIP_MM

    @property
    def reach_mm(self) -> float:
        """Return the end of the longest arm."""
        return self.end_mm(max(self.lips_mm))

    def web_low_mm(self, lip_y: float) -> float:
        """Return where a 45-degree web from under a lip meets the plate."""
        return -self.shape.thick_mm - (lip_y - self.shape.plate_mm)

    @property
    def low_mm(self) -> float:
        """Return the lowest z of all webs."""
        return self.web_low_mm(max(self.lips_mm))

    def _end(self, lip_y: float) -> list[Point]:
        """Return the (y, z) corners of an arm from under its end to its top at y = 0."""
        thick, lip, end = self.shape.thick_mm, self.shape.lip_mm, self.end_mm(lip_y)
        return [(end, -thick), (end, lip), (lip_y + lip, lip), (lip_y, 0.0), (0.0, 0.0)]

    def coved(self, lip_y: float) -> Outline:
        """Return the (y, z) profile of an arm with a cove at the plate."""
        low, plate = -self.shape.thick_mm - COVE_MM, self.shape.plate_mm
        nook = (plate + COVE_MM, -self.shape.thick_mm)
        return polygon([(0.0, low), (plate, low), nook, *self._end(lip_y)])

    def webbed(self, lip_y: float) -> Outline:
        """Return the (y, z) profile of an arm together with its web."""
        low, toe = self.web_low_mm(lip_y), (lip_y, -self.shape.thick_mm)
        return polygon([(0.0, low), (self.shape.plate_mm, low), toe, *self._end(lip_y)])

    def front(self, solid: Solid, *, min_wall_mm: float) -> Front:
        """Return the front; it prints on its back, and its mark lies on the plate below it."""
        low = self.low_mm - MARK_BAND_MM
        return Front(
            solid=solid,
            width_mm=self.line.width_mm,
            plate_low_mm=low,
            plate_high_mm=0.0,
            reach_mm=self.reach_mm,
            low_mm=self.low_mm,
            high_mm=self.shape.lip_mm,
            seats=self._seats(),
            genus=0,
            min_wall_mm=min(LIP_MM, min_wall_mm),
            mark_place=low_mark(self.line.width_mm, low_mm=low, plate_mm=self.shape.plate_mm),
            leading=group_leading([h.across.measured_mm for h in self.hung]),
            print_pose="on-its-back",
        )

    def _seats(self) -> tuple[Seat, ...]:
        up = self.shape.lip_mm + self.shape.lift_mm
        seats: list[Seat] = []
        for h, x, y in zip(self.hung, self.line.centres_mm, self.axes_mm, strict=True):
            out = self.reach_mm + CLEAR_MM - y - h.tool.body.extent_mm[0][1]
            moves = ((0.0, 0.0, up), (0.0, out, 0.0))
            pose = shift(x, y, -h.rest_mm)
            seats.append(Seat(h.tool.body, pose, moves, (h.across, h.depth)))
        return tuple(seats)


def lipped_row(hung: Sequence[Hung], shape: ArmShape, *, hand_room_mm: float) -> LippedRow:
    """Return a row of tools, each as near to the plate as it can be."""
    line = slim_row(
        [h.tool.body.width_mm for h in hung],
        [h.arms_mm for h in hung],
        gap_mm=hand_room_mm,
    )
    axes = tuple(
        shape.plate_mm + CLEAR_MM + max(-h.tool.body.extent_mm[0][1], h.depth.made_mm / 2)
        for h in hung
    )
    return LippedRow(tuple(hung), shape, line, axes)
