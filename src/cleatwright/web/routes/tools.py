"""Tools and their kinds: sheets, pictures, and the drawing of a tool to its measures."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Annotated, cast

from fastapi import APIRouter, Query
from pydantic import Field, JsonValue

from cleatwright.base.errors import ImportTableError, InputError, MeasureError
from cleatwright.base.lengths import LengthUnit
from cleatwright.base.place import NOWHERE
from cleatwright.jobs.exchange import read_table
from cleatwright.tools.nominal.sizes import NOMINAL_SIZES
from cleatwright.tools.registry import kind as kind_of
from cleatwright.web.routes.file_sent import FILE_BODY, TheFile
from cleatwright.web.routes.session_of import TheSession
from cleatwright.web.rows.drawing import DrawingRow, drawing_row
from cleatwright.web.rows.fields import FieldRow
from cleatwright.web.rows.kinds import KindRow, kind_rows
from cleatwright.web.rows.row import Row
from cleatwright.web.rows.sentence import Sentence
from cleatwright.web.rows.tools import ToolsRow, more_rows, tools_row
from cleatwright.web.session import Session
from cleatwright.workshop.document.described import described
from cleatwright.workshop.document.entries import Tool
from cleatwright.workshop.document.fields import read_measure
from cleatwright.workshop.tables.cells import read_rows, table_type
from cleatwright.workshop.tables.confined import read_confined
from cleatwright.workshop.tables.importing import (
    MEASURE_COLUMNS,
    NEEDED,
    PLAIN_COLUMNS,
    RowsOf,
    rest_of,
)

routes = APIRouter(tags=["tools"])
Written = Annotated[str, Field(max_length=60)]


class MeasuresRow(Row):
    """Measures as a person writes them, by their names."""

    kind: str
    measures: dict[str, Written | float] = Field(max_length=40)
    width: float = Field(96.0, ge=40.0, le=400.0)
    height: float = Field(110.0, ge=40.0, le=400.0)


class StandardSetRow(Row):
    """The standard sizes of a kind."""

    kind: str
    sizes: tuple[str, ...]
    source: str


class TableRow(Row):
    """A table as it is pasted from a spreadsheet, or read from a CSV file."""

    text: str = Field(max_length=1_000_000)


class TableColumnRow(Row):
    """A column that a table of tools may have."""

    name: str
    words: Sentence
    needed: bool


class TableColumnsRow(Row):
    """The columns that a table of tools may have, and how those of the measures are named."""

    columns: tuple[TableColumnRow, ...]
    measures: Sentence


class PastedRow(Row):
    """What would become of one line of a table; ``entry`` is null where it is refused."""

    line: int
    name: str
    kind: str
    words: Sentence
    entry: dict[str, JsonValue] | None


class PreviewRow(Row):
    """What would become of a table."""

    rows: tuple[PastedRow, ...]
    rest: str = Field(description="the refused lines with the heads, to be mended and pasted again")
    left_out: tuple[Sentence, ...]


@routes.get("/tools")
def tools(session: TheSession) -> ToolsRow:
    """Return all tools, a sheet for each kind."""
    run = session.run()
    document = session.document(run=run)
    return tools_row(document, session.tools(document, run))


@routes.get("/tools/{number}/more")
def more(number: int, session: TheSession) -> tuple[FieldRow, ...]:
    """Return what else may be written of a tool than its form has fields for."""
    return more_rows(session.document(), number)


@routes.get("/kinds")
def kinds(session: TheSession, unit: LengthUnit = "mm") -> tuple[KindRow, ...]:
    """Return all kinds of tools."""
    del session
    return kind_rows(unit)


@routes.post("/drawing")
def drawing(given: MeasuresRow, session: TheSession, unit: LengthUnit = "mm") -> DrawingRow:
    """Return a tool drawn to what is known of its measures."""
    del session
    names = {row.name for row in kind_of(given.kind).card}
    read: dict[str, float] = {}
    for name, value in given.measures.items():
        if name not in names:
            continue
        try:
            read[name] = read_measure(name, value, units=unit)
        except MeasureError:
            continue
    return drawing_row(given.kind, read, unit=unit, width=given.width, height=given.height)


@routes.get("/standard-sets")
def standard_sets(session: TheSession) -> tuple[StandardSetRow, ...]:
    """Return the kinds that have standard sizes."""
    del session
    return tuple(
        StandardSetRow(kind=kind, sizes=sizes.names, source=sizes.sizes[0].source.document)
        for kind, sizes in NOMINAL_SIZES.items()
    )


@routes.get("/tables/columns")
def columns(session: TheSession) -> TableColumnsRow:
    """Return the columns that a table of tools may have."""
    del session
    known = {one.key: one for one in described(Tool)}
    return TableColumnsRow(
        columns=tuple(
            TableColumnRow(name=key, words=known[key].words, needed=key in NEEDED)
            for key in PLAIN_COLUMNS
        ),
        measures=MEASURE_COLUMNS,
    )


@routes.post("/tables")
def table(given: TableRow, session: TheSession) -> PreviewRow:
    """Return what would become of a table; nothing is written."""
    return _preview("pasted.tsv", given.text.encode(), session, rows_of=read_rows)


@routes.post("/tables/file", openapi_extra=FILE_BODY)
def table_file(
    session: TheSession, data: TheFile, name: Annotated[str, Query(max_length=255)]
) -> PreviewRow:
    """Return what would become of a CSV or XLSX file; it is read in a process of its own."""
    return _preview(f"sent{table_type(name)}", data, session, rows_of=read_confined)


def _preview(name: str, data: bytes, session: Session, *, rows_of: RowsOf) -> PreviewRow:
    document = session.document()
    if document.workshop is None:
        raise InputError("The workshop cannot be read yet", todo="Mend its faults first")
    with TemporaryDirectory() as folder:
        path = Path(folder) / name
        path.write_bytes(data)
        try:
            cells = rows_of(path)
            report = read_table(document.workshop, path, rows_of=lambda _: cells)
        except ImportTableError as error:
            raise error.at(NOWHERE) from error
    return PreviewRow(
        left_out=report.left_out,
        rest=rest_of(cells, report),
        rows=tuple(
            PastedRow(
                line=row.number,
                name=row.name,
                kind=row.kind,
                words=document.words(row.reason),
                entry=cast("dict[str, JsonValue]", dict(row.entry)) if row.ok else None,
            )
            for row in report.rows
        ),
    )
