"""The whole job: from a workshop folder to print files, wall drawing, lists and report."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path

from cleatwright import __version__
from cleatwright.base.errors import DesignError, unknown_name
from cleatwright.base.lengths import errors_in
from cleatwright.base.progress import tracked
from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import part_names
from cleatwright.design.catalogue import left_out
from cleatwright.jobs.made import Made
from cleatwright.jobs.tables import made_rows
from cleatwright.pack.file_set import OUTPUTS, all_files, output_of
from cleatwright.pack.job import Better, Job
from cleatwright.pack.reporting import tool_cautions
from cleatwright.project.computing import compute
from cleatwright.project.going import AS_LITTLE_AS_CAN_BE, Going
from cleatwright.project.places import output_folder
from cleatwright.project.publishing import Change, compare, publish
from cleatwright.siting.as_made import made_wall
from cleatwright.siting.hung.renamed import with_names_of_today
from cleatwright.workshop.document.store import document_path
from cleatwright.workshop.ledger.database import open_ledger
from cleatwright.workshop.ledger.mark_entry import MarkEntry

GROUP_ANEW = (
    "Grouped anew, the tools would need {} fewer than those that were made before: make --regroup."
)


def make_workshop(
    place: Path,
    *,
    out: Path | None = None,
    only: Sequence[str] | None = None,
    dry_run: bool = False,
    with_step: bool = False,
    regroup: bool = False,
    going: Going = AS_LITTLE_AS_CAN_BE,
    run: Run | None = None,
) -> Made:
    """Do the whole job and write its files; the folder holds the whole new set or the old one.

    Args:
        place: The workshop folder, or its document.
        out: Where the files go; the folder ``out`` in the workshop when None.
        only: Some of OUTPUTS; all when None.
        dry_run: Compare with what is there and write nothing.
        with_step: Write a STEP file for each part too.
        regroup: Group the tools as if nothing was made yet.
        going: How far the plan goes beyond what is there.
        run: The run that keeps what was computed before; one of its own when None.

    Raises:
        CleatwrightError: The first thing that stands in the way; nothing was written.
    """
    for word in only or ():
        if word not in OUTPUTS:
            raise unknown_name("output", word, OUTPUTS, where="--only")
    run, wanted = run or Run(), only or OUTPUTS
    folder = output_folder(out, workshop=document_path(place).parent)
    job = compute(place, advise=True, regroup=regroup, going=going, run=run)
    with errors_in(job.words):
        try:
            files = all_files_of(job, only=wanted, with_step=with_step, run=run)
        except DesignError as error:
            raise error.located(str(document_path(place))) from error

    def replaces(name: str) -> bool:
        return output_of(name) in wanted

    if dry_run:
        changes = compare(folder, files, replaces=replaces)
    else:
        _record(document_path(place).parent, job, run)
        changes = publish(folder, files, replaces=replaces)
    return _made(job, changes, folder, dry_run=dry_run)


def all_files_of(
    job: Job, *, only: Sequence[str] = OUTPUTS, with_step: bool = False, run: Run | None = None
) -> dict[str, bytes]:
    """Return the output files of a job by their relative paths.

    Args:
        job: The job.
        only: Some of OUTPUTS.
        with_step: Whether to give a STEP file of each part too.
        run: The run that keeps what was drawn before; one of its own when None.
    """
    run = run or Run()
    files = all_files(job, run, with_step=with_step)
    wanted = [one for one in files if output_of(one.path) in only]
    return {one.path: one.draw(run) for one in tracked(wanted, "drawing", run)}


def _record(folder: Path, job: Job, run: Run) -> None:
    today = datetime.now(UTC).date().isoformat()
    with open_ledger(folder) as ledger:
        # of one mark the last is the newest in the ledger, and the one whose files are written
        for made in {one.key: one for _, one in part_names(job.units).values()}.values():
            ledger.record(
                MarkEntry(
                    mark=made.mark,
                    content_key=made.shape,
                    recipe_key=made.recipe.key,
                    recipe_json=made.recipe.to_json(),
                    family=made.part.family,
                    leading=made.part.leading,
                    first_seen=today,
                    made_with=__version__,
                )
            )
        # by this plan parts are printed: later plans keep its holders and their numbers
        hung = with_names_of_today(ledger.hung(), ledger.last_made(), job.planned)
        wall = made_wall(job.workshop, job.panels, run)
        ledger.replace_last_made(job.made, hung=hung, wall=wall)


def _counted(things: Sequence[object], name: str) -> str:
    return f"1 {name}" if len(things) == 1 else f"{len(things)} {name}s"


def _better(found: Better) -> str:
    saved = [f"cost {found.points:.0f} points less"]
    if found.rails > 0:
        saved.insert(0, f"need {_counted(range(found.rails), 'rail')} fewer to cut")
    moves = (
        f", with {_counted(range(found.moved), 'thing')} moved that hangs" if found.moved else ""
    )
    return (
        f"Arranged anew, it would {' and '.join(saved)}{moves}: see plans, and make --plan moves."
    )


def _made(job: Job, changes: tuple[Change, ...], folder: Path, *, dry_run: bool) -> Made:
    words = job.words
    tools = sum(len(holder.present) for holder in job.planned)
    rails = _counted([run for run in job.rails if not run.stays], "rail")
    plan_note = (job.woodwork.plan.verdict,) if job.woodwork.plan else ()
    carriers = job.new_wood
    wood_note = (
        (f"{_counted(carriers, 'carrier')} of wood: see wood/carriers.csv and the drawings there.",)
        if carriers
        else ()
    )
    return Made(
        title=f"{job.workshop.name}: {tools} tools in {len(job.planned)} holders",
        unit=job.workshop.units,
        holders=made_rows(job),
        changes=changes,
        folder=folder,
        dry_run=dry_run,
        failing=job.failing,
        helps=job.helps,
        warnings=job.warnings,
        left_out=left_out(),
        cautions=words.all((*job.cautions, *tool_cautions(job))),
        notes=words.all(
            (
                f"{_counted(job.production.batches, 'bed')}, {rails} to cut.",
                *(
                    (GROUP_ANEW.format(_counted(range(job.spared), "holder")),)
                    if job.spared
                    else ()
                ),
                *((_better(job.better),) if job.better else ()),
                *plan_note,
                *wood_note,
                *job.pitch_notes,
                *job.empty_notes,
                *job.seat_notes,
                *(job.change_plan.summary if job.hung else ()),
            )
        ),
    )
