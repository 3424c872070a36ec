"""What the screws of a rail go into: studs, or a wall that takes them all over.

    in studs          ══╪══════╪══════╪══     in the middle of each stud that the rail crosses
                        stud   stud   stud
    all over          ══╪════╪════╪════╪══     evenly, ``end`` off the ends of the rail and
                     end                end   ``edge`` off the ends of the wall and openings

Both answer alike: where the screws of a rail from here to there go, and how far it must reach to
be held at two places.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Listed
from cleatwright.wall.studs import END_MM, OVERHANG_MM, Span, StudPlace, reaches_of, screws_in
from cleatwright.wall.tolerances import COUNT_SLACK, SCREW_DIGITS, SLACK_MM

# places that keep a rail from turning (common practice, no source)
PLACES_A_RAIL = 2
# with one of them lost two are left, where there is one line of screws
PLACES_IN_A_LINE = PLACES_A_RAIL + 1
# one line of screws in the middle of a rail's height, as far as can be from both of its edges
MIDDLE = 1 / 2
# where it may be put to keep off the joints of a wall; above that its holes near the bevel
LOWEST_ROW, HIGHEST_ROW = 1 / 3, 0.55
# rows that are tried between them
ROWS_TRIED = 41
# of a course: so far off the middle of a joint a screw is well inside a brick
OFF_JOINT = 1 / 4
# apart at the most: a rail of 18 mm is stiff over so much, as over studs that are so far apart
MOST_APART_MM, LEAST_APART_MM = 400.0, 100.0
APART = Source("screws of a rail in a wall that takes them all over", "", Evidence.PRACTICE)
# of the screw's diameter to the end of the rail
END_DIAMETERS = 10.0
END_RULE = Source(
    "NDS Commentary, Table C12.1.5.7; EN 1995-1-1, Table 8.6",
    "10 d to the end of a wooden member, prebored or drawn out",
    Evidence.SECONDARY,
    "public check programs that name clause and page",
)
VALUES = (
    Listed("Rail screws", "apart at the most, all over a wall, mm", MOST_APART_MM, APART),
    Listed("Rail screws", "apart at the least, where nobody gives it, mm", LEAST_APART_MM, APART),
    Listed("Rail screws", "to the end of the rail / diameter", END_DIAMETERS, END_RULE),
)


def end_mm(screw_mm: float) -> float:
    """Return how far screws stay off the ends of a rail so that they do not split it.

    >>> end_mm(5.0), end_mm(8.0)
    (50.0, 80.0)
    """
    return max(END_MM, END_DIAMETERS * screw_mm)


@dataclass(frozen=True)
class InStuds:
    """A wall with studs, or one of which nobody has said where its studs are.

    Args:
        studs: The studs, from left to right; none where they are not known.
        wall_mm: Width of the wall.
    """

    studs: tuple[StudPlace, ...]
    wall_mm: float

    @property
    def known(self) -> bool:
        """Return whether it is known where screws hold."""
        return bool(self.studs)

    def columns(self, rail: Span) -> tuple[float, ...]:
        """Return where the screws of a rail go, from left to right."""
        return screws_in(self.studs, rail, wall_mm=self.wall_mm)

    def lengthened(self, span: Span, room: Span) -> Span:
        """Return the span, lengthened as little as possible inside ``room`` to meet two studs.

        A stud that it does not meet yet is met in its middle where there is room.
        """
        lefts, rights = list[float](), list[float]()
        for least, middle in reaches_of(self.studs, wall_mm=self.wall_mm):
            left, right = least.from_mm, least.to_mm
            if left < span[0] - SLACK_MM and middle.from_mm >= room[0]:
                left = middle.from_mm
            if right > span[1] + SLACK_MM and middle.to_mm <= room[1]:
                right = middle.to_mm
            if left >= room[0] - SLACK_MM and right <= room[1] + SLACK_MM:
                lefts.append(min(left, span[0]))
                rights.append(max(right, span[1]))
        wanted = min(PLACES_A_RAIL, len(lefts))
        if len(self.columns(span)) >= wanted:
            return span
        spans = zip(lefts, rights[wanted - 1 :], strict=False)
        return min(spans, key=lambda s: (s[1] - s[0], s[0]))

    def further(self, span: Span, room: Span, *, longest_mm: float) -> Span:
        """Return the span, lengthened to studs a little beyond its ends where there is room.

        It grows no longer than a board; one that is longer already is parted later.
        """
        x0, x1 = span
        most_mm = max(longest_mm, x1 - x0)
        reaches = reaches_of(self.studs, wall_mm=self.wall_mm)
        for least, middle in reaches:
            last = min(room[1], x0 + most_mm) + SLACK_MM
            if least.to_mm > x1 and least.x0_mm - x1 <= OVERHANG_MM:
                x1 = next((to for to in (middle.to_mm, least.to_mm) if to <= last), x1)
        for least, middle in reversed(reaches):
            first = max(room[0], x1 - most_mm) - SLACK_MM
            if least.from_mm < x0 and x0 - least.x1_mm <= OVERHANG_MM:
                x0 = next((x for x in (middle.from_mm, least.from_mm) if x >= first), x0)
        return x0, x1


@dataclass(frozen=True)
class AllOver:
    """A wall that takes screws all over, at the height of one rail.

    Args:
        free: From where to where a screw may be, from left to right.
        end_mm: Least distance of a screw to the end of the rail.
        least_mm: Least distance of two screws beside each other, > 0.
        most_mm: Greatest distance, no less.
        wanted: At how many places a rail shall be held where there is room, >= 2.
    """

    free: tuple[Span, ...]
    end_mm: float
    least_mm: float
    most_mm: float = MOST_APART_MM
    wanted: int = PLACES_A_RAIL

    known = True

    def columns(self, rail: Span) -> tuple[float, ...]:
        """Return where the screws of a rail go, from left to right.

        The outermost are as far out as they may be and the others evenly between them; one that
        would lie where none may be goes aside. Where there is no room for two there is one.

        >>> AllOver(((0.0, 2000.0),), 50.0, 100.0).columns((100.0, 1000.0))
        (150.0, 550.0, 950.0)
        """
        spans = self._within(rail)
        if not spans:
            return ()
        first, last = spans[0][0], spans[-1][1]
        if last - first < self.least_mm - SLACK_MM:
            return (round(_nearest((first + last) / 2, spans), SCREW_DIGITS),)
        steps = math.ceil((last - first) / self.most_mm - COUNT_SLACK)
        steps = max(steps, self.wanted - 1)
        steps = min(steps, int((last - first) / self.least_mm + COUNT_SLACK))
        found = [first]
        for k in range(1, steps):
            x = _nearest(first + (last - first) * k / steps, spans)
            if x - found[-1] >= self.least_mm - SLACK_MM and last - x >= self.least_mm - SLACK_MM:
                found.append(x)
        return tuple(round(x, SCREW_DIGITS) for x in (*found, last))

    def lengthened(self, span: Span, room: Span) -> Span:
        """Return the span, lengthened as little as possible inside ``room`` for its screws.

        There is room for as many as are wanted in it then, or else for two.
        """
        for places in range(self.wanted, PLACES_A_RAIL - 1, -1):
            longer = self._for(places, span, room)
            if longer is not None:
                return longer
        return span

    def _for(self, places: int, span: Span, room: Span) -> Span | None:
        """Return the shortest span with so many screws that has a span in it, if there is room."""
        if len(self.columns(span)) >= places:
            return span
        over = (places - 1) * self.least_mm
        mid = (span[0] + span[1]) / 2
        starts = {
            mid - over / 2,
            span[0] + self.end_mm,
            span[1] - self.end_mm - over,
            room[0] + self.end_mm,
            room[1] - self.end_mm - over,
            *(x for a, b in self.free for x in (a, b, a - over, b - over)),
            # so that those between the outermost have room beside what is not free
            *(b - k * self.least_mm for _, b in self.free for k in range(places)),
        }
        ends = {a + k * self.least_mm for a, _ in self.free for k in range(places)}
        found: list[Span] = []
        for start in sorted(x for x in starts if self._takes(x)):
            least = start + over
            afters = {max(a, least) for a, b in self.free if b >= least}
            afters |= {x for x in ends if x >= least and self._takes(x)}
            for after in sorted(afters):
                longer = (min(span[0], start - self.end_mm), max(span[1], after + self.end_mm))
                inside = longer[0] >= room[0] - SLACK_MM and longer[1] <= room[1] + SLACK_MM
                if inside and len(self.columns(longer)) >= places:
                    found.append(longer)
                    break
        aside = {one: abs(one[0] + one[1] - 2 * mid) for one in found}
        return min(
            found,
            key=lambda s: (round(s[1] - s[0], SCREW_DIGITS), aside[s], s[0]),
            default=None,
        )

    def _takes(self, x_mm: float) -> bool:
        return any(a <= x_mm <= b for a, b in self.free)

    def further(self, span: Span, room: Span, *, longest_mm: float) -> Span:
        """Return the span as it is: screws hold wherever it ends."""
        del room, longest_mm
        return span

    def _within(self, rail: Span) -> list[Span]:
        """Return from where to where a screw may be in a rail."""
        low, high = rail[0] + self.end_mm, rail[1] - self.end_mm
        cut = [(max(a, low), min(b, high)) for a, b in self.free]
        return [(min(a, b), max(a, b)) for a, b in cut if a <= b + SLACK_MM]


Ground = InStuds | AllOver
"""What the screws of a rail go into at its height."""


@dataclass(frozen=True)
class WallOpening:
    """A hole in a wall, as x0, x1, z0, z1; screws keep off its edges."""

    x0_mm: float
    x1_mm: float
    z0_mm: float
    z1_mm: float


@dataclass(frozen=True)
class Courses:
    """How bricks lie: the middle of one bed joint, and from it to the next."""

    joint_z_mm: float
    height_mm: float

    def off_mm(self, z_mm: float) -> float:
        """Return how far a height is from the middle of the nearest bed joint.

        >>> Courses(10.0, 75.0).off_mm(10.0 + 75.0 * 3 + 30.0)
        30.0
        """
        past = (z_mm - self.joint_z_mm) % self.height_mm
        return min(past, self.height_mm - past)

    def joints_mm(self, up_to_mm: float) -> tuple[float, ...]:
        """Return the heights of all bed joints above 0 and below a height.

        >>> Courses(160.0, 75.0).joints_mm(160.0)
        (10.0, 85.0)
        """
        lowest = self.joint_z_mm % self.height_mm
        count = math.ceil((up_to_mm - lowest) / self.height_mm)
        all_of_them = (lowest + n * self.height_mm for n in range(max(count, 0)))
        return tuple(z for z in all_of_them if 0.0 < z < up_to_mm)


@dataclass(frozen=True)
class AllOverRule:
    """How the screws of rails lie in a wall that takes them all over.

    Args:
        end_mm: Least distance to the end of a rail.
        least_mm: Least distance of two beside each other, > 0.
        edge_mm: Least distance to the left and right end of the wall and to openings.
        rows: Where the rows lie, as shares of the rail's height above its lower edge.
        most_mm: Greatest distance of two beside each other.
        openings: Holes in the wall.
        courses: How bricks lie, where that is known; a single row then keeps off the joints.
    """

    end_mm: float
    least_mm: float
    edge_mm: float = 0.0
    rows: tuple[float, ...] = (MIDDLE,)
    most_mm: float = MOST_APART_MM
    openings: tuple[WallOpening, ...] = ()
    courses: Courses | None = None

    def rows_at(self, *, z_top_mm: float, height_mm: float) -> tuple[float, ...]:
        """Return the rows of a rail; a single one keeps off the bed joints.

        It lies as high as it can well inside a brick, since a high one is drawn out less; where
        that cannot be, as far from a joint as can be.

        Args:
            z_top_mm: Height of the rail's top edge.
            height_mm: Height of its front face.
        """
        if self.courses is None or len(self.rows) > 1:
            return self.rows
        low, courses = z_top_mm - height_mm, self.courses
        tried = [
            LOWEST_ROW + (HIGHEST_ROW - LOWEST_ROW) * k / (ROWS_TRIED - 1)
            for k in range(ROWS_TRIED)
        ]

        def off_mm(share: float) -> float:
            return round(courses.off_mm(low + share * height_mm), SCREW_DIGITS)

        inside = [share for share in tried if off_mm(share) >= OFF_JOINT * courses.height_mm]
        return (max(inside) if inside else max(tried, key=lambda share: (off_mm(share), share)),)

    def ground(self, *, z_top_mm: float, height_mm: float, wall_mm: float) -> AllOver:
        """Return where screws may be at the height of a rail.

        Args:
            z_top_mm: Height of the rail's top edge.
            height_mm: Height of its front face.
            wall_mm: Width of the wall.
        """
        shares = self.rows_at(z_top_mm=z_top_mm, height_mm=height_mm)
        rows = [z_top_mm - height_mm + share * height_mm for share in shares]
        free: Sequence[Span] = [(self.edge_mm, wall_mm - self.edge_mm)]
        for one in self.openings:
            if any(one.z0_mm - self.edge_mm < z < one.z1_mm + self.edge_mm for z in rows):
                bar = (one.x0_mm - self.edge_mm, one.x1_mm + self.edge_mm)
                free = [part for span in free for part in _without(span, bar)]
        spans = tuple(sorted(span for span in free if span[1] > span[0]))
        return AllOver(
            spans,
            self.end_mm,
            self.least_mm,
            max(self.most_mm, self.least_mm),
            PLACES_IN_A_LINE if len(shares) == 1 else PLACES_A_RAIL,
        )


def _without(span: Span, bar: Span) -> list[Span]:
    if bar[1] <= span[0] or bar[0] >= span[1]:
        return [span]
    return [part for part in ((span[0], bar[0]), (bar[1], span[1])) if part[1] > part[0]]


def _nearest(x: float, spans: Sequence[Span]) -> float:
    return min((min(max(x, a), b) for a, b in spans), key=lambda found: (abs(found - x), found))
