"""Boards, saw settings and hardware for the browser."""

from __future__ import annotations

from cleatwright.base.lengths import LengthUnit, length_words, show_length
from cleatwright.pack.file_set import hardware_of_job
from cleatwright.pack.hardware import hardware_table
from cleatwright.pack.job import Job
from cleatwright.standards import cautions
from cleatwright.timber.boards import Board
from cleatwright.web.rows.row import Row
from cleatwright.web.rows.sentence import Sentence


class BoardPieceRow(Row):
    """A piece on its board."""

    name: str
    start_mm: float
    length_mm: float
    words: str


class BoardRow(Row):
    """A board of the stock, and what is cut from it."""

    name: str
    length_mm: float
    words: str
    pieces: tuple[BoardPieceRow, ...]
    rest_mm: float
    rest: str


class ListRow(Row):
    """A list: a heading, and rows with a cell for each of its words."""

    heading: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


class SawRow(Row):
    """What is done at the saw in one way: its list, what is to be known, and what can hurt."""

    title: str
    file: str
    table: ListRow
    notes: tuple[Sentence, ...]
    cautions: tuple[Sentence, ...]


class WoodRow(Row):
    """Everything made of wood."""

    verdict: Sentence
    kerf: str
    boards: tuple[BoardRow, ...]
    rails: int
    lists: tuple[SawRow, ...]
    notes: tuple[Sentence, ...]
    cautions: tuple[Sentence, ...]


def wood_row(job: Job) -> WoodRow:
    """Return the boards with their pieces, and the lists for the saw."""
    work, words, unit = job.woodwork, job.words, job.workshop.units
    plan = work.plan
    return WoodRow(
        verdict="" if plan is None else words(plan.verdict),
        kerf=show_length(job.workshop.rail.kerf_mm, unit),
        boards=() if plan is None else tuple(_board(one, unit) for one in plan.boards),
        rails=len(work.rails),
        lists=tuple(
            SawRow(
                title=table.title,
                file=f"wood/{name}.csv",
                table=ListRow(heading=table.header, rows=table.rows),
                notes=words.all(table.notes),
                cautions=table.cautions,
            )
            for name, table in work.lists
        ),
        notes=words.all(work.notes),
        cautions=cautions.routing() if job.new_wood else (),
    )


def _board(board: Board, unit: LengthUnit) -> BoardRow:
    return BoardRow(
        name=board.stock.name,
        length_mm=board.stock.length_mm,
        words=length_words(board.stock.length_mm, unit, decimals=0),
        pieces=tuple(
            BoardPieceRow(
                name=cut.piece.name,
                start_mm=cut.start_mm,
                length_mm=cut.piece.length_mm,
                words=length_words(cut.piece.length_mm, unit),
            )
            for cut in board.pieces
        ),
        rest_mm=board.offcut_mm,
        rest=length_words(board.offcut_mm, unit),
    )


class HardwareRow(Row):
    """What is to be bought, and what holds the wall already."""

    new: ListRow
    in_use: ListRow


def hardware_row(job: Job) -> HardwareRow:
    """Return the hardware of a job."""
    new, old = (hardware_table(items, job.words) for items in hardware_of_job(job))
    return HardwareRow(
        new=ListRow(heading=new.heading, rows=new.rows),
        in_use=ListRow(heading=old.heading, rows=old.rows),
    )
