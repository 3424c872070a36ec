"""What the section through a rail shows, as plain values.

The datum is the sharp top edge of the rail in its front face: y out of the wall, z up, in
millimetres. The wall's face is at y = -thickness of the rail.
"""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.lengths import IN_MM, Wording, length_words, show_length
from cleatwright.checks.result import CheckResult
from cleatwright.standards import cautions
from cleatwright.wall.rail import Profile

Loop = tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class ScrewView:
    """A screw of the rail.

    Args:
        z_mm: Its height, below the top edge and so negative.
        diameter_mm: Its diameter.
        length_mm: Its length from the rail's face.
        head_mm: Diameter of its head.
    """

    z_mm: float
    diameter_mm: float
    length_mm: float
    head_mm: float


@dataclass(frozen=True)
class HoleView:
    """The hole of an anchor: its height, negative, and its size where somebody has said it."""

    z_mm: float
    diameter_mm: float | None
    depth_mm: float | None


@dataclass(frozen=True)
class WallView:
    """The wall behind a rail.

    Args:
        lining_mm: Thickness of what lies between rail and stud, >= 0; 0 on a wall without studs.
        lining_given: False when nobody has said it and it is taken as plasterboard.
        has_stud: True when the rail is screwed to studs.
        top_mm: Height of the rail's top edge above the lower edge of the wall.
        floor_gap_mm: Height of the lower edge above the floor.
        any_stud: True when the wall has studs, whether or not this rail meets one.
        made_of: What it is, as the document says it.
    """

    lining_mm: float
    lining_given: bool
    has_stud: bool
    top_mm: float
    floor_gap_mm: float
    any_stud: bool = True
    made_of: str = "studs"

    @property
    def solid(self) -> bool:
        """Return True when it is of one piece behind the lining, and not of studs."""
        return self.made_of != "studs"

    @property
    def anchored(self) -> bool:
        """Return True when anchors go into it and no wood screws."""
        return self.made_of not in ("studs", "solid wood")


@dataclass(frozen=True)
class LoadView:
    """What hangs there: its weight, and the lever and the depth that hold it.

    Args:
        mass_kg: Its mass with its tools.
        weight_n: What that weighs.
        distance_mm: How far in front of the rail's face.
        depth_mm: How far below the top edge it bears.
        foot_on_wall: Whether it bears on the wall, and not on the rail.
        screws_mm: How far below the top edge screws hold it; None where the bevel does.
    """

    mass_kg: float
    weight_n: float
    distance_mm: float
    depth_mm: float
    foot_on_wall: bool
    screws_mm: float | None = None

    @property
    def press_n(self) -> float:
        """Return with how much the holder bears, and bevel or screws hold it: W e over its lever.

        >>> LoadView(1.0, 10.0, 30.0, 60.0, foot_on_wall=False).press_n
        5.0
        >>> LoadView(1.0, 10.0, 30.0, 60.0, foot_on_wall=False, screws_mm=30.0).press_n
        10.0
        """
        return self.weight_n * self.distance_mm / (self.depth_mm - (self.screws_mm or 0.0))


@dataclass(frozen=True)
class HungView:
    """The holder on the rail, cut through one seat.

    Args:
        name: What it is called, its mark included.
        cut: The cut faces, body by body.
        beyond: Silhouettes, body by body.
        tools: Silhouettes of the tool in the seat that is cut.
        way_from: Centre of that tool.
        way_out: Its moves as (x, y, z), x to the left of a person who faces the wall.
        lift_mm: How far the holder is lifted before it comes off the rail.
        first_of_wood: True when the first body is a carrier of wood.
    """

    name: str
    cut: tuple[tuple[Loop, ...], ...]
    beyond: tuple[tuple[Loop, ...], ...]
    tools: tuple[Loop, ...]
    way_from: tuple[float, float]
    way_out: tuple[tuple[float, float, float], ...]
    lift_mm: float
    first_of_wood: bool = False

    @property
    def reach_mm(self) -> float:
        """Return how far the holder reaches in front of the rail's face."""
        return max(y for body in self.beyond for loop in body for y, _ in loop)

    @property
    def tool_reach_mm(self) -> float:
        """Return how far the tool reaches in front of the rail's face."""
        return max(y for loop in self.tools for y, _ in loop)

    @property
    def top_mm(self) -> float:
        """Return the highest place of the holder above the rail's top edge."""
        return max(z for body in self.beyond for loop in body for _, z in loop)

    @property
    def outlines(self) -> tuple[Loop, ...]:
        """Return every outline of the holder and of the tool."""
        return (*(loop for body in self.beyond for loop in body), *self.tools)

    @property
    def path(self) -> tuple[tuple[float, float], ...]:
        """Return the way of the tool's centre as it is seen from the side."""
        points = [self.way_from]
        for _, dy, dz in self.way_out:
            points.append((points[-1][0] + dy, points[-1][1] + dz))
        return tuple(points)


@dataclass(frozen=True)
class RailSectionView:
    """Everything on the sheet of one rail.

    Args:
        title: Name of the workshop.
        rail: Name of the rail.
        profile: Its cross-section.
        wall: The wall behind it.
        screws: Its screws in one stud, from top to bottom.
        hung: The holder that loads it most.
        load: Its weight.
        checks: What was checked about its stand and about the rail's screws.
        unit: Unit in which lengths are written, "mm" or "in".
        words: Turns sentences into that unit.
        stays: True when the rail hangs there already.
        holes: The holes of anchors; none for wood screws.
        held: What holds the rail, in a sentence, where it is not wood screws in studs.
        cautions: What the person must read.
    """

    title: str
    rail: str
    profile: Profile
    wall: WallView
    screws: tuple[ScrewView, ...]
    hung: HungView
    load: LoadView
    checks: tuple[CheckResult, ...]
    unit: str = "mm"
    words: Wording = IN_MM
    stays: bool = False
    holes: tuple[HoleView, ...] = ()
    held: str = ""
    cautions: tuple[str, ...] = (
        cautions.PIPES,
        cautions.FIXING,
        cautions.RAIL_UP,
        cautions.HOOK_IN,
        cautions.DEFER,
    )

    def length(self, value_mm: float) -> str:
        """Return a length to 0.1 mm, or as a fraction of an inch; the unit mm is left out."""
        if self.unit == "mm":
            return length_words(value_mm, self.unit)
        return show_length(value_mm, self.unit)

    @property
    def stud_shown_mm(self) -> float:
        """Return how much of the stud the drawing shows."""
        behind = self.profile.thickness_mm + self.wall.lining_mm
        deep = max((screw.length_mm - behind for screw in self.screws), default=0.0)
        deep = max([deep, *(hole.depth_mm or 0.0 for hole in self.holes)])
        return max(30.0, deep + 10.0)

    @property
    def rail_loop(self) -> Loop:
        """Return the cross-section of the rail."""
        thick, high = self.profile.thickness_mm, self.profile.height_mm
        return ((0.0, 0.0), (0.0, -high), (-thick, -high), (-thick, -self.profile.slant_mm))
