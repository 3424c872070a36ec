"""A plan of which the holders hold: what fails a check goes to the next family, with the reason."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from cleatwright.base.errors import CleatwrightError
from cleatwright.base.stages.run import Run
from cleatwright.design.building import PART, BuiltPart
from cleatwright.design.choice import Misfit
from cleatwright.design.planned import Earlier, Planned, PlannedHolder
from cleatwright.design.planning import NOTHING_EARLIER, plan_what_can_be
from cleatwright.design.wall_lines import SECTIONS, sections_of
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.reading import NO_FILES
from cleatwright.workshop.document.sections import Printer

MOST_TRIES = 3
"""How often holders that do not hold are planned once more."""


def plan_that_holds(
    workshop: Workshop,
    *,
    folder: Path | None = None,
    drawings: Mapping[str, bytes] = NO_FILES,
    earlier: Earlier = NOTHING_EARLIER,
    misfits: tuple[Misfit, ...] = (),
    run: Run,
) -> Planned:
    """Return the holders of ``plan_what_can_be``; one that fails is of the next family instead.

    Args:
        workshop: The workshop.
        folder: As in ``plan``.
        drawings: As in ``plan``.
        earlier: As in ``plan``; what is made already stays as it is.
        misfits: Families that did not do, for another reason.
        run: The run that keeps what was computed before.
    """
    left = MOST_TRIES
    while True:
        planned = plan_what_can_be(
            workshop, folder=folder, drawings=drawings, earlier=earlier, misfits=misfits, run=run
        )
        found = tuple(
            one
            for one in (_failing(workshop, planned.holders, earlier, run) if left else ())
            if not known_misfit(one, misfits)
        )
        if not found:
            return planned
        misfits, left = (*misfits, *found), left - 1


def may_change(one: PlannedHolder, earlier: Earlier) -> bool:
    """Tell whether a holder may be of another family: the owner left it open, and it is new."""
    known = () if earlier.regroup else earlier.made.holders
    made = {tool for holder in known for tool in holder.tools}
    return one.why.open and not made.intersection(one.shared_by)


def known_misfit(one: Misfit, misfits: Sequence[Misfit]) -> bool:
    """Tell whether a family was found not to do for the same tools before."""
    return any(one.family == other.family and one.tools <= other.tools for other in misfits)


def misfit(one: PlannedHolder, why: str) -> Misfit:
    """Return that the family of a holder did not do for its tools."""
    return Misfit(frozenset(one.shared_by), one.recipe.family, why)


def _failing(
    workshop: Workshop, holders: Sequence[PlannedHolder], earlier: Earlier, run: Run
) -> Iterator[Misfit]:
    for one in holders:
        if not may_change(one, earlier):
            continue
        try:
            why = why_it_fails(run.need(PART, one.recipe), workshop.printer(), run)
        except CleatwrightError:
            # it is said where the part is built
            continue
        if why:
            yield misfit(one, why)


def why_it_fails(made: BuiltPart, printer: Printer, run: Run) -> str:
    """Return why a built holder does not hold, in a clause, or "".

    Args:
        made: The holder.
        printer: The printer that makes it.
        run: The run that keeps what was computed before.
    """
    failed = next((check for check in made.checks if not check.holds), None)
    if failed is not None:
        asked, most = failed.in_unit(failed.demand, ".3g"), failed.with_unit(failed.capacity, ".3g")
        return f"{failed.name}: {asked} against {most}"
    for check in sections_of(made, printer, run):
        if not check.holds:
            what = "most loaded section" if check.source is SECTIONS else "twisted plate"
            return f"its {what} bears {check.demand:.0%} of what its plastic may"
    return ""
