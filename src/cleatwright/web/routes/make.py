"""The sheet Make: how it stands, pictures of beds, papers and print files, and writing them all."""

from __future__ import annotations

import csv
import io
from typing import Annotated

from fastapi import APIRouter, Query, Response

from cleatwright.base.errors import UnknownNameError, unknown_name
from cleatwright.design.building import BuiltPart
from cleatwright.pack.bed_picture import BED_PICTURE
from cleatwright.pack.partfiles import part_files
from cleatwright.web.making import (
    Computed,
    begin_files,
    begin_sheet,
    computed,
    key_now,
    shown,
    written,
)
from cleatwright.web.routes.session_of import TheSession
from cleatwright.web.rows.make import FilesRow, MakeRow, files_row, make_row
from cleatwright.web.rows.wood import ListRow
from cleatwright.web.work import FILES, SHEET

routes = APIRouter(tags=["make"])

TYPES = {
    "svg": "image/svg+xml",
    "pdf": "application/pdf",
    "csv": "text/csv; charset=utf-8",
    "json": "application/json",
    "3mf": "model/3mf",
    "stl": "model/stl",
    "dxf": "image/vnd.dxf",
}


@routes.get("/make")
def make(session: TheSession) -> MakeRow:
    """Return how the sheet stands; nothing is begun."""
    return make_row(session.works.now(SHEET), shown=shown(session), key=key_now(session))


@routes.post("/make")
def begin(session: TheSession, *, again: Annotated[bool, Query()] = False) -> MakeRow:
    """Begin to compute what is new, unless that goes on already or is done."""
    begin_sheet(session, again=again)
    return make(session)


@routes.get("/make/beds/{number}/picture", response_class=Response)
def picture(number: int, session: TheSession) -> Response:
    """Return the picture of a bed; its address has a key, so that it may be kept."""
    beds = computed(session).beds
    if not 1 <= number <= len(beds):
        raise unknown_name("bed", str(number), [str(n) for n in range(1, len(beds) + 1)])
    data = session.run().need(BED_PICTURE, beds[number - 1])
    headers = {"cache-control": "private, max-age=86400"}
    return Response(data, media_type="image/png", headers=headers)


@routes.get("/make/file", response_class=Response)
def file(
    path: Annotated[str, Query()],
    session: TheSession,
    *,
    save: Annotated[bool, Query()] = False,
) -> Response:
    """Return a file of what the sheet shows, the same bytes as in the set; of a part STEP too."""
    kind = path.rsplit(".", 1)[-1]
    data = _bytes(path, session, computed(session))
    headers = {"cache-control": "no-cache"}
    if save:
        leaf = path.rsplit("/", 1)[-1]
        headers["content-disposition"] = f'attachment; filename="{leaf}"'
    media = TYPES.get(kind, "application/octet-stream")
    return Response(data, media_type=media, headers=headers)


def _bytes(path: str, session: TheSession, found: Computed) -> bytes:
    run = session.run()
    for one in found.files:
        if one.path == path:
            return one.draw(run)
    if path.endswith(".step"):
        parts: dict[str, BuiltPart] = {made.mark: made for _, made in found.job.parts.values()}
        for made in parts.values():
            for one in part_files(made, with_step=True) if made.printed else ():
                if one.path == path:
                    return one.draw(run)
    raise unknown_name("file", path, [one.path for one in found.files])


@routes.get("/make/table")
def table(path: Annotated[str, Query()], session: TheSession) -> ListRow:
    """Return a list of the set as a table."""
    if not path.endswith(".csv"):
        raise UnknownNameError(f"{path} is no list")
    text = _bytes(path, session, computed(session)).decode("utf-8-sig")
    rows = [tuple(row) for row in csv.reader(io.StringIO(text, newline=""))]
    return ListRow(heading=rows[0] if rows else (), rows=tuple(rows[1:]))


@routes.get("/make/files")
def files(session: TheSession) -> FilesRow:
    """Return how the writing of all files stands."""
    return files_row(session.works.now(FILES), written(session))


@routes.post("/make/files")
def write(session: TheSession) -> FilesRow:
    """Begin to write all files, exactly as the command line does."""
    begin_files(session)
    return files(session)
