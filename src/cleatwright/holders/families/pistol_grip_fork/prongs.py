"""Two prongs that lean up to the front, with deep webs, for a body that lies on them."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from cleatwright.features.clearance import CLEAR_MM
from cleatwright.features.footed import diamond
from cleatwright.features.outward import outward
from cleatwright.parts.grips import PistolGrip
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.extent import joint_extent
from cleatwright.shapes.outline import polygon
from cleatwright.shapes.rigid import Rigid, shift, turn
from cleatwright.shapes.solid import Difference, Solid, across, prism

WEB_MM = 5.0
# a prong carries on this width of the body at least, and no more is needed
LEAST_BEARING_MM, MOST_BEARING_MM = 9.0, 14.0
# thickness of a prong at its slot, where it meets the plate, and of its nose
EDGE_MM, NOSE_MM = 4.0, 8.0
# the prongs go on so far in front of the handle, and of the tool's weight
PAST_HANDLE_MM, PAST_WEIGHT_MM = 10.0, 12.0
FLARE_MM = 3.0
RIM_MM = 8.0
LARGEST_WINDOW_MM, LEAST_WINDOW_MM = 22.0, 8.0
PAST_MM = 1.0


@dataclass(frozen=True)
class ProngPlan:
    """Where a pair of prongs about x = 0 lies; the body's underside on the axis is z = 0.

    Args:
        slot_mm: Clear width between both prongs.
        outer_mm: Half the width over both prongs.
        tilt_deg: How far the tops lean up to the front.
        plate_mm: Thickness of the plate.
        axis_mm: The axis of the handle at the height of the underside, along y.
        reach_mm: Ends of the prongs.
        rear_mm: Rear end of the tool's underside.
    """

    slot_mm: float
    outer_mm: float
    tilt_deg: float
    plate_mm: float
    axis_mm: float
    reach_mm: float
    rear_mm: float

    @property
    def slope(self) -> float:
        """Return by how much a top rises per mm along y."""
        return math.tan(math.radians(self.tilt_deg))

    def top_mm(self, y: float) -> float:
        """Return the height of the tops at y."""
        return (y - self.axis_mm) * self.slope

    @property
    def lift_mm(self) -> float:
        """Return how far the tool must be lifted until its rear end passes the prongs' ends."""
        return (self.reach_mm - self.rear_mm) * self.slope

    @property
    def web_mm(self) -> float:
        """Return half the clear width between both webs."""
        return self.outer_mm - WEB_MM

    @property
    def edge_mm(self) -> float:
        """Return the height of the lower edge of the slot's sides."""
        return self.top_mm(self.plate_mm) - EDGE_MM

    @property
    def roof_mm(self) -> float:
        """Return the height below which the webs are as far apart as they get."""
        return self.edge_mm - (self.web_mm - self.slot_mm / 2)

    @property
    def low_mm(self) -> float:
        """Return the lowest place of the webs, at the plate."""
        return self.top_mm(self.reach_mm) - NOSE_MM - (self.reach_mm - self.plate_mm)

    def web_low_mm(self, y: float) -> float:
        """Return the height of the underside of the webs at y."""
        return self.low_mm + max(0.0, y - self.plate_mm)

    @property
    def window_mm(self) -> float:
        """Return half the diagonal of the opening in each web, or zero."""
        half = (self.roof_mm - self.low_mm - 3 * RIM_MM - 3.0) / 3
        return min(half, LARGEST_WINDOW_MM) if half >= LEAST_WINDOW_MM else 0.0


def seated(grip: PistolGrip, *, tilt_deg: float, axis_mm: float) -> Rigid:
    """Return the pose of a tool: nose up, the grip's underside at (0, axis, 0)."""
    leaning = turn("x", tilt_deg)
    _, y, z = leaning.apply((0.0, 0.0, grip.z_mm))
    return leaning.then(shift(0.0, axis_mm - y, -z))


