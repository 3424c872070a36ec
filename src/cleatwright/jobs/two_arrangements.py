"""Two arrangements of one wall side by side: the one that is, and one that could be taken."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import asdict, dataclass

from cleatwright.base.errors import StockError
from cleatwright.base.stages.run import Run
from cleatwright.design.building import BuiltPart
from cleatwright.design.carrying import part_names
from cleatwright.jobs.arranging_again import PlaceFound
from cleatwright.jobs.placing import PlannedWalls, identity_of, place_changes, places_now, standing
from cleatwright.project.computing import to_saw
from cleatwright.project.walls import Request, assessed
from cleatwright.siting.assessing import Assessment
from cleatwright.siting.panel_job import PanelJob
from cleatwright.wall.model import Place, Scores
from cleatwright.wall.moving.moves import Move
from cleatwright.workshop.document.changes import DocumentChange
from cleatwright.workshop.document.surfaces import MAIN, RailLayout

DEAREST = 3


@dataclass(frozen=True)
class Costs:
    """What costs most: one thing, its points and the reasons."""

    name: str
    points: float
    reasons: tuple[str, ...]


@dataclass(frozen=True)
class Side:
    """One of two arrangements.

    Args:
        at: The document and its walls.
        panel: The panel.
        found: What is found about it.
        rail_heights: At how many heights rails hang.
        rail_pieces: How many pieces of rail there are.
        rail_mm: How long all of them are.
        new_rail_mm: How long those are that do not hang yet.
        boards: How many boards are cut, for all walls; None when no boards are known.
        short: What is wrong with the boards, or "".
        dearest: What costs most.
    """

    at: PlannedWalls
    panel: PanelJob
    found: Assessment
    rail_heights: int
    rail_pieces: int
    rail_mm: float
    new_rail_mm: float
    boards: int | None
    short: str
    dearest: tuple[Costs, ...]

    @property
    def scores(self) -> Scores:
        """Return its points, by the weights of the workshop."""
        return self.panel.arrangement.scores

    @property
    def failing(self) -> tuple[str, ...]:
        """Return a sentence for everything of it that does not hold."""
        return (*self.panel.words.all(self.found.failing), *((self.short,) if self.short else ()))

    def as_dict(self) -> dict[str, object]:
        """Return the side for programs."""
        words = self.panel.words
        return {
            "points": asdict(self.scores) | {"total": self.scores.total},
            "rail_heights": self.rail_heights,
            "rail_pieces": self.rail_pieces,
            "rail_mm": self.rail_mm,
            "new_rail_mm": self.new_rail_mm,
            "boards": self.boards,
            "dearest": [asdict(one) for one in self.dearest],
            "failing": list(self.failing),
            "warnings": list(words.all(self.found.warnings)),
        }


@dataclass(frozen=True)
class TwoArrangements:
    """Two arrangements of one panel.

    Args:
        now: The one that is.
        other: The one that could be taken.
        moved: What hangs elsewhere in it, by the names and keys of now.
        renewed: The names of parts that would have to be made anew.
        changes: What is written in the document when it is taken.
    """

    now: Side
    other: Side
    moved: tuple[Move, ...]
    renewed: tuple[str, ...]
    changes: tuple[DocumentChange, ...]

    def as_dict(self) -> dict[str, object]:
        """Return both for programs."""
        return {
            "now": self.now.as_dict(),
            "other": self.other.as_dict(),
            "moved": [
                {
                    "name": one.name,
                    "before": None if one.before is None else [one.before.x_mm, one.before.z_mm],
                    "after": None if one.after is None else [one.after.x_mm, one.after.z_mm],
                    "way": one.way,
                }
                for one in self.moved
            ],
            "parts_to_make_again": list(self.renewed),
        }


def compare(
    now: PlannedWalls,
    panel: str,
    places: Iterable[PlaceFound],
    *,
    run: Run,
    layout: RailLayout | None = None,
) -> TwoArrangements:
    """Return the arrangement of a panel beside the one that given places make of it.

    Both are planned from a document, the other from what it would say; so it is what comes of
    taking it. Things that are not there any more are left out, and new ones left to the plan.

    Args:
        now: The document and its walls.
        panel: The panel.
        places: Where things would hang.
        run: The run that keeps what was computed before.
        layout: How rails of the panel are laid for the other; None for as they are.

    Raises:
        CleatwrightError: The places cannot be kept.
    """
    here = now.panel(panel)
    wanted = {one.identity: (one.x_mm, one.z_mm) for one in places}
    units = [
        (unit, Place(unit.planned.key, *wanted[identity]))
        for unit in here.units
        if (identity := identity_of(unit)) in wanted
    ]
    changes = place_changes(now.workshop, units, asked=[unit.planned.key for unit, _ in units])
    if layout is not None and layout != here.panel.rail_layout:
        changes = (*changes, _laid(now, panel, layout))
    other = standing(now.changed(changes), now.revision.path, run)
    there = other.panel(panel)
    return TwoArrangements(
        now=_side(now, here, run),
        other=_side(other, there, run),
        moved=tuple(one for one in _moves(here, there) if one.what == "moves"),
        renewed=_renewed(now, other),
        changes=changes,
    )


def _laid(now: PlannedWalls, panel: str, layout: RailLayout) -> DocumentChange:
    """Return the change of a document that lays the rails of a panel another way."""
    names = [one.name for one in now.workshop.panels]
    table = (MAIN,) if panel == MAIN else ("panel", names.index(panel))
    return DocumentChange("set", (*table, "rail_layout"), layout, guarded=False)


def _moves(here: PanelJob, there: PanelJob) -> list[Move]:
    units = {identity_of(unit): unit for unit in there.units}
    at, then = places_now(here), places_now(there)
    return [
        Move(
            key=unit.planned.key,
            name=unit.planned.name,
            before=at[unit.planned.key],
            after=then[units[identity].planned.key],
        )
        for unit in here.units
        if (identity := identity_of(unit)) in units
    ]


def _renewed(now: PlannedWalls, other: PlannedWalls) -> tuple[str, ...]:
    marks = {part.mark for _, part in _parts(now)}
    return tuple(sorted(name for name, part in _parts(other) if part.mark not in marks))


def _parts(at: PlannedWalls) -> list[tuple[str, BuiltPart]]:
    units = [unit for panel in at.panels for unit in panel.units]
    return list(part_names(units).values())


def _side(at: PlannedWalls, panel: PanelJob, run: Run) -> Side:
    found = assessed(panel, at.workshop, run)
    names = {unit.planned.key: unit.planned.name for unit in panel.units}
    rails = panel.arrangement.rails
    dear = sorted(found.explained, key=lambda one: (-one.costs.total, one.key))
    boards, short = _boards(at, run)
    return Side(
        at=at,
        panel=panel,
        found=found,
        rail_heights=len({rail.z_top_mm for rail in rails}),
        rail_pieces=len(rails),
        rail_mm=sum(rail.length_mm for rail in rails),
        new_rail_mm=sum(rail.length_mm for rail in rails if not rail.stays),
        boards=boards,
        short=short,
        dearest=tuple(
            Costs(names[one.key], one.costs.total, panel.words.all(one.sentences))
            for one in dear[:DEAREST]
        ),
    )


def _boards(at: PlannedWalls, run: Run) -> tuple[int | None, str]:
    """Return how many boards are cut for all walls, and what is wrong where they do not suffice."""
    try:
        plan = to_saw((at.revision, Request()), run).plan
    except StockError as error:
        return None, error.sentence
    return (None if plan is None else len(plan.boards)), ""
