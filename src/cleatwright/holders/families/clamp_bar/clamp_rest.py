"""A bar along the wall on webs, with an arch under it in each bay, so that it prints upright.

seen from the front                 section through a bay

┌──────┬───────┬──────┐ ← z = 0     ║plate    ╱│ ← front edge, z = 0
│ ╱──╲ │ ╱───╲ │ ╱──╲ │  height     ║      ╱‾  │   the top falls to the wall
│╱    ╲│╱     ╲│╱    ╲│  arch       ║     │    ╲   and the face leans with it
│      │       │      │             ║     │bar  ╲
 web      bay                       ║             ╱ webs, 45 degrees
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.features.outward import outward
from cleatwright.parts.grips import HookedArm
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.extent import joint_extent
from cleatwright.shapes.outline import polygon, rectangle
from cleatwright.shapes.rigid import Rigid, shift, turn
from cleatwright.shapes.solid import CutPrism, Difference, Intersection, Solid, across

WEB_MM = 5.0
EDGE_MM = 1.5
# the top of an arch may be a bridge
BRIDGE_MM = 8.0
# webs go on so far below the arches
FOOT_MM = 2.0
PAST_MM = 1.0


@dataclass(frozen=True)
class ClampRest:
    """Where the bar, its bays and its webs lie.

    Args:
        bays: Middle and clear width of each bay along x, more than BRIDGE_MM.
        width_mm: Width of everything.
        plate_mm: Thickness of the plate.
        front_y: Upper front edge of the bar.
        bar_mm: Depth of the bar along y, at its top.
        height_mm: Height of the bar above the arches.
        lean_deg: How far the top falls to the wall, and the face leans to the front.
    """

    bays: tuple[tuple[float, float], ...]
    width_mm: float
    plate_mm: float
    front_y: float
    bar_mm: float
    height_mm: float
    lean_deg: float

    @property
    def slope(self) -> float:
        """Return the tangent of the lean."""
        return math.tan(math.radians(self.lean_deg))

    @property
    def face_mm(self) -> float:
        """Return the height of the front face: the bar, the highest arch and a foot."""
        widest = max(clear for _, clear in self.bays)
        return self.height_mm + (widest - BRIDGE_MM) / 2 + FOOT_MM

    @property
    def reach_mm(self) -> float:
        """Return the lower front edge, which lies farthest out."""
        return self.front_y + self.face_mm * self.slope

    @property
    def low_mm(self) -> float:
        """Return the lowest place of the webs."""
        return -self.face_mm - (self.reach_mm - self.plate_mm)

    @property
    def solid(self) -> Solid:
        """Return the bar with its webs."""
        back, high = self.front_y - self.bar_mm, -self.low_mm
        plan = CutPrism(
            rectangle(0.0, 0.0, self.width_mm, self.reach_mm + PAST_MM),
            tuple(
                rectangle(x - clear / 2, self.plate_mm, x + clear / 2, back)
                for x, clear in self.bays
            ),
            high,
        ).moved(0.0, 0.0, self.low_mm)
        side = polygon(
            [
                (0.0, self.low_mm),
                (self.plate_mm, self.low_mm),
                (self.reach_mm, -self.face_mm),
                (self.front_y + EDGE_MM * self.slope, -EDGE_MM),
                (self.front_y - EDGE_MM, -EDGE_MM * self.slope),
                (0.0, -self.front_y * self.slope),
            ]
        )
        whole = Intersection((plan, across(side, 0.0, self.width_mm)))
        return Difference(whole, tuple(self._arch(x, clear) for x, clear in self.bays))

    def _arch(self, x: float, clear_mm: float) -> Solid:
        half, flat = clear_mm / 2, BRIDGE_MM / 2
        crown, low = -self.height_mm, self.low_mm - PAST_MM
        foot = crown - (half - flat)
        corners = [
            (half, foot),
            (flat, crown),
            (-flat, crown),
            (-half, foot),
            (-half, low),
            (half, low),
        ]
        back = self.front_y - self.bar_mm - PAST_MM
        y0 = max(back, self.plate_mm)
        return outward(polygon(corners), x, y0=y0, y1=self.reach_mm + PAST_MM)


def bays(rooms_mm: Sequence[float], *, apart_mm: float) -> tuple[tuple[float, float], ...]:
    """Return middle and clear width of a bay for each tool, with a web between neighbours.

    Args:
        rooms_mm: Width that each tool takes along the wall.
        apart_mm: Room between neighbouring tools, more than a web.

    >>> bays([30.0, 40.0], apart_mm=13.0)
    ((24.0, 38.0), (72.0, 48.0))
    """
    side = (apart_mm - WEB_MM) / 2
    found: list[tuple[float, float]] = []
    x = WEB_MM
    for room in rooms_mm:
        clear = room + 2 * side
        found.append((x + clear / 2, clear))
        x += clear + WEB_MM
    return tuple(found)


def leaning(grip: HookedArm, lean_deg: float) -> Rigid:
    """Return the pose of a tool whose corner between arm and bar lies at y = z = 0."""
    turned = turn("x", lean_deg)
    _, y, z = turned.apply((0.0, -grip.bar_y_mm / 2, grip.z_mm))
    return turned.then(shift(0.0, -y, -z))


def rear_mm(tool: ToolBody, pose: Rigid) -> float:
    """Return the least y of a tool in a pose."""
    return joint_extent(piece.placed(pose) for piece in tool.envelope)[0][1]


def straight_mm(bar_mm: float, grip: HookedArm, *, lean_deg: float) -> float:
    """Return the depth of a bar with an upright back: the nose leans in by its own height.

    Args:
        bar_mm: The depth that the arm leaves before its nose, along the arm.
        grip: The arm.
        lean_deg: How far the tool leans.
    """
    lean = math.radians(lean_deg)
    return bar_mm * math.cos(lean) - grip.nose_mm * math.sin(lean)
