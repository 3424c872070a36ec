"""What is said beside the lists and drawings of a job: cautions, notes for the saw, and steps."""

from __future__ import annotations

from cleatwright.base.lengths import Wording
from cleatwright.pack.job import Job
from cleatwright.pack.reporting import tool_cautions
from cleatwright.pack.woodwork import Woodwork, wood_blocks
from cleatwright.papers.kit.word_sheet import (
    Block,
    WordSheet,
    cautions_block,
    each_once,
)
from cleatwright.standards import cautions
from cleatwright.workshop.document.model import Workshop

MEND_FIRST = "This does not hold: mend it and make the workshop again before you hang it"


def cautions_sheet(job: Job) -> WordSheet:
    """Return what must be read before anything is done."""
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


def wood_sheet(woodwork: Woodwork, workshop: Workshop, *, carriers: bool) -> WordSheet:
    """Return what is said beside the lists for the saw; ``carriers`` when there are new ones."""
    return WordSheet(
        f"{workshop.name}: notes and cautions for the wood",
        each_once(
            (
                *wood_blocks(woodwork, Wording(workshop.units)),
                cautions_block(
                    "Carriers of wood: cautions", cautions.routing() if carriers else ()
                ),
            )
        ),
    )


def steps_sheet(job: Job) -> WordSheet:
    """Return what to do at the wall, where something changes."""
    plan, words = job.change_plan, job.words
    steps = tuple(step.sentence for step in plan.steps)
    return WordSheet(
        f"{job.workshop.name}: what to do at the wall",
        (
            cautions_block(MEND_FIRST, job.failing),
            Block("How much changes", "note", words.all(plan.counts)),
            Block("Rails and grooves", "note", words.all(plan.rail_notes)),
            Block("Empty places", "note", words.all(job.empty_notes)),
            cautions_block("Before you begin", words.all(plan.cautions)),
            Block("Do this in order", "step", words.all(steps)),
        ),
    )
