"""The base of all rows, and those that every subject has."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict, Field

from cleatwright.base.errors import CleatwrightError
from cleatwright.base.place import InDocument, plain_path
from cleatwright.base.said import in_mm
from cleatwright.web.rows.sentence import Sentence

Step = int | str


class Row(BaseModel):
    """Base of all rows: frozen, and with nothing that is not named."""

    model_config = ConfigDict(frozen=True, extra="forbid", ser_json_inf_nan="null")


class FaultRow(Row):
    """Something that is wrong, and where."""

    code: str
    paths: tuple[tuple[Step, ...], ...] = Field(description="keys, and numbers of rows from 0")
    sentence: Sentence
    given: Sentence
    allowed: Sentence
    todo: Sentence
    line: str = Field(description="the line to write in the document, or empty")


def fault_row(error: CleatwrightError) -> FaultRow:
    """Return a fault as a row."""
    place = error.place
    paths = place.paths if isinstance(place, InDocument) else ()
    return FaultRow(
        code=error.code,
        paths=tuple(plain_path(path) for path in paths),
        sentence=error.sentence_in(error.place),
        given=in_mm(error.given),
        allowed=in_mm(error.allowed),
        todo=in_mm(error.todo),
        line=error.line,
    )
