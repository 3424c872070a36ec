"""Everything that hangs, as the ledger keeps it."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.workshop.ledger.hung_entry import HungEntry, require_sound
from cleatwright.workshop.ledger.hung_rail import HungRail, require_sound_rails


@dataclass(frozen=True)
class WhatHangs:
    """Everything that hangs on all panels; nothing by itself.

    Args:
        holders: Holders, and carriers with theirs.
        rails: Rails.
    """

    holders: tuple[HungEntry, ...] = ()
    rails: tuple[HungRail, ...] = ()

    def __bool__(self) -> bool:
        """Return True when anything hangs."""
        return bool(self.holders or self.rails)

    @property
    def ordered(self) -> WhatHangs:
        """Return the same, holders by panel and name, rails by panel and from top to bottom."""
        return WhatHangs(
            tuple(sorted(self.holders, key=lambda one: one.order)),
            tuple(sorted(self.rails, key=lambda one: one.order)),
        )

    def require_sound(self) -> None:
        """Refuse what cannot hang all together.

        Raises:
            LedgerError: An entry is malformed, a tool hangs in two places, two rails have one
                name or lie on each other.
        """
        require_sound(self.holders)
        require_sound_rails(self.rails)
