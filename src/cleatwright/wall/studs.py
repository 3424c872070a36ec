"""Where in a stud the screws of a rail may go, and how far the rail must reach for it.

      ▕←  END  →x                     x: the screws, one above the other
   ═══▕═════╪═══╪═══════  rail        END from each end of the rail
            │ x │                     EDGE from each face of the stud
            stud

Screws go into the middle of a stud. Where the rail ends too near for that, they go aside as far
as the edge of the stud lets them. At an end of the wall, where a rail can reach no further, a
corner stud takes screws that are nearer to the rail's end, down to ``LEAST_END_MM``.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.fasteners.nds_screws import CHECKED
from cleatwright.standards.table import Listed
from cleatwright.wall.screws import HEIGHT_SHARES
from cleatwright.wall.tolerances import SCREW_DIGITS, SLACK_MM

Span = tuple[float, float]
SCREW_MM = 5.0
# for wood screws in bored holes: 10 diameters of the screw to the end of the rail, 5 at the least
# where no force draws the screw to that end; 2.5 to the edge of the stud
END_MM, LEAST_END_MM, EDGE_MM = 10 * SCREW_MM, 5 * SCREW_MM, 2.5 * SCREW_MM
STUD_DISTANCES = Source(
    "NDS Commentary, Table C12.1.5.7",
    "wood screws in prebored wood members: end 10 d and 5 d, edge 2.5 d",
    Evidence.SECONDARY,
    CHECKED,
)
# no plate hangs further beyond the last stud that a rail can reach, half the distance of studs that
# are 600 mm apart; and a rail that ends so near before a further stud reaches it
OVERHANG_MM = 300.0
OVERHANG = Source("rail beyond its last stud", "common practice, no source", Evidence.PRACTICE)
DEFAULT_WIDTH_MM = 38.0
# well inside the room that a stud leaves
INSIDE_MM = 2.0

VALUES = (
    Listed("Rail screws", "to the end of the rail mm", END_MM, STUD_DISTANCES),
    Listed("Rail screws", "to the end at the least mm", LEAST_END_MM, STUD_DISTANCES),
    Listed("Rail screws", "to the edge of the stud mm", EDGE_MM, STUD_DISTANCES),
    Listed("Rail screws", "plates beyond the last stud mm", OVERHANG_MM, OVERHANG),
)


@dataclass(frozen=True)
class StudRule:
    """Which distances the screws of a rail keep in studs.

    Args:
        end_mm: To the end of the rail.
        least_end_mm: The same at an end of the wall, where a rail can reach no further.
        edge_mm: To the faces of the stud.
        apart_mm: From one to the next in one stud; 0 where a third of the rail's height does.
        rail_edge_mm: To the upper and the lower edge of the rail, where ``apart_mm`` counts.
    """

    end_mm: float
    least_end_mm: float
    edge_mm: float
    apart_mm: float = 0.0
    rail_edge_mm: float = 0.0

    def rows(self, height_mm: float) -> tuple[float, ...]:
        """Return where the screws lie, as shares of a rail's height: one where two have no room.

        >>> StudRule(60.0, 60.0, 24.0, apart_mm=42.0, rail_edge_mm=24.0).rows(70.0)
        (0.5,)
        """
        if self.apart_mm == 0.0:
            return HEIGHT_SHARES
        if height_mm < self.apart_mm + 2 * self.rail_edge_mm:
            return (0.5,)
        aside = self.apart_mm / height_mm / 2
        return 0.5 - aside, 0.5 + aside


NDS_RULE = StudRule(END_MM, LEAST_END_MM, EDGE_MM)


@dataclass(frozen=True)
class StudPlace:
    """One place for the screws of rails: an upright, or several that are nailed together.

    Args:
        uprights: The faces x0, x1 of each upright, from left to right, at least one.
        rule: Which distances screws keep.
    """

    uprights: tuple[Span, ...]
    rule: StudRule = NDS_RULE

    @property
    def x0_mm(self) -> float:
        """Return the left face."""
        return self.uprights[0][0]

    @property
    def x1_mm(self) -> float:
        """Return the right face."""
        return self.uprights[-1][1]

    @property
    def x_mm(self) -> float:
        """Return the middle."""
        return (self.x0_mm + self.x1_mm) / 2

    def zones(self) -> tuple[Span, ...]:
        """Return from where to where screws keep the edge distance, upright by upright."""
        found: list[Span] = []
        for x0, x1 in self.uprights:
            edge = min(self.rule.edge_mm, (x1 - x0) / 2)
            found.append((x0 + edge, x1 - edge))
        return tuple(found)


@dataclass(frozen=True)
class RailReach:
    """How far a rail must reach to be screwed into a stud.

    Args:
        from_mm: It begins there or left of it.
        to_mm: It ends there or right of it.
        x0_mm: The left face of the stud.
        x1_mm: The right face.
    """

    from_mm: float
    to_mm: float
    x0_mm: float
    x1_mm: float


def studs_at(*middles_mm: float, width_mm: float = DEFAULT_WIDTH_MM) -> tuple[StudPlace, ...]:
    """Return single studs of one width, from left to right.

    >>> [stud.x_mm for stud in studs_at(800.0, 400.0)]
    [400.0, 800.0]
    """
    return tuple(StudPlace(((x - width_mm / 2, x + width_mm / 2),)) for x in sorted(middles_mm))


def screw_x(stud: StudPlace, rail: Span, *, wall_mm: float) -> float | None:
    """Return where the screws of a rail go into a stud, or None when it cannot be screwed there.

    Args:
        stud: The stud.
        rail: The ends of the rail.
        wall_mm: Width of the wall.

    >>> (corner,) = studs_at(19.0)
    >>> screw_x(corner, (0.0, 800.0), wall_mm=2000.0), screw_x(corner, (5.0, 800.0), wall_mm=2000.0)
    (25.5, None)
    """
    found: list[tuple[float, float]] = []
    for (x0, x1), (low, high) in zip(stud.uprights, stud.zones(), strict=True):
        first, last = _ends((low, high), wall_mm, stud.rule)
        a, b = max(low, rail[0] + first), min(high, rail[1] - last)
        if min(first, last) >= stud.rule.least_end_mm and a <= b + SLACK_MM:
            x = min(max((x0 + x1) / 2, a), b)
            found.append((abs(x - stud.x_mm), round(x, SCREW_DIGITS)))
    return min(found)[1] if found else None


def reaches_of(
    studs: Iterable[StudPlace], *, wall_mm: float
) -> tuple[tuple[RailReach, RailReach], ...]:
    """Return how far a rail must reach for each stud that can be used, from left to right.

    The first of a pair is the least with which it can be screwed there at all, the second puts
    the screws into the middle of the stud, or as near to it as the ends of the wall allow.
    """
    found = (_reach_of(stud, wall_mm) for stud in studs)
    return tuple(one for one in found if one is not None)


# a search asks for the same few studs at each rail that it cuts
@lru_cache(maxsize=1024)
def _reach_of(stud: StudPlace, wall_mm: float) -> tuple[RailReach, RailReach] | None:
    x = screw_x(stud, (0.0, wall_mm), wall_mm=wall_mm)
    if x is None:
        return None
    zones = [(zone, _ends(zone, wall_mm, stud.rule)) for zone in stud.zones()]
    good = [(zone, ends) for zone, ends in zones if min(ends) >= stud.rule.least_end_mm]
    least = RailReach(
        max(high - first for (_, high), (first, _) in good),
        min(low + last for (low, _), (_, last) in good),
        stud.x0_mm,
        stud.x1_mm,
    )
    off = stud.rule.end_mm
    return least, replace(least, from_mm=max(0.0, x - off), to_mm=min(wall_mm, x + off))


def lefts_over(
    columns_mm: Iterable[float], zones_mm: Sequence[Span], within: Span
) -> tuple[Span, ...]:
    """Return where the left edge of a plate may be so that each column of its screws is in a zone.

    Args:
        columns_mm: Where its columns of screws are, from its left edge.
        zones_mm: From where to where screws may go.
        within: Between which places its left edge may be.

    >>> lefts_over((10.0, 110.0), ((90.0, 120.0), (200.0, 215.0)), (0.0, 300.0))
    ((90.0, 105.0),)
    """
    found: list[Span] = [within]
    for column in columns_mm:
        found = [
            (max(a, low - column), min(b, high - column))
            for a, b in found
            for low, high in zones_mm
            if max(a, low - column) <= min(b, high - column)
        ]
    return tuple(sorted(found))


def screws_in(studs: Iterable[StudPlace], rail: Span, *, wall_mm: float) -> tuple[float, ...]:
    """Return where the screws of a rail go, from left to right."""
    found = (screw_x(stud, rail, wall_mm=wall_mm) for stud in studs)
    return tuple(sorted(x for x in found if x is not None))


def _ends(zone: Span, wall_mm: float, rule: StudRule) -> Span:
    """Return how far screws stay off both ends of a rail: less where the wall itself ends."""
    return min(rule.end_mm, zone[1]), min(rule.end_mm, wall_mm - zone[0])
