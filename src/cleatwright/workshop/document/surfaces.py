"""What things hang on: the wall, further panels, and what is on them already."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import ConfigDict, Field

from cleatwright.standards.wall.linings import PLASTERBOARD_MM
from cleatwright.standards.wall.obstacles import OBSTACLES
from cleatwright.workshop.document.fields import (
    DocumentTable,
    Flag,
    Name,
    Notes,
    Slug,
    Within,
    row_key_of,
)

MAIN = "wall"
"""The name of the wall of the document among its panels."""

RailLayout = Literal["rows", "pieces"]
"""Whole rows from end to end at a few heights, or pieces as long as what hangs on them."""
ObstacleKind = Literal["socket", "switch", "window", "pipe", "door", "heater", "other"]

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


class Wall(DocumentTable):
    """The wall; x from its left edge, z from its lower edge, ``floor_gap_mm`` above the floor.

    Source of the default lining: EN 520, plasterboard, the usual thickness (from memory).
    """

    model_config = ConfigDict(alias_generator=row_key_of)

    width_mm: Annotated[float, Within("mm", 100, 30_000)]
    height_mm: Annotated[float, Within("mm", 100, 6_000, why=_REACH)]
    floor_gap_mm: Annotated[float, Within("mm", 0, 3_000, why=_REACH)] = 0.0
    bench_depth_mm: Annotated[
        float, Within("mm", 0, 1_500, why="nobody reaches over a deeper bench")
    ] = 0.0
    bench_height_mm: Annotated[
        float | None, Within("mm", 100, 2_000, why="a higher one is no bench, but a shelf")
    ] = None
    stand_x_mm: Annotated[float | None, _ACROSS] = None
    lining_mm: Annotated[
        float, Within("mm", 0, 60, why="a screw bends in a thicker one, which carries nothing")
    ] = PLASTERBOARD_MM
    rail_layout: RailLayout = "rows"
    datum: Notes = ""
    obstacles: Annotated[tuple[Obstacle, ...], Field(max_length=200)] = ()
    studs: Annotated[tuple[Stud, ...], Field(max_length=200)] = ()
    rails: Annotated[tuple[KeptRail, ...], Field(max_length=200)] = ()

    @property
    def stands_at_mm(self) -> float:
        """Return where the person usually stands, from the left edge."""
        return self.width_mm / 2 if self.stand_x_mm is None else self.stand_x_mm


class Panel(Wall):
    """A further wall, the lid of a chest, the side of a van: a wall with a name of its own."""

    name: Name
    mount: Slug | None = None


def named(wall: Wall) -> Panel:
    """Return the wall of the document as the panel of the name ``wall``."""
    given = {name: getattr(wall, name) for name in sorted(wall.model_fields_set)}
    return Panel(name=MAIN, **given)
