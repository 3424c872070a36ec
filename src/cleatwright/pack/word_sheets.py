"""What is said beside the lists and drawings of a job: cautions, notes for the saw, and steps."""

from __future__ import annotations

from cleatwright.pack.job import Job
from cleatwright.pack.reporting import tool_cautions
from cleatwright.pack.woodwork import wood_blocks
from cleatwright.papers.kit.paper import series
from cleatwright.papers.kit.word_sheet import (
    Block,
    WordSheet,
    cautions_block,
    each_once,
    sheet_pdf,
)
from cleatwright.standards import cautions

MEND_FIRST = "This does not hold: mend it and make the workshop again before you hang it"


def word_files(job: Job) -> dict[str, bytes]:
    """Return the sheets as PDF files by name; there are steps only where something changes."""
    sheets = {"lists/cautions.pdf": _cautions(job)}
    wood = _wood(job)
    if wood.shown:
        sheets["wood/notes.pdf"] = wood
    if job.hung and (job.change_plan.steps or job.change_plan.rail_notes):
        sheets["lists/steps.pdf"] = _steps(job)
    paper = series(job.workshop.units)[0]
    return {name: sheet_pdf(words, sheet=paper) for name, words in sheets.items()}


def _cautions(job: Job) -> WordSheet:
    words = job.words
    return WordSheet(
        f"{job.workshop.name}: read this first",
        each_once(
            (
                cautions_block(MEND_FIRST, job.failing),
                cautions_block("See to this", job.warnings),
                cautions_block("Before you drill, hang and load holders", job.cautions),
                cautions_block("Your tools and where they hang", words.all(tool_cautions(job))),
                Block("Holders in holes, slots and grooves", "note", job.pitch_notes),
                cautions_block("When you print", cautions.printing(pla=job.uses_pla)),
            )
        ),
    )


def _wood(job: Job) -> WordSheet:
    carriers = cautions.routing() if job.new_wood else ()
    return WordSheet(
        f"{job.workshop.name}: notes and cautions for the wood",
        each_once(
            (
                *wood_blocks(job.woodwork, job.words),
                cautions_block("Carriers of wood: cautions", carriers),
            )
        ),
    )


def _steps(job: Job) -> WordSheet:
    plan, words = job.change_plan, job.words
    steps = tuple(step.sentence for step in plan.steps)
    return WordSheet(
        f"{job.workshop.name}: what to do at the wall",
        (
            cautions_block(MEND_FIRST, job.failing),
            Block("How much changes", "note", words.all(plan.counts)),
            Block("Rails", "note", words.all(plan.rail_notes)),
            cautions_block("Before you begin", words.all(plan.cautions)),
            Block("Do this in order", "step", words.all(steps)),
        ),
    )
