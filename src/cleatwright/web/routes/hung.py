"""What hangs, and parts made again from their marks."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

from fastapi import APIRouter, Query, Response
from pydantic import Field

from cleatwright.base.errors import unknown_name
from cleatwright.design.recipe import Recipe
from cleatwright.holders.registry import FAMILIES
from cleatwright.jobs.hung import HungNow, forget_hung, forget_rails, hung_now, record_hung
from cleatwright.jobs.hung_by_papers import record_some
from cleatwright.jobs.part_states import SaidState, say_state
from cleatwright.jobs.remaking import known_part
from cleatwright.pack.partfiles import part_files
from cleatwright.web.routes.session_of import TheSession
from cleatwright.web.rows.hung import WhatHangsRow, hung_row
from cleatwright.web.rows.row import Row
from cleatwright.web.session import Session

routes = APIRouter(tags=["hung"])


class SayRow(Row):
    """What hangs: holders by their numbers, or all when there are none.

    ``anyway`` keeps it though something does not hold.
    """

    numbers: tuple[int, ...] | None = Field(None, max_length=5000)
    anyway: bool = False
    label: str = Field("what hangs", max_length=200)


class SayStateRow(Row):
    """In which state parts are: marks, numbers in all drawings, or batches."""

    state: SaidState
    parts: tuple[Annotated[str, Field(max_length=80)], ...] = Field(min_length=1, max_length=5000)
    anyway: bool = False
    label: str = Field(max_length=200)


class ForgetRow(Row):
    """What hangs no more: rails by name, or all when there are none."""

    rails: tuple[str, ...] | None = Field(None, max_length=500)
    label: str = Field("what hangs no more", max_length=200)


class KnownPartRow(Row):
    """A part that is made again from its mark."""

    mark: str
    family: str
    title: str
    leading: str
    first_seen: str
    made_with: str
    kinds: tuple[str, ...]


def _folder(session: Session) -> Path:
    return session.workshop.path.parent


@routes.get("/hung")
def hung(session: TheSession) -> WhatHangsRow:
    """Return what hangs by the ledger, and what hangs by the papers."""
    place = _folder(session)
    return hung_row(place, hung_now(place))


@routes.post("/hung")
def say(given: SayRow, session: TheSession) -> WhatHangsRow:
    """Keep in the ledger what hangs."""
    place = _folder(session)
    numbers = given.numbers

    def act() -> HungNow:
        if numbers is None:
            return record_hung(place, anyway=given.anyway, run=session.run())
        return record_some(place, numbers, anyway=given.anyway)

    now = session.workshop.say(act, label=given.label)
    _tell(session)
    return hung_row(place, now, failing=now.failing)


def _tell(session: Session) -> None:
    session.hub.tell({"event": "hung"})
    session.tell_revision()


@routes.post("/parts")
def say_parts(given: SayStateRow, session: TheSession) -> WhatHangsRow:
    """Keep in the ledger that parts are planned, printed, hanging, broken or spare."""
    place = _folder(session)
    now = session.workshop.say(
        lambda: say_state(place, given.state, parts=given.parts, anyway=given.anyway),
        label=given.label,
    )
    _tell(session)
    return hung_row(place, hung_now(place), failing=now.failing)


@routes.post("/hung/forget")
def forget(given: ForgetRow, session: TheSession) -> WhatHangsRow:
    """Forget what hangs, or some rails."""
    place = _folder(session)
    rails = given.rails

    def act() -> HungNow:
        return forget_hung(place) if rails is None else forget_rails(place, rails)

    session.workshop.say(act, label=given.label)
    _tell(session)
    return hung_row(place, hung_now(place))


@routes.get("/marks/{mark}")
def mark(mark: str, session: TheSession) -> KnownPartRow:
    """Return the part of a mark."""
    found = known_part(_folder(session), mark)
    part, recipe = found.built.part, found.built.recipe
    family = FAMILIES.get(recipe.family) if isinstance(recipe, Recipe) else None
    kinds = tuple(one.kind for one in found.files)
    return KnownPartRow(
        mark=found.built.mark,
        family=part.family,
        title=part.family if family is None else family.title,
        leading=part.leading,
        first_seen=found.entry.first_seen,
        made_with=found.entry.made_with or "",
        kinds=(*kinds, "step") if found.built.printed else kinds,
    )


@routes.get("/marks/{mark}/file", response_class=Response)
def mark_file(mark: str, kind: Annotated[str, Query()], session: TheSession) -> Response:
    """Return a file of a part by its mark, the same bytes as when it was made."""
    found = known_part(_folder(session), mark)
    files = found.files
    if kind == "step" and found.built.printed:
        files = tuple(part_files(found.built, with_step=True))
    for one in files:
        if one.kind == kind:
            leaf = one.path.rsplit("/", 1)[-1]
            headers = {"content-disposition": f'attachment; filename="{leaf}"'}
            data = one.draw(session.run())
            return Response(data, media_type="application/octet-stream", headers=headers)
    raise unknown_name("kind of file", kind, [one.kind for one in files])