def plan_prongs(
    tool: ToolBody, grip: PistolGrip, *, slot_mm: float, tilt_deg: float, plate_mm: float
) -> ProngPlan:
    """Return where the prongs for a tool lie; webs keep outside of what passes between them.

    Args:
        tool: The tool.
        grip: Its grip.
        slot_mm: Clear width between the prongs.
        tilt_deg: How far they lean up to the front.
        plate_mm: Thickness of the plate.
    """
    still = seated(grip, tilt_deg=tilt_deg, axis_mm=0.0)
    behind = joint_extent(piece.placed(still) for piece in tool.envelope)[0][1]
    axis = plate_mm + CLEAR_MM - behind
    pose = seated(grip, tilt_deg=tilt_deg, axis_mm=axis)
    weight = pose.apply(tool.com_mm)[1]
    front = pose.apply((0.0, grip.front_y_mm, grip.z_mm))[1]
    ahead = max(axis + grip.handle_y_mm / 2 + PAST_HANDLE_MM, weight + PAST_WEIGHT_MM)
    overhang = (grip.body_x_mm - slot_mm) / 2
    bearing = min(max(overhang, LEAST_BEARING_MM), MOST_BEARING_MM)
    plan = ProngPlan(
        slot_mm=slot_mm,
        outer_mm=slot_mm / 2 + bearing,
        tilt_deg=tilt_deg,
        plate_mm=plate_mm,
        axis_mm=axis,
        reach_mm=min(ahead, front),
        rear_mm=pose.apply((0.0, -grip.back_y_mm, grip.z_mm))[1],
    )
    return _around(plan, tool, grip, pose)


def _around(plan: ProngPlan, tool: ToolBody, grip: PistolGrip, pose: Rigid) -> ProngPlan:
    """Return the plan with its webs outside of each hanging piece that would meet them."""
    web = plan.web_mm
    for piece in tool.envelope:
        (x0, _, _), (x1, _, top) = joint_extent((piece,))
        half = max(-x0, x1)
        (_, y0, _), (_, _, z1) = joint_extent((piece.placed(pose),))
        hangs = top <= grip.z_mm + 1e-6 and half > plan.slot_mm / 2
        if hangs and z1 + plan.lift_mm + 2 * CLEAR_MM > plan.web_low_mm(y0):
            web = max(web, half + CLEAR_MM)
    return replace(plan, outer_mm=web + WEB_MM)


def room_below_mm(plan: ProngPlan, tool: ToolBody, grip: PistolGrip) -> float:
    """Return how far a foot that is wider than the slot stays below the prongs when lifted."""
    pose = seated(grip, tilt_deg=plan.tilt_deg, axis_mm=plan.axis_mm)
    rooms = [grip.handle_length_mm]
    for piece in tool.envelope:
        (x0, _, _), (x1, _, top) = joint_extent((piece,))
        if top <= grip.z_mm + 1e-6 and max(-x0, x1) > plan.slot_mm / 2:
            high = joint_extent((piece.placed(pose),))[1][2]
            rooms.append(plan.roof_mm - high - plan.lift_mm)
    return min(rooms)


def prongs(plan: ProngPlan) -> Solid:
    """Return both prongs about x = 0 with their webs, and what lies of them in the plate."""
    end, outer = plan.reach_mm, plan.outer_mm
    side = polygon(
        [
            (0.0, plan.low_mm),
            (plan.plate_mm, plan.low_mm),
            (end, plan.top_mm(end) - NOSE_MM),
            (end, plan.top_mm(end)),
            (0.0, plan.top_mm(0.0)),
        ]
    )
    high, low = plan.top_mm(end) + PAST_MM, plan.low_mm - PAST_MM
    slot, web = plan.slot_mm / 2, plan.web_mm
    channel = polygon(
        [
            (-web, low),
            (web, low),
            (web, plan.roof_mm),
            (slot, plan.edge_mm),
            (slot, high),
            (-slot, high),
            (-slot, plan.edge_mm),
            (-web, plan.roof_mm),
        ]
    )
    wide = slot + FLARE_MM + PAST_MM
    mouth = polygon(
        [
            (slot, end - FLARE_MM),
            (wide, end + PAST_MM),
            (-wide, end + PAST_MM),
            (-slot, end - FLARE_MM),
        ]
    )
    cuts: list[Solid] = [
        outward(channel, 0.0, y0=plan.plate_mm, y1=end + PAST_MM),
        prism(mouth, high - low).moved(0.0, 0.0, low),
    ]
    half = plan.window_mm
    if half:
        at = (plan.plate_mm + half + RIM_MM, plan.roof_mm - half - RIM_MM)
        cuts.append(across(diamond(half, at=at), -outer - PAST_MM, outer + PAST_MM))
    return Difference(across(side, -outer, outer), tuple(cuts))
