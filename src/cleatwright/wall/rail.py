"""One rail: where it lies, what it is made of, where it is screwed, and what becomes of it."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

from cleatwright.base import said
from cleatwright.base.errors import MeasureError
from cleatwright.wall.screws import HEIGHT_SHARES, ScrewPoint, screw_points
from cleatwright.wall.tolerances import NO_FACE_MM, SAME_MM, SLACK_MM

WALL = "wall"
"""Name of the main wall among the panels."""
MOST_BEVEL_DEG = 60.0

Rect = tuple[float, float, float, float]
"""x0, x1, z0, z1."""


def distance_mm(one: Rect, other: Rect) -> float:
    """Return how far two rectangles are apart at the nearest; 0 where they touch or overlap.

    >>> distance_mm((0.0, 10.0, 0.0, 10.0), (13.0, 20.0, 14.0, 20.0))
    5.0
    """
    aside = max(0.0, other[0] - one[1], one[0] - other[1])
    above = max(0.0, other[2] - one[3], one[2] - other[3])
    return math.hypot(aside, above)


State = Literal["new", "tried", "document", "recorded", "set aside", "down"]
"""Whether a rail is to be put up or is only tried, hangs by the document and stays whatever comes,
hangs by the ledger and stays as long as everything finds a place, hangs and counts as if it did
not, or hangs and must come down."""


@dataclass(frozen=True)
class Profile:
    """The cross-section of a rail.

    Args:
        height_mm: Height of the longer face (> 0).
        thickness_mm: Thickness of the board (> 0).
        bevel_deg: Angle of the bevel from a square cut, above 0 and at most 60 degrees.
    """

    height_mm: float
    thickness_mm: float
    bevel_deg: float

    def __post_init__(self) -> None:
        """Raise MeasureError for numbers that make no rail."""
        numbers = (self.height_mm, self.thickness_mm, self.bevel_deg)
        if not all(math.isfinite(n) and n > 0.0 for n in numbers):
            raise MeasureError(f"a rail with numbers {numbers}", allowed="numbers above 0")
        if self.bevel_deg > MOST_BEVEL_DEG:
            raise MeasureError(
                f"a bevel of {self.bevel_deg:g} degrees",
                allowed=f"above 0 and at most {MOST_BEVEL_DEG:g} degrees",
            )
        if not self.short_face_mm > NO_FACE_MM:
            raise MeasureError(
                f"a rail {said.mm(self.height_mm)} high from a board {said.mm(self.thickness_mm)} "
                f"thick with a bevel of {self.bevel_deg:g} degrees comes to a point",
                allowed=f"a height above {said.mm(self.slant_mm)}",
                todo="Make the rail higher, the board thinner or the bevel smaller",
            )

    @property
    def slant_mm(self) -> float:
        """Return by how much the shorter face is shorter: t tan(bevel)."""
        return self.thickness_mm * math.tan(math.radians(self.bevel_deg))

    @property
    def short_face_mm(self) -> float:
        """Return the height of the shorter face."""
        return self.height_mm - self.slant_mm

    @property
    def area_mm2(self) -> float:
        """Return the area of the section."""
        return self.thickness_mm * (self.height_mm + self.short_face_mm) / 2


@dataclass(frozen=True)
class Rail:
    """One piece of rail on a panel, from ``x0_mm`` to ``x1_mm``, its top edge at ``z_top_mm``.

    Args:
        number: What it is known by, that no other rail of a workshop has; 0 for none yet.
        z_top_mm: Height of its top edge above the lower edge of the panel.
        x0_mm: Its left end from the left edge of the panel.
        x1_mm: Its right end.
        profile: Its cross-section.
        panel: The panel.
        studs_mm: The x of its screws, from left to right: in each stud that it meets, or where
            they go in a wall that takes them all over.
        state: What becomes of it.
        why: Why it must come down, as the end of a sentence, or "".
        carries: The keys of what hangs on it, from left to right.
        rows: Where the rows of its screws lie, as shares of its height above its lower edge.
    """

    number: int
    z_top_mm: float
    x0_mm: float
    x1_mm: float
    profile: Profile
    panel: str = WALL
    studs_mm: tuple[float, ...] = ()
    state: State = "new"
    why: str = ""
    carries: tuple[str, ...] = ()
    rows: tuple[float, ...] = HEIGHT_SHARES

    @property
    def name(self) -> str:
        """Return how it is called in every drawing and list."""
        return f"R{self.number} (new)" if self.state == "tried" else f"R{self.number}"

    @property
    def stays(self) -> bool:
        """Return whether it hangs there already and is left as it is."""
        return self.state in ("document", "recorded")

    @property
    def order(self) -> tuple[float, float, str]:
        """Return by what the rails of a panel are sorted: from top to bottom, then to the right."""
        return -self.z_top_mm, self.x0_mm, self.name

    @property
    def length_mm(self) -> float:
        """Return the length to cut."""
        return self.x1_mm - self.x0_mm

    @property
    def height_mm(self) -> float:
        """Return the height of its front face."""
        return self.profile.height_mm

    @property
    def strip(self) -> Rect:
        """Return what it covers of the panel."""
        return self.x0_mm, self.x1_mm, self.z_top_mm - self.height_mm, self.z_top_mm

    @property
    def to_drill_mm(self) -> tuple[float, ...]:
        """Return the x of the screws that are still to be put in."""
        return () if self.stays else self.studs_mm

    @property
    def screws(self) -> tuple[ScrewPoint, ...]:
        """Return where the screws go that are still to be put in."""
        return screw_points(
            self.to_drill_mm, z_top_mm=self.z_top_mm, height_mm=self.height_mm, shares=self.rows
        )

    @property
    def rows_mm(self) -> tuple[float, ...]:
        """Return how high the rows of its screws lie above its lower edge."""
        return tuple(share * self.height_mm for share in self.rows)

    def shared_mm(self, other: Rail) -> float:
        """Return the length that two share from left to right; below 0 when they are apart."""
        return min(self.x1_mm, other.x1_mm) - max(self.x0_mm, other.x0_mm)

    def is_under(self, panel: str, x_mm: float, z_mm: float) -> bool:
        """Return whether what hangs on a panel, its left edge at x, its height z, hangs on it."""
        return (
            panel == self.panel
            and abs(self.z_top_mm - z_mm) <= SAME_MM
            and self.x0_mm - SAME_MM <= x_mm <= self.x1_mm
        )

    def meets(self, other: Rail) -> bool:
        """Return whether two rails of one panel lie at one height and share some length."""
        apart_mm = abs(self.z_top_mm - other.z_top_mm)
        return apart_mm <= SLACK_MM and self.shared_mm(other) > SLACK_MM

    def down(self, why: str) -> Rail:
        """Return the rail as one that must come down, for a reason."""
        return replace(self, state="down", why=why)
