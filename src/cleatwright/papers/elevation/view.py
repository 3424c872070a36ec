"""What the elevation shows, as plain values in the coordinates of the wall.

The datum of every value is the lower left corner of the wall: x to the right,
z up, in millimetres.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import Literal

from cleatwright.base import said
from cleatwright.base.errors import MeasureError
from cleatwright.base.keys import fields_key
from cleatwright.base.lengths import LengthUnit, length_words
from cleatwright.standards.cautions import DEFER, WALL
from cleatwright.wall.rail import Rail, Rect
from cleatwright.wall.reach import ReachBand

Polygon = tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class ObstacleView:
    """Something that stays free: name, and x0, x1, z0, z1."""

    name: str
    box_mm: Rect


@dataclass(frozen=True)
class BenchView:
    """A workbench before the wall: its depth, and the height of its top above the floor."""

    depth_mm: float
    height_mm: float


@dataclass(frozen=True)
class HangView:
    """Where a plate is hung: its left edge, and the height of what is measured to.

    Args:
        x_mm: The left edge of its plate.
        z_mm: The height at which it hangs.
        edge: What lies at that height, as "rail edge" or "plate top".
        what: What hangs there, when it is not the holder itself, or "".
    """

    x_mm: float
    z_mm: float
    edge: str
    what: str = ""


@dataclass(frozen=True)
class ScrewedAtView:
    """Screws into the wall itself, one above the other.

    Args:
        x_mm: Where they are.
        rows_mm: Their heights, the upper one first.
        behind: What is behind them; unknown where the wall names no stud.
    """

    x_mm: float
    rows_mm: tuple[float, ...]
    behind: Literal["stud", "edge", "none", "unknown"]

    @property
    def fails(self) -> bool:
        """Return whether they do not hold where they are."""
        return self.behind in ("edge", "none")


@dataclass(frozen=True)
class ScrewedView:
    """The screws into the wall itself of a holder, or of the carrier that is drawn with it.

    Args:
        what: What has them, when it is not the holder itself, or "".
        columns: Where they are, from left to right.
    """

    what: str
    columns: tuple[ScrewedAtView, ...]


@dataclass(frozen=True)
class HolderView:
    """One holder with its tools.

    Args:
        number: Number in the balloon; no other holder has it.
        name: What the legend says.
        note: A short addition at the right of the legend, such as the part mark; "" for none.
        holder: Silhouettes of the holder.
        tools: Silhouettes of the tools in their seats.
        front: Outlines of that part of the holder which hides the tools, holes among them.
        lift: x0, x1, z0, z1 of the room to take tools out, or None.
        hangs: Where it is hung, and what hangs with it, from the datum.
        screwed: Its screws into the wall itself, or those of its carrier; None without any.
    """

    number: int
    name: str
    holder: tuple[Polygon, ...]
    tools: tuple[Polygon, ...] = ()
    lift: Rect | None = None
    note: str = ""
    front: tuple[Polygon, ...] = ()
    hangs: tuple[HangView, ...] = ()
    screwed: ScrewedView | None = None

    @property
    def screw_points_mm(self) -> tuple[tuple[float, float, bool], ...]:
        """Return x and z of each screw into the wall itself, and whether it does not hold."""
        columns = self.screwed.columns if self.screwed else ()
        return tuple((one.x_mm, z, one.fails) for one in columns for z in one.rows_mm)


@dataclass(frozen=True)
class FreeSeatView:
    """A seat that is kept free for a holder to come.

    Args:
        name: What it is called.
        box_mm: x0, x1, z0, z1 of the room that it keeps.
        hang_z_mm: The height at which the plate there hangs.
    """

    name: str
    box_mm: Rect
    hang_z_mm: float


@dataclass(frozen=True)
class PersonView:
    """One of several people, with heights above the floor.

    Args:
        name: What the person is called.
        band: The reach, or None of a child that takes nothing.
        touches_mm: How high the fingertips of a child come; None of an adult.
    """

    name: str
    band: ReachBand | None
    touches_mm: float | None = None


@dataclass(frozen=True)
class ElevationView:
    """Everything on the sheet.

    Args:
        title: Name of the workshop.
        width_mm: Width of the wall, > 0.
        height_mm: Height of the wall, > 0.
        floor_gap_mm: Height of the wall's lower edge above the floor, >= 0.
        studs_mm: The x of the centre line of each stud.
        obstacles: What stays free.
        rails: The rails.
        holders: The holders.
        unit: LengthUnit in which dimensions are written.
        cautions: What the person must read before drilling and hanging.
        reach: Heights above the floor that the person reaches, or all adults; None when they are
            not known.
        people: Each of several people; none when one is alone.
        bench: The workbench before the wall, or None.
        made_of: What the wall is, as the document says it.
        joints_mm: The heights of the bed joints of masonry, as far as the document tells them.
        seats: The seats that are kept free.
    """

    title: str
    width_mm: float
    height_mm: float
    floor_gap_mm: float = 0.0
    studs_mm: tuple[float, ...] = ()
    obstacles: tuple[ObstacleView, ...] = ()
    rails: tuple[Rail, ...] = ()
    holders: tuple[HolderView, ...] = ()
    unit: LengthUnit = "mm"
    cautions: tuple[str, ...] = (*WALL, DEFER)
    reach: ReachBand | None = None
    people: tuple[PersonView, ...] = ()
    bench: BenchView | None = None
    made_of: str = "studs"
    joints_mm: tuple[float, ...] = ()
    seats: tuple[FreeSeatView, ...] = ()

    @cached_property
    def content_key(self) -> str:
        """The content key of all that is shown."""
        return fields_key(self)

    def without_words(self) -> ElevationView:
        """Return the same without title, legend and names, of which a DXF drawing has none."""
        plain = (replace(one, name="", hangs=(), front=()) for one in self.holders)
        return replace(self, title="", cautions=(), holders=tuple(plain))

    def __post_init__(self) -> None:
        if not (self.width_mm > 0.0 and self.height_mm > 0.0 and self.floor_gap_mm >= 0.0):
            raise MeasureError(
                f"a wall of {said.number(self.width_mm)} × {said.mm(self.height_mm)}, "
                f"{said.mm(self.floor_gap_mm)} above the floor",
                where="elevation",
                allowed="width and height above zero, and not below the floor",
            )

    def length(self, value_mm: float) -> str:
        """Return a length in the unit of the sheet, without the name of the unit.

        >>> ElevationView("w", 100.0, 100.0).length(12.34)
        '12.3'
        >>> ElevationView("w", 100.0, 100.0, unit="in").length(31.75)
        '1-1/4'
        """
        return length_words(value_mm, self.unit)


def letter(index: int) -> str:
    """Return A, B, ... Z, AA, AB ... for 0, 1, ...

    >>> letter(0), letter(25), letter(26)
    ('A', 'Z', 'AA')
    """
    text = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        text = chr(ord("A") + rest) + text
    return text
