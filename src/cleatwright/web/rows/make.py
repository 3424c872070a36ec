"""The sheet Make: beds, boards, papers, what is new, what hangs, and what must be done."""

from __future__ import annotations

import datetime as dt
from typing import Literal

from pydantic import Field

from cleatwright.base.errors import OutputError
from cleatwright.jobs.since_made import SinceMade, since_made
from cleatwright.pack.file_set import output_of
from cleatwright.pack.job import Job
from cleatwright.pack.output_file import OutputFile
from cleatwright.pack.reporting import tool_cautions
from cleatwright.project.places import output_folder
from cleatwright.standards import cautions
from cleatwright.wall.moving.order import Action
from cleatwright.web.making import Computed, MakingOutcome, MakingWritten
from cleatwright.web.rows.beds import BedRow, bed_rows
from cleatwright.web.rows.row import FaultRow, Row, fault_row
from cleatwright.web.rows.sentence import Sentence
from cleatwright.web.rows.wood import HardwareRow, WoodRow, hardware_row, wood_row
from cleatwright.web.rows.work import WorkRow, work_row
from cleatwright.web.work import Working
from cleatwright.workshop.document.sections import HowFar

Seen = Literal["picture", "table", "pages", "nothing"]
SEEN: dict[str, Seen] = {"svg": "picture", "csv": "table", "pdf": "pages"}


class ShownPaperRow(Row):
    """A file that can be asked for, and how a page can show it."""

    path: str
    title: str
    kind: str
    output: str
    seen: Seen


class PartChangeRow(Row):
    """What became of a part since the last time."""

    what: Literal["new", "again", "as it was", "gone"]
    number: str
    name: str
    mark: str
    before: str
    why: tuple[str, ...]


class SinceRow(Row):
    """What is new since the workshop was last made; ``on`` is None when it never was.

    ``fault`` is what stands in the way of reading what was made.
    """

    on: dt.date | None
    same: bool
    placed: bool
    parts: tuple[PartChangeRow, ...]
    fault: FaultRow | None


class WallStepRow(Row):
    """One thing to do on a wall that hangs; ``name`` is that of the rail or of what hangs on it."""

    action: Action
    name: str
    sentence: Sentence


class ChangesOnWallRow(Row):
    """What the plan changes for what hangs, in sentences."""

    hangs: bool
    counts: tuple[Sentence, ...]
    rails: tuple[Sentence, ...]
    steps: tuple[WallStepRow, ...]
    cautions: tuple[Sentence, ...]


class MakeSheetRow(Row):
    """A workshop with all that is made of it."""

    holders: int
    tools: int
    printer: str
    rails: int
    fixings: str = Field(description="the screws and anchors to buy, counted in words")
    beds: tuple[BedRow, ...]
    in_use: int
    ready: int
    broken: int
    wood: WoodRow
    hardware: HardwareRow
    papers: tuple[ShownPaperRow, ...]
    since: SinceRow
    changes: ChangesOnWallRow
    failing: tuple[Sentence, ...]
    helps: tuple[Sentence, ...] = Field(description="what was tried for rails that do not hold")
    weak: Literal["holders", "wall"] | None = Field(description="where what does not hold is")
    warnings: tuple[Sentence, ...]
    spared: int
    drilling: tuple[Sentence, ...]
    printing: tuple[Sentence, ...]
    tools_cautions: tuple[Sentence, ...]
    notes: tuple[Sentence, ...]


class MakeRow(Row):
    """How the sheet stands; what it shows may be that of an older revision.

    ``plan`` is that which was chosen, and ``tools`` how many there were; the sheet is nothing
    without any.
    """

    revision: int
    plan: HowFar | None
    stale: bool
    tools: int | None
    work: WorkRow | None
    sheet: MakeSheetRow | None


def make_row(work: Working | None, *, shown: MakingOutcome | None, key: str) -> MakeRow:
    """Return how the sheet stands.

    Args:
        work: The last work on it.
        shown: The last outcome that came to something.
        key: The key of what stands in the document and the ledger now.
    """
    fresh = work is not None and work.state == "done" and work.key == key
    computed = None if shown is None else shown.computed
    return MakeRow(
        revision=0 if shown is None else shown.number,
        plan=None if shown is None else shown.far,
        stale=not fresh,
        tools=None if shown is None else shown.tools,
        work=None if work is None else work_row(work),
        sheet=None if computed is None or shown is None else _sheet(computed, shown),
    )


