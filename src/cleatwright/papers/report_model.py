"""The stable shape of ``report.json``: every holder with its tools, sizes, checks, place and files.

Lengths are in mm, masses in kg, whatever the workshop measures in; sentences are in its own unit.
A reader may rely on every name here as long as
``schema_version`` keeps its first number.
"""

from __future__ import annotations

import json
from typing import Any, Literal, cast

from pydantic import BaseModel, ConfigDict, Field

from cleatwright.base.lengths import Wording

SCHEMA_VERSION = "1.11"

Triple = tuple[float, float, float]
STATE = '"planned", "printed", "hanging" or "broken"; of a broken one a new one is to be printed'


class _Row(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid", ser_json_inf_nan="strings")


class SizeRow(_Row):
    """A size in a part: made = measured + play + printer correction."""

    label: str
    measured_mm: float
    play_mm: float
    correction_mm: float
    made_mm: float


class SeatRow(_Row):
    """One tool in a holder, or its empty seat.

    The way out is a list of moves (x, y out of the wall, z up).
    """

    tool: str
    empty: bool = Field(
        default=False, description="true where the tool is gone, and only its seat is there"
    )
    kind: str
    properties: tuple[str, ...] = Field(
        description="what of it can hurt: sharp, hot, heavy, liquid, flammable, cell, glass"
    )
    mass_kg: float
    mass_is: str = Field(description='"weighed" or "estimated"')
    guessed: str = Field(
        description="measures that are nominal, not measured, and where they come from"
    )
    com_mm: Triple = Field(description="centre of mass in the frame of the holder")
    rest_z_mm: float = Field(description="height at which it is carried, in the same frame")
    grip_z_mm: float = Field(
        description="the highest place of a hand on it, in the same frame; a check that says how "
        "far above the top of the rail a tool is held has taken contact_z_mm of the stand off it"
    )
    taken_by: tuple[str, ...] = Field(
        default=(), description="who takes it, where several people share the wall"
    )
    take_out_n: float = Field(
        description="most that springs and magnets oppose a hand; 0 where it is only lifted"
    )
    sizes: tuple[SizeRow, ...]
    way_out_mm: tuple[Triple, ...]
    in_the_way: tuple[str, ...] = Field(
        description="what the tool or the hand meets on the arranged wall; empty when all is free"
    )


class CheckRow(_Row):
    """A demand against a capacity, and the source of the rule; it holds when demand <= capacity."""

    name: str
    demand: float
    capacity: float
    unit: str
    holds: bool
    near: bool = Field(
        default=False,
        description="true where it holds with less than a tenth to spare; never where the program "
        "itself chose a measure so that it just holds, as the least wall",
    )
    source: str
    note: str


class StandRow(_Row):
    """What the statics took: the bevel contact, the depth of bearing, and the holder itself.

    Heights are in the frame of the holder, whose y is measured from the rail's face.
    """

    contact_z_mm: float
    depth_below_mm: float
    bevel_deg: float
    own_mass_kg: float = Field(description="on the light side, which is the unsafe one on a cleat")
    own_mass_most_kg: float = Field(description="on the heavy side, for screws and rails")
    own_distance_mm: float = Field(
        description="how far its own centre of mass is in front of the rail's face; 0 where it is "
        "behind that face, which is on the safe side"
    )
    least_pull_n: float | None = Field(
        description="the least pull to the front, where a hand may hold a tool, that takes it off "
        "its rail, in the plane of its section: at a tool beside the middle of a wide holder up to "
        "a quarter less does. Its bolts count as what they bear while a hand pulls; screws "
        "through a carrier of wood are left out of account. Infinity where every pull presses it "
        "home, null off rails and where screws into the rail hold it"
    )
    least_pull_z_mm: float | None = Field(
        description="the height of that pull in the frame of the holder, null where there is none"
    )


class PlaceRow(_Row):
    """Left edge of the plate and hang height, from the lower left corner of the panel."""

    panel: str = Field(description='name of the panel; "wall" for the wall')
    x_mm: float
    z_mm: float
    rail: str | None


class ScrewedRow(_Row):
    """A screw into the wall itself, from the lower left corner of the panel."""

    x_mm: float
    z_mm: float
    behind: Literal["stud", "edge", "none", "unknown"] = Field(
        description="what is behind it: a stud, the edge of one, which is too near for it to hold, "
        "or no stud; unknown on a panel that names none"
    )


class ScoreRow(_Row):
    """Points of an arrangement by their reason; less is better."""

    reach: float
    raised_mass: float
    rail_count: float
    rail_length: float
    groups: float
    sideways: float
    weak_rails: float
    moved: float
    total: float


class WhyRow(_Row):
    """Why something hangs where it does: its own share of the points, and the reasons."""

    points: ScoreRow
    reasons: tuple[str, ...]


class PrintRow(_Row):
    """How a part is printed.

    The overhang is what needs support: what starts in the air, and what leans out by more than
    45 degrees, but for short bridges between two held edges, ledges of about one line, and the
    engraved mark.
    """

    printer: str
    batch: str
    height_mm: float
    overhang_mm2: float
    solid_mass_kg: float = Field(description="without a void")
    mass_kg: float = Field(description="with its walls, and the skins and infill of its printer")
    heavy: str = Field("", description="where the plastic of a holder of more than 60 g goes")
    walls: int = Field(description="how many lines make its walls")
    section_share: float | None = Field(
        description="worst stress of its sections, walls and skins alone, as a share of what they "
        "bear; null for what is printed with the walls of its printer without being asked"
    )
    twist_share: float | None = Field(
        None,
        description="worst stress of its plate where it is twisted between tools, hangers and "
        "feet, as such a share; null for what hangs on no hangers",
    )


class FamilyRow(_Row):
    """A family that was weighed for the tools of a holder; the figures are estimates a tool."""

    name: str
    state: Literal["used", "weighed", "passed over"]
    grams: float | None = Field(description="plastic; null where it was not weighed")
    support: bool | None = Field(description="whether it needs support to print")
    width_mm: float | None = Field(description="of the wall, with its tools")
    reach_mm: float | None = Field(description="of the holder, out of the wall")
    cost_g: float | None = Field(description="what it costs, in grams of plastic")
    words: str = Field(description="what speaks against it")


class HolderRow(_Row):
    """One holder."""

    number: int
    name: str
    mark: str
    family: str
    why: str
    families: tuple[FamilyRow, ...] = Field(
        default=(), description="the families that were weighed, the cheapest first"
    )
    mount: str
    joint: str
    carrier: str | None = Field(description="mark of its carrier, or null in one piece")
    params: dict[str, float]
    size_mm: Triple
    load_kg: float
    seats: tuple[SeatRow, ...]
    checks: tuple[CheckRow, ...]
    stand: StandRow
    place: PlaceRow
    wall_screws: tuple[ScrewedRow, ...] = Field(
        default=(), description="the screws that go into the wall itself"
    )
    fittings: tuple[str, ...] = Field(
        default=(), description="the marks of its hangers and bolts, or of its plates and hooks"
    )
    why_there: WhyRow | None = Field(description="null for a holder on a carrier")
    print: PrintRow | None = Field(description="null for a holder that is there already")
    state: str = Field("planned", description=STATE)
    files: tuple[str, ...]


class CarrierRow(_Row):
    """One carrier; its holders are named by their marks, from left to right."""

    name: str
    mark: str
    holders: tuple[str, ...]
    mount: str
    joint: str
    made_of: str = Field(description='"plastic" or "wood"')
    params: dict[str, float]
    size_mm: Triple
    load_kg: float
    checks: tuple[CheckRow, ...]
    stand: StandRow
    place: PlaceRow
    wall_screws: tuple[ScrewedRow, ...] = Field(
        default=(), description="the screws that go into the wall itself"
    )
    fittings: tuple[str, ...] = Field(
        default=(), description="the marks of its hangers and bolts, or of its plates and hooks"
    )
    why_there: WhyRow
    print: PrintRow | None = Field(
        description="null for a carrier that is there already, or of wood"
    )
    state: str = Field("planned", description=STATE)
    files: tuple[str, ...]


class FittingRow(_Row):
    """A small part that is alike for many holders, such as a hanger, a bolt, a plate or a hook."""

    name: str
    mark: str
    leading: str = Field(description="its leading dimensions")
    count: int = Field(description="how many of them all holders and carriers have")
    on: tuple[str, ...] = Field(description="the marks of what has it, once for each")
    checks: tuple[CheckRow, ...]
    files: tuple[str, ...]


class RailRow(_Row):
    """One rail; ``z_top_mm`` is the height of its upper front edge."""

    name: str
    z_top_mm: float
    x0_mm: float
    x1_mm: float
    length_mm: float
    bevel_deg: float
    height_mm: float
    thickness_mm: float
    studs_mm: tuple[float, ...] = Field(
        description="the x of its screws: in each stud that it meets, or where screws or anchors "
        "go in a wall that takes them all over"
    )
    panel: str
    stays: bool = Field(description="true for a rail that hangs already")


class RailMoveRow(_Row):
    """What the arrangement changes for one rail that hangs or shall hang."""

    name: str
    panel: str
    what: str = Field(description='"stays", "is new" or "comes down"')
    sentence: str


class PersonRow(_Row):
    """Where one of several people reaches on a panel; heights above the floor."""

    name: str
    child: bool
    easy_reach_mm: tuple[float, float] | None = Field(
        description="null of a child that takes nothing"
    )
    reach_mm: tuple[float, float] | None = Field(description="the same")
    touches_mm: float | None = Field(
        description="how high the fingertips of a child come; null of an adult"
    )


class FreeSeatRow(_Row):
    """A seat on a rail that is kept free for a tool to come."""

    name: str
    rail: str
    x_mm: float = Field(description="left edge of the plate that has room there")
    z_mm: float = Field(description="hang height")
    width_mm: float = Field(description="of that plate")
    above_mm: float = Field(description="room above the hang height")
    below_mm: float = Field(description="room below it")
    load_kg: float = Field(description="the mass with which it counts on its rail")


class PanelRow(_Row):
    """The wall or a panel: its reach, the points of its arrangement and its checks."""

    name: str
    width_mm: float
    height_mm: float
    floor_gap_mm: float
    easy_reach_mm: tuple[float, float] = Field(description="heights above the floor")
    reach_mm: tuple[float, float] = Field(description="heights above the floor")
    people: tuple[PersonRow, ...] = Field(
        default=(), description="each of several people; the reach above is what all adults share"
    )
    points: ScoreRow
    checks: tuple[CheckRow, ...]
    lifting: tuple[CheckRow, ...]
    folder: str = Field(description="where its drawings are")
    helps: tuple[str, ...] = Field(
        default=(), description="what was tried for rails that do not hold, and helps or does not"
    )
    reserved_seats_asked: int = Field(
        0, description="how many seats are to be kept free; 0 where nothing hangs on a rail"
    )
    reserved_seats: tuple[FreeSeatRow, ...] = Field(
        default=(), description="those that found room; they count nothing in the points"
    )


class MoveRow(_Row):
    """What the arrangement changes for one thing that hangs or shall hang."""

    name: str
    what: str = Field(description='"stays", "moves", "is new" or "comes off"')
    sentence: str


class BatchRow(_Row):
    """What goes on one bed."""

    name: str
    printer: str
    marks: tuple[str, ...]
    file: str


class SpareRow(_Row):
    """Equal parts that are printed beyond those that are to be hung."""

    mark: str
    count: int


class Report(_Row):
    """The whole report."""

    schema_version: str = SCHEMA_VERSION
    program: str
    workshop: str
    holders: tuple[HolderRow, ...]
    carriers: tuple[CarrierRow, ...]
    fittings: tuple[FittingRow, ...] = ()
    panels: tuple[PanelRow, ...]
    rails: tuple[RailRow, ...]
    moves: tuple[MoveRow, ...]
    rail_moves: tuple[RailMoveRow, ...]
    batches: tuple[BatchRow, ...]
    spares: tuple[SpareRow, ...] = ()
    warnings: tuple[str, ...]
    cautions: tuple[str, ...]
    notes: tuple[str, ...] = Field(description="what must be known at the saw")
    files: tuple[str, ...]

    def spoken(self, words: Wording) -> Report:
        """Return the report with its sentences in the unit of the workshop; numbers stay in mm."""
        return Report.model_validate(_spoken(self.model_dump(), words))


def _spoken(tree: Any, words: Wording) -> Any:
    """Return a part of a report with the lengths in its texts in the unit."""
    if isinstance(tree, dict):
        fields = cast("dict[str, Any]", tree)
        return {key: _spoken(value, words) for key, value in fields.items()}
    if isinstance(tree, (list, tuple)):
        return [_spoken(value, words) for value in cast("list[Any]", tree)]
    return words(tree) if isinstance(tree, str) else tree


def report_bytes(report: Report) -> bytes:
    """Return the report as UTF-8 JSON with a fixed order and a closing line end."""
    return (report.model_dump_json(indent=2) + "\n").encode()


def schema_text() -> str:
    """Return the JSON Schema of the report."""
    return json.dumps(Report.model_json_schema(), indent=2, sort_keys=True) + "\n"
