"""The sections of the document that say with what and on what the owner works."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Annotated, Any, Literal, Self, cast

from pydantic import BeforeValidator, ConfigDict, Field, model_validator

from cleatwright.base import said
from cleatwright.workshop.document.fields import (
    NAME_INSIDE,
    Colour,
    Count,
    DocumentTable,
    Name,
    Readings,
    ReadingsTable,
    Slug,
    Within,
    problem,
    row_key_of,
)

FitName = Literal["snug", "easy", "loose"]
Sheet = Literal[
    "auto", "A4", "A3", "A2", "A1", "A0", "Letter", "Tabloid", "ANSI-C", "ANSI-D", "ANSI-E"
]
TemplateSheet = Literal["auto", "A4", "Letter"]

_BED_MM = Within("mm", 50, 2_000, why="a smaller bed takes no holder")


class StockEntry(DocumentTable):
    """Boards of one length; ``count`` 0 means as many as needed."""

    name: Name
    length_mm: Annotated[float, Within("mm", 100, 10_000)]
    count: Annotated[Count, Field(ge=0, le=1_000)] = 0


class RailRules(DocumentTable):
    """How the rails are made and how far apart they hang."""

    model_config = ConfigDict(alias_generator=row_key_of)

    thickness_mm: Annotated[
        float, Within("mm", 9, 50, why="a thinner bevel splits, a thicker one is no board")
    ] = 18.0
    height_mm: Annotated[float, Within("mm", 30, 300, why="screws need wood above and below")] = (
        70.0
    )
    bevel_deg: Annotated[
        float, Within("deg", 30, 60, why="flatter rides off, steeper leaves a thin edge")
    ] = 45.0
    min_gap_mm: Annotated[float, Within("mm", 0, 1_000)] = 60.0
    timber: Name = "plywood"
    density_kg_m3: Annotated[
        float | None, Within("", 100, 1_500, estimate=True, why="in kg per cubic metre")
    ] = None
    kerf_mm: Annotated[float, Within("mm", 0.5, 10)] = 3.0
    stocks: tuple[StockEntry, ...] = ()

    @model_validator(mode="after")
    def _bevel_leaves_a_face(self) -> Self:
        drop = self.thickness_mm * math.tan(math.radians(self.bevel_deg))
        if self.height_mm <= drop:
            raise problem(
                f"A rail {said.mm(self.height_mm)} high is used up by its bevel",
                allowed=f"a height of more than {said.mm(drop)} at this thickness and bevel",
                keys=("height", "thickness", "bevel"),
            )
        return self


LINE_OF_NOZZLE = (0.75, 2.0)
"""Widths of a line, in bores of the nozzle."""
_SLACK_MM = 1e-9


class Printer(DocumentTable):
    """A printer and how it is set; ``name`` is the name of its table."""

    name: Name
    bed_mm: tuple[Annotated[float, _BED_MM], Annotated[float, _BED_MM], Annotated[float, _BED_MM]]
    nozzle_mm: Annotated[float, Within("mm", 0.1, 2)] = 0.4
    layer_mm: Annotated[float, Within("mm", 0.04, 1.5)] = 0.2
    line_mm: Annotated[float, Within("mm", 0.1, 3)] = 0.45
    hole_correction_mm: Annotated[
        float, Within("mm", -1, 1.5, why="a larger one means a wrong coupon or a wrong setting")
    ] = 0.0
    spacing_mm: Annotated[float, Within("mm", 0, 50)] = 5.0
    edge_mm: Annotated[float, Within("mm", 0, 20)] = 3.0
    walls: Annotated[Count, Field(ge=1, le=50)] = 3
    least_walls: Annotated[Count, Field(ge=1, le=50)] = 2
    skin_mm: Annotated[float, Within("mm", 0.04, 20)] = 0.9
    infill: Annotated[float, Within("", 0, 1, why="a share of what lies behind the walls")] = 0.15
    grams_per_hour: Annotated[float | None, Within("", 1, 2000, estimate=True)] = None

    @model_validator(mode="after")
    def _bead_from_nozzle(self) -> Self:
        """Hold nozzle, line and layer against each other.

        A bead between two layers is its layer high and its line wide, with round edges, so
        that it is never narrower than high; and it is as wide as the nozzle, more or less.

        Source: common practice of filament printing, no source.
        """
        if self.layer_mm > self.nozzle_mm:
            raise problem(
                f"A layer of {said.mm(self.layer_mm)} does not come out of a "
                f"{said.mm(self.nozzle_mm)} nozzle",
                allowed="a layer no higher than the nozzle is wide",
                keys=("layer", "nozzle"),
            )
        least, most = (self.nozzle_mm * share for share in LINE_OF_NOZZLE)
        if not least - _SLACK_MM <= self.line_mm <= most + _SLACK_MM:
            raise problem(
                f"A line of {said.mm(self.line_mm)} does not come out of a "
                f"{said.mm(self.nozzle_mm)} nozzle",
                allowed=f"a line from {said.first(least)} to {said.mm(most)} for this nozzle",
                todo='Write "line" as it is set for printing, or mend "nozzle"',
                keys=("line", "nozzle"),
            )
        if self.layer_mm > self.line_mm + _SLACK_MM:
            raise problem(
                f"A layer of {said.mm(self.layer_mm)} is higher than its line of "
                f"{said.mm(self.line_mm)} is wide",
                allowed="a layer no higher than the line is wide",
                keys=("layer", "line"),
            )
        return self


class Filament(DocumentTable):
    """A plastic to print with; ``name`` is the name of its table."""

    name: Name
    material: Name
    density_kg_m3: Annotated[
        float, Within("", 500, 10_000, why="in kg per cubic metre; plain water has 1000")
    ]
    colour: Colour = "#808080"
    price_per_kg: Annotated[float | None, Within("", 0, 10_000, estimate=True)] = None


class FitRules(DocumentTable):
    """Diametral play of the classes of fit.

    Source of the defaults: common practice, partly seen; a coupon gives the owner's own.
    """

    snug_mm: Annotated[float, Within("mm", 0, 3)] = 0.2
    easy_mm: Annotated[float, Within("mm", 0, 3)] = 0.4
    loose_mm: Annotated[float, Within("mm", 0, 3)] = 0.7
    default: FitName = "easy"

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        if not self.snug_mm <= self.easy_mm <= self.loose_mm:
            raise problem(
                f"The plays {said.number(self.snug_mm)}, {said.number(self.easy_mm)} and "
                f"{said.mm(self.loose_mm)} are out of order",
                allowed="snug no larger than easy, and easy no larger than loose",
                keys=("snug", "easy", "loose"),
            )
        return self

    def play_mm(self, name: FitName | None = None) -> float:
        """Return the play of a class, or of the default class.

        >>> FitRules().play_mm("loose"), FitRules().play_mm()
        (0.7, 0.4)
        """
        plays = {"snug": self.snug_mm, "easy": self.easy_mm, "loose": self.loose_mm}
        return plays[name or self.default]


HowFar = Literal["little", "moves", "parts", "afresh"]
"""How far a plan may go beyond what is there, when something finds no place otherwise: nothing that
hangs moves, and no part is made anew that is there; what hangs may move; parts that are there may
be made anew; everything may be as if nothing was there."""


class Defaults(DocumentTable):
    """What holds for a holder that does not say otherwise."""

    mount: Slug = "french-cleat"
    joint: Slug = "one-piece"
    printer: Name | None = None
    filament: Name | None = None
    plate_mm: Annotated[float, Within("mm", 2, 20)] = 5.0
    hand_room_mm: Annotated[float, Within("mm", 0, 100)] = 12.0
    stability_margin: Annotated[
        float, Within("", 1, 5, why="below 1 the holder rides off its rail")
    ] = 1.5
    drag: Annotated[float, Within("", 0, 2, why="a share of the tool's weight")] = 0.1
    pull_n: Annotated[float, Within("", 0, 200, why="newtons, about a tenth of a kilogram")] = 10.0
    lift_n: Annotated[float, Within("", 0, 200, why="newtons, about a tenth of a kilogram")] = 10.0
    knock_n: Annotated[float, Within("", 0, 50, why="newtons, about a tenth of a kilogram")] = 5.0
    effort: Annotated[Count, Field(ge=1, le=100)] = 1
    change: HowFar = "little"


class Drawings(DocumentTable):
    """The paper of the drawings: one sheet for the wall, and those that a template is taped from.

    ``auto`` takes the smallest sheet on which the wall can be read, and A4 for templates; in a
    workshop in inches it takes Letter and its larger kin.
    """

    sheet: Sheet = "auto"
    template_sheet: TemplateSheet = "auto"


def _named(value: object) -> object:
    """Turn tables by name into a row of tables that know their names."""
    if not isinstance(value, Mapping):
        return value
    return tuple(_with_name(name, one) for name, one in cast("Mapping[str, Any]", value).items())


def _with_name(name: str, table: object) -> object:
    """Give a table its name; a key ``name`` inside it is left for the check of unknown keys."""
    if not isinstance(table, Mapping):
        return table
    keys = cast("Mapping[str, Any]", table)
    rest = {(NAME_INSIDE if key == "name" else key): keys[key] for key in keys}
    return {"name": name} | rest


class Sizes(DocumentTable):
    """Measures of a mount or a joint, by its name."""

    name: Name
    params: ReadingsTable = Readings()

    @model_validator(mode="before")
    @classmethod
    def _params_stand_beside_the_name(cls, value: object) -> object:
        if not isinstance(value, Mapping):
            return value
        keys = dict(cast("Mapping[str, Any]", value))
        if isinstance(keys.get("params"), Readings):
            return keys
        return {"name": keys.pop("name", ""), "params": keys}


Printers = Annotated[tuple[Printer, ...], BeforeValidator(_named)]
Filaments = Annotated[tuple[Filament, ...], BeforeValidator(_named)]
NamedSizes = Annotated[tuple[Sizes, ...], BeforeValidator(_named)]
