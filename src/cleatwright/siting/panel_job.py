"""One wall or panel of a workshop: what hangs on it, where, and on which rails."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from cleatwright.base.keys import fields_key
from cleatwright.base.lengths import LengthUnit, Wording
from cleatwright.design.building import BuiltPart
from cleatwright.design.carrying import Unit
from cleatwright.design.planned import PlannedHolder
from cleatwright.siting.people import PanelPeople, People, people_of
from cleatwright.siting.walls import Spot, spots_of
from cleatwright.wall.model import Arrangement, ReservedSeat
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Rail
from cleatwright.wall.tolerances import SLACK_MM
from cleatwright.wall.way_out import WayProof
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.sections import Drawings, RailRules
from cleatwright.workshop.document.surfaces import MAIN, Panel


@dataclass(frozen=True)
class Setting:
    """What of a document counts for each panel, whatever hangs there.

    Args:
        name: The name of the workshop.
        units: The unit in which people read lengths.
        rail: How rails are made.
        people: For whom it is arranged.
        drawings: On what it is drawn.
        words: What turns sentences into that unit.
    """

    name: str
    units: LengthUnit
    rail: RailRules
    people: People
    drawings: Drawings
    words: Wording


def setting_of(workshop: Workshop) -> Setting:
    """Return what of a document counts for each of its panels."""
    return Setting(
        workshop.name,
        workshop.units,
        workshop.rail,
        people_of(workshop),
        workshop.drawings,
        Wording(workshop.units),
    )


def folder_of(workshop: Workshop, panel: Panel) -> str:
    """Return the folder of a panel's drawings; its number keeps like names apart."""
    if panel.name == MAIN:
        return "wall"
    number = [one.name for one in workshop.surfaces()].index(panel.name) + 1
    plain = unicodedata.normalize("NFKD", panel.name.lower())
    words = re.findall(r"[a-z0-9]+", plain.encode("ascii", "ignore").decode())
    return "/".join(("wall", "-".join((str(number), *words))))


@dataclass(frozen=True)
class PanelJob:
    """What was computed for one panel.

    Args:
        setting: What of the document counts for each panel.
        panel: The panel.
        folder: The folder of its drawings in the output.
        units: What hangs on it.
        problem: The panel as the wall sees it, with the rails that stay, and its units in order.
        arrangement: Where everything hangs; rails are numbered through all panels.
        ways: The proof of the way out of every tool.
        down: The rails of the ledger that stand in the way, and why.
        reaches: Where the people of the workshop reach on it.
        seats_short: Why no more seats are kept free, where more are asked for.
    """

    setting: Setting
    panel: Panel
    folder: str
    units: tuple[Unit, ...]
    problem: WallProblem
    arrangement: Arrangement
    ways: tuple[WayProof, ...]
    down: tuple[Rail, ...]
    reaches: PanelPeople
    seats_short: str = ""

    @cached_property
    def content_key(self) -> str:
        """The content key of everything in it."""
        return fields_key(self)

    @cached_property
    def spots(self) -> Mapping[str, Spot]:
        """The place of every part on the panel, by its key."""
        return spots_of(self.units, self.arrangement)

    def seats_on(self, rail: Rail) -> tuple[ReservedSeat, ...]:
        """Return the seats that are kept free on a rail, from left to right."""
        edge_mm = self.problem.rule.edge_above_mm
        on = (
            seat
            for seat in self.arrangement.seats
            if abs(rail.z_top_mm - edge_mm - seat.place.z_mm) <= SLACK_MM
            and rail.x0_mm - SLACK_MM <= seat.box_mm[0]
            and seat.box_mm[1] <= rail.x1_mm + SLACK_MM
        )
        return tuple(sorted(on, key=lambda one: one.place.x_mm))

    @property
    def words(self) -> Wording:
        """Return what turns sentences into the unit of the workshop."""
        return self.setting.words

    @property
    def planned(self) -> tuple[PlannedHolder, ...]:
        """Return the holders, unit by unit."""
        return tuple(holder for unit in self.units for holder in unit.planned.holders)

    @property
    def built(self) -> tuple[BuiltPart, ...]:
        """Return the built holders, unit by unit."""
        return tuple(made for unit in self.units for made in unit.holders)

    @property
    def title(self) -> str:
        """Return the name of the workshop, and that of the panel unless it is the wall."""
        if self.panel.name == MAIN:
            return self.setting.name
        return f"{self.setting.name}: {self.panel.name}"
