"""The wall, its rails and what hangs on it, as rectangles in elevation.

height ┌───────────────────────────────────┐      z up, x to the right,
       │   ┌─ x ─────┐ z + up              │      both from the lower left
       │ ══╪═════════╪══ z: hang height    │      corner of the wall, whose
       │   │         │                     │      lower edge lies floor_gap
       │   └─────────┘ z - down            │      above the floor
     0 └───────────────────────────────────┘ width
"""

from __future__ import annotations

import math
from dataclasses import dataclass, fields, replace
from itertools import pairwise
from typing import Literal, get_args

from cleatwright.base import said
from cleatwright.base.errors import MeasureError
from cleatwright.wall.ground import AllOverRule, Ground, InStuds
from cleatwright.wall.rail import WALL, Profile, Rail, Rect
from cleatwright.wall.screws import HEIGHT_SHARES
from cleatwright.wall.shared_reach import SharedReach
from cleatwright.wall.studs import StudPlace
from cleatwright.wall.tolerances import COUNT_SLACK, SAME_MM, SLACK_MM

Use = Literal["daily", "weekly", "seldom"]


def _need(what: str, value: float, *, above: float, including: bool = True) -> None:
    good = value >= above if including else value > above
    if not (math.isfinite(value) and good):
        raise MeasureError(
            f"{said.mm(value)}",
            where=what,
            allowed=f"{'at least' if including else 'more than'} {said.mm(above)}",
        )


@dataclass(frozen=True)
class Box:
    """A named rectangle on the wall that must stay free: a socket, a window, a pipe.

    Args:
        name: What the person calls it.
        x_mm: Left edge.
        z_mm: Lower edge.
        width_mm: Width, > 0.
        height_mm: Height, > 0.
        heat_mm: Nothing that must stay cool hangs within this distance; 0 when it is cold.
    """

    name: str
    x_mm: float
    z_mm: float
    width_mm: float
    height_mm: float
    heat_mm: float = 0.0

    def __post_init__(self) -> None:
        _need(f'width of the obstacle "{self.name}"', self.width_mm, above=0.0, including=False)
        _need(f'height of the obstacle "{self.name}"', self.height_mm, above=0.0, including=False)
        _need(f'distance from the heat of "{self.name}"', self.heat_mm, above=0.0)
        if not (math.isfinite(self.x_mm) and math.isfinite(self.z_mm)):
            raise MeasureError("a place that is not a number", where=f'obstacle "{self.name}"')

    @property
    def right_mm(self) -> float:
        """Return the x of the right edge."""
        return self.x_mm + self.width_mm

    @property
    def top_mm(self) -> float:
        """Return the z of the upper edge."""
        return self.z_mm + self.height_mm


@dataclass(frozen=True)
class WallSpace:
    """The part of a wall that may be used.

    Args:
        width_mm: Width, > 0.
        height_mm: Height, > 0.
        floor_gap_mm: Height of the lower edge above the floor, >= 0.
        obstacles: What must stay free.
        studs: What the screws of rails go into, from left to right.
        kept_rails: Rails that hang already and stay where they are.
        rows: New rails that lie there whatever hangs on them.
        panel: Its name among the panels.
        all_over: How screws lie in a wall that takes them all over; None for one with studs.
        bench_mm: How high above the floor a bench before its whole width is, >= 0; 0 for none.
    """

    width_mm: float
    height_mm: float
    floor_gap_mm: float = 0.0
    obstacles: tuple[Box, ...] = ()
    studs: tuple[StudPlace, ...] = ()
    kept_rails: tuple[Rail, ...] = ()
    panel: str = WALL
    rows: tuple[Rail, ...] = ()
    all_over: AllOverRule | None = None
    bench_mm: float = 0.0

    def __post_init__(self) -> None:
        _need("width of the wall", self.width_mm, above=0.0, including=False)
        _need("height of the wall", self.height_mm, above=0.0, including=False)
        _need("height of the wall above the floor", self.floor_gap_mm, above=0.0)
        for stud, after in pairwise(self.studs):
            if after.x0_mm < stud.x1_mm - SLACK_MM:
                raise MeasureError(
                    f"studs with middles at {said.number(stud.x_mm)} and {said.mm(after.x_mm)} "
                    "overlap",
                    where="wall",
                    allowed="studs beside each other, from left to right",
                )

    @property
    def bench(self) -> Box | None:
        """Return what a bench takes of the wall: nothing hangs below its top, or behind it."""
        top_mm = self.bench_mm - self.floor_gap_mm
        if self.bench_mm <= 0.0 or top_mm <= 0.0:
            return None
        return Box("bench", 0.0, 0.0, self.width_mm, min(top_mm, self.height_mm))

    def with_bench(self) -> WallSpace:
        """Return the same with what its bench takes among the obstacles."""
        bench = self.bench
        return self if bench is None else replace(self, obstacles=(*self.obstacles, bench))

    def without_bench(self) -> WallSpace:
        """Return the same without it, so that the wall can be changed."""
        bench = self.bench
        return replace(self, obstacles=tuple(one for one in self.obstacles if one != bench))

    @property
    def given_rails(self) -> tuple[Rail, ...]:
        """Return the rails that are there before anything is hung."""
        return (*self.kept_rails, *self.rows)

    @property
    def holds_known(self) -> bool:
        """Return whether it is known where screws hold."""
        return self.all_over is not None or bool(self.studs)

    def ground(self, z_top_mm: float, height_mm: float) -> Ground:
        """Return what the screws of a rail go into, by its top edge and its height."""
        if self.all_over is None:
            return InStuds(self.studs, self.width_mm)
        return self.all_over.ground(z_top_mm=z_top_mm, height_mm=height_mm, wall_mm=self.width_mm)

    def rows_at(self, z_top_mm: float, height_mm: float) -> tuple[float, ...]:
        """Return where the rows of a rail's screws lie, as shares of its height."""
        if self.all_over is None:
            return self.studs[0].rule.rows(height_mm) if self.studs else HEIGHT_SHARES
        return self.all_over.rows_at(z_top_mm=z_top_mm, height_mm=height_mm)


