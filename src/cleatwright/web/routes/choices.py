"""Plans to choose from: find them, see what each costs and changes, choose one."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query

from cleatwright.web.choices import (
    CHOICES,
    begin_choices,
    choices_key,
    choices_now,
    choose,
    chosen_now,
    due,
    offered,
)
from cleatwright.web.routes.session_of import TheSession
from cleatwright.web.rows.choices import ChoicesRow, choices_row
from cleatwright.web.rows.row import Row
from cleatwright.workshop.document.sections import HowFar

routes = APIRouter(tags=["choices"])


class WantedPlanRow(Row):
    """The plan that a person wants; nothing for the usual one."""

    plan: HowFar | None


@routes.get("/choices")
def choices(session: TheSession) -> ChoicesRow:
    """Return the plans of the workshop as it is now; nothing is begun."""
    work = session.works.now(CHOICES)
    same = work is not None and work.key == choices_key(session)
    return choices_row(
        choices_now(session),
        session.run(),
        work=work if same else None,
        chosen=chosen_now(session),
        offered=offered(session),
        due=due(session),
    )


@routes.post("/choices")
def begin(session: TheSession, *, again: Annotated[bool, Query()] = False) -> ChoicesRow:
    """Begin to find the plans, unless that goes on already or is done."""
    begin_choices(session, again=again)
    return choices(session)


@routes.post("/choices/choose")
def take(given: WantedPlanRow, session: TheSession) -> ChoicesRow:
    """Choose a plan: walls and the sheet Make show it, and it is made."""
    choose(session, given.plan)
    return choices(session)
