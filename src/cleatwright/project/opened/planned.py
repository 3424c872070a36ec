"""The holders of a document at one revision, and everything that is known to stand in their way."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.errors import CleatwrightError, InputError
from cleatwright.base.gathering import noted
from cleatwright.base.keys import content_key
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.design.carrying import PlannedUnit, units_what_can_be
from cleatwright.design.held import plan_that_holds
from cleatwright.design.planned import PlannedHolder
from cleatwright.project.foreseeing import foreseen
from cleatwright.project.opened.document import ReadDocument
from cleatwright.project.revision import Revision, revision_of


@dataclass(frozen=True)
class PlannedDocument:
    """The holders that can be made of a document, and all faults that are known of it.

    Args:
        document: The document.
        revision: The workshop with what its ledger keeps; None when nothing can be read.
        holders: The holders, by their numbers.
        units: What hangs on the walls as one piece each.
        faults: What stands in the way of the rest, with places in the document.
        remarks: What will be warned of.
    """

    document: ReadDocument
    revision: Revision | None
    holders: tuple[PlannedHolder, ...]
    units: tuple[PlannedUnit, ...]
    faults: tuple[CleatwrightError, ...]
    remarks: tuple[str, ...]


def planned_document(document: ReadDocument, run: Run) -> PlannedDocument:
    """Return the holders of a document, as far as it can be read.

    Raises:
        LedgerError: The ledger cannot be read.
        Cancelled: The run was asked to stop.
    """
    workshop = document.workshop
    if workshop is None:
        return PlannedDocument(document, None, (), (), document.faults, ())
    text = document.text if document.whole else ""
    return run.need(PLANNED, (document, revision_of(workshop, document.path, text)))


def _planned(run: Run, given: tuple[ReadDocument, Revision]) -> PlannedDocument:
    document, revision = given
    workshop = revision.workshop
    found: list[CleatwrightError] = []
    with noted(found):
        planned = plan_that_holds(
            workshop, folder=document.path.parent, earlier=revision.earlier(), run=run
        )
        found += planned.faults
        whole = [one for one in planned.holders if one.hang.carrier not in planned.without]
        units, of_carriers = units_what_can_be(workshop, whole, run=run)
        found += of_carriers
        seen = foreseen(workshop, units, hung=revision.hung, run=run)
        found += seen.faults
        return PlannedDocument(
            document=document,
            revision=revision,
            holders=tuple(sorted(planned.holders, key=lambda one: one.number)),
            units=units,
            faults=_placed(document, found),
            remarks=document.words.all(seen.remarks),
        )
    if not workshop.tools:
        # an empty list of tools is where everybody begins
        found = [one for one in found if not isinstance(one, InputError)]
    return PlannedDocument(document, revision, (), (), _placed(document, found), ())


def _placed(document: ReadDocument, found: list[CleatwrightError]) -> tuple[CleatwrightError, ...]:
    leaves = (document.placed(leaf) for one in found for leaf in one.leaves())
    return (*document.faults, *leaves)


def _key(given: tuple[ReadDocument, Revision]) -> str:
    document, revision = given
    return content_key((document.text, revision.key))


PLANNED = Stage("holders of a document as far as it can be read", _planned, _key)
"""From a document and its revision to its holders, and all that is known to stand in the way."""