@dataclass(frozen=True)
class RailRule:
    """How rails may lie.

    Args:
        profile: The cross-section of rails.
        min_gap_mm: Clear height between two rails where one lies above the other.
        step_mm: Rails and fixed holders are tried at multiples of this height, > 0.
        end_room_mm: By how much a rail reaches past its outermost plates where there is room.
        edge_above_mm: Height of the rail's top edge above the hang height.
        merge_mm: Two stretches of a rail with a hole up to this width stay one piece.
        longest_mm: Length of the longest board; a longer rail is parted between two plates.
        rows: Whether new rails are whole rows, and not cut to what hangs on them.
    """

    profile: Profile
    min_gap_mm: float
    step_mm: float = 50.0
    end_room_mm: float = 20.0
    edge_above_mm: float = 0.0
    merge_mm: float = 400.0
    longest_mm: float = math.inf
    rows: bool = False

    def __post_init__(self) -> None:
        _need("step of rail heights", self.step_mm, above=0.0, including=False)
        for what, value in (
            ("gap between rails", self.min_gap_mm),
            ("room at the end of a rail", self.end_room_mm),
            ("top edge of a rail above the hang height", self.edge_above_mm),
            ("longest hole within a rail", self.merge_mm),
        ):
            _need(what, value, above=0.0)

    @property
    def height_mm(self) -> float:
        """Return the height of a rail below its top edge."""
        return self.profile.height_mm

    def steps_mm(self, space: WallSpace) -> tuple[float, ...]:
        """Return the heights on a wall at which rails are tried anyhow, from the bottom up."""
        count = int(space.height_mm / self.step_mm + COUNT_SLACK)
        return tuple(k * self.step_mm for k in range(count + 1))


@dataclass(frozen=True)
class HeightBounds:
    """Between which hang heights on the wall something hangs safely.

    Args:
        lowest_mm: It hangs no lower than this.
        highest_mm: It hangs no higher than this.
        low_why: What sets the lower bound, in words; "" for none.
        high_why: What sets the upper bound, in words; "" for none.
        lifted: Upper bounds that its owner has lifted: above which hang height a sentence says so.
        lowered: Lower bounds that its owner has lifted: below which hang height one does.
    """

    lowest_mm: float = -math.inf
    highest_mm: float = math.inf
    low_why: str = ""
    high_why: str = ""
    lifted: tuple[tuple[float, str], ...] = ()
    lowered: tuple[tuple[float, str], ...] = ()

    def holds(self, z_mm: float) -> bool:
        """Tell whether a hang height lies between the bounds."""
        return self.lowest_mm - SLACK_MM <= z_mm <= self.highest_mm + SLACK_MM

    @property
    def words(self) -> str:
        """Return what sets the bounds."""
        return " and ".join(one for one in (self.low_why, self.high_why) if one)

    def lifted_at(self, z_mm: float) -> tuple[str, ...]:
        """Return a sentence for each bound that its owner has lifted for a hang height."""
        return (
            *(told for usual_mm, told in self.lifted if z_mm > usual_mm + SLACK_MM),
            *(told for usual_mm, told in self.lowered if z_mm < usual_mm - SLACK_MM),
        )

    def broken_by(self, z_mm: float) -> str:
        """Return what sets the bound that a hang height breaks, or ""."""
        if z_mm < self.lowest_mm - SLACK_MM:
            return self.low_why
        return self.high_why if z_mm > self.highest_mm + SLACK_MM else ""


