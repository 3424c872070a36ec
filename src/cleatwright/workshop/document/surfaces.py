"""What things hang on: the wall, further panels, and what is on them already."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import ConfigDict, Field, model_validator

from cleatwright.standards.fasteners.anchors import Stated
from cleatwright.standards.materials.en_338 import TimberClass
from cleatwright.standards.wall.linings import PLASTERBOARD_MM
from cleatwright.standards.wall.obstacles import OBSTACLES
from cleatwright.workshop.document.fields import (
    Count,
    DocumentTable,
    Flag,
    Name,
    Notes,
    Slug,
    Within,
    Words,
    problem,
    row_key_of,
)

MAIN = "wall"
"""The name of the wall of the document among its panels."""

RailLayout = Literal["rows", "pieces"]
"""Whole rows from end to end at a few heights, or pieces as long as what hangs on them."""
# of five walls that were tried, three cost their tools 0 to 8 % in points
RESERVED_SEATS, MOST_RESERVED = 3, 20
ObstacleKind = Literal["socket", "switch", "window", "pipe", "door", "heater", "other"]
MadeOf = Literal["studs", "solid wood", "brick", "block", "concrete", "unknown"]
"""What a wall is: studs behind a lining, wood that takes screws all over, masonry or concrete,
which takes anchors, or what nobody knows yet."""
ScrewRule = Literal["NDS 2018", "EN 1995-1-1:2004"]
"""The standard, with its edition, by which the screws of rails in wood are checked."""
MASONRY: tuple[MadeOf, ...] = ("brick", "block", "concrete")
# holes in a wall, whose edges screws keep off; what else is in the way hangs on it
OPENINGS: tuple[ObstacleKind, ...] = ("window", "door")

# as exactly as a tape is read: studs so near touch
TOUCH_MM = 0.5

_REACH = "what lies higher is out of reach even from a step"
_FAR = "whoever needs more room marks another wall"
_ACROSS = Within("mm", 0, 30_000)


class Obstacle(DocumentTable):
    """A place on the wall where nothing may hang; x and z of its lower left corner.

    What it does not say follows from its kind.
    """

    name: Name
    kind: ObstacleKind = "other"
    x_mm: Annotated[float, _ACROSS]
    z_mm: Annotated[float, _ACROSS]
    width_mm: Annotated[float, Within("mm", 0, 30_000, above=True)]
    height_mm: Annotated[float, Within("mm", 0, 6_000, above=True)]
    margin_mm: Annotated[float | None, Within("mm", 0, 1_000, why=_FAR)] = None
    depth_mm: Annotated[float | None, Within("mm", 0, 3_000, why=_FAR)] = None
    heat_from_mm: Annotated[
        float | None,
        Within("mm", 0, 5_000, why="what glows further off heats the whole room"),
        Field(alias="heat"),
    ] = None

    @property
    def keep_out_mm(self) -> float:
        """Return how far holders keep off, all round."""
        return self._or_by_kind(self.margin_mm, "keep_out_mm")

    @property
    def stands_out_mm(self) -> float:
        """Return how far it stands out of the wall."""
        return self._or_by_kind(self.depth_mm, "stands_out_mm")

    @property
    def heat_mm(self) -> float:
        """Return how far off things hang that must stay cool; 0 when it gives no heat."""
        return self._or_by_kind(self.heat_from_mm, "heat_mm")

    def _or_by_kind(self, given_mm: float | None, column: str) -> float:
        return OBSTACLES.value(self.kind, column) if given_mm is None else given_mm


class Stud(DocumentTable):
    """An upright of the wall that a screw may enter; x of its centre.

    A doubled one is nailed to one that it touches: both are one place for the screws of a rail.
    Source of the default width: PS 20 nominal 2x4, dressed thickness 38 mm.
    """

    x_mm: Annotated[float, _ACROSS]
    width_mm: Annotated[
        float, Within("mm", 20, 300, why="a screw needs wood on both sides of it")
    ] = 38.0
    doubled: Flag = False


def touching(one: Stud, other: Stud) -> bool:
    """Return whether two studs touch, as those do that are nailed together."""
    apart_mm = abs(one.x_mm - other.x_mm)
    return abs(apart_mm - (one.width_mm + other.width_mm) / 2) <= TOUCH_MM


class KeptRail(DocumentTable):
    """A rail that hangs already and stays; x of its left end, z of its top edge."""

    x_mm: Annotated[float, _ACROSS]
    z_top_mm: Annotated[float, Within("mm", 0, 6_000, why=_REACH)]
    length_mm: Annotated[
        float, Within("mm", 30, 30_000, why="a shorter piece has no room for two screws")
    ]


_LOAD = Within("", 0, 50_000, above=True, why="no anchor of a tool wall bears more")


class WallAnchor(DocumentTable):
    """The anchor of a wall of masonry or concrete, by its own papers; what is left out is unknown.

    ``loads`` says how the papers state ``tension_n`` and ``shear_n``: "allowable" (they also say
    recommended), "design" or "characteristic". Loads at which anchors failed in tests are none.
    """

    name: Name | None = None
    loads: Stated | None = None
    tension_n: Annotated[float | None, _LOAD] = None
    shear_n: Annotated[float | None, _LOAD] = None
    hole_mm: Annotated[float | None, Within("mm", 3, 40)] = None
    hole_depth_mm: Annotated[float | None, Within("mm", 10, 400)] = None
    embedment_mm: Annotated[float | None, Within("mm", 10, 400)] = None
    screw_mm: Annotated[float | None, Within("mm", 3, 16, why="a rail splits at a thicker one")] = (
        None
    )
    screw_length_mm: Annotated[float | None, Within("mm", 20, 400)] = None
    head_mm: Annotated[float | None, Within("mm", 4, 40)] = None
    clamp_mm: Annotated[float | None, Within("mm", 1, 200)] = None
    edge_mm: Annotated[float | None, Within("mm", 10, 1_000)] = None
    spacing_mm: Annotated[float | None, Within("mm", 10, 1_000)] = None

    @property
    def lacking(self) -> tuple[str, ...]:
        """Return the keys without which nobody knows what it may carry where."""
        needed = {
            "loads": self.loads,
            "tension_n": self.tension_n,
            "shear_n": self.shear_n,
            "screw": self.screw_mm,
            "edge": self.edge_mm,
            "spacing": self.spacing_mm,
        }
        return tuple(key for key, value in needed.items() if value is None)


class Wall(DocumentTable):
    """The wall; x from its left edge, z from its lower edge, ``floor_gap_mm`` above the floor.

    Source of the default lining: EN 520, plasterboard, the usual thickness (from memory).
    """

    model_config = ConfigDict(alias_generator=row_key_of)

    width_mm: Annotated[float, Within("mm", 100, 30_000)]
    height_mm: Annotated[float, Within("mm", 100, 6_000, why=_REACH)]
    made_of: MadeOf = "studs"
    floor_gap_mm: Annotated[float, Within("mm", 0, 3_000, why=_REACH)] = 0.0
    bench_depth_mm: Annotated[
        float, Within("mm", 0, 1_500, why="nobody reaches over a deeper bench")
    ] = 0.0
    bench_height_mm: Annotated[
        float | None, Within("mm", 100, 2_000, why="a higher one is no bench, but a shelf")
    ] = None
    stand_x_mm: Annotated[float | None, _ACROSS] = None
    locked: Words = ""
    lining_mm: Annotated[
        float, Within("mm", 0, 60, why="a screw bends in a thicker one, which carries nothing")
    ] = PLASTERBOARD_MM
    rail_layout: RailLayout = "rows"
    reserved_seats: Annotated[Count, Field(ge=0, le=MOST_RESERVED)] = RESERVED_SEATS
    thickness_mm: Annotated[
        float | None,
        Within("mm", 6, 500, why="no screw holds in a thinner sheet"),
    ] = None
    rule: ScrewRule = "NDS 2018"
    timber: TimberClass | None = None
    anchor: WallAnchor | None = None
    course_mm: Annotated[
        float | None, Within("mm", 30, 600, why="from one bed joint to the next")
    ] = None
    joint_z_mm: Annotated[float | None, Within("mm", 0, 6_000, why=_REACH)] = None
    datum: Notes = ""
    obstacles: Annotated[tuple[Obstacle, ...], Field(max_length=200)] = ()
    studs: Annotated[tuple[Stud, ...], Field(max_length=200)] = ()
    rails: Annotated[tuple[KeptRail, ...], Field(max_length=200)] = ()

    @model_validator(mode="after")
    def _keys_fit_what_it_is(self) -> Self:
        for key, given, wanted in (
            ("stud", bool(self.studs), ("studs",)),
            ("thickness", self.thickness_mm is not None, ("solid wood",)),
            ("anchor", self.anchor is not None, MASONRY),
            ("course", self.course_mm is not None, ("brick", "block")),
            ("joint_z", self.joint_z_mm is not None, ("brick", "block")),
        ):
            if given and self.made_of not in wanted:
                raise problem(
                    f'What is made of "{self.made_of}" has no {key}',
                    allowed=" or ".join(f'made_of = "{one}"' for one in wanted),
                    todo=f"Change made_of, or take {key} away",
                    keys=("made_of", key),
                )
        if self.timber is not None and self.rule == "NDS 2018":
            raise problem(
                "timber is a strength class of EN 338, and NDS 2018 has none of them",
                allowed='rule = "EN 1995-1-1:2004" beside it',
                todo="Change rule, or take timber away",
                keys=("rule", "timber"),
            )
        if self.made_of == "solid wood" and self.thickness_mm is None:
            raise problem(
                "Nobody says how thick the solid wood is, and a screw must not come out behind it",
                allowed="thickness with the length in it",
                todo="Measure the board, the sheet or the logs and write thickness",
                keys=("made_of", "thickness"),
            )
        if (self.course_mm is None) != (self.joint_z_mm is None):
            raise problem(
                "course and joint_z tell where the bed joints are only together",
                todo="Write both, or take the one away",
                keys=("course", "joint_z"),
            )
        return self

    @property
    def between_mm(self) -> float:
        """Return what lies between a rail and what holds its screws, and carries nothing.

        Left out it is plasterboard before studs and nothing before anything else.
        """
        left_out = "lining_mm" not in self.model_fields_set
        return 0.0 if left_out and self.made_of != "studs" else self.lining_mm

    @property
    def places_known(self) -> bool:
        """Return whether it is known where screws hold: all over, or in studs that are given."""
        return self.made_of != "studs" or bool(self.studs)

    @property
    def takes_anchors(self) -> bool:
        """Return whether rails hang on anchors, or nobody knows that they do not."""
        return self.made_of not in ("studs", "solid wood")

    @property
    def stands_at_mm(self) -> float:
        """Return where the person usually stands, from the left edge."""
        return self.width_mm / 2 if self.stand_x_mm is None else self.stand_x_mm


class Panel(Wall):
    """A further wall, the lid of a chest, the side of a van: a wall with a name of its own."""

    name: Name
    mount: Slug | None = None


def as_the_wall(panel: Panel, wall: Wall) -> Panel:
    """Return a panel with what it does not say of what it is: it is made as the wall is.

    One with studs of its own has studs. The rule of its screws is that of the wall, too.
    """
    of_wall = ("rule", "timber") if "rule" not in panel.model_fields_set else ()
    if not ("made_of" in panel.model_fields_set or panel.studs or wall.made_of == "studs"):
        of_wall += ("made_of", "thickness_mm", "anchor", "course_mm", "joint_z_mm")
    update = {
        name: getattr(wall, name)
        for name in of_wall
        if name not in panel.model_fields_set and name in wall.model_fields_set
    }
    return panel.model_copy(update=update) if update else panel


def named(wall: Wall) -> Panel:
    """Return the wall of the document as the panel of the name ``wall``."""
    given = {name: getattr(wall, name) for name in sorted(wall.model_fields_set)}
    return Panel(name=MAIN, **given)
