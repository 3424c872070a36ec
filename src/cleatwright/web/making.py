"""What the sheet Make shows: the whole workshop computed, and the set of files written."""

from __future__ import annotations

import uuid
from dataclasses import dataclass

from cleatwright.base.errors import DesignError, InputError
from cleatwright.base.gathering import refuse
from cleatwright.base.keys import content_key
from cleatwright.base.lengths import errors_in
from cleatwright.base.stages.run import Run
from cleatwright.design.planning import FAULTS
from cleatwright.jobs.made import Made
from cleatwright.jobs.making import make_workshop
from cleatwright.pack.bed_picture import SeenBed, seen_beds
from cleatwright.pack.file_set import all_files
from cleatwright.pack.job import Job
from cleatwright.pack.output_file import OutputFile
from cleatwright.pack.reporting import report_of
from cleatwright.papers.report_model import Report
from cleatwright.project.computing import ADVISED
from cleatwright.project.going import Going
from cleatwright.project.opened.document import ReadDocument
from cleatwright.project.opened.opened import Opened
from cleatwright.project.opened.planned import planned_document
from cleatwright.project.revision import Revision, revision_of
from cleatwright.web.chosen import ChosenPlan, far_of, request_of
from cleatwright.web.session import Session
from cleatwright.web.work import FILES, SHEET, Working
from cleatwright.workshop.document.sections import HowFar


@dataclass(frozen=True)
class Computed:
    """A workshop with all that can be made of it.

    Args:
        job: Everything that was computed.
        report: The report of it, as it would be written.
        files: Every file that can be asked for; none is drawn yet.
        beds: What is seen of each bed.
    """

    job: Job
    report: Report
    files: tuple[OutputFile, ...]
    beds: tuple[SeenBed, ...]


@dataclass(frozen=True)
class MakingOutcome:
    """What came of computing a workshop.

    Args:
        document: The document.
        instance: Which opening of it this was.
        number: The number of its revision.
        far: How far its plan goes that was chosen; None for the usual one.
        tools: How many tools there are.
        computed: All of it; None without any tool.
    """

    document: ReadDocument
    instance: str
    number: int
    far: HowFar | None
    tools: int
    computed: Computed | None


@dataclass(frozen=True)
class MakingWritten:
    """A set of files that was written, and the number of its revision."""

    instance: str
    number: int
    made: Made


def revision_now(session: Session) -> Revision | None:
    """Return what stands in the document and the ledger now; None while it cannot be read.

    Raises:
        LedgerError: The ledger cannot be read.
    """
    now = session.workshop.now
    document = session.document(now)
    if document.workshop is None:
        return None
    return revision_of(document.workshop, document.path, now.text if document.whole else "")


def key_now(session: Session) -> str:
    """Return the key of what stands in the document and the ledger now, and what was chosen.

    Raises:
        LedgerError: The ledger cannot be read.
    """
    now, revision = session.workshop.now, revision_now(session)
    key = content_key((str(session.workshop.path), now.text, revision and revision.key))
    far = far_of(session.chosen, revision)
    return f"{now.instance}/{now.number}/{key[:16]}{f'/{far}' if far else ''}"


def begin_sheet(session: Session, *, again: bool = False) -> Working:
    """Begin to compute what the sheet shows, unless that goes on already or is done.

    Args:
        session: What is open.
        again: Whether to do it also where it was refused before, as by a locked ledger.

    Raises:
        LedgerError: The ledger cannot be read.
    """
    now, chosen = session.workshop.now, session.chosen
    key = key_now(session)
    before = session.works.now(SHEET)
    if again and before is not None and before.state == "failed":
        session.works.forget(SHEET)
    return session.works.start(
        SHEET, key, lambda run: _outcome(session.document(now), now, chosen, run)
    )


def begin_files(session: Session) -> Working:
    """Begin to write all files, as the command line does, unless that goes on already.

    They are those of the plan that was chosen; the next plan begins with what it made.
    """
    now, path = session.workshop.now, session.workshop.path
    far = far_of(session.chosen, revision_now(session))
    going = session.works.now(FILES)
    if going is not None and going.state == "running":
        return going
    key = f"{now.instance}/{now.number}/{uuid.uuid4().hex}"

    def do(run: Run) -> MakingWritten:
        made = make_workshop(path, going=Going(plan=far), run=run)
        return MakingWritten(now.instance, now.number, made)

    return session.works.start(FILES, key, do)


def shown(session: Session) -> MakingOutcome | None:
    """Return what came last of the open workshop, or None while there is nothing yet."""
    good = session.works.good(SHEET)
    found = None if good is None else good.result
    same = isinstance(found, MakingOutcome) and found.instance == session.workshop.now.instance
    return found if isinstance(found, MakingOutcome) and same else None


def written(session: Session) -> MakingWritten | None:
    """Return what was written last of the open workshop since it was opened, or None."""
    good = session.works.good(FILES)
    found = None if good is None else good.result
    same = isinstance(found, MakingWritten) and found.instance == session.workshop.now.instance
    return found if isinstance(found, MakingWritten) and same else None


def computed(session: Session) -> Computed:
    """Return what the sheet shows.

    Raises:
        InputError: There is nothing yet.
    """
    found = shown(session)
    if found is None or found.computed is None:
        raise InputError(
            "There is nothing to be made yet", todo="Wait for the walls, or mend what is at odds"
        )
    return found.computed


def _outcome(
    document: ReadDocument, now: Opened, chosen: ChosenPlan | None, run: Run
) -> MakingOutcome:
    """Return the workshop of a document with all that can be made of it.

    Raises:
        CleatwrightError: What stands in the way, all of it at once.
    """
    planned = planned_document(document, run)
    refuse([one.again() for one in planned.faults], FAULTS)
    if planned.revision is None or not planned.holders:
        return MakingOutcome(document, now.instance, now.number, None, 0, None)
    request = request_of(chosen, planned.revision)
    try:
        job = run.need(ADVISED, (planned.revision, request))
    except (InputError, DesignError) as fault:
        raise document.placed(fault) from fault
    with errors_in(job.words):
        try:
            files = all_files(job, run)
        except DesignError as error:
            raise error.located(str(document.path)) from error
    printer = job.workshop.printer()
    beds = seen_beds(job.production.batches, (printer.bed_mm[0], printer.bed_mm[1]))
    report = report_of(job, files=tuple(sorted(one.path for one in files)))
    tools = sum(len(one.present) for one in job.planned)
    whole = Computed(job, report, files, beds)
    return MakingOutcome(document, now.instance, now.number, request.plan, tools, whole)
