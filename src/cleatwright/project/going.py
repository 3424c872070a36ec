"""How far a plan goes beyond what is there: as far as it may, or as far as it is said to."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.workshop.document.sections import HowFar


@dataclass(frozen=True)
class Going:
    """How far a plan goes.

    Args:
        limit: How far it may go when something finds no place otherwise; as the document says
            when None.
        plan: How far it goes in any case; as little as it can when None.
    """

    limit: HowFar | None = None
    plan: HowFar | None = None


AS_LITTLE_AS_CAN_BE = Going()
