"""The heights between which a person takes things easily, and those reached at all.

wall│╲                       The hand moves on a circle round the shoulder, and the trunk
    │  ╲ arm                 leans forward from the hip over what stands before the wall:
    │    ● shoulder
    │    ╱ trunk             up and down from the shoulder = sqrt(arm² - (off - lean)²)
    │   ╱                    off = depth of the bench + half the depth of the body
    │▒▒● hip                 lean = trunk · sin(angle), never further than the bench is deep
    │▒▒
     ↔ off
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal, get_args

from cleatwright.base import said
from cleatwright.base.errors import MeasureError, WallError
from cleatwright.base.place import InDocument
from cleatwright.base.source import Evidence, Source
from cleatwright.standards.people.body_segments import HALF_BODY_MM, SOLDIERS, segment_mm
from cleatwright.standards.table import Listed

Hand = Literal["right", "left", "either"]

STATURE_MM = 1750.0
LEAST_STATURE_MM, MOST_STATURE_MM = 700.0, 2500.0
STATURE_SOURCE = Source("default stature, to be set by the person", "", Evidence.CHOICE)
# of the hand, from the wrist to the middle of what the fist holds
FIST_SHARE = 0.5
FIST_SOURCE = Source("middle of the fist, half a hand beyond the wrist", "", Evidence.PRACTICE)
LEAN_DEG = 20.0
LEAN_SOURCE = Source(
    "ISO 11226:2000", "forward lean of the trunk that needs no rest", Evidence.MEMORY
)
VALUES = (
    Listed("Reach", "stature mm", STATURE_MM, STATURE_SOURCE),
    Listed("Reach", "fist / hand", FIST_SHARE, FIST_SOURCE),
    Listed("Reach", "lean deg", LEAN_DEG, LEAN_SOURCE),
)


@dataclass(frozen=True)
class ReachBand:
    """Where a person reaches with ease, and where at all, as heights above the floor.

    Args:
        low_mm: Lower edge of the band of easy reach.
        high_mm: Its upper edge.
        lowest_mm: Below this nothing is reached that is used more often than seldom.
        highest_mm: The same above.
        easy_x_mm: The x on the wall where the better hand takes tools; None when either hand does.
    """

    low_mm: float
    high_mm: float
    lowest_mm: float = 0.0
    highest_mm: float = math.inf
    easy_x_mm: float | None = None

    def distance_mm(self, height_mm: float) -> float:
        """Return how far a height above the floor lies outside the band.

        >>> ReachBand(1000.0, 1400.0).distance_mm(1500.0)
        100.0
        """
        return max(self.low_mm - height_mm, height_mm - self.high_mm, 0.0)

    def beyond_mm(self, height_mm: float) -> float:
        """Return how far a height above the floor lies out of reach.

        >>> ReachBand(1000.0, 1400.0, 500.0, 1900.0).beyond_mm(2000.0)
        100.0
        """
        return max(self.lowest_mm - height_mm, height_mm - self.highest_mm, 0.0)


@dataclass(frozen=True)
class PersonReach:
    """The measures of a standing person that decide where tools hang.

    Args:
        stature_mm: Height of the person, 700 to 2500 mm.
        elbow_mm: Height of the elbow above the floor.
        shoulder_mm: Height of the joint of the shoulder above the floor.
        arm_mm: From the joint of the shoulder to the middle of the fist.
        hand: The hand that takes tools.
        name: What the person is called, where there are several; or "".
        lower_mm: How much lower than standing head and hip are of a person who sits; 0 of others.
    """

    stature_mm: float
    elbow_mm: float
    shoulder_mm: float
    arm_mm: float
    hand: Hand = "either"
    name: str = ""
    lower_mm: float = 0.0

    def __post_init__(self) -> None:
        if not LEAST_STATURE_MM <= self.stature_mm <= MOST_STATURE_MM:
            raise MeasureError(
                f"a stature of {said.mm(self.stature_mm)}",
                allowed=f"from {said.number(LEAST_STATURE_MM)} to {said.mm(MOST_STATURE_MM)}",
                where="reach",
            )
        below = max(self.elbow_mm, self.hip_mm)
        if not (self.elbow_mm > 0.0 and below < self.shoulder_mm < self.stature_mm):
            raise MeasureError(
                f"an elbow at {said.mm(self.elbow_mm)}, a shoulder at {said.mm(self.shoulder_mm)} "
                f"and a stature of {said.mm(self.stature_mm)}",
                allowed="elbow and hip below shoulder, and shoulder below stature",
                where="reach",
            )
        if not 0.0 < self.arm_mm < self.stature_mm:
            raise MeasureError(
                f"an arm of {said.mm(self.arm_mm)}",
                allowed=f"more than {said.mm(0)}",
                where="reach",
            )
        if self.hand not in get_args(Hand):
            raise MeasureError(
                f'the hand "{self.hand}"', allowed=", ".join(get_args(Hand)), where="reach"
            )

    @property
    def hip_mm(self) -> float:
        """Return the height of the hip, about which the trunk leans, from the stature."""
        return segment_mm("hip height", stature_mm=self.stature_mm) - self.lower_mm

    @property
    def eye_mm(self) -> float:
        """Return the height of the eyes above the floor, from the stature."""
        return segment_mm("eye height", stature_mm=self.stature_mm) - self.lower_mm

    @property
    def trunk_mm(self) -> float:
        """Return the length from the hip to the shoulder."""
        return self.shoulder_mm - self.hip_mm


def person(
    stature_mm: float = STATURE_MM,
    *,
    elbow_mm: float | None = None,
    shoulder_mm: float | None = None,
    arm_mm: float | None = None,
    hand: Hand = "either",
    name: str = "",
    lower_mm: float = 0.0,
) -> PersonReach:
    """Return a person; what nobody measured is the usual share of the stature (700 to 2500 mm).

    All that is not the arm is ``lower_mm`` (>= 0) lower of one who sits, but for what was measured.

    Raises:
        MeasureError: The measures do not belong to one person.

    Source: the shares of Drillis and Contini; an arm is upper arm, forearm and half a hand.

    >>> one = person(1750.0)
    >>> round(one.elbow_mm, 1), round(one.shoulder_mm, 1), round(one.arm_mm, 1)
    (1102.5, 1431.5, 675.5)
    """

    def share(name: str) -> float:
        return segment_mm(name, stature_mm=stature_mm)

    arm = share("upper arm") + share("forearm") + FIST_SHARE * share("hand")
    return PersonReach(
        stature_mm=stature_mm,
        elbow_mm=share("elbow height") - lower_mm if elbow_mm is None else elbow_mm,
        shoulder_mm=share("shoulder height") - lower_mm if shoulder_mm is None else shoulder_mm,
        arm_mm=arm if arm_mm is None else arm_mm,
        hand=hand,
        name=name,
        lower_mm=lower_mm,
    )


def reach_band(stature_mm: float = STATURE_MM) -> ReachBand:
    """Return the band from the elbow to the shoulder of a person of that stature (700 to 2500 mm).

    Raises:
        MeasureError: The stature is out of bounds.

    >>> band = reach_band(1750.0)
    >>> round(band.low_mm, 1), round(band.high_mm, 1)
    (1102.5, 1431.5)
    """
    one = person(stature_mm)
    return ReachBand(one.elbow_mm, one.shoulder_mm)


USUAL_REACH = reach_band()


@dataclass(frozen=True)
class ReachLimits:
    """The lowest and the highest place on the wall that the hand reaches, above the floor."""

    lowest_mm: float
    highest_mm: float


def reach_limits(
    one: PersonReach, bench_depth_mm: float = 0.0, *, bench_height_mm: float | None = None
) -> ReachLimits:
    """Return how low and how high a standing person's hand reaches on the wall.

    Over a bench the person leans forward by up to 20 degrees, which nobody tires of, and never
    further than to bring the shoulder over the bench's far edge. Nobody stoops or kneels.

    Args:
        one: The person.
        bench_depth_mm: Depth of what stands in front of the wall, >= 0; 0 for nothing.
        bench_height_mm: Its top above the floor, below which no hand gets to the wall; None when
            it is not known or nothing stands there.

    Raises:
        MeasureError: The bench has no sensible depth.
        WallError: The hand does not reach the wall over the bench at all.

    >>> limits = reach_limits(person(1750.0), 600.0, bench_height_mm=900.0)
    >>> round(limits.lowest_mm), round(limits.highest_mm)
    (1013, 1790)
    """
    if not (math.isfinite(bench_depth_mm) and bench_depth_mm >= 0.0):
        raise MeasureError(
            f"a bench {said.mm(bench_depth_mm)} deep",
            allowed=f"at least {said.least(0)}",
            where="reach",
        )
    trunk, arm, off = one.trunk_mm, one.arm_mm, bench_depth_mm + HALF_BODY_MM
    lean = min(trunk * math.sin(math.radians(LEAN_DEG)), bench_depth_mm)
    if off - lean >= arm:
        deepest = arm - HALF_BODY_MM + trunk * math.sin(math.radians(LEAN_DEG))
        raise WallError(
            f"{_the_arm(one)} does not reach the wall over a bench {said.mm(bench_depth_mm)} deep",
            place=InDocument((("bench_depth",), ("arm",), ("stature",))),
            allowed=f"a bench less than {said.mm(deepest, '.0f')} deep",
            todo="Make bench_depth smaller, or measure the arm and set arm_reach",
        )
    # the hand is lowest from the furthest lean, and highest when trunk and arm are in one line
    dropped = one.hip_mm + math.sqrt(trunk**2 - lean**2)
    lowest = max(0.0, dropped - math.sqrt(arm**2 - (off - lean) ** 2))
    stretch = min(lean, trunk * off / (trunk + arm))
    raised = one.hip_mm + math.sqrt(trunk**2 - stretch**2)
    highest = raised + math.sqrt(arm**2 - (off - stretch) ** 2)
    if bench_depth_mm > 0.0 and bench_height_mm is not None:
        lowest = max(lowest, bench_height_mm)
    if lowest >= highest:
        of = f" of {one.name}" if one.name else ""
        raise WallError(
            f"Behind a bench {said.mm(lowest)} high the hand{of} reaches nothing",
            place=InDocument((("bench_height",), ("bench_depth",), ("arm",), ("stature",))),
            allowed=f"a bench less than {said.mm(highest, '.0f')} high",
            todo="Correct bench_height, or leave it out",
        )
    return ReachLimits(lowest, highest)


def _the_arm(one: PersonReach) -> str:
    if one.name:
        return f"The arm of {one.name}, {said.mm(one.arm_mm)} long,"
    return f"An arm of {said.mm(one.arm_mm)}"


def band_of(
    one: PersonReach,
    *,
    bench_depth_mm: float = 0.0,
    bench_height_mm: float | None = None,
    stand_x_mm: float | None = None,
) -> ReachBand:
    """Return where a person reaches with ease and at all, from where the person stands.

    Args:
        one: The person.
        bench_depth_mm: As in ``reach_limits``.
        bench_height_mm: As in ``reach_limits``.
        stand_x_mm: Where the person stands, from the wall's left edge; the better hand is half
            the breadth of the shoulders beside it. None when it does not count.

    Raises:
        MeasureError: The bench has no sensible depth.
        WallError: The hand does not reach the wall over the bench at all.

    Source: ANSUR II for the breadth of the shoulders, which it has measured on 6068 people; the
    older ratio is a tenth more.

    >>> round(band_of(person(1750.0, hand="right"), stand_x_mm=1000.0).easy_x_mm or 0.0, 1)
    1203.7
    """
    limits = reach_limits(one, bench_depth_mm, bench_height_mm=bench_height_mm)
    low = max(one.elbow_mm, limits.lowest_mm)
    side = {"right": 1.0, "left": -1.0, "either": None}[one.hand]
    half = SOLDIERS.value("shoulder breadth", "per_stature") * one.stature_mm / 2
    easy = None if stand_x_mm is None or side is None else stand_x_mm + side * half
    return ReachBand(
        low_mm=low,
        high_mm=max(one.shoulder_mm, low),
        lowest_mm=limits.lowest_mm,
        highest_mm=limits.highest_mm,
        easy_x_mm=easy,
    )
