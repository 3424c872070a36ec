"""The plans among which a person chooses, each with the walls as they would be."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.errors import CleatwrightError, InputError, WallError, unknown_name
from cleatwright.base.gathering import refuse
from cleatwright.base.stages.run import Run
from cleatwright.design.planning import FAULTS
from cleatwright.jobs.plan_drawings import walls_of_plan
from cleatwright.jobs.plans import PlansToChoose, plans_of
from cleatwright.pack.changed_wall import ChangedWall
from cleatwright.project.opened.document import ReadDocument
from cleatwright.project.opened.opened import Opened
from cleatwright.project.opened.planned import planned_document
from cleatwright.project.revision import Revision
from cleatwright.project.walls import WALLS, moved_names
from cleatwright.siting.as_made import made_wall
from cleatwright.web.chosen import ChosenPlan, far_of, request_of, walls_key
from cleatwright.web.making import key_now, revision_now
from cleatwright.web.session import Session
from cleatwright.web.work import SHEET, WALL, Working
from cleatwright.workshop.document.sections import HowFar

CHOICES = "plans"


@dataclass(frozen=True)
class FoundPlans:
    """The plans of one revision.

    Args:
        revision: The workshop.
        number: The number of the revision.
        found: The plans with what they cost.
        walls: The walls of each, in the same order, and what it changes on them.
    """

    revision: Revision
    number: int
    found: PlansToChoose
    walls: tuple[tuple[ChangedWall, ...], ...]


def begin_choices(session: Session, *, again: bool = False) -> Working:
    """Begin to find the plans of what is open, unless that goes on already or is done.

    Args:
        session: What is open.
        again: Whether to do it also where it was refused before.

    Raises:
        LedgerError: The ledger cannot be read.
    """
    now = session.workshop.now
    before = session.works.now(CHOICES)
    if again and before is not None and before.state == "failed":
        session.works.forget(CHOICES)
    key = choices_key(session)
    return session.works.start(
        CHOICES, key, lambda run: _choices(session.document(now, run), now, run)
    )


def choices_key(session: Session) -> str:
    """Return the key of what the plans of the open workshop are made of now.

    Raises:
        LedgerError: The ledger cannot be read.
    """
    now, revision = session.workshop.now, revision_now(session)
    return f"{now.instance}/{now.number}/{revision.key if revision else ''}"


def choices_now(session: Session) -> FoundPlans | None:
    """Return the plans that were found for what is open now; None before that."""
    good = session.works.good(CHOICES)
    found = None if good is None or good.key != choices_key(session) else good.result
    return found if isinstance(found, FoundPlans) else None


def choose(session: Session, far: HowFar | None) -> None:
    """Choose one of the plans that were found to be seen and made, or the usual one.

    Raises:
        InputError: None is found yet for what is open now.
        UnknownNameError: It is none of them.
    """
    if far is None:
        session.choose(None)
        return
    found = choices_now(session)
    if found is None:
        raise InputError("No plans are found yet for the workshop as it is", todo="Wait for them")
    names = [one.far for one in found.found.plans]
    if far not in names:
        raise unknown_name("plan", far, names)
    session.choose(ChosenPlan(found.revision.key, far))


def chosen_now(session: Session) -> HowFar | None:
    """Return the plan that is chosen for what is open now, if one is."""
    return far_of(session.chosen, revision_now(session))


def offered(session: Session) -> bool:
    """Tell whether there is anything that plans could differ in: something hangs, or is printed."""
    revision = revision_now(session)
    return revision is not None and bool(revision.hung or revision.ready)


def due(session: Session) -> bool:
    """Tell whether a person must choose: the plan moves what hangs, or finds no place.

    A plan that was made as it is was chosen before.
    """
    revision = revision_now(session)
    if revision is None or not (revision.hung or revision.ready):
        return False
    request = request_of(session.chosen, revision)
    keys = {SHEET: key_now(session), WALL: walls_key(session.workshop.now, revision, request)}
    works = [(session.works.now(name), key) for name, key in keys.items()]
    ended = [one for one, key in works if one is not None and one.key == key]
    faults = [leaf for one in ended if one.fault is not None for leaf in one.fault.leaves()]
    if any(isinstance(one, WallError) for one in faults):
        return True
    if not any(one.state == "done" for one in ended):
        return False
    run = session.run()
    panels = run.need(WALLS, (revision, request))
    moved = bool(moved_names(panels))
    return moved and made_wall(revision.workshop, panels, run) != revision.wall


def _choices(document: ReadDocument, now: Opened, run: Run) -> FoundPlans:
    """Return the plans of a document.

    Raises:
        CleatwrightError: What stands in the way of every plan.
    """
    planned = planned_document(document, run)
    refuse([one.again() for one in planned.faults], FAULTS)
    revision = planned.revision
    if revision is None:
        raise InputError("Nothing of the document can be read", todo="Mend it first")
    try:
        found = plans_of(revision, run)
        walls = tuple(walls_of_plan(revision, one.far, run) for one in found.plans)
    except CleatwrightError as error:
        raise document.placed(error) from error
    return FoundPlans(revision, now.number, found, walls)