ANY_HEIGHT = HeightBounds()


@dataclass(frozen=True)
class AlongBounds:
    """Between which x of the wall something hangs, with all its tools.

    Args:
        from_mm: No further left than this.
        to_mm: No further right.
        words: What sets the bounds, in words, such as 'It is wanted left of "sink"'; none for none.
        begins_mm: Between which x its plate begins, so that its screws meet what they need; from
            left to right, none for anywhere.
    """

    from_mm: float = -math.inf
    to_mm: float = math.inf
    words: tuple[str, ...] = ()
    begins_mm: tuple[tuple[float, float], ...] = ()

    def hold(self, x0_mm: float, x1_mm: float) -> bool:
        """Tell whether what reaches from ``x0_mm`` to ``x1_mm`` lies between the bounds."""
        return self.from_mm - SLACK_MM <= x0_mm and x1_mm <= self.to_mm + SLACK_MM

    def begin(self, x_mm: float) -> bool:
        """Tell whether a plate may begin at ``x_mm``, as far as its screws ask."""
        spans = self.begins_mm
        return not spans or any(a - SLACK_MM <= x_mm <= b + SLACK_MM for a, b in spans)


ANYWHERE_ALONG = AlongBounds()


@dataclass(frozen=True)
class Near:
    """Something on a wall that an item is wanted near: its name, and the x of its middle."""

    name: str
    x_mm: float


@dataclass(frozen=True)
class Item:
    """A holder with its tools, as the wall sees it.

    Args:
        key: A name that no other item has.
        width_mm: Width of the plate, > 0.
        up_mm: Room above the hang height, with the lift of every way out.
        down_mm: Room below the hang height, with the tools that hang there.
        mass_kg: Holder and tools.
        use: How often the tools are taken.
        group: Items of one group are kept together; "" for none.
        side_left_mm: How far tools stand out beyond the plate at the left.
        side_right_mm: The same at the right.
        on_rail: False when the plate is screwed flat to the wall.
        fixed: The (x, z) of the plate's left edge and the hang height, when they are given.
        rail_depth_mm: How far below the hang height the holder bears on its rail or the wall.
        keep_cool: True when it must hang away from heat.
        hot: True when it goes back hot.
        spoilt_by_heat: True when something hot beside it can hurt somebody.
        rank: Its place from left to right among the ranked items of its group; None for any.
        hangs_at: Where it hangs already, as ``fixed``; to move it costs a little.
        bounds: Between which heights it hangs safely, where its place is not given.
        taken: Where those reach who take it; None for the reach of the whole wall.
        reserved: True for a seat that is kept free for a holder to come: it may be left out.
        near: What it is wanted near; None for nothing.
        along: Between which x it hangs with its tools.
        hand_up_mm: How far above the hang height a hand takes its tools, on average; negative
            below it.
        over_mm: How far its plate may reach beyond the last screws of its rail so that these bear
            a hand on it, >= 0.
    """

    key: str
    width_mm: float
    up_mm: float
    down_mm: float
    mass_kg: float = 0.0
    use: Use = "weekly"
    group: str = ""
    side_left_mm: float = 0.0
    side_right_mm: float = 0.0
    on_rail: bool = True
    fixed: tuple[float, float] | None = None
    rail_depth_mm: float = 0.0
    keep_cool: bool = False
    hot: bool = False
    spoilt_by_heat: bool = False
    rank: int | None = None
    hangs_at: tuple[float, float] | None = None
    bounds: HeightBounds = ANY_HEIGHT
    taken: SharedReach | None = None
    reserved: bool = False
    near: Near | None = None
    along: AlongBounds = ANYWHERE_ALONG
    hand_up_mm: float = 0.0
    over_mm: float = math.inf

    def __post_init__(self) -> None:
        _need(f'width of "{self.key}"', self.width_mm, above=0.0, including=False)
        for what, value in (
            ("room above the hang height", self.up_mm),
            ("room below the hang height", self.down_mm),
            ("tools beyond the left edge", self.side_left_mm),
            ("tools beyond the right edge", self.side_right_mm),
            ("depth of bearing", self.rail_depth_mm),
        ):
            _need(f'{what} of "{self.key}"', value, above=0.0)
        _need(f'whole height of "{self.key}"', self.up_mm + self.down_mm, above=0, including=False)
        if not (math.isfinite(self.mass_kg) and self.mass_kg >= 0.0):
            raise MeasureError(f"{self.mass_kg:g} kg", where=f'mass of "{self.key}"')
        if self.use not in get_args(Use):
            raise MeasureError(
                f'the use "{self.use}"', where=self.key, allowed=", ".join(get_args(Use))
            )
        for place in (self.fixed, self.hangs_at):
            if place and not all(math.isfinite(value) for value in place):
                raise MeasureError("a place that is not a number", where=self.key)

    def may_hang_at(self, z_mm: float) -> bool:
        """Tell whether a hang height is safe, or is where it was put or hangs already."""
        given = (place[1] for place in (self.fixed, self.hangs_at) if place)
        return self.bounds.holds(z_mm) or any(abs(z_mm - z) <= SAME_MM for z in given)

    def may_hang_along(self, x_mm: float) -> bool:
        """Tell whether its plate may begin at an x."""
        left_mm = x_mm - self.side_left_mm
        whole = self.along.hold(left_mm, left_mm + self.whole_width_mm)
        return whole and self.along.begin(x_mm)

    @property
    def whole_width_mm(self) -> float:
        """Return the width over plate and tools."""
        return self.side_left_mm + self.width_mm + self.side_right_mm


