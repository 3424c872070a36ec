"""The plan that a person chose to see, and to make, in place of the one that goes no further."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.project.opened.opened import Opened
from cleatwright.project.revision import Revision
from cleatwright.project.walls import Request
from cleatwright.workshop.document.sections import HowFar


@dataclass(frozen=True)
class ChosenPlan:
    """A plan that was chosen for one state of a workshop; for any other nothing is chosen.

    Args:
        revision: The key of the revision.
        far: How far the plan goes.
    """

    revision: str
    far: HowFar


def far_of(chosen: ChosenPlan | None, revision: Revision | None) -> HowFar | None:
    """Return how far the plan goes that was chosen for a revision; None when none was."""
    if chosen is None or revision is None or chosen.revision != revision.key:
        return None
    return chosen.far


def walls_key(now: Opened, revision: Revision, request: Request) -> str:
    """Return the key of the walls of a revision, arranged as is asked for.

    What hangs by the ledger counts too, and changes without the document.
    """
    return f"{now.instance}/{now.number}/{revision.key}/{request.plan or ''}"


def request_of(chosen: ChosenPlan | None, revision: Revision) -> Request:
    """Return how a revision shall be arranged: as was chosen for it, else as usual."""
    return Request(plan=far_of(chosen, revision))
