"""What was computed for a workshop, all together."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from cleatwright.base.lengths import Wording
from cleatwright.checks.result import CheckResult
from cleatwright.design.building import BuiltPart
from cleatwright.design.carrying import Unit, part_names, wooden_carriers
from cleatwright.design.planned import PlannedHolder
from cleatwright.design.wall_lines import check_sections
from cleatwright.pack.production import Production
from cleatwright.pack.woodwork import Woodwork
from cleatwright.parts.holder import Hardware
from cleatwright.siting.assessing import Assessment
from cleatwright.siting.hung.in_use import PartsThere, hardware_of
from cleatwright.siting.hung.moves import ChangePlan
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.pitch import pitch_notes
from cleatwright.siting.screws_behind import screws_met
from cleatwright.siting.seats.told import seat_notes
from cleatwright.siting.walls import Spot
from cleatwright.standards import cautions
from cleatwright.wall.rail import Rail
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.ledger.hung_wall import WhatHangs
from cleatwright.workshop.ledger.last_made import LastMade

CLEAR_SHARE = 0.15


@dataclass(frozen=True)
class Better:
    """What another plan saves, in which things move for what is new.

    Args:
        rails: How many rails fewer are to be cut.
        points: How many points fewer the walls cost.
        moved: How many things that hang would have to move.
    """

    rails: int
    points: float
    moved: int

    def is_clear(self, points: float) -> bool:
        """Return whether it is worth a word, where the walls cost so many points."""
        return self.points > 0.0 and (self.rails > 0 or self.points >= CLEAR_SHARE * points)


@dataclass(frozen=True)
class Job:
    """Everything that was computed for a workshop, before any file is written.

    ``key`` is the content key of all that it was computed from. ``planned`` and ``built`` are
    the holders, by their numbers; ``panels`` are the wall and the further panels on which
    something hangs, and ``found`` what was found about each;
    ``spots`` are the place of every part by its key; ``hung`` is what hangs already by the
    ledger and the document, ``change_plan`` what the job changes about that, ``there`` what
    there is of its parts already, ``made`` what the ledger keeps once all
    is made, ``spared`` how many holders fewer there would be if tools were grouped anew, and
    ``better`` what would be saved if things that are there moved for what is new.
    """

    key: str
    workshop: Workshop
    units: tuple[Unit, ...]
    planned: tuple[PlannedHolder, ...]
    built: tuple[BuiltPart, ...]
    panels: tuple[PanelJob, ...]
    found: tuple[Assessment, ...]
    spots: Mapping[str, Spot]
    hung: WhatHangs
    change_plan: ChangePlan
    woodwork: Woodwork
    production: Production
    there: PartsThere
    made: LastMade
    spared: int = 0
    better: Better | None = None

    @property
    def words(self) -> Wording:
        """Return what turns sentences into the unit of the workshop."""
        return Wording(self.workshop.units)

    @property
    def in_use(self) -> frozenset[str]:
        """Return the keys of the parts that hang already and are used again."""
        return self.there.in_use

    @property
    def failing(self) -> tuple[str, ...]:
        """Return a sentence for everything that does not hold, in the unit of the workshop."""
        walls = (text for found in self.found for text in found.failing)
        return (*self.failing_parts(self.parts), *self.words.all(tuple(walls)))

    @property
    def helps(self) -> tuple[str, ...]:
        """Return what was tried for rails that do not hold, in the unit of the workshop."""
        return self.words.all(tuple(one.sentence for found in self.found for one in found.helps))

    def failing_parts(self, parts: Mapping[str, tuple[str, BuiltPart]]) -> tuple[str, ...]:
        """Return a sentence for all that some of its parts, by their keys, do not bear."""
        return self.words.all(
            tuple(
                f"{name} ({made.mark}): {check.sentence}"
                for key, (name, made) in parts.items()
                for check in (*made.checks, *self.section_checks(key))
                if not check.holds
            )
        )

    @property
    def warnings(self) -> tuple[str, ...]:
        """Return what the owner should see to, in the unit of the workshop."""
        return self.words.all(self.warning_notes)

    @property
    def warning_notes(self) -> tuple[str, ...]:
        """Return the same before lengths are put into words."""
        found = (text for found in self.found for text in found.warnings)
        return (*self.broken_notes, *found)

    def section_checks(self, key: str) -> tuple[CheckResult, ...]:
        """Return the check of the sections of a part that shall be printed, by its key."""
        printed = self.production.by_key.get(key)
        return () if printed is None else check_sections(printed.walls)

    @property
    def broken_notes(self) -> tuple[str, ...]:
        """Return what is to be done about parts that hang and broke, in sentences."""
        return tuple(
            f"{name} ({made.mark}) broke: take its tools off it, edges and points first, until "
            "the new one hangs."
            for key, (name, made) in self.parts.items()
            if key in self.there.broken
        )

    @property
    def pitch_notes(self) -> tuple[str, ...]:
        """Return what is to be known of holders in holes, slots and grooves."""
        return self.words.all(
            tuple(
                text
                for panel in self.panels
                for text in pitch_notes(panel.units, panel=panel.panel.name)
            )
        )

    @property
    def empty_notes(self) -> tuple[str, ...]:
        """Return which holders have empty places, and for which tools."""
        return self.words.all([one.emptiness for one in self.planned if one.emptiness])

    @property
    def seat_notes(self) -> tuple[str, ...]:
        """Return how many of the seats that are to be kept free found room, wall by wall."""
        return self.words.all(tuple(text for panel in self.panels for text in seat_notes(panel)))

    @property
    def new_wood(self) -> tuple[tuple[str, BuiltPart], ...]:
        """Return the carriers of wood to be made, with their names; not those that hang already."""
        return wooden_carriers(self.units, but=self.in_use)

    def hardware(self, *, in_use: bool) -> tuple[Hardware, ...]:
        """Return what the parts need that hang already, or all others."""
        met = screws_met(self.panels)
        refitted = frozenset(
            unit.planned.key
            for unit in self.units
            if any(key not in self.in_use for key, _ in unit.fittings_by_key())
        )
        return hardware_of(self.parts, self.in_use, inside=in_use, met=met, refitted=refitted)

    @property
    def cautions(self) -> tuple[str, ...]:
        """Return the cautions of whoever hangs and loads what is on these walls."""
        screwed = any(unit.outer.part.hanging.screws is not None for unit in self.units)
        return cautions.holders(rails=bool(self.rails), screwed=screwed, pla=self.uses_pla)

    @property
    def uses_pla(self) -> bool:
        """Tell whether a filament of the workshop is, or may be, of PLA."""
        return any("PLA" in one.material.upper() for one in self.workshop.filaments)

    @property
    def parts(self) -> Mapping[str, tuple[str, BuiltPart]]:
        """Return every part by its key, with its name for people."""
        return part_names(self.units)

    @property
    def rails(self) -> tuple[Rail, ...]:
        """Return the rails of all panels."""
        return tuple(rail for panel in self.panels for rail in panel.arrangement.rails)
