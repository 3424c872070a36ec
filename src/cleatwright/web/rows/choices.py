"""Plans to choose from for the browser: what each costs, and its walls with what changes."""

from __future__ import annotations

from pydantic import Field

from cleatwright.base.lengths import Wording
from cleatwright.base.stages.run import Run
from cleatwright.pack.changed_wall import ChangedThing, ChangedWall
from cleatwright.wall.moving.moves import What
from cleatwright.web.choices import FoundPlans
from cleatwright.web.rows.row import Row
from cleatwright.web.rows.sentence import Sentence
from cleatwright.web.rows.wall import Box, Ring, ShownPanelRow, panel_row
from cleatwright.web.rows.work import WorkRow, work_row
from cleatwright.web.work import Working
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.sections import HowFar

Spot = tuple[float, float]


class PlanThingRow(Row):
    """Something that a plan changes on a wall, in mm of the wall."""

    key: str
    name: str
    numbers: tuple[int, ...] = Field(description="of its holders; none when it comes off")
    what: What
    sentence: Sentence
    was: tuple[Ring, ...] = Field(description="its outlines where it hangs now, if they are known")
    at_mm: Spot | None = Field(description="its middle there, when it moves or comes off")
    to_mm: Spot | None = Field(description="its middle on this wall then, when it moves")


class RailDownRow(Row):
    """A rail that comes down."""

    name: str
    box_mm: Box


class PlanWallRow(Row):
    """One wall by a plan."""

    panel: ShownPanelRow
    things: tuple[PlanThingRow, ...] = Field(description="what does not stay as it is")
    new_rails: tuple[str, ...]
    rails_down: tuple[RailDownRow, ...]


class PlanLineRow(Row):
    """What is counted, and how much that is by a plan."""

    what: str
    value: str


class PlanRow(Row):
    """One plan."""

    name: HowFar
    words: Sentence
    touched: tuple[Sentence, ...] = Field(description="what hangs elsewhere or is not used again")
    lines: tuple[PlanLineRow, ...]
    usual: bool = Field(description="whether it is made when none is chosen")
    failing: tuple[Sentence, ...] = Field(description="what of it does not hold")
    walls: tuple[PlanWallRow, ...]


class ChoicesRow(Row):
    """The plans of the workshop as it is now.

    ``offered`` tells whether plans could differ at all, ``due`` whether the usual one moves what
    hangs or finds no place. ``plans`` are none before they were found, or while they are found.
    """

    offered: bool
    due: bool
    chosen: HowFar | None
    work: WorkRow | None
    words: str = Field(description="what is made unless one is chosen")
    plans: tuple[PlanRow, ...]


def choices_row(
    found: FoundPlans | None,
    run: Run,
    *,
    work: Working | None,
    chosen: HowFar | None,
    offered: bool,
    due: bool,
) -> ChoicesRow:
    """Return how the choice stands.

    Args:
        found: The plans of the workshop as it is now, or None.
        run: The run that keeps what was computed before.
        work: The last work on them.
        chosen: The plan that is chosen.
        offered: Whether there is anything to choose.
        due: Whether a person must.
    """
    return ChoicesRow(
        offered=offered,
        due=due,
        chosen=chosen,
        work=None if work is None else work_row(work),
        words="" if found is None else found.found.unless_chosen,
        plans=() if found is None else tuple(_plan(found, at, run) for at in range(_count(found))),
    )


def _count(found: FoundPlans) -> int:
    return len(found.found.plans)


def _plan(found: FoundPlans, at: int, run: Run) -> PlanRow:
    plans, workshop = found.found, found.revision.workshop
    one = plans.plans[at]
    return PlanRow(
        name=one.far,
        words=plans.title_of(one),
        touched=one.touched,
        lines=tuple(PlanLineRow(what=cells[0], value=cells[1 + at]) for cells in plans.cells),
        usual=one.far == plans.taken,
        failing=one.failing,
        walls=tuple(_wall(wall, workshop, run) for wall in found.walls[at]),
    )


def _wall(wall: ChangedWall, workshop: Workshop, run: Run) -> PlanWallRow:
    words = Wording(workshop.units)
    return PlanWallRow(
        panel=panel_row(wall.panel, workshop, run),
        things=tuple(
            _thing(one, words)
            for one in wall.things
            if one.move.what != "stays" or one.move.renewed
        ),
        new_rails=tuple(one.name for one in wall.rails if one.what == "is new"),
        rails_down=tuple(
            RailDownRow(name=one.name, box_mm=one.rail.strip)
            for one in wall.rails
            if one.what == "comes down"
        ),
    )


def _thing(one: ChangedThing, words: Wording) -> PlanThingRow:
    was = one.was
    return PlanThingRow(
        key=one.move.key,
        name=one.move.name,
        numbers=one.numbers,
        what=one.move.what,
        sentence=words(one.move.sentence),
        was=() if was is None else was.outline,
        at_mm=None if was is None else was.at,
        to_mm=None if was is None else was.to,
    )