@dataclass(frozen=True)
class Place:
    """Where an item hangs: the left edge of its plate and its hang height."""

    key: str
    x_mm: float
    z_mm: float


@dataclass(frozen=True)
class ReservedSeat:
    """A seat on a rail that is kept free for a holder to come.

    Args:
        item: How much room it keeps, and the mass that it counts with.
        place: Where it is.
    """

    item: Item
    place: Place

    @property
    def box_mm(self) -> Rect:
        """Return x0, x1, z0, z1 of the room that it keeps, without that for hands beside it."""
        x, z = self.place.x_mm, self.place.z_mm
        return x, x + self.item.width_mm, z - self.item.down_mm, z + self.item.up_mm


@dataclass(frozen=True)
class Scores:
    """What an arrangement costs, part by part; less is better."""

    reach: float
    raised_mass: float
    rail_count: float
    rail_length: float
    groups: float
    sideways: float = 0.0
    weak_rails: float = 0.0
    moved: float = 0.0

    @property
    def total(self) -> float:
        """Return the sum of the parts."""
        return math.fsum(getattr(self, part.name) for part in fields(self))


NOTHING = Scores(0.0, 0.0, 0.0, 0.0, 0.0)


@dataclass(frozen=True)
class LeftOver:
    """An item without a place, why, and which single changes were found to give it one.

    ``together`` is True where it is told what gives a place to all that are left over.
    """

    key: str
    reason: str
    helps: tuple[str, ...]
    together: bool = False

    @property
    def sentence(self) -> str:
        """Return the whole finding in plain words."""
        return f"{self.reason} {self.help_sentence}"

    @property
    def help_sentence(self) -> str:
        """Return what gives it a place, in plain words."""
        if not self.helps and self.together:
            return "What gives it a place is told for all together."
        if not self.helps:
            return "None of the single changes that were tried gives it a place."
        return f"It finds a place with {' or with '.join(self.helps)}."


@dataclass(frozen=True)
class Arrangement:
    """Where everything hangs.

    Args:
        places: One place for each item that found one, sorted by key.
        rails: The rails, from top to bottom and from left to right.
        scores: What it costs; nothing while it is only tried.
        left_over: The items without a place, sorted by key.
        in_rows: Whether its new rails are whole rows.
        seats: The seats that are kept free; what it costs says nothing of them.
        finished_by: The least changes that were tried together and give everything a place.
    """

    places: tuple[Place, ...]
    rails: tuple[Rail, ...]
    scores: Scores = NOTHING
    left_over: tuple[LeftOver, ...] = ()
    in_rows: bool = False
    seats: tuple[ReservedSeat, ...] = ()
    finished_by: tuple[str, ...] = ()

    @property
    def finish(self) -> str:
        """Return what finishes the wall, where more than one item is left over; else nothing."""
        if len(self.left_over) < 2:
            return ""
        if not self.finished_by:
            return (
                "Each change helps only what it is told for: no set of them was found after which "
                "everything finds a place."
                if any(left.helps for left in self.left_over)
                else ""
            )
        both = ", all together" if len(self.finished_by) > 1 else ""
        return f"Everything finds a place with {' and with '.join(self.finished_by)}{both}."
