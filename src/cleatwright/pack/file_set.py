"""Every file that is made of a workshop, folder by folder; none is drawn before it is asked for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from cleatwright.base.keys import content_key
from cleatwright.base.lengths import Wording
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.design.carrying import Unit, printed_parts, wooden_carriers
from cleatwright.pack.carrier_papers import carrier_drawing, carriers_table
from cleatwright.pack.hardware import hardware_table, rail_hardware
from cleatwright.pack.job import Job
from cleatwright.pack.lists import holders_table, printed_before, printing_table
from cleatwright.pack.output_file import OutputFile, of_stage
from cleatwright.pack.panel_papers import PANEL_FILES
from cleatwright.pack.partfiles import part_files
from cleatwright.pack.production import batch_files
from cleatwright.pack.reporting import report_of
from cleatwright.pack.woodwork import Woodwork
from cleatwright.pack.word_sheets import cautions_sheet, steps_sheet, wood_sheet
from cleatwright.papers.kit.paper import series
from cleatwright.papers.kit.tables import LIST, ListTable
from cleatwright.papers.kit.word_sheet import SHEET_OF_WORDS, WordSheet
from cleatwright.papers.report_model import report_bytes
from cleatwright.parts.holder import Hardware
from cleatwright.siting.panel_job import PanelJob
from cleatwright.workshop.document.model import Workshop

OUTPUTS = ("parts", "batches", "wall", "wood", "lists", "report")
"""The folders of the set, and the report."""
REPORT = "report.json"


def output_of(path: str) -> str:
    """Return which of OUTPUTS a file belongs to."""
    return "report" if path == REPORT else path.split("/", 1)[0]


def files_of_parts(units: Sequence[Unit], *, with_step: bool = False) -> Iterator[OutputFile]:
    """Yield the print files of every part that is printed, those of one mark once."""
    named = {made.mark: (name, made) for name, made in printed_parts(units).values()}
    for name, made in named.values():
        yield from part_files(made, name, with_step=with_step)


def files_of_panels(panels: Iterable[PanelJob], run: Run) -> Iterator[OutputFile]:
    """Yield the papers of every panel."""
    for panel in panels:
        yield from run.need(PANEL_FILES, panel)


def files_of_wood(
    workshop: Workshop,
    woodwork: Woodwork,
    *,
    units: Sequence[Unit],
    in_use: frozenset[str],
) -> Iterator[OutputFile]:
    """Yield the lists for the saw, and the list and the drawings of the carriers of wood.

    Args:
        workshop: The document.
        woodwork: The lists for the saw.
        units: What hangs.
        in_use: The keys of the parts that hang already and are used again.
    """
    new = wooden_carriers(units, but=in_use)
    for name, table in woodwork.lists:
        rows = ListTable(table.header, table.rows)
        yield of_stage(f"wood/{name}.csv", table.title, LIST, rows)
    if new:
        rows = carriers_table(new, Wording(workshop.units))
        yield of_stage("wood/carriers.csv", "Carriers of wood", LIST, rows)
    for made in {made.mark: made for _, made in wooden_carriers(units)}.values():
        yield carrier_drawing(made, unit=workshop.units)
    notes = wood_sheet(woodwork, workshop, carriers=bool(new))
    if notes.shown:
        yield _words("wood/notes.pdf", notes, workshop)


def hardware_of_job(job: Job) -> tuple[tuple[Hardware, ...], tuple[Hardware, ...]]:
    """Return what is to be bought, and what holds the wall already."""
    new, old = rail_hardware(job.panels), rail_hardware(job.panels, stays=True)
    return (*new, *job.hardware(in_use=False)), (*old, *job.hardware(in_use=True))


def files_of_lists(job: Job) -> Iterator[OutputFile]:
    """Yield what is to be bought, hung and printed, cautions, and steps where something changes."""
    new, in_use = hardware_of_job(job)
    bought = hardware_table(new, job.words)
    yield of_stage("lists/hardware.csv", "What to buy", LIST, bought)
    if in_use:
        table = hardware_table(in_use, job.words)
        yield of_stage("lists/hardware-in-use.csv", "What holds the wall already", LIST, table)
    yield of_stage("lists/holders.csv", "Holders and their tools", LIST, holders_table(job))
    yield of_stage("lists/printing.csv", "What lies on which bed", LIST, printing_table(job))
    before = printed_before(job)
    if before.rows:
        yield of_stage("lists/printed-before.csv", "What was printed before", LIST, before)
    yield _words("lists/cautions.pdf", cautions_sheet(job), job.workshop)
    if job.hung and (job.change_plan.steps or job.change_plan.rail_notes):
        yield _words("lists/steps.pdf", steps_sheet(job), job.workshop)


def report_file(job: Job, others: Sequence[OutputFile]) -> OutputFile:
    """Return the report for programs; it names all files that are written with it."""
    names = tuple(sorted([REPORT, *(one.path for one in others)]))
    return of_stage(REPORT, "Every number, for programs", REPORT_FILE, (job, names))


def _report(_: Run, given: tuple[Job, tuple[str, ...]]) -> bytes:
    job, names = given
    return report_bytes(report_of(job, files=names))


def _report_key(given: tuple[Job, tuple[str, ...]]) -> str:
    job, names = given
    return content_key((job.key, names))


REPORT_FILE = Stage("report", _report, _report_key, size=len)
"""From a job, and the names of all files, to the report of it."""


def all_files(job: Job, run: Run, *, with_step: bool = False) -> tuple[OutputFile, ...]:
    """Return every file of a job, the report last.

    Args:
        job: The job.
        run: The run that keeps what was drawn before.
        with_step: Whether to give a STEP file of each part too.
    """
    files = (
        *files_of_parts(job.units, with_step=with_step),
        *batch_files(job.workshop, job.production),
        *files_of_panels(job.panels, run),
        *files_of_wood(job.workshop, job.woodwork, units=job.units, in_use=job.in_use),
        *files_of_lists(job),
    )
    return (*files, report_file(job, files))


def _words(path: str, words: WordSheet, workshop: Workshop) -> OutputFile:
    return of_stage(path, words.title, SHEET_OF_WORDS, (words, series(workshop.units)[0]))
