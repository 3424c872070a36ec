"""Holders: the list, one of them, its solids, and its print files."""

from __future__ import annotations

from typing import Annotated, Literal

from fastapi import APIRouter, Query, Response

from cleatwright.base.errors import InputError, UnknownNameError, unknown_name
from cleatwright.base.stages.run import Run
from cleatwright.design.building import PART
from cleatwright.design.planned import PlannedHolder
from cleatwright.design.shaping import SHAPED
from cleatwright.pack.partfiles import part_files
from cleatwright.project.opened.planned import PlannedDocument
from cleatwright.siting.giving_places import left_to_program
from cleatwright.web.meshframe import mesh_frame
from cleatwright.web.routes.session_of import TheSession
from cleatwright.web.rows.holders import (
    HoldersRow,
    ShownHolderRow,
    entry_of_holder,
    holder_row,
    holders_row,
)
from cleatwright.web.rows.raw import RawTable, entry_at
from cleatwright.web.rows.row import Step
from cleatwright.web.rows.state import StateRow, state_row
from cleatwright.web.session import Session
from cleatwright.web.solids import holder_pieces

routes = APIRouter(tags=["holders"])


def _planned(session: Session, run: Run) -> tuple[PlannedDocument, int]:
    now = session.workshop.now
    return session.planned(now, run), now.number


FirstTool = Annotated[
    str, Query(description="a tool of it: the holder with this one, whatever its number is now")
]


def _holder(planned: PlannedDocument, number: int, tool: str) -> PlannedHolder:
    """Return a holder by one of its tools, if it names one that is held, else by its number."""
    if tool:
        for one in planned.holders:
            if any(held.name == tool for held in one.present):
                return one
    for one in planned.holders:
        if one.number == number:
            return one
    raise unknown_name("holder", str(number), [str(one.number) for one in planned.holders])


@routes.get("/holders")
def holders(session: TheSession) -> HoldersRow:
    """Return all holders, built and checked."""
    run = session.run()
    planned, revision = _planned(session, run)
    return holders_row(planned, run, revision)


@routes.get("/holders/{number}")
def holder(number: int, session: TheSession, tool: FirstTool = "") -> ShownHolderRow:
    """Return one holder with all that is known about it."""
    run = session.run()
    planned, revision = _planned(session, run)
    return holder_row(planned, _holder(planned, number, tool), run, revision=revision)


@routes.post("/holders/{number}/free")
def free(number: int, session: TheSession, tool: FirstTool = "") -> StateRow:
    """Let the program choose family, sizes and place of a holder again: one step of undo."""
    planned, _ = _planned(session, session.run())
    one = _holder(planned, number, tool)
    path, table, _ = entry_of_holder(planned, one)
    if path is None or table is None:
        raise _chosen_already()
    return _left(session, path, table, one.name)


@routes.post("/entries/holder/{number}/free")
def free_entry(number: int, session: TheSession) -> StateRow:
    """Let the program choose what a [[holder]] says that it would choose: one step of undo.

    It is asked for where the holder itself cannot be made.
    """
    table = entry_at(session.document().raw, "holder", number)
    held = table.get("group") or table.get("tools")
    named = ", ".join(str(one) for one in held) if isinstance(held, list) else str(held)
    return _left(session, ("holder", number), table, named)


def _left(session: Session, path: tuple[Step, ...], table: RawTable, name: str) -> StateRow:
    changes = left_to_program(path, table)
    if not changes:
        raise _chosen_already()
    after = session.workshop.change(changes, label=f"{name} left to the program")
    session.tell_revision()
    return state_row(after, session.document(after))


def _chosen_already() -> InputError:
    return InputError("The program chooses all of it", todo="Nothing needs to be done")


@routes.get("/holders/{number}/solids", response_class=Response)
def solids(number: int, session: TheSession, tool: FirstTool = "") -> Response:
    """Return the holder, what it hangs on, and the tools in it as solids; see ``web.meshframe``."""
    run = session.run()
    planned, revision = _planned(session, run)
    one = _holder(planned, number, tool)
    made = run.need(SHAPED, one.recipe)
    about = {
        "revision": revision,
        "number": one.number,
        "mark": made.mark,
        "bounds_mm": made.part.bounds_mm,
    }
    pieces = holder_pieces(planned, one, made, run)
    return Response(mesh_frame(pieces, about), media_type="application/octet-stream")


@routes.get("/holders/{number}/file", response_class=Response)
def print_file(
    number: int,
    session: TheSession,
    kind: Annotated[Literal["3mf", "stl", "step"], Query()],
    tool: FirstTool = "",
) -> Response:
    """Return the print file of a holder."""
    run = session.run()
    planned, _ = _planned(session, run)
    built = run.need(PART, _holder(planned, number, tool).recipe)
    for one in part_files(built, with_step=kind == "step"):
        if one.kind == kind:
            leaf = one.path.rsplit("/", 1)[-1]
            headers = {"content-disposition": f'attachment; filename="{leaf}"'}
            data = one.draw(run)
            return Response(data, media_type="application/octet-stream", headers=headers)
    raise UnknownNameError(f"There is no {kind} of this holder")