def _since(computed: Computed, shown: MakingOutcome) -> tuple[SinceMade, FaultRow | None]:
    """Return what is new, or the fault for which all counts as new."""
    try:
        out = output_folder(None, workshop=shown.document.path.parent)
        return since_made(computed.report, out, unit=computed.job.workshop.units), None
    except OutputError as error:
        return SinceMade(None, same=False, placed=False, parts=()), fault_row(error)


def _sheet(computed: Computed, shown: MakingOutcome) -> MakeSheetRow:
    since, fault = _since(computed, shown)
    job = computed.job
    words, plan, hardware = job.words, job.change_plan, hardware_row(job)
    return MakeSheetRow(
        holders=len(job.planned),
        tools=sum(len(one.present) for one in job.planned),
        printer=job.workshop.printer().name,
        rails=len([one for one in job.rails if not one.stays]),
        fixings=_fixings(hardware),
        beds=bed_rows(job, computed.beds, since),
        in_use=len(job.in_use),
        ready=len(job.there.ready),
        broken=len(job.there.broken),
        wood=wood_row(job),
        hardware=hardware,
        papers=tuple(map(paper_row, computed.files)),
        since=_since_row(since, fault),
        changes=ChangesOnWallRow(
            hangs=bool(job.hung),
            counts=words.all(plan.counts),
            rails=words.all(plan.rail_notes),
            steps=tuple(
                WallStepRow(
                    action=one.action, name=one.move.name, sentence=words.all((one.sentence,))[0]
                )
                for one in plan.steps
            ),
            cautions=words.all(plan.cautions),
        ),
        failing=job.failing,
        helps=job.helps,
        weak=_weak(job),
        warnings=job.warnings,
        spared=job.spared,
        drilling=job.cautions,
        printing=cautions.printing(pla=job.uses_pla),
        tools_cautions=words.all(tool_cautions(job)),
        notes=(*job.pitch_notes, *job.seat_notes),
    )


def _fixings(hardware: HardwareRow) -> str:
    """Return how many screws and anchors are to be bought; screws where there are neither."""
    counted = {"screw": 0, "anchor": 0}
    for what, count, *_ in hardware.new.rows:
        if what.startswith("anchor"):
            counted["anchor"] += int(count)
        elif "screw" in what:
            counted["screw"] += int(count)
    told = [f"{n} {one}{'' if n == 1 else 's'}" for one, n in counted.items() if n]
    return ", ".join(told) or "0 screws"


def _weak(job: Job) -> Literal["holders", "wall"] | None:
    """Return the sheet on which what does not hold is mended: that of the parts first."""
    if not job.failing:
        return None
    on_walls = sum(len(found.failing) for found in job.found)
    return "holders" if len(job.failing) > on_walls else "wall"


def paper_row(one: OutputFile) -> ShownPaperRow:
    """Return a file that can be asked for."""
    return ShownPaperRow(
        path=one.path,
        title=one.title,
        kind=one.kind,
        output=output_of(one.path),
        seen=SEEN.get(one.kind, "nothing"),
    )


def _since_row(since: SinceMade, fault: FaultRow | None) -> SinceRow:
    return SinceRow(
        on=since.on,
        same=since.same,
        placed=since.placed,
        fault=fault,
        parts=tuple(
            PartChangeRow(
                what=one.what,
                number=one.number,
                name=one.name,
                mark=one.mark,
                before=one.before,
                why=one.why,
            )
            for one in since.parts
        ),
    )


class FileChangeRow(Row):
    """What happened to one file."""

    path: str
    what: str


class FilesRow(Row):
    """How the writing of all files stands, and what the last one wrote."""

    work: WorkRow | None
    revision: int | None
    summary: tuple[Sentence, ...]
    folder: str
    changes: tuple[FileChangeRow, ...]
    failing: tuple[Sentence, ...]
    cautions: tuple[Sentence, ...]


def files_row(work: Working | None, written: MakingWritten | None) -> FilesRow:
    """Return how the writing of all files stands.

    Args:
        work: The last work on it.
        written: What was written last, or None.
    """
    made = None if written is None else written.made
    return FilesRow(
        work=None if work is None else work_row(work),
        revision=None if written is None else written.number,
        summary=() if made is None else made.summary,
        folder="" if made is None else str(made.folder),
        changes=()
        if made is None
        else tuple(FileChangeRow(path=one.path, what=one.what) for one in made.changes),
        failing=() if made is None else made.failing,
        cautions=() if made is None else made.cautions,
    )
